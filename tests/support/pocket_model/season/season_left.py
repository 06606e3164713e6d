"""What is left of each lawn's target."""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.lines import at

Value = Any
BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    return at(lawns.name, turn + 1)


def area(turn: Value, lawns: Value) -> Value:
    return at(lawns.area, turn + 1)


def left_nitrogen(turn: Value, lawns: Value, season_applied: Value) -> Value:
    return at(lawns.target_nitrogen, turn + 1) - at(season_applied.applied_nitrogen, turn + 1)
