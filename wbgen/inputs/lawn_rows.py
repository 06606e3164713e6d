"""Lawns of the file, their parts and points, as records of the tables."""

from __future__ import annotations

from collections.abc import Iterator

from wbgen.inputs.rows import Row
from wbgen.records.site.lawn import Lawn
from wbgen.records.site.lawn_parts import Part
from wbgen.records.site.soil_tests import SoilTest
from wbgen.trade.nutrients import NUTRIENTS

_LENGTHS: dict[str, tuple[str, ...]] = {
    "rectangle": ("length", "width"),
    "triangle": ("base", "height"),
    "triangle sides": ("a", "b", "c"),
    "circle": ("diameter",),
    "ellipse": ("length", "width"),
    "trapezium": ("side", "other_side", "height"),
    "offsets": ("spacing",),
    "corners": (),
    "radii": (),
}
_RULES = {"trapezoidal": "offsets, trapezoidal", "simpson": "offsets, Simpson"}


def lawn_row(lawn: Lawn) -> Row:
    """One lawn."""
    keys = {nutrient.symbol: nutrient.key for nutrient in NUTRIENTS}
    return {
        "name": lawn.name,
        "grass": lawn.grass,
        "group": lawn.group,
        "walking_order": None if lawn.walking_order is None else float(lawn.walking_order),
        "round_day": lawn.round_day,
        "sprayer": lawn.sprayer,
        "typed_area": lawn.area,
        "most_nitrogen_month": lawn.most_N_a_month,
        "strip": lawn.strip,
        "notes": lawn.notes,
        **{f"target_{keys[symbol]}": rate for symbol, rate in (lawn.targets or {}).items()},
    }


def part_row(lawn: Lawn, part: Part) -> Row:
    """One part of a lawn."""
    lengths = zip(("first_length", "second_length", "third_length"), _LENGTHS[part.shape], strict=False)
    return {
        "lawn": lawn.name,
        "part": part.name,
        "sign": "add" if part.add else "cut out",
        "shape": _RULES[part.rule or "trapezoidal"] if part.shape == "offsets" else part.shape,
        **{column: getattr(part, name) for column, name in lengths},
    }


def point_rows(lawn: Lawn, part: Part) -> Iterator[Row]:
    """The offsets, the radii or the corners of a part, a record each."""
    for offset in (*(part.offsets or ()), *(part.radii or ())):
        yield {"lawn": lawn.name, "part": part.name, "offset": offset}
    for along, across in part.points or ():
        yield {"lawn": lawn.name, "part": part.name, "along": along, "offset": across}


def soil_test_row(lawn: Lawn, test: SoilTest) -> Row:
    """One soil test of a lawn."""
    return {
        "date": test.date,
        "lawn": lawn.name,
        "method": test.method,
        "tested_phosphate": test.P,
        "tested_potash": test.K,
        "note": test.note,
    }
