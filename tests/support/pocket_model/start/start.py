"""The front sheet: the days, and whether everything agrees."""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.elementwise import blank, where

Value = Any


def today(today_serial: float) -> Value:
    return today_serial


def as_of(planner_date: Value, today: Value) -> Value:
    return where(blank(planner_date), today, planner_date)


def recalculated() -> Value:
    return "yes, by a spreadsheet program"


def master_check(checks: Value) -> Value:
    return where(checks.failed == 0, "all checks agree", "look at the sheet Nutrients")
