"""The lawns on the card, in walking order: one record a turn."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.relations import blank, lookup, where

Value = Any


def lawn(turn: Value, mix_lawns: Value) -> Value:
    """The lawn whose turn it is; empty past the last."""
    return lookup(turn, mix_lawns.lawn_line, mix_lawns.lawn_used)


def water(turn: Value, mix_lawns: Value, card: Value) -> Value:
    """The spray (L) for that lawn, blank where nothing is to be made."""
    return where(blank(card.fill_mark), np.nan, lookup(turn, mix_lawns.lawn_line, mix_lawns.water))


def water_so_far(turn: Value, mix_lawns: Value, card: Value) -> Value:
    """The spray (L) for it and the lawns before it, blank where nothing is to be made."""
    return where(blank(card.fill_mark), np.nan, lookup(turn, mix_lawns.lawn_line, mix_lawns.water_so_far))
