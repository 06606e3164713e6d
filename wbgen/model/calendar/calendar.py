"""The calendar: how many dates each line of the programme has in each week of the season."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.relations import count_by, only
from wbgen.units.quantity import FLOAT

Value = Any

BLANK_UNLESS = ("product",)


def product(turn: Value, programme: Value) -> Value:
    """The product of the line whose turn it is (from 1)."""
    return at(programme.product, lines_of(turn))


def where_words(turn: Value, programme: Value) -> Value:
    """Where it goes, in words."""
    return at(programme.where_words, lines_of(turn))


@of_family("weeks")
def count_each(turn: Value, applications: Value, calendar_weeks: Value) -> Value:
    """The number of dates in the week; blank where there is none."""
    begins = only(calendar_weeks.begins_each)
    within = (applications.date >= begins) & (applications.date < begins + FLOAT.Quantity(1, "week").m_as("day"))
    number = count_by(applications.programme_line, lines_of(turn), within)
    return np.where(number > 0, number, np.nan)
