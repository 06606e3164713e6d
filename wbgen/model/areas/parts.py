"""Parts of lawns: the area of each by its shape, added or cut out.

One record a part of a lawn: shape (parts,). The shapes, in the order of their numbers from 1: rectangle (length,
width), triangle (base, height), triangle by its sides (a, b, c), circle (diameter), ellipse (length, width), trapezium
(side, other side, height), offsets by the trapezoidal rule (spacing), offsets by Simpson's rule (spacing), corners (no
length), radii (no length).
"""

from __future__ import annotations

from typing import Final

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, like, magnitude, or_zero, ratio, where
from wbgen.model.tools.relations import count_by, find, sum_by
from wbgen.model.tools.rounding import half_up, reaches
from wbgen.model.types import Area, Each, Length, Number, Table, Text

BLANK_UNLESS = ("lawn", "part", "shape")

_SIMPSON: Final = 8
_RADII: Final = 10
_LEAST_RADII: Final = 3


def part_label(lawn: Each[Text], part: Each[Text]) -> Each[Text]:
    """Lawn and part in one text, by which points find their part."""
    return lawn + " · " + part


def shape_number(shape: Each[Text], shapes: Table) -> Each[Number]:
    """Place of the shape in the list of shapes, from 1; blank for an unknown one."""
    place = find(shape, shapes.shape)
    return where(place < 0, np.nan, place + 1.0)


def corners(part_label: Each[Text], points: Table) -> Each[Number]:
    """How many points the part has."""
    return count_by(points.point_label, part_label)


def half_perimeter(first_length: Each[Length], second_length: Each[Length], third_length: Each[Length]) -> Each[Length]:
    """Half the sum of the three lengths; blank where one of them is."""
    return (first_length + second_length + third_length) / 2


def sides_area(
    half_perimeter: Each[Length], first_length: Each[Length], second_length: Each[Length], third_length: Each[Length]
) -> Each[Area]:
    """Area of a triangle by its sides (m): √(s (s − a) (s − b) (s − c)), s half their sum; 0 where they do not close.

    Heron's formula (Heron of Alexandria, Metrica).

    >>> from wbgen.units.quantity import FLOAT
    >>> sides = [FLOAT.Quantity(np.array([side]), "m") for side in (3.0, 4.0, 5.0)]
    >>> sides_area(half_perimeter(*sides), *sides).to("m**2").magnitude
    array([6.])
    """
    square = half_perimeter
    open_ended = np.zeros(len(half_perimeter), dtype=bool)
    for side in (first_length, second_length, third_length):
        square = square * (half_perimeter - side)
        open_ended |= reaches(side, half_perimeter)
    return where(open_ended, 0.0, square) ** 0.5


def mean_radius(
    shape_number: Each[Number], corners: Each[Number], part_label: Each[Text], points: Table
) -> Each[Length]:
    """Mean of the radii; blank for another shape, and for fewer than three."""
    enough = (shape_number == _RADII) & (corners >= _LEAST_RADII)
    return where(enough, ratio(sum_by(points.point_label, part_label, points.offset), corners), np.nan)


def measured_area(
    shape_number: Each[Number],
    part_label: Each[Text],
    first_length: Each[Length],
    second_length: Each[Length],
    third_length: Each[Length],
    sides_area: Each[Area],
    mean_radius: Each[Length],
    points: Table,
) -> Each[Area]:
    """Area of the part by the formula of its shape; blank for an unknown shape. A blank length (m) counts as 0.

    The rules for offsets and corners are those of land surveying: spacing times the sum of the trapezoidal terms,
    a third of the spacing times the sum of Simpson's terms, and half the sum of the corner terms, whichever way
    round the corners run. Radii at equal angles give the circle of their mean: Westone, Calculating area (TAFE of
    Western Australia), for irregular greens.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> lengths = [FLOAT.Quantity(np.array([side] * 2), "m") for side in (50.0, 25.0, np.nan)]
    >>> none = np.array([], dtype=object)
    >>> terms = {f"{rule}_term": FLOAT.Quantity(np.array([]), "m") for rule in ("trapezoidal", "simpson")}
    >>> points = SimpleNamespace(point_label=none, cross_term=FLOAT.Quantity(np.array([]), "m**2"), **terms)
    >>> label, square = np.array(["a", "b"], dtype=object), FLOAT.Quantity(np.array([0.0, 0.0]), "m**2")
    >>> measured_area(np.array([1.0, 2.0]), label, *lengths, square, lengths[2], points).magnitude
    array([1250.,  625.])
    """
    a, b, c = or_zero(first_length), or_zero(second_length), or_zero(third_length)
    by_shape = (
        a * b,
        a * b / 2,
        or_zero(sides_area),
        np.pi * a**2 / 4,
        np.pi * a * b / 4,
        (a + b) / 2 * c,
        a * sum_by(points.point_label, part_label, points.trapezoidal_term),
        a / 3 * sum_by(points.point_label, part_label, points.simpson_term),
        abs(sum_by(points.point_label, part_label, points.cross_term)) / 2,
        np.pi * or_zero(mean_radius) ** 2,
    )
    found = like(a * b, np.full(len(shape_number), np.nan))
    for number, area in enumerate(by_shape, 1):
        found = where(shape_number == number, area, found)
    return found


def signed_area(measured_area: Each[Area], sign: Each[Text]) -> Each[Area]:
    """What the part adds to its lawn: less than nothing where it is cut out."""
    return where(folded(sign) == "cut out", -1.0, 1.0) * measured_area


def crossings(part_label: Each[Text], points: Table) -> Each[Number]:
    """How many pairs of its edges meet."""
    return sum_by(points.point_label, part_label, points.crossed)


def points_to_mend(part_label: Each[Text], points: Table) -> Each[Number]:
    """How many of its points are to be mended."""
    return sum_by(points.point_label, part_label, points.to_mend)


def part_state(
    shape_number: Each[Number],
    corners: Each[Number],
    crossings: Each[Number],
    points_to_mend: Each[Number],
    measured_area: Each[Area],
) -> Each[Text]:
    """What is to be mended: an even number of offsets under Simpson's rule, edges that cross, points out of order, or
    lengths that give no area."""
    even = (shape_number == _SIMPSON) & (corners % 2 == 0)
    none = ~(half_up(magnitude(measured_area), 3) > 0)  # corners far from their origin are less exact
    needs = where(none, "no area yet: give the lengths this shape needs", "")
    of_points = where(points_to_mend > 0, "mend its points, below", needs)
    meets = "the edges cross or touch: go round in order"
    return where(even, "Simpson's rule needs an odd number of offsets", where(crossings > 0, meets, of_points))


def to_mend(part_state: Each[Text]) -> Each[Number]:
    """1 where something of the part is to be mended, else 0."""
    return where(blank(part_state), 0.0, 1.0)
