"""This season in a few figures, to plan the next one by. All are scalars."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.relations import blank

Value = Any


def visits(money: Value) -> Value:
    """The visits of this season: one a lawn and day."""
    return money.season_visits


def spent(money: Value) -> Value:
    """What they cost (currency), so far as prices are known."""
    return money.season_cost


def unpriced(money: Value) -> Value:
    """The lines of which the cost is not known."""
    return money.unpriced_lines


def pairs(diary: Value) -> Value:
    """The number of different pairs of lawn and product."""
    return float(np.sum(~blank(diary.pair_once)))


def room(year_pairs: Value) -> Value:
    """How many of them there is room for."""
    return float(np.sum(~blank(year_pairs.turn)))


def beyond(pairs: Value, room: Value) -> Value:
    """How many there is no room for."""
    return max(pairs - room, 0.0)
