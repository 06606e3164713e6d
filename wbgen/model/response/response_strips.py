"""Each lawn against its untreated strip, on the days of this season on which both were scored."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.tools.relations import blank, only, where

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return at(lawns.name, lines_of(turn))


def strip(turn: Value, lawns: Value) -> Value:
    """Name of its strip; blank without one, or for one that is no lawn."""
    return where(blank(at(lawns.strip_line, lines_of(turn))), "", at(lawns.strip, lines_of(turn)))


def _in_season(scores: Value, settings: Value, start: Value) -> Any:
    return (scores.date >= only(settings.season_start)) & (scores.date <= only(start.as_of))


@of_family("scored")
def number_each(turn: Value, scores: Value, settings: Value, start: Value) -> Value:
    """How many scores of the season have one of the strip beside them."""
    counted = _in_season(scores, settings, start)
    return number_of(scores.lawn_line, lines_of(turn), scores.against_each, counted)


@of_family("scored")
def mean_each(turn: Value, number_each: Value, scores: Value, settings: Value, start: Value) -> Value:
    """By how much the lawn was scored over its strip in the mean; blank where there are too few."""
    counted = _in_season(scores, settings, start)
    return mean_of(scores.lawn_line, lines_of(turn), scores.against_each, number_each, settings, counted)
