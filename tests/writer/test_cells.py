"""The figures of a planner are stored to 15 digits, so that a planner has the same bytes whatever built it."""

from __future__ import annotations

import math
import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from support.planners import DIARY_ROWS, TODAY, Planners, site_text
from wbgen import build as building
from wbgen.model.figures import all_figures as figures_of_model
from wbgen.model.inputs import Figures
from wbgen.sheets.column import System
from wbgen.writer.cells import shown

HALF_A_FIFTEENTH_DIGIT: Final = 5e-15
MANY: Final = 10_000
LARGEST: Final = 9.99999999999999e307
"""The largest number that a spreadsheet program takes."""
LAST_BIT: Final = 2.0**-52
FOURTEENTH_DIGIT: Final = 1e-13


def digits(figure: float) -> str:
    """A figure to 15 significant digits."""
    return f"{figure:.14e}"


def moved(column: Figures, by: float) -> Figures:
    """A column in which each number is moved by so much of itself.

    Where the last bit alone is moved, those stay that are just half way between two numbers of 15 digits.
    """
    if column.dtype == object:
        return column
    after = column * (1 + by)
    same = [by != LAST_BIT or digits(one) == digits(other) for one, other in zip(column, after, strict=True)]
    return np.where(same, after, column)


def planner_of_figures_moved(by: float, folder: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[bytes, int]:
    """A planner of the full site whose figures are moved, and how many of them were."""
    number = 0

    def all_figures(*arguments: Any) -> dict[str, dict[str, Figures]]:
        nonlocal number
        figures = figures_of_model(*arguments)
        after = {table: {key: moved(one, by) for key, one in columns.items()} for table, columns in figures.items()}
        for table, columns in figures.items():
            for key, column in columns.items():
                if column.dtype != object:
                    number += int(np.count_nonzero((after[table][key] != column) & ~np.isnan(column)))
        return after

    lawns = folder / "lawns.yaml"
    lawns.write_text(site_text("full"), encoding="utf-8")
    target = folder / f"{by}.xlsx"
    with monkeypatch.context() as patched:
        patched.setattr(building, "all_figures", all_figures)
        building.build(lawns, target, system="us", diary_rows=DIARY_ROWS, today=TODAY)
    return target.read_bytes(), number


@pytest.mark.thorough
def test_figures_that_differ_in_their_last_bits_give_the_same_bytes(
    planners: Planners, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Results, inputs, constants and what the charts keep of them, all at once."""
    usual = planners.get("full", "us").path.read_bytes()
    others, number = planner_of_figures_moved(LAST_BIT, tmp_path, monkeypatch)
    assert number > MANY
    same = usual == others  # compared here: pytest would write out both
    assert same
    others, _ = planner_of_figures_moved(FOURTEENTH_DIGIT, tmp_path, monkeypatch)
    same = usual == others
    assert not same


@given(st.floats(min_value=-LARGEST, max_value=LARGEST, allow_subnormal=False))
def test_a_figure_stays_what_it_is_to_15_digits(figure: float) -> None:
    (kept,) = shown(np.array([figure]))
    assert isinstance(kept, float)
    assert math.isclose(kept, figure, rel_tol=HALF_A_FIFTEENTH_DIGIT)
    assert digits(kept) == digits(figure)
    assert shown(np.array([kept])) == [kept]


def test_text_and_blanks_stay_what_they_are() -> None:
    assert shown(np.array(["0.30000000000000004", "", "Go"], dtype=object)) == ["0.30000000000000004", "", "Go"]
    assert shown(np.array([np.nan, 7.0])) == ["", 7.0]


def stored(path: Path) -> Iterator[tuple[str, str]]:
    """Every number of the sheets and of the charts' caches, with its part."""
    with zipfile.ZipFile(path) as file:
        for part in file.namelist():
            text = file.read(part).decode("utf-8")
            if part.startswith("xl/worksheets/sheet"):
                cells = re.findall(r'<c r="[A-Z]+[0-9]+"(?: s="[0-9]+")?>(?:<f>[^<]*</f>)?<v>([^<]*)</v>', text)
                yield from ((part, number) for number in cells)
            elif part.startswith("xl/charts/chart"):
                caches = re.findall(r"<c:numCache>.*?</c:numCache>", text)
                yield from ((part, number) for cache in caches for number in re.findall("<c:v>([^<]*)</c:v>", cache))


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_number_of_a_planner_and_its_charts_has_no_more_than_15_digits(
    system: System, planners: Planners
) -> None:
    numbers = list(stored(planners.get("full", system).path))
    assert sum(part.startswith("xl/charts/") for part, _ in numbers) > 50
    assert sum(part.startswith("xl/worksheets/") for part, _ in numbers) > MANY
    assert [(part, number) for part, number in numbers if float(number) != float(digits(float(number)))] == []
