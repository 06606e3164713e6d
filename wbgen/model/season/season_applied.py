"""What each lawn has had this season, by its whole area."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import pick, ratio, sum_by

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def area(turn: Value, lawns: Value) -> Value:
    """Area of the whole lawn."""
    return pick(lawns.area, turn - 1)


@of_family("nutrients")
def applied_each(lawn: Value, area: Value, diary: Value) -> Value:
    """Nutrient applied this season, by area of the whole lawn; blank without an area."""
    return ratio(sum_by(diary.lawn, lawn, diary.load_each, diary.in_season == "yes"), area)
