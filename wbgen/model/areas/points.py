"""Offsets and corners of parts of lawns: the term that each point adds to its part.

Lines count the heading row as 1, so the first record is line 2. A blank coordinate counts as 0.
"""

from __future__ import annotations

from collections import Counter
from typing import Any

import numpy as np

from wbgen.model.tools.relations import count_by, find, folded, or_zero, pick

Value = Any

BLANK_UNLESS = ("lawn", "part")


def point_label(lawn: Value, part: Value) -> Value:
    """Lawn and part in one text, as the parts have it."""
    return lawn + " · " + part


def place(point_label: Value) -> Value:
    """Running number of the point within its part, from 1.

    >>> place(np.array(["a", "b", "A"], dtype=object))
    array([1., 1., 2.])
    """
    so_far: Counter[str] = Counter()
    numbers = []
    for label in folded(point_label):
        so_far[label] += 1
        numbers.append(float(so_far[label]))
    return np.array(numbers, dtype=float)


def of_all(point_label: Value) -> Value:
    """How many points the part has."""
    return count_by(point_label, point_label)


def first_line(point_label: Value) -> Value:
    """Line of the part's first point."""
    return find(point_label, point_label) + 2.0


def line_before(place: Value, of_all: Value, first_line: Value) -> Value:
    """Line of the point before this one, round the edge: for the first point the last. Takes points as in order."""
    return first_line + np.where(place == 1, of_all, place - 1) - 1


def along_from_first(along: Value, first_line: Value) -> Value:
    """First coordinate, from the part's first point on."""
    return or_zero(along) - or_zero(pick(along, first_line - 2))


def offset_from_first(offset: Value, first_line: Value) -> Value:
    """Second coordinate, from the part's first point on."""
    return or_zero(offset) - or_zero(pick(offset, first_line - 2))


def cross_term(along_from_first: Value, offset_from_first: Value, line_before: Value) -> Value:
    """Twice the signed area between the edge to this point and the first corner (the surveyor's formula)."""
    x_before, y_before = (or_zero(pick(values, line_before - 2)) for values in (along_from_first, offset_from_first))
    return x_before * offset_from_first - along_from_first * y_before


def trapezoidal_term(offset: Value, place: Value, of_all: Value) -> Value:
    """The offset, the first and the last of a part halved (the trapezoidal rule)."""
    return or_zero(offset) * np.where((place == 1) | (place == of_all), 0.5, 1.0)


def simpson_term(offset: Value, place: Value, of_all: Value) -> Value:
    """The offset times 1, 4, 2, 4 … 1 (Simpson's one-third rule, before the third)."""
    inner = np.where(place % 2 == 0, 4.0, 2.0)
    return or_zero(offset) * np.where((place == 1) | (place == of_all), 1.0, inner)


def point_state(point_label: Value, place: Value) -> Value:
    """What is to be mended: a later point of a part that does not stand right below another point of it."""
    labels = folded(point_label)
    apart = (place > 1) & (labels != np.append("", labels[:-1]))
    return np.where(apart, "keep the points of a part together", "")
