"""Areas, the season's start and growth, against published examples and figures worked out by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from support.tables import NO, Table, bare, changed, is_close, planner

SHAPES = (
    "rectangle", "triangle", "triangle sides", "circle", "ellipse", "trapezium", "offsets, trapezoidal",
    "offsets, Simpson", "corners", "radii",
)  # fmt: skip
NOTES = [3.15, 4.30, 8.20, 5.60, 6.85, 7.60, 4.20, 5.60, 4.30]
"""Offsets 10 m apart. Surveying notes, lesson on areas: 460.75 m² by the trapezoidal rule, 461.167 m² by Simpson's."""
FIVE = [(3.0, 4.0), (5.0, 11.0), (12.0, 8.0), (9.0, 5.0), (5.0, 6.0)]
"""Corners that enclose 30. Rosetta Code, Shoelace formula for polygonal area."""


def measured(shape: str, *lengths: float, points: list[tuple[float, float]] | None = None, **more: Any) -> Any:
    """A column of one part, by default its area."""
    key, unit, sign = more.get("key", "measured_area"), more.get("unit", "m**2"), more.get("sign", "add")
    names = ("first_length", "second_length", "third_length")
    points = points or []
    sides = dict(zip(names, ([one] for one in lengths), strict=False))
    tables: dict[str, Table] = {
        "ones": {"corner_step": ("m", 0.0001)},
        "shapes": {"shape": ("text", SHAPES)},
        "parts": {
            "lawn": ("text", ["Front"]),
            "part": ("text", ["main"]),
            "sign": ("text", [sign]),
            "shape": ("text", [shape]),
            **{name: ("m", sides.get(name, [])) for name in names},
        },
        "points": {
            "lawn": ("text", ["FRONT"] * len(points)),
            "part": ("text", ["Main"] * len(points)),
            "along": ("m", [along for along, _ in points]),
            "offset": ("m", [offset for _, offset in points]),
        },
    }
    found = bare(planner(tables, {"shapes": 10, "parts": 2, "points": len(points) + 1}).column("parts", key), unit)
    assert found[1] == "" or math.isnan(found[1])
    return found[0]


@pytest.mark.parametrize(
    ("shape", "lengths", "area"),
    [
        ("rectangle", (20.0, 12.0), 240.0),
        ("Rectangle", (20.0,), 0.0),
        ("triangle", (40.0, 25.0), 500.0),
        ("triangle sides", (3.0, 4.0, 5.0), 6.0),
        ("triangle sides", (1.0, 2.0, 9.0), 0.0),
        ("triangle sides", (3.0, 4.0), 0.0),
        ("circle", (9.0,), 81 * math.pi / 4),
        ("ellipse", (23.0, 17.0), 391 * math.pi / 4),
        ("trapezium", (30.0, 50.0, 20.0), 800.0),
        ("corners", (), 0.0),
        ("radii", (), 0.0),
        ("hexagon", (3.0, 4.0, 5.0), NO),
    ],
)
def test_area_of_a_shape(shape: str, lengths: tuple[float, ...], area: float) -> None:
    assert is_close(measured(shape, *lengths), area)


def test_offsets_are_those_of_the_surveying_notes() -> None:
    points = [(NO, offset) for offset in NOTES]
    assert measured("offsets, trapezoidal", 10.0, points=points) == pytest.approx(460.75, rel=1e-12)
    assert measured("offsets, Simpson", 10.0, points=points) == pytest.approx(461 + 1 / 6, rel=1e-12)


@pytest.mark.parametrize("corners", [FIVE, FIVE[::-1], [(x + 1e7, y - 1e7) for x, y in FIVE]])
def test_corners_either_way_round_and_far_off(corners: list[tuple[float, float]]) -> None:
    assert measured("corners", points=corners) == pytest.approx(30.0, abs=1e-12)


