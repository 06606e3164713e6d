"""Edges of corners that cross or touch: the model and the file's reader against a library of geometry."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any, Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from support.polygons import CROSS, KINDS, Corners, drawn, is_simple, to_mend
from support.tables import Table, bare, planner
from wbgen.files.diagnostics import InputError
from wbgen.records.site.site import load_site_and_catalogue

FAR: Final = ((0, 0), (-700, 300), (50_000_000, 590_000_000))
"""Where the corners lie, in cm: at home, about home, and as far off as the grid of a map."""
METRE, FOOT = 100.0, 30.48


def columns(corners: Corners, unit: str = "m", far: tuple[int, int] = (0, 0)) -> Any:
    """The model of a part with these corners, and of a neighbour of another shape, whose points stand before them."""
    scale = METRE if unit == "m" else FOOT
    along, offset = ([(one[axis] + far[axis]) / scale for one in corners] for axis in (0, 1))
    tables: dict[str, Table] = {
        "ones": {"corner_step": ("m", 0.0001)},
        "shapes": {"shape": ("text", [""] * 8 + ["corners"])},
        "parts": {
            "lawn": ("text", ["A", "A"]),
            "part": ("text", ["bay", "plot"]),
            "sign": ("text", ["add", "add"]),
            "shape": ("text", ["offsets, trapezoidal", "Corners"]),
            **{f"{place}_length": (unit, [2.0]) for place in ("first", "second", "third")},
        },
        "points": {
            "lawn": ("text", ["A", "A"] + ["A"] * len(corners)),
            "part": ("text", ["bay", "bay"] + ["plot"] * len(corners)),
            "along": (unit, [0.0, 0.0, *along]),
            "offset": (unit, [0.0, 0.0, *offset]),
        },
    }
    return planner(tables, {"shapes": 9, "parts": 2, "points": len(corners) + 3})


def state(corners: Corners, unit: str = "m", far: tuple[int, int] = (0, 0)) -> str:
    found: str = bare(columns(corners, unit, far).column("parts", "part_state"))[1]
    return found


@pytest.mark.parametrize(
    ("corners", "pairs"),
    [
        ([(0, 0), (10, 10), (10, 0), (0, 6)], 1),
        ([(0, 0), (10, 0), (10, 10), (0, 10)], 0),
        ([(0, 0), (10, 0), (10, 10), (5, 0), (0, 10)], 2),  # a corner on an edge: both edges of it touch
        ([(0, 0), (10, 0), (10, 0), (0, 10)], 1),  # a corner twice
        ([(0, 0), (10, 0), (0, 10), (0, 0)], 1),  # closed by hand
        ([(0, 0), (9, 0), (9, 5), (6, 5), (6, 4), (3, 4), (3, 5), (0, 5)], 0),  # two edges on one line, apart
        ([(0, 0), (10, 0), (10, 10), (0, 10), (0, 5), (10, 5)], 2),  # the last corner on an edge
    ],
)
def test_pairs_of_edges_that_meet(corners: Corners, pairs: int) -> None:
    hundred = [(100 * x, 100 * y) for x, y in corners]
    for unit in ("m", "ft"):
        assert bare(columns(hundred, unit).column("parts", "crossings")) == [0, pairs]
    assert state(hundred) == (CROSS if pairs else "")


@pytest.mark.parametrize("kind", KINDS)
@given(seed=st.integers(0, 2**32), unit=st.sampled_from(["m", "ft"]), far=st.sampled_from(FAR))
def test_a_part_is_to_mend_where_its_outline_is_not_simple(
    kind: str, seed: int, unit: str, far: tuple[int, int]
) -> None:
    corners = drawn(random.Random(seed), kind)  # noqa: S311 - drawn by hypothesis
    assert state(corners, unit, far) == to_mend(corners)


@pytest.mark.parametrize("kind", KINDS)
@given(seed=st.integers(0, 2**32), unit=st.sampled_from(["m", "ft"]), far=st.sampled_from(FAR))
def test_the_reader_of_the_file_takes_the_same_corners(
    tmp_path_factory: pytest.TempPathFactory, kind: str, seed: int, unit: str, far: tuple[int, int]
) -> None:
    corners = drawn(random.Random(seed), kind)  # noqa: S311 - drawn by hypothesis
    file: Path = tmp_path_factory.getbasetemp() / "lawns.yaml"
    points = [f"[{x + far[0]} cm, {y + far[1]} cm]" for x, y in corners]
    file.write_text(
        "site: {name: A, units: metric, currency: EUR, season starts: 1 January}\n"
        "lawns: [{name: A, grass: cool season, parts: [{name: plot, add: corners, points: ["
        + ", ".join(points)
        + "]}]}]\n",
        encoding="utf-8",
    )
    try:
        load_site_and_catalogue(file, ())
        taken = True
    except InputError:
        taken = False
    assert taken == is_simple(corners)
    assert taken == (state(corners, unit, far) == "")


def test_the_kinds_that_are_drawn_are_simple_and_not() -> None:
    """An oracle that always says the same would prove nothing."""
    draw = random.Random(1)  # noqa: S311 - the same every time
    shares = {kind: sum(is_simple(drawn(draw, kind)) for _ in range(200)) / 200 for kind in KINDS}
    assert shares["convex"] == 1
    assert shares["concave"] > 0.9
    assert all(0.1 < shares[kind] < 0.9 for kind in ("shuffled", "grid", "notched"))
