"""The weeks of the calendar: one record, with a column a week."""

from __future__ import annotations

from typing import Any

from wbgen.model.bind import of_family
from wbgen.model.relations import only
from wbgen.units import FLOAT

Value = Any


@of_family("weeks")
def begins_each(number_each: Value, settings: Value) -> Value:
    """The day on which the week begins, as a serial number: the first begins with the season."""
    return only(settings.season_start) + FLOAT.Quantity(number_each - 1, "week").to("day").magnitude
