"""The front sheet: the day that totals count up to, and whether everything agrees."""

from __future__ import annotations

from typing import Any

from wbgen.model.relations import blank, where

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
