"""What the lawn shown has had this season, by calendar month."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import count_by, folded, ratio, sum_by

Value = Any


def _counted(diary: Value, shown: str) -> Value:
    """True for this season's lines of the lawn shown."""
    return (diary.in_season == "yes") & (folded(diary.lawn) == folded(shown)) & (folded(shown) != "")


def visits(month_number: Value, diary: Value, season_view: Value) -> Value:
    """Number of this season's lines in the diary, of the lawn and the month (1 to 12)."""
    return count_by(diary.month, month_number, _counted(diary, season_view.shown))


@of_family("nutrients")
def month_each(month_number: Value, diary: Value, season_view: Value) -> Value:
    """Nutrient applied this season in the month, by area of the whole lawn; blank without an area."""
    load = sum_by(diary.month, month_number, diary.load_each, _counted(diary, season_view.shown))
    return ratio(load, season_view.area)
