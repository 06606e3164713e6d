"""What each lawn came to in this season: what it had, what that cost, and how it was scored."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.tools.relations import blank, joined, latest_by, lookup, only

Value = Any

BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return at(lawns.name, lines_of(turn))


def visits(turn: Value, lawn_costs: Value) -> Value:
    """Number of this season's days on which it was fed."""
    return at(lawn_costs.visits, lines_of(turn))


def nitrogen(turn: Value, season_applied: Value) -> Value:
    """The nitrogen (g N/m²) that it had, by its whole area; blank without an area."""
    return at(season_applied.applied_nitrogen, lines_of(turn))


def target(turn: Value, lawns: Value) -> Value:
    """The nitrogen (g N/m²) that it was meant to have in a year; blank where that is not planned."""
    return at(lawns.target_nitrogen, lines_of(turn))


def over(nitrogen: Value, target: Value) -> Value:
    """By how much it had more than that; negative where it had less."""
    return nitrogen - target


def cost(turn: Value, lawn_costs: Value) -> Value:
    """What its feeds cost (currency), so far as prices are known."""
    return at(lawn_costs.cost, lines_of(turn))


def _visits_of(diary: Value) -> Any:
    """True for the first line of each visit of this season."""
    return (diary.visit_first == 1) & (diary.in_season == "yes")


def number(turn: Value, diary: Value) -> Value:
    """How many of its visits have a change of quality."""
    return number_of(diary.lawn_line, lines_of(turn), diary.change_quality, _visits_of(diary))


def mean(turn: Value, number: Value, diary: Value, settings: Value) -> Value:
    """The mean change of quality over them; blank where they are too few."""
    return mean_of(diary.lawn_line, lines_of(turn), diary.change_quality, number, settings, _visits_of(diary))


def _scored(scores: Value, settings: Value, start: Value) -> Any:
    """True for the scores of quality of this season, one a lawn and day."""
    within = (scores.date >= only(settings.season_start)) & (scores.date <= only(start.as_of))
    return within & ~blank(scores.quality) & ~blank(scores.once_key)


def _quality_on(turn: Value, day: Any, scores: Value) -> Value:
    """The quality of each lawn on a day of its own."""
    keys = np.where(blank(scores.once_key), "", joined(scores.lawn_line, scores.date))
    return lookup(joined(lines_of(turn), day), keys, scores.quality)


def first_day(turn: Value, scores: Value, settings: Value, start: Value) -> Value:
    """The day on which its quality was first scored this season; blank where it never was."""
    return -latest_by(scores.lawn_line, lines_of(turn), -scores.date, _scored(scores, settings, start))


def last_day(turn: Value, scores: Value, settings: Value, start: Value) -> Value:
    """The day on which its quality was last scored, likewise."""
    return latest_by(scores.lawn_line, lines_of(turn), scores.date, _scored(scores, settings, start))


def first_score(turn: Value, first_day: Value, scores: Value) -> Value:
    """The quality as it was scored first; blank where it never was."""
    return _quality_on(turn, first_day, scores)


def last_score(turn: Value, last_day: Value, scores: Value) -> Value:
    """The quality as it was scored last; blank where it never was."""
    return _quality_on(turn, last_day, scores)


def gain(first_score: Value, last_score: Value) -> Value:
    """The last less the first."""
    return last_score - first_score


def against(turn: Value, response_strips: Value) -> Value:
    """By how much its quality was over that of its untreated strip in the mean; blank where that is not known."""
    return at(response_strips.mean_quality, lines_of(turn))
