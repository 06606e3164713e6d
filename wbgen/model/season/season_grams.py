"""What each lawn has had this season, in all."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import latest_by, pick, sum_by

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def last_visit(lawn: Value, diary: Value) -> Value:
    """Latest date of this season on which the lawn was fed; blank where it was not."""
    return latest_by(diary.lawn, lawn, diary.date, diary.in_season == "yes")


@of_family("nutrients")
def load_each(lawn: Value, diary: Value) -> Value:
    """Nutrient applied this season, in all."""
    return sum_by(diary.lawn, lawn, diary.load_each, diary.in_season == "yes")
