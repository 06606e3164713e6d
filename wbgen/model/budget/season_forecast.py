"""What each lawn will have had at the end of the season, if what is to come is done."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.lines import lines_of
from wbgen.model.tools.relations import pick, sum_by

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


@of_family("nutrients")
def end_each(turn: Value, season_applied: Value, due: Value) -> Value:
    """Nutrient applied this season and still to come, by area of the whole lawn; blank without an area."""
    return season_applied.applied_each + sum_by(due.lawn_line, lines_of(turn), due.coming_each)
