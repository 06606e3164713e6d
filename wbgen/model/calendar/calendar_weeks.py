"""The weeks of the calendar: one record, with a column a week.

One record in all, with a column a week: shape (1,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import only, with_unit
from wbgen.model.tools.words import counts
from wbgen.model.types import Date, Each, Table, Text, each
from wbgen.trade.families import Member


def year(settings: Table, growth_view: Table) -> Each[Text]:
    """The year of the season; both where it goes over the turn of the year."""
    begins, ends = (dates.year_of(day) for day in (only(settings.season_start), growth_view.year_end - 1))
    years = [begins] if begins == ends else [begins, ends]
    return each(np.array(["/".join(counts(one) for one in years)], dtype=object))


@of_family("weeks")
def begins_each(settings: Table, each: Member) -> Each[Date]:
    """The day on which the week begins, as a serial number: the first begins with the season."""
    return only(settings.season_start) + with_unit(float(each.says["number"]) - 1, "week").to("day").magnitude
