"""How each lawn answered its visits, whatever they brought."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.means import mean_of, number_of

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return at(lawns.name, lines_of(turn))


@of_family("scored")
def number_each(turn: Value, diary: Value) -> Value:
    """How many visits have a change."""
    return number_of(diary.lawn_line, lines_of(turn), diary.change_each, diary.visit_first == 1)


@of_family("scored")
def mean_each(turn: Value, number_each: Value, diary: Value, settings: Value) -> Value:
    """Their mean change; blank where they are too few."""
    visits = diary.visit_first == 1
    return mean_of(diary.lawn_line, lines_of(turn), diary.change_each, number_each, settings, visits)
