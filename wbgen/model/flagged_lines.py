"""The lines of the diary that have a flag, the latest first."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.relations import pick

Value = Any

BLANK_UNLESS = ("line",)


def line(turn: Value, diary: Value) -> Value:
    """The number of the line, from the last one with a flag back; blank where there are fewer.

    >>> from types import SimpleNamespace
    >>> line(np.array([1.0, 2.0, 3.0]), SimpleNamespace(flag_line=np.array([1.0, np.nan, 3.0])))
    array([ 3.,  1., nan])
    """
    flagged = np.sort(diary.flag_line[~np.isnan(diary.flag_line)])[::-1]
    return pick(flagged, turn - 1)


def date(line: Value, diary: Value) -> Value:
    """The date of the line; blank where none stands, or a text."""
    return pick(diary.date, line - 1)


def lawn(line: Value, diary: Value) -> Value:
    """The lawn as it is written in the line."""
    return pick(diary.lawn, line - 1)


def product(line: Value, diary: Value) -> Value:
    """The product as it is written in the line."""
    return pick(diary.product, line - 1)


def flags(line: Value, diary: Value) -> Value:
    """All that is to be said of the line."""
    return pick(diary.flags, line - 1)
