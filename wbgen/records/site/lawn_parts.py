"""The parts of a lawn's area: simple shapes that are added or cut out, each with the lengths that it needs."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from typing import Annotated, Final, Literal

from wbgen.files.diagnostics import Report
from wbgen.files.yaml.fields import OneOf
from wbgen.files.yaml.records import Record
from wbgen.records.fields import Length, Measure, Name, Of

SHAPES: Final[dict[str, tuple[str, ...]]] = {
    "rectangle": ("length", "width"),
    "circle": ("diameter",),
    "triangle": ("base", "height"),
    "triangle sides": ("a", "b", "c"),
    "ellipse": ("length", "width"),
    "trapezium": ("side", "other side", "height"),
    "offsets": ("spacing", "rule", "offsets"),
    "corners": ("points",),
    "radii": ("radii",),
}
"""What each shape is measured by. The height of a triangle or trapezium stands square on its base or sides."""

_Shape = Annotated[str, OneOf(*SHAPES)]
_Offset = Annotated[Measure, Of("length", zero=True)]
_Position = Annotated[Measure, Of("length", negative=True)]
Point = tuple[float, float]
MOST_CORNERS: Final = 200
"""How many corners one part may have."""
LEAST_RADII: Final = 3


class Part(Record):
    """One shape; exactly one of `add` and `cut_out` names it. Only the lengths of its own shape are given."""

    name: Name
    add: _Shape | None = None
    cut_out: _Shape | None = None
    length: Length | None = None
    width: Length | None = None
    diameter: Length | None = None
    base: Length | None = None
    height: Length | None = None
    a: Length | None = None
    b: Length | None = None
    c: Length | None = None
    side: Length | None = None
    other_side: Length | None = None
    spacing: Length | None = None
    rule: Annotated[Literal["trapezoidal", "simpson"], OneOf("trapezoidal", "simpson")] | None = None
    offsets: tuple[_Offset, ...] | None = None
    points: tuple[tuple[_Position, ...], ...] | None = None
    radii: tuple[Length, ...] | None = None

    @property
    def shape(self) -> str:
        """The shape, whether added or cut out."""
        return self.add or self.cut_out or ""

    def corners(self) -> tuple[Point, ...]:
        """The corners of the shape "corners" in m, in the order given; those that are no pair are left out."""
        return tuple((point[0].to("m"), point[1].to("m")) for point in self.points or () if len(point) == 2)


def check_part(part: Part, report: Report) -> None:
    """Put what is wrong with the shape into the report."""
    if (part.add is None) == (part.cut_out is None):
        report.add("part-shape", part.place, f"{part.name}: exactly one of add and cut out must name the shape",
                   found="both" if part.add else "neither", expected="add: rectangle, or cut out: circle, ...",
                   remedy="keep one of the two" if part.add else "add one")  # fmt: skip
        return
    if not _own_lengths(part, report):
        return
    if part.shape == "triangle sides":
        _check_sides(part, report)
    if part.shape == "offsets":
        _check_offsets(part, report)
    if part.shape == "corners":
        _check_corners(part, report)
    if part.shape == "radii" and len(part.radii or ()) < LEAST_RADII:
        report.add("part-shape", part.place_of("radii"), f"{part.name}: there are too few radii",
                   expected=f"{LEAST_RADII} or more, at equal angles all round", found=f"{len(part.radii or ())}",
                   remedy="measure more, such as one every 10 degrees")  # fmt: skip


def _own_lengths(part: Part, report: Report) -> bool:
    own = SHAPES[part.shape]
    lengths = {key for keys in SHAPES.values() for key in keys}
    given = [key for key in part.places if key in lengths and getattr(part, key.replace(" ", "_")) is not None]
    missing = [key for key in own if key not in given]
    for key in missing:
        report.add("part-shape", part.place, f"{part.name}: a part of shape {part.shape!r} needs {key!r}",
                   expected=", ".join(own), found=", ".join(given) or "none", remedy=f"add {key}: ...")  # fmt: skip
    for key in given:
        if key not in own:
            report.add("part-shape", part.place_of(key), f"{part.name}: a part of shape {part.shape!r} has no {key!r}",
                       expected=", ".join(own), found=key, remedy="delete it, or correct the shape")  # fmt: skip
    return not missing


def _check_sides(part: Part, report: Report) -> None:
    sides = sorted(side.to("m") for side in (part.a, part.b, part.c) if side)
    if sides[2] >= sides[0] + sides[1]:
        report.add("part-shape", part.place_of("a"), f"{part.name}: these sides do not close to a triangle",
                   expected="the longest side shorter than the other two together",
                   found=" and ".join(f"{side:g} m" for side in sides), remedy="measure the sides again")  # fmt: skip


def _check_offsets(part: Part, report: Report) -> None:
    number, place = len(part.offsets or ()), part.place_of("offsets")
    if part.rule == "simpson" and (number < 3 or number % 2 == 0):
        report.add("part-shape", place, f"{part.name}: Simpson's rule needs an odd number of offsets",
                   expected="3, 5, 7, ... offsets", found=f"{number}",
                   remedy="measure one more, or write rule: trapezoidal")  # fmt: skip
    elif number < 2:
        report.add("part-shape", place, f"{part.name}: there are too few offsets", expected="2 or more",
                   found=f"{number}", remedy="measure more")  # fmt: skip
    elif part.offsets and not any(offset.magnitude for offset in part.offsets):
        report.add("part-shape", place, f"{part.name}: all offsets are 0", remedy="measure them again")


def _check_corners(part: Part, report: Report) -> None:
    for number, point in enumerate(part.points or (), 1):
        if len(point) != 2:
            report.add("part-shape", part.place_of(f"points[{number}]"), f"{part.name}: a corner is two lengths",
                       expected="[east, north], such as [10 m, 8 m]", found=f"{len(point)}",
                       remedy="write both lengths")  # fmt: skip
            return
    corners, place = part.corners(), part.place_of("points")
    if not 3 <= len(corners) <= MOST_CORNERS:
        report.add("part-shape", place, f"{part.name}: this number of corners cannot be used",
                   expected=f"from 3 to {MOST_CORNERS}", found=f"{len(corners)}",
                   remedy="give the corners in order round the edge")  # fmt: skip
    elif crossing := _crossing(_in_steps(corners)):
        report.add("part-shape", place, f"{part.name}: the edge crosses itself", expected="corners in order round the "
                   "edge", found=f"the edges from corners {crossing[0]} and {crossing[1]} meet",
                   remedy="put the corners in order, or measure again")  # fmt: skip
    elif not _twice_area(corners):
        report.add("part-shape", place, f"{part.name}: all corners lie on one line", remedy="measure again")


def _in_steps(corners: Sequence[Point]) -> list[Point]:
    """The corners in whole tenths of a millimetre from the first: coordinates far from 0 are no finer, and with whole
    numbers it is no matter of rounding whether edges meet."""
    east, north = corners[0]
    return [(_steps(x - east), _steps(y - north)) for x, y in corners]


def _steps(metres: float) -> int:
    return int(Decimal(f"{metres * 10_000:.6f}").to_integral_value(ROUND_HALF_UP))


def _twice_area(corners: Sequence[Point]) -> float:
    following = [*corners[1:], corners[0]]
    return sum(x * v - u * y for (x, y), (u, v) in zip(corners, following, strict=True))


def _crossing(corners: Sequence[Point]) -> tuple[int, int] | None:
    """The numbers of the first two edges that meet other than at a corner they share, or None.

    >>> _crossing([(0, 0), (1, 1), (1, 0), (0, 1)]), _crossing([(0, 0), (1, 0), (1, 1), (0, 1)])
    ((1, 3), None)
    """
    count = len(corners)
    edges = [(corners[n], corners[(n + 1) % count]) for n in range(count)]
    for first in range(count):
        for second in range(first + 2, count - (first == 0)):
            if _meet(*edges[first], *edges[second]):
                return first + 1, second + 1
    return None


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    return _side(a, b, c) * _side(a, b, d) <= 0 and _side(c, d, a) * _side(c, d, b) <= 0 and _near(a, b, c, d)


def _side(a: Point, b: Point, p: Point) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def _near(a: Point, b: Point, c: Point, d: Point) -> bool:
    # Edges on one line have no sides; they meet only where their spans overlap.
    return all(max(a[i], b[i]) >= min(c[i], d[i]) and max(c[i], d[i]) >= min(a[i], b[i]) for i in (0, 1))
