"""How the end of the season will stand against each lawn's yearly target."""

from __future__ import annotations

from typing import Any

from wbgen.model.relations import blank, pick, where
from wbgen.model.rounding import exceeds

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def over_each(turn: Value, season_forecast: Value, lawns: Value) -> Value:
    """Nutrient over the target, by area; negative where it stays below, blank without a target or a forecast."""
    return season_forecast.end_each - pick(lawns.target_each, turn - 1)


def words(turn: Value, over_nitrogen: Value, lawns: Value) -> Value:
    """How nitrogen will stand against its target, in words; nothing for a lawn whose area is not known.

    To nine decimals, so that a target that is met exactly is not passed.
    """
    stands = where(exceeds(over_nitrogen, 0.0), "over the target", "within the target")
    known = where(blank(over_nitrogen), "", stands)
    return where(blank(pick(lawns.target_nitrogen, turn - 1)), "not planned", known)
