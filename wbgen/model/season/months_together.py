"""What all lawns have had this season, by calendar month."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import count_by, sum_by

Value = Any


def visits(month_number: Value, diary: Value) -> Value:
    """Number of this season's lines in the diary, of the month (1 to 12)."""
    return count_by(diary.month, month_number, diary.in_season == "yes")


@of_family("nutrients")
def load_each(month_number: Value, diary: Value) -> Value:
    """Nutrient applied this season in the month, on all lawns."""
    return sum_by(diary.month, month_number, diary.load_each, diary.in_season == "yes")
