"""The next visits to the lawn, a line a product, the soonest first.

One record a line that is due on it, as many as there is room for: shape (ahead,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import reads_every
from wbgen.model.tools.elementwise import only, where
from wbgen.model.tools.relations import pick
from wbgen.model.types import Date, Each, Number, Table, Text, each

BLANK_UNLESS = ("date",)


@reads_every(day="ahead")
def date(turn: Each[Number], report_workings: Table) -> Each[Date]:
    """The day on which it is due; blank where there are fewer."""
    days = each(np.array(report_workings.day_every, dtype=float))
    return pick(days, turn - 1)


@reads_every(number="ahead")
def product(turn: Each[Number], date: Each[Date], report_workings: Table, due: Table, start: Table) -> Each[Text]:
    """The product, and whether its day is past."""
    numbers = each(np.array(report_workings.number_every, dtype=float))
    late = where(date < only(start.as_of), ", overdue", "")
    return pick(due.product, pick(numbers, turn - 1) - 1) + late
