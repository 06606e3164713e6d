"""The programme as a whole: whether all its dates, and all its pairs of line and lawn, have room.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import where
from wbgen.model.types import Number, Table, Text


def dates_total(programme: Table) -> Number:
    """How many dates the programme plans."""
    return float(np.max(programme.dates_up_to))


def dates_room(applications: Table) -> Number:
    """How many dates there is room for."""
    return float(applications.records)


def dates_left(dates_room: Number, dates_total: Number) -> Number:
    """How many dates more there is room for; negative where there is not enough."""
    return dates_room - dates_total


def pairs_total(programme: Table) -> Number:
    """How many pairs of line and lawn the programme makes."""
    return float(np.max(programme.pairs_up_to))


def pairs_room(due: Table) -> Number:
    """How many pairs of line and lawn there is room for."""
    return float(due.records)


def pairs_left(pairs_room: Number, pairs_total: Number) -> Number:
    """How many pairs more there is room for; negative where there is not enough."""
    return pairs_room - pairs_total


def room_words(dates_left: Number, pairs_left: Number) -> Text:
    """Whether there is room enough, in words."""
    dates = where(dates_left < 0, "more dates than this planner has room for: build anew", "")
    pairs = where(pairs_left < 0, "more lawns and lines than this planner has room for: build anew", "")
    return "; ".join(filter(None, (str(dates), str(pairs)))) or "room enough"
