"""Nitrogen through the season, on the lawn shown."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.relations import folded, only, ratio, sum_upto

Value = Any


def until(week: Value, settings: Value, start: Value) -> Value:
    """Serial date up to which is counted: so many steps from the start of the season, at most the as-of date.

    An empty step counts as 0.
    """
    passed = dates.in_days(settings.week) * week
    return np.minimum(settings.season_start + passed, only(start.as_of))


def nitrogen(until: Value, diary: Value, season_view: Value) -> Value:
    """Nitrogen applied this season up to the date, by area of the whole lawn; blank without an area."""
    counted = (diary.in_season == "yes") & (folded(diary.lawn) == folded(season_view.shown))
    return ratio(sum_upto(diary.date, diary.load_nitrogen, until, counted), season_view.area)


def target(season_view: Value) -> Value:
    """Nitrogen wanted in a year, the same at every date."""
    return season_view.target
