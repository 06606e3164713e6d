"""What each lawn has had this season, in the unit of large areas."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import count_by, pick

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def visits(lawn: Value, diary: Value) -> Value:
    """Number of this season's lines in the diary."""
    return count_by(diary.lawn, lawn, diary.in_season == "yes")


@of_family("nutrients")
def hectare_each(season_applied: Value) -> Value:
    """Nutrient applied this season by area, the same figure in another unit."""
    return season_applied.applied_each
