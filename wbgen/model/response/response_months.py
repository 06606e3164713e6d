"""How the grass answered the visits of each calendar month, whatever they brought."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.means import mean_of, number_of

Value = Any


@of_family("scored")
def number_each(month_number: Value, diary: Value) -> Value:
    """How many visits of the month (1 to 12) have a change."""
    return number_of(diary.month, month_number, diary.change_each, diary.visit_first == 1)


@of_family("scored")
def mean_each(month_number: Value, number_each: Value, diary: Value, settings: Value) -> Value:
    """Their mean change; blank where they are too few."""
    visits = diary.visit_first == 1
    return mean_of(diary.month, month_number, diary.change_each, number_each, settings, visits)
