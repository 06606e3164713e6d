"""How many lines the diary has, and of what sort."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.relations import blank

Value = Any


def _count(condition: Value) -> float:
    return float(np.count_nonzero(condition))


def lines(diary: Value) -> Value:
    """Number of complete lines: those with a date, a lawn and a product."""
    return _count(diary.counted == 1)


def in_season(diary: Value) -> Value:
    """Number of lines that count this season."""
    return _count(diary.in_season == "yes")


def out_of_season(lines: Value, in_season: Value) -> Value:
    """Number of complete lines that do not count: of another season, or after the as-of date."""
    return lines - in_season


def flagged(diary: Value) -> Value:
    """Number of lines with something to be said of them."""
    return _count(~blank(diary.flag_line))


def room(diary: Value) -> Value:
    """Number of lines that have nothing for a date yet."""
    return _count(blank(diary.date) & ~diary.misplaced_date)
