"""The planner itself: the day that totals count up to, and whether everything agrees.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, where
from wbgen.model.types import Date, Table, Text


def today(today_serial: Date) -> Date:
    """Serial date of the day on which the planner was last calculated."""
    return today_serial


def as_of(weather: Table, today: Date) -> Date:
    """Serial date that totals count up to: the one typed, else today."""
    return where(blank(weather.planner_date), today, weather.planner_date)


def recalculated() -> Text:
    """What stands there once a spreadsheet program has computed the file."""
    return "yes, by a spreadsheet program"


def master_check(checks: Table) -> Text:
    """Whether all checks agree, in words; `checks.failed` is how many do not."""
    return where(checks.failed == 0, "all checks agree", "look at the sheet Checks")
