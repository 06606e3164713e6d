"""The weeks of the calendar: one record, with a column a week.

One record in all, with a column a week: shape (1,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import only, with_unit
from wbgen.model.types import Date, Each, Number, Table
from wbgen.trade.families import Member


def year(settings: Table) -> Each[Number]:
    """The year in which the season begins."""
    return dates.year_of(only(settings.season_start))


@of_family("weeks")
def begins_each(settings: Table, each: Member) -> Each[Date]:
    """The day on which the week begins, as a serial number: the first begins with the season."""
    return only(settings.season_start) + with_unit(float(each.says["number"]) - 1, "week").to("day").magnitude
