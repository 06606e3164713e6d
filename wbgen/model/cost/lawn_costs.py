"""What each lawn costs in a season."""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.relations import count_by, pick, ratio, sum_by

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def visits(lawn: Value, diary: Value) -> Value:
    """Number of this season's days on which the lawn was fed."""
    return count_by(diary.lawn, lawn, (diary.visit_first == 1) & (diary.in_season == "yes"))


def cost(lawn: Value, diary: Value) -> Value:
    """What this season's feeds of the lawn cost, so far as prices are known."""
    return sum_by(diary.lawn, lawn, diary.cost, diary.in_season == "yes")


def cost_by_area(turn: Value, cost: Value, lawns: Value) -> Value:
    """The same by area of the whole lawn; blank without an area."""
    return ratio(cost, pick(lawns.area, turn - 1))


def coming(lawn: Value, due: Value) -> Value:
    """What the visits to come will cost."""
    return sum_by(due.lawn, lawn, due.cost_to_come)


def whole(cost: Value, coming: Value) -> Value:
    """What the lawn comes to in the season."""
    return cost + coming
