"""Numbers that stand for a lawn, a product and a day at once, so that one column tells them apart and orders them.

They are written to be read back as figures of a sheet, so both witnesses have the same ones: a line of a table times
the step of a key, and the days since the first of the count. Shapes as given; blank where a part is.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import only
from wbgen.model.types import Date, Each, Number, Table


def lawn_day_key(lawn_line: Each[Number], date: Each[Date], ones: Table) -> Each[Number]:
    """One number for lawn and day."""
    return lawn_line * only(ones.key_step) + (date - only(ones.key_day))


def product_key(product_line: Each[Number], lawn_line: Each[Number], date: Each[Date], ones: Table) -> Each[Number]:
    """One number for lawn, product and day; within a lawn and a product it rises with the day."""
    return lawn_day_key(lawn_line * only(ones.key_step) + product_line, date, ones)
