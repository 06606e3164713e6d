"""Offsets and corners of parts of lawns: the term that each point adds to its part.

One record an offset or a corner: shape (points,). Lines count the heading row as 1, so the first record is line 2. A
blank coordinate counts as 0.
"""

from __future__ import annotations

from collections import Counter

import numpy as np
from numpy.typing import NDArray

from wbgen.model.tools.elementwise import as_number, blank, folded, is_word, only, or_zero, ratio, where
from wbgen.model.tools.relations import count_by, find, lookup, pick, sum_by
from wbgen.model.tools.rounding import half_up
from wbgen.model.types import Area, Each, Length, Number, Table, Text, each

BLANK_UNLESS = ("lawn", "part")
NEVER_BLANK = (
    "corner_place", "to_along", "to_offset", "from_along", "from_offset", "low_along", "high_along", "low_offset",
    "high_offset",
)  # fmt: skip


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


def corner_place(point_label: Each[Text], place: Each[Number], parts: Table) -> Each[Number]:
    """Running number of the corner, from 1; 0 for a point of another shape, and where there is none."""
    shape = lookup(point_label, parts.part_label, parts.shape)
    return where(is_word(shape, "corners"), or_zero(place), 0.0)


def to_along(corner_place: Each[Number], along_from_first: Each[Length], ones: Table) -> Each[Number]:
    """First coordinate of the corner, in whole steps; 0 where there is none."""
    return _in_steps(corner_place, along_from_first, ones)


def to_offset(corner_place: Each[Number], offset_from_first: Each[Length], ones: Table) -> Each[Number]:
    """Second coordinate of the corner, in whole steps; 0 where there is none."""
    return _in_steps(corner_place, offset_from_first, ones)


def _in_steps(corner_place: Each[Number], coordinate: Each[Length], ones: Table) -> Each[Number]:
    steps = as_number(ratio(or_zero(coordinate), only(ones.corner_step)))
    return where(corner_place > 0, half_up(half_up(steps, 6)), 0.0)


def from_along(corner_place: Each[Number], to_along: Each[Number], line_before: Each[Number]) -> Each[Number]:
    """First coordinate of where the edge to this corner begins, in steps; 0 where there is no corner."""
    return where(corner_place > 0, or_zero(pick(to_along, line_before - 2)), 0.0)


def from_offset(corner_place: Each[Number], to_offset: Each[Number], line_before: Each[Number]) -> Each[Number]:
    """Second coordinate of where the edge to this corner begins, in steps; 0 where there is no corner."""
    return where(corner_place > 0, or_zero(pick(to_offset, line_before - 2)), 0.0)


def low_along(from_along: Each[Number], to_along: Each[Number]) -> Each[Number]:
    """The lesser of the edge's first coordinates."""
    return each(np.minimum(from_along, to_along))


def high_along(from_along: Each[Number], to_along: Each[Number]) -> Each[Number]:
    """The greater of the edge's first coordinates."""
    return each(np.maximum(from_along, to_along))


def low_offset(from_offset: Each[Number], to_offset: Each[Number]) -> Each[Number]:
    """The lesser of the edge's second coordinates."""
    return each(np.minimum(from_offset, to_offset))


def high_offset(from_offset: Each[Number], to_offset: Each[Number]) -> Each[Number]:
    """The greater of the edge's second coordinates."""
    return each(np.maximum(from_offset, to_offset))


def apart(point_label: Each[Text], place: Each[Number]) -> Each[Number]:
    """1 for a later point of a part that does not stand right below another point of it, else 0."""
    labels = folded(point_label)
    return where((place > 1) & (labels != np.append("", labels[:-1])), 1.0, 0.0)


def crossed(
    point_label: Each[Text],
    apart: Each[Number],
    corner_place: Each[Number],
    of_all: Each[Number],
    from_along: Each[Number],
    from_offset: Each[Number],
    to_along: Each[Number],
    to_offset: Each[Number],
) -> Each[Number]:
    """How many edges to later corners of the part meet the edge to this one, neighbours not counted.

    Blank for no corner, and where one of the part's points stands apart: its edges are not known then. Two edges meet
    where an end of one lies on the other, or each has its ends on either side of the other (common geometry, no
    source). Steps are whole numbers, so that sides are told apart without rounding.
    """
    starts = np.column_stack([from_along, from_offset])
    ends = np.column_stack([to_along, to_offset])
    found = np.full(len(corner_place), np.nan)
    corners = np.flatnonzero((corner_place > 0) & (sum_by(point_label, point_label, apart) == 0))
    labels = folded(point_label)
    for part in dict.fromkeys(labels[corners]):
        of_part = corners[labels[corners] == part]
        for number, one in enumerate(of_part):
            later = of_part[number + 1 :]
            between = corner_place[later] - corner_place[one]
            others = later[(between > 1) & (between < of_all[one] - 1)]
            found[one] = np.count_nonzero(_meet(starts[one], ends[one], starts[others], ends[others]))
    return each(found)


_Points = NDArray[np.float64]
"""Coordinates, two a point: shape (2,) or (edges, 2)."""


def _meet(start: _Points, end: _Points, starts: _Points, ends: _Points) -> NDArray[np.bool_]:
    """Which of the other edges the one meets."""
    ours_apart = _side(starts, ends, start) * _side(starts, ends, end) < 0
    theirs_apart = _side(start, end, starts) * _side(start, end, ends) < 0
    on_ours = _on(start, end, starts) | _on(start, end, ends)
    on_theirs = _on(starts, ends, start) | _on(starts, ends, end)
    return np.asarray((ours_apart & theirs_apart) | on_ours | on_theirs)


def _on(start: _Points, end: _Points, point: _Points) -> NDArray[np.bool_]:
    """Where a point lies on an edge, its ends included."""
    within = (np.minimum(start, end) <= point) & (point <= np.maximum(start, end))
    return np.asarray((_side(start, end, point) == 0) & within.all(axis=-1))


def _side(start: _Points, end: _Points, point: _Points) -> _Points:
    """1 where the point is to the left of the line from start to end, -1 to its right, 0 on it."""
    way, there = end - start, point - start
    return np.sign(way[..., 0] * there[..., 1] - way[..., 1] * there[..., 0])


def point_state(apart: Each[Number], crossed: Each[Number]) -> Each[Text]:
    """What is to be mended: a point that stands apart from the others of its part, or an edge that crosses another."""
    crosses = where(crossed > 0, "the edge to this corner meets another", "")
    return where(apart > 0, "keep the points of a part together", crosses)


def to_mend(point_state: Each[Text]) -> Each[Number]:
    """1 where something of the point is to be mended, else 0."""
    return where(blank(point_state), 0.0, 1.0)
