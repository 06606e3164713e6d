"""The front sheet: the day that totals count up to, and whether everything agrees.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, where
from wbgen.model.tools.words import in_words
from wbgen.model.types import Date, Table, Text


def today(today_serial: Date) -> Date:
    """Serial date of the day on which the planner was last calculated."""
    return today_serial


def as_of(planner_date: Date, today: Date) -> Date:
    """Serial date that totals count up to: the one typed, else today."""
    return where(blank(planner_date), today, planner_date)


def recalculated() -> Text:
    """What stands there once a spreadsheet program has computed the file."""
    return "yes, by a spreadsheet program"


def master_check(checks: Table) -> Text:
    """Whether all checks agree, in words; `checks.failed` is how many do not."""
    return where(checks.failed == 0, "all checks agree", "look at the sheet Checks")


def brewing(recipes: Table, months: Table) -> Text:
    """Whether there is something to brew for a day of the round or after it, and by when it is to be begun."""
    if np.all(blank(recipes.goes_on)):
        return "nothing to brew"
    if np.all(blank(recipes.begin)):
        return "say how long it brews, sheet Brewing"
    first, late = np.fmin.reduce(recipes.to_start), np.fmin.reduce(recipes.begun_now)
    if blank(first):
        return f"the start is past: begun now, ready on {in_words(late, months)}, sheet Brewing"
    another = "" if blank(late) else "; another start is past"
    return f"start by {in_words(first, months)}, sheet Brewing{another}"