GREEN = [7.1, 8.9, 9.7, 10.9, 12.4, 11.7, 11.8, 9.9, 6.8, 8.2, 9.7, 10.4, 12.0, 11.4, 8.9, 8.0]
"""Radii at equal angles whose mean is 9.86, printed as an area of 305.27. How to measure a putting green."""


def test_radii_are_those_of_the_putting_green() -> None:
    assert measured("radii", points=[(NO, radius) for radius in GREEN]) == pytest.approx(305.27, abs=0.4)


@pytest.mark.parametrize(("number", "area"), [(2, 0.0), (3, 4 * math.pi), (36, 4 * math.pi)])
def test_three_radii_are_the_least(number: int, area: float) -> None:
    points = [(NO, 2.0)] * number
    assert measured("radii", points=points) == pytest.approx(area)
    assert bool(measured("radii", points=points, key="part_state", unit="")) is (number < 3)


@pytest.mark.parametrize("sides", [(1.0, 1.0), (2.0, 1.0)])
def test_mean_radius_falls_short_of_an_oval_by_what_the_sheet_says(sides: tuple[float, float]) -> None:
    """6 % for an oval twice as long as wide, which the table of shapes warns of; nothing for a circle."""
    long, short = sides
    angles = [math.radians(angle) for angle in range(0, 360, 10)]
    radii = [long * short / math.hypot(short * math.cos(angle), long * math.sin(angle)) for angle in angles]
    found = measured("radii", points=[(NO, radius) for radius in radii])
    assert 1 - found / (math.pi * long * short) == pytest.approx(0.058 if long > short else 0, abs=0.002)


def test_part_cut_out_takes_away() -> None:
    assert measured("rectangle", 3.0, 2.0, key="signed_area", sign="Cut Out") == pytest.approx(-6.0)
    assert measured("rectangle", 3.0, 2.0, key="signed_area", sign="") == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("shape", "lengths", "number", "state"),
    [
        ("offsets, simpson", (5.0,), 4, "Simpson's rule needs an odd number of offsets"),
        ("offsets, Simpson", (5.0,), 3, ""),
        ("offsets, trapezoidal", (5.0,), 4, ""),
        ("offsets, trapezoidal", (), 4, "no area yet: give the lengths this shape needs"),
        ("rectangle", (5.0,), 0, "no area yet: give the lengths this shape needs"),
        ("rectangle", (5.0, 1.0), 0, ""),
        ("hexagon", (5.0, 1.0), 0, "no area yet: give the lengths this shape needs"),
    ],
)
def test_what_is_to_be_mended_in_a_part(shape: str, lengths: tuple[float, ...], number: int, state: str) -> None:
    assert measured(shape, *lengths, points=[(0.0, 2.0)] * number, key="part_state", unit="") == state


def test_label_number_and_points_of_a_part() -> None:
    points = [(0.0, 2.0)] * 3
    assert measured("circle", 1.0, points=points, key="part_label", unit="") == "Front · main"
    assert measured("CIRCLE", 1.0, points=points, key="shape_number", unit="") == 4
    assert measured("circle", 1.0, points=points, key="corners", unit="") == 3
    assert measured("trapezium", 1.0, 2.0, 3.0, key="half_perimeter", unit="m") == 3


POINTS: dict[str, Table] = {
    "ones": {"corner_step": ("mm", 0.1)},
    "parts": {"lawn": ("text", ["A"]), "part": ("text", ["x"]), "shape": ("text", ["corners"])},
    "points": {
        "lawn": ("text", ["A", "a", "A", "B", "", "A"]),
        "part": ("text", ["x", "x", "x", "x", "x", "X"]),
        "along": ("m", [1.0, 4.0, NO, 7.0, 5.0, 3.0]),
        "offset": ("m", [1.0, 1.0, 3.0, 7.0, 5.0, NO]),
    },
}


