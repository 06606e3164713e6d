"""The weeks of the calendar: one record, with a column a week."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.relations import only
from wbgen.trade.families import Member
from wbgen.units.quantity import FLOAT

Value = Any


def year(settings: Value) -> Value:
    """The year in which the season begins."""
    return dates.year_of(only(settings.season_start))


@of_family("weeks")
def begins_each(settings: Value, each: Member) -> Value:
    """The day on which the week begins, as a serial number: the first begins with the season."""
    return only(settings.season_start) + FLOAT.Quantity(float(each.says["number"]) - 1, "week").to("day").magnitude
