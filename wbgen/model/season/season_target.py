"""What each lawn should get in a year."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import pick

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def grass(turn: Value, lawns: Value) -> Value:
    """Kind of grass of the lawn."""
    return pick(lawns.grass, turn - 1)


@of_family("nutrients")
def target_each(turn: Value, lawns: Value) -> Value:
    """Nutrient wanted in a year, by area; blank where it is not planned."""
    return pick(lawns.target_each, turn - 1)
