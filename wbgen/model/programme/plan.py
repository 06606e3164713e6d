"""The programme as a whole: whether all its dates, and all its pairs of line and lawn, have room. All are scalars."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.relations import where

Value = Any


def dates_total(programme: Value) -> Value:
    """How many dates the programme plans."""
    return float(np.max(programme.dates_up_to))


def dates_room(applications: Value) -> Value:
    """How many dates there is room for."""
    return float(applications.records)


def dates_left(dates_room: Value, dates_total: Value) -> Value:
    """How many dates more there is room for; negative where there is not enough."""
    return dates_room - dates_total


def pairs_total(programme: Value) -> Value:
    """How many pairs of line and lawn the programme makes."""
    return float(np.max(programme.pairs_up_to))


def pairs_room(due: Value) -> Value:
    """How many pairs of line and lawn there is room for."""
    return float(due.records)


def pairs_left(pairs_room: Value, pairs_total: Value) -> Value:
    """How many pairs more there is room for; negative where there is not enough."""
    return pairs_room - pairs_total


def room_words(dates_left: Value, pairs_left: Value) -> Value:
    """Whether there is room enough, in words."""
    dates = where(dates_left < 0, "more dates than this planner has room for: build anew", "")
    pairs = where(pairs_left < 0, "more lawns and lines than this planner has room for: build anew", "")
    return "; ".join(filter(None, (str(dates), str(pairs)))) or "room enough"
