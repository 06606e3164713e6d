"""What share of its yearly target each lawn has had."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import as_number, pick, ratio

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def state(turn: Value, lawns: Value) -> Value:
    """Where the lawn's area is from, in words."""
    return pick(lawns.area_from, turn - 1)


@of_family("nutrients")
def share_each(season_target: Value, season_applied: Value) -> Value:
    """Share of the yearly target that was applied; blank without a target or with one of 0."""
    return as_number(ratio(season_applied.applied_each, season_target.target_each))