@pytest.mark.parametrize(
    ("key", "unit", "figures"),
    [
        ("place", "", [1, 2, 3, 1, NO, 4]),
        ("of_all", "", [4, 4, 4, 1, NO, 4]),
        ("first_line", "", [2, 2, 2, 5, NO, 2]),
        ("line_before", "", [5, 2, 3, 5, NO, 4]),
        ("along_from_first", "m", [0, 3, -1, 0, NO, 2]),
        ("offset_from_first", "m", [0, 0, 2, 0, NO, -1]),
        ("trapezoidal_term", "m", [0.5, 1, 3, 3.5, NO, 0]),
        ("simpson_term", "m", [1, 4, 6, 7, NO, 0]),
        ("cross_term", "m**2", [0, 0, 6, 0, NO, -3]),
        ("corner_place", "", [1, 2, 3, 0, 0, 4]),
        ("to_along", "", [0, 30_000, -10_000, 0, 0, 20_000]),
        ("to_offset", "", [0, 0, 20_000, 0, 0, -10_000]),
        ("from_along", "", [0, 0, 30_000, 0, 0, -10_000]),
        ("from_offset", "", [0, 0, 0, 0, 0, 20_000]),
        ("low_along", "", [0, 0, -10_000, 0, 0, -10_000]),
        ("high_along", "", [0, 30_000, 30_000, 0, 0, 20_000]),
        ("low_offset", "", [0, 0, 0, 0, 0, -10_000]),
        ("high_offset", "", [0, 0, 20_000, 0, 0, 20_000]),
        ("apart", "", [0, 0, 0, 0, NO, 1]),
        ("crossed", "", [NO] * 6),
    ],
)
def test_points_one_of_which_stands_apart(key: str, unit: str, figures: list[float]) -> None:
    """The last point belongs to the first part; the fifth has no lawn. A blank coordinate counts as 0."""
    assert is_close(bare(planner(POINTS, {"parts": 1, "points": 6}).column("points", key), unit), figures)


def test_point_that_stands_apart_is_to_be_mended() -> None:
    found = bare(planner(POINTS, {"parts": 1, "points": 6}).column("points", "point_state"))
    assert found == ["", "", "", "", "", "keep the points of a part together"]


SIZES = {"lawns": 6, "parts": 5, "weekdays": 1, "sprayers": 1}
LAWNS: dict[str, Table] = {
    "lawns": {
        "name": ("text", ["Front", "Back", "FRONT", "", "Pond", "Lost"]),
        "typed_area": ("ft**2", [100.0, NO, NO, 50.0]),
        "strip": ("text", ["pond", "Nowhere", "", "Pond", "POND"]),
        "round_day": ("text", ["tue", "Someday"]),
        "sprayer": ("text", ["knapsack", "", "Boom"]),
    },
    "weekdays": {"number": ("", [3.0]), "day": ("text", ["Tue"])},
    "sprayers": {"name": ("text", ["Knapsack"])},
    "parts": {
        "lawn": ("text", ["back", "Back", "Front", "Pond", "Nowhere"]),
        "signed_area": ("ft**2", [90.0, -20.0, 0.5, -3.0, 8.0]),
        "to_mend": ("", [0.0] * 5),
    },
}


def test_area_typed_wins_over_the_parts() -> None:
    found = planner(LAWNS, SIZES)
    assert is_close(bare(found.column("lawns", "measured_area"), "ft**2"), [0.5, 70, 0.5, NO, -3, 0])
    assert is_close(bare(found.column("lawns", "area"), "ft**2"), [100, 70, 0.5, NO, NO, NO])
    assert bare(found.column("lawns", "area_from")) == ["typed", "measured", "measured", "", "missing", "missing"]


def test_a_lawn_has_no_area_while_a_part_of_it_is_wrong() -> None:
    """A wrong area would be weighed for. The Front's was typed, and does not go by its part."""
    wrong = changed(LAWNS, parts__to_mend=("", [0.0, 1.0, 1.0, 0.0, 0.0]))
    found = planner(wrong, SIZES)
    assert is_close(bare(found.column("lawns", "area"), "ft**2"), [100, NO, NO, NO, NO, NO])
    assert bare(found.column("lawns", "area_from")) == ["typed", "missing", "missing", "", "missing", "missing"]
    assert bare(found.column("lawns", "lawn_state"))[1] == "no area: mend its parts; unknown round day; unknown strip"


