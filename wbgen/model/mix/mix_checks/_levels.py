"""Levels, and the words that go with them."""

from __future__ import annotations

import numpy as np


def level_of(trips: bool | np.bool_, level: float) -> float:
    """The level where it trips, else 0."""
    return level if bool(trips) else 0.0


def said(level: float, words: str) -> str:
    """The words where there is something to say."""
    return words if level > 0 else ""
