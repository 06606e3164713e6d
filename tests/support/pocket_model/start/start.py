"""The front sheet: the days, and whether everything agrees."""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, where
from wbgen.model.types import Date, Table, Text


def today(today_serial: Date) -> Date:
    return today_serial


def as_of(planner_date: Date, today: Date) -> Date:
    return where(blank(planner_date), today, planner_date)


def recalculated() -> Text:
    return "yes, by a spreadsheet program"


def master_check(checks: Table) -> Text:
    return where(checks.failed == 0, "all checks agree", "look at the sheet Nutrients")