def test_what_is_to_be_mended_in_a_lawn() -> None:
    """The Pond is a strip of the Front's, and by mistake of its own; nobody knows the Back's."""
    found = planner(LAWNS, SIZES)
    assert is_close(bare(found.column("lawns", "strip_line")), [6, NO, NO, NO, 6, NO])
    assert bare(found.column("lawns", "strip_for")) == ["", "", "", "", "Front", ""]
    twice, none = "this name stands twice", "no area yet"
    assert bare(found.column("lawns", "lawn_state")) == [
        twice, "unknown round day; unknown strip", f"{twice}; unknown sprayer", "", f"{none}; a strip of itself", none,
    ]  # fmt: skip


SEASON: dict[str, Table] = {
    "start": {},
    "weather": {"planner_date": ("date", NO)},
    "settings": {"season_month": ("", 10.0), "season_day": ("", 1.0)},
    "checks": {"failed": ("", 0.0)},
    "standing_mix": {},
}
SEP_30, OCT_1, OCT_1_BEFORE = 45565.0, 45566.0, 45200.0  # of 2024, and 1 October 2023


@pytest.mark.parametrize(
    ("typed", "today", "start"),
    [(NO, SEP_30, OCT_1_BEFORE), (NO, OCT_1, OCT_1), (SEP_30, OCT_1, OCT_1_BEFORE), (OCT_1, SEP_30, OCT_1)],
)
def test_season_started_on_or_before_the_as_of_date(typed: float, today: float, start: float) -> None:
    found = planner(changed(SEASON, weather__planner_date=("date", typed)), {"start": 1}, today)
    assert bare(found.column("start", "today")) == [today]
    assert bare(found.column("settings", "season_start")) == start


@pytest.mark.parametrize(("failed", "words"), [(0.0, "all checks agree"), (2.0, "look at the sheet Checks")])
def test_every_sheet_shows_whether_the_checks_agree(failed: float, words: str) -> None:
    found = planner(changed(SEASON, checks__failed=("", failed)), {"start": 1})
    assert bare(found.column("start", "master_check")) == [words]
    assert bare(found.column("standing_mix", "state")) == words
    assert bare(found.column("start", "recalculated")) == ["yes, by a spreadsheet program"]


GROWTH = {5.0: (0.0243, 0.0010), 12.0: (0.3472, 0.0251), 20.0: (1.0, 0.2909), 25.0: (0.6615, 0.6926)}
"""Mean temperature in °C: growth potential of cool- and warm-season grass, by the published formula, to four digits."""


def test_growth_of_the_months() -> None:
    tables: dict[str, Table] = {
        "months": {"mean_temperature": ("degC", list(GROWTH))},
        "settings": {
            "optimum_cool": ("degC", 20.0),
            "spread_cool": ("delta_degC", 5.5),
            "optimum_warm": ("degC", 31.0),
            "spread_warm": ("delta_degC", 7.0),
        },
    }
    found = planner(tables, {"months": 5})
    for place, key in enumerate(("growth_cool", "growth_warm")):
        expected = [pair[place] for pair in GROWTH.values()] + [1.0]
        assert bare(found.column("months", key)) == pytest.approx(expected, abs=5e-5)


def test_growth_in_fahrenheit() -> None:
    """68 °F is the best for cool-season grass; a spread of 9.9 °F is one of 5.5 °C, and 58.1 °F one spread off."""
    tables: dict[str, Table] = {
        "months": {"mean_temperature": ("degF", [68.0, 58.1])},
        "settings": {"optimum_cool": ("degF", 68.0), "spread_cool": ("delta_degF", 9.9)},
    }
    found = bare(planner(tables, {"months": 2}).column("months", "growth_cool"))
    assert found == pytest.approx([1.0, math.exp(-0.5)], rel=1e-9)
