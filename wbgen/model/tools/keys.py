"""Numbers that stand for a line, or for a pair of lines, and a day at once: they tell records apart and order them.

They are figures of a sheet, to be looked up by others: a line (of a lawn, or of a lawn and a family or product) times
the step of a key, and the days since the first that is counted. Shapes as given; blank where a part is.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import only, where
from wbgen.model.tools.methods import is_dry
from wbgen.model.types import Date, Each, Number, Table, Text


def day_key(line: Each[Number], date: Each[Date], ones: Table) -> Each[Number]:
    """One number for a line and a day (a serial number); within a line it rises with the day.

    >>> from types import SimpleNamespace
    >>> import numpy as np
    >>> day_key(np.array([2.0]), np.array([36531.0]), SimpleNamespace(key_step=100000.0, key_day=36526.0))
    array([200005.])
    """
    return line * only(ones.key_step) + (date - only(ones.key_day))


def product_key(product_line: Each[Number], lawn_line: Each[Number], date: Each[Date], ones: Table) -> Each[Number]:
    """One number for lawn, product and day; within a lawn and a product it rises with the day."""
    return day_key(lawn_line * only(ones.key_step) + product_line, date, ones)


def method_key(visit_key: Each[Number], method: Each[Text], ones: Table) -> Each[Number]:
    """The key of lawn, family and day, another one for what is spread dry: each method is counted by itself."""
    return visit_key + where(is_dry(method), only(ones.dry_step) * only(ones.key_step), 0.0)
