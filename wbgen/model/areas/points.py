"""Offsets and corners of parts of lawns: the term that each point adds to its part.

One record an offset or a corner: shape (points,). Lines count the heading row as 1, so the first record is line 2. A
blank coordinate counts as 0.
"""

from __future__ import annotations

from collections import Counter

import numpy as np

from wbgen.model.tools.elementwise import folded, or_zero, where
from wbgen.model.tools.relations import count_by, find, pick
from wbgen.model.types import Area, Each, Length, Number, Text, each

BLANK_UNLESS = ("lawn", "part")


def point_label(lawn: Each[Text], part: Each[Text]) -> Each[Text]:
    """Lawn and part in one text, as the parts have it."""
    return lawn + " · " + part


def place(point_label: Each[Text]) -> Each[Number]:
    """Running number of the point within its part, from 1.

    >>> place(np.array(["a", "b", "A"], dtype=object))
    array([1., 1., 2.])
    """
    so_far: Counter[str] = Counter()
    numbers = []
    for label in folded(point_label):
        so_far[label] += 1
        numbers.append(float(so_far[label]))
    return each(np.array(numbers, dtype=float))


def of_all(point_label: Each[Text]) -> Each[Number]:
    """How many points the part has."""
    return count_by(point_label, point_label)


def first_line(point_label: Each[Text]) -> Each[Number]:
    """Line of the part's first point."""
    return each(find(point_label, point_label) + 2.0)


def line_before(place: Each[Number], of_all: Each[Number], first_line: Each[Number]) -> Each[Number]:
    """Line of the point before this one, round the edge: for the first point the last. Takes points as in order."""
    return first_line + where(place == 1, of_all, place - 1) - 1


def along_from_first(along: Each[Length], first_line: Each[Number]) -> Each[Length]:
    """First coordinate, from the part's first point on."""
    return or_zero(along) - or_zero(pick(along, first_line - 2))


def offset_from_first(offset: Each[Length], first_line: Each[Number]) -> Each[Length]:
    """Second coordinate, from the part's first point on."""
    return or_zero(offset) - or_zero(pick(offset, first_line - 2))


def cross_term(
    along_from_first: Each[Length], offset_from_first: Each[Length], line_before: Each[Number]
) -> Each[Area]:
    """Twice the signed area (m²) between the edge to this point and the first corner: x₁ y₂ − x₂ y₁.

    The surveyor's formula; coordinates are in m, from the first corner on.

    >>> from wbgen.units.quantity import FLOAT
    >>> along, offset = (FLOAT.Quantity(np.array(points), "m") for points in ([0.0, 2.0, 2.0], [0.0, 0.0, 3.0]))
    >>> cross_term(along, offset, np.array([4.0, 2.0, 3.0])).magnitude  # a triangle of 3 m²
    array([0., 0., 6.])
    """
    x_before, y_before = (or_zero(pick(values, line_before - 2)) for values in (along_from_first, offset_from_first))
    return x_before * offset_from_first - along_from_first * y_before


def trapezoidal_term(offset: Each[Length], place: Each[Number], of_all: Each[Number]) -> Each[Length]:
    """The offset (m), the first and the last of a part halved (the trapezoidal rule of land surveying).

    >>> from wbgen.units.quantity import FLOAT
    >>> offsets = FLOAT.Quantity(np.array([3.0, 4.0, 8.0]), "m")
    >>> trapezoidal_term(offsets, np.array([1.0, 2.0, 3.0]), np.full(3, 3.0)).magnitude
    array([1.5, 4. , 4. ])
    """
    return or_zero(offset) * where((place == 1) | (place == of_all), 0.5, 1.0)


def simpson_term(offset: Each[Length], place: Each[Number], of_all: Each[Number]) -> Each[Length]:
    """The offset (m) times 1, 4, 2, 4 … 1 (Simpson's one-third rule, before the third).

    >>> from wbgen.units.quantity import FLOAT
    >>> offsets = FLOAT.Quantity(np.array([3.0, 4.0, 8.0]), "m")
    >>> simpson_term(offsets, np.array([1.0, 2.0, 3.0]), np.full(3, 3.0)).magnitude
    array([ 3., 16.,  8.])
    """
    inner = where(place % 2 == 0, 4.0, 2.0)
    return or_zero(offset) * where((place == 1) | (place == of_all), 1.0, inner)


def point_state(point_label: Each[Text], place: Each[Number]) -> Each[Text]:
    """What is to be mended: a later point of a part that does not stand right below another point of it."""
    labels = folded(point_label)
    apart = (place > 1) & (labels != np.append("", labels[:-1]))
    return where(apart, "keep the points of a part together", "")
