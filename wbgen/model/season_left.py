"""What is left of each lawn's yearly target."""

from __future__ import annotations

from typing import Any

from wbgen.model.relations import blank, magnitude, pick, where
from wbgen.model.rounding import half_up

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def left_each(season_target: Value, season_applied: Value) -> Value:
    """Nutrient still to give this season, by area; negative where the target is passed, blank without one."""
    return season_target.target_each - season_applied.applied_each


def words(left_nitrogen: Value, season_target: Value) -> Value:
    """How nitrogen stands against its target, in words; nothing for a lawn whose area is not known.

    To nine decimals, so that a target that is met exactly is not passed.
    """
    left = half_up(left_nitrogen, 9)
    stands = where(magnitude(left) < 0, "over the target", where(blank(left), "", "within the target"))
    return where(blank(season_target.target_nitrogen), "not planned", stands)
