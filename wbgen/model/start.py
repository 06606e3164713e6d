"""The front sheet: the day that totals count up to, and whether everything agrees."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.dates import day_of, month_of, year_of
from wbgen.model.relations import blank, magnitude, or_zero, pick, where

Value = Any


def today(today_serial: float) -> Value:
    """Serial date of the day on which the planner was last calculated."""
    return today_serial


def as_of(planner_date: Value, today: Value) -> Value:
    """Serial date that totals count up to: the one typed, else today."""
    return where(blank(planner_date), today, planner_date)


def recalculated() -> Value:
    """What stands there once a spreadsheet program has computed the file."""
    return "yes, by a spreadsheet program"


def master_check(checks: Value) -> Value:
    """Whether all checks agree, in words; `checks.failed` is how many do not."""
    return where(checks.failed == 0, "all checks agree", "look at the sheet Checks")


def brewing(as_of: Value, recipes: Value, months: Value) -> Value:
    """Whether there is something to brew for the round, and by when it is to be begun."""
    first = np.fmin.reduce(recipes.begin)
    month = pick(months.month, month_of(first) - 1)
    if not np.any(magnitude(or_zero(recipes.wanted)) > 0):
        return "nothing to brew for the round"
    if np.isnan(first):
        return "say how long it brews, sheet Brewing"
    if first < as_of:
        return "the start is past, sheet Brewing"
    return f"start by {day_of(first):.0f} {month} {year_of(first):.0f}, sheet Brewing"
