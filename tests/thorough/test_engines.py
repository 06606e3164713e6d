"""Fresh and emptied planners in three engines: no error value anywhere, and the same figures."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any, Final

import ironcalc
import pytest

from support.edits import edited, emptied, unstored
from support.office import recalculate, resave
from support.planners import ALL, DIARY_LINES, SYSTEMS, Built, Planners, evaluated
from support.tier import others_thorough
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.cell_types import ErrorValue
from wbgen.files.xlsx.workbook import File, read
from wbgen.sheets.column import System
from wbgen.verify.compare import is_blank
from wbgen.verify.verification import verify

ERRORS: Final = (
    "#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!", "#ERROR!", "#SPILL!", "#CIRC!", "#N/IMPL!",
)  # fmt: skip
NEAR: Final = 1e-9

Values = dict[tuple[str, int, int], Any]
"""What an engine makes of every formula cell, by sheet, row and column from 0."""


def in_formualizer(path: Path, file: File, today: float) -> Values:
    return formula_values(evaluated(path, file, today), file)


def formula_values(values: dict[str, list[list[Any]]], file: File) -> Values:
    return {(name, *at): values[name][at[0]][at[1]] for name, at in places(file)}


def in_ironcalc(path: Path, file: File) -> Values:
    model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    model.evaluate()
    sheets = {properties["name"]: number for number, properties in enumerate(model.get_worksheets_properties())}
    return {(name, *at): model.get_cell_value(sheets[name], at[0] + 1, at[1] + 1) for name, at in places(file)}


def stored(file: File) -> Values:
    """The values that the program which saved the file has left in it."""
    return {(sheet.name, *at): cell.value for sheet in file.sheets for at, cell in sheet.cells.items() if cell.formula}


def today_in(values: Values, planner: Built) -> float:
    """The day on which an engine worked, from the one cell that asks for it."""
    start = planner.placed["start"]
    return float(values[(start.sheet, *start.cell("today"))])


def places(file: File) -> Iterator[tuple[str, tuple[int, int]]]:
    for sheet in file.sheets:
        for at, cell in sheet.cells.items():
            if cell.formula is not None:
                yield sheet.name, at


def errors(values: Values) -> dict[Any, Any]:
    return {at: v for at, v in values.items() if isinstance(v, ErrorValue) or (isinstance(v, str) and v in ERRORS)}


def differing(one: Values, other: Values) -> dict[Any, Any]:
    assert one.keys() == other.keys()
    return {at: (one[at], other[at]) for at in one if not alike(one[at], other[at])}


def alike(one: Any, other: Any) -> bool:
    if is_blank(one) or is_blank(other):
        return is_blank(one) and is_blank(other)
    if isinstance(one, str) or isinstance(other, str):
        return bool(one == other)
    return abs(float(one) - float(other)) <= NEAR * max(1.0, abs(float(one)))


@pytest.fixture(scope="module")
def bare(planners: Planners, tmp_path_factory: pytest.TempPathFactory) -> Callable[[System], Path]:
    """Copies of the full planner with every input cell emptied, settings too."""

    @cache
    def made(system: System) -> Path:
        built = planners.get("full", system)
        edits = {(sheet, address(row, at)): emptied for sheet, row, at in built.cells("input")}
        results = {(sheet, address(row, at)): unstored for sheet, row, at in built.cells("formula")}
        return edited(built.path, tmp_path_factory.mktemp("emptied") / f"{system}.xlsx", {**edits, **results})

    return made


def test_formualizer_finds_no_error_in_a_fresh_planner(planner: Built) -> None:
    values = formula_values(planner.values, planner.file)
    assert len(values) == planner.made.formula_cells
    assert not errors(values)


@pytest.mark.parametrize(("site", "system"), others_thorough(ALL, [("full", "us")]))
def test_ironcalc_finds_no_error_and_the_same_figures_in_a_fresh_planner(
    planners: Planners, site: str, system: System
) -> None:
    planner = planners.get(site, system)
    values = in_ironcalc(planner.path, planner.file)
    assert not errors(values)
    assert not differing(in_formualizer(planner.path, planner.file, today_in(values, planner)), values)


@pytest.mark.parametrize("system", others_thorough(SYSTEMS, ["us"]))
def test_an_emptied_planner_has_no_error_and_no_figure_that_engines_dispute(
    planners: Planners, bare: Callable[[System], Path], system: System
) -> None:
    path = bare(system)
    file = read(path)
    values = in_ironcalc(path, file)
    same = in_formualizer(path, file, today_in(values, planners.get("full", system)))
    assert not errors(values)
    assert not errors(same)
    assert not differing(same, values)


@pytest.mark.parametrize("system", others_thorough(SYSTEMS, ["us"]))
def test_an_emptied_planner_is_what_the_model_says(bare: Callable[[System], Path], system: System) -> None:
    assert verify(bare(system)).findings == ()


@pytest.mark.parametrize(
    ("site", "system"), others_thorough([("starter", "metric"), ("full", "us"), ("full", "metric")], [("full", "us")])
)
def test_libreoffice_finds_no_error_and_the_same_figures_and_four_witnesses_agree(
    planners: Planners, site: str, system: System, tmp_path: Path
) -> None:
    planner = planners.get(site, system)
    path = recalculate(planner.path, tmp_path)
    file = read(path)
    values = stored(file)
    assert not errors(values)
    assert not differing(in_formualizer(planner.path, planner.file, today_in(values, planner)), values)
    result = verify(path)
    assert result.findings == ()
    assert result.active_witnesses == ("text", "engine", "model", "cached")
    assert set(result.witnesses.values()) == {planner.made.formula_cells}
    assert typed_like_formulas(file) == typed_like_formulas(planner.file)


@pytest.mark.thorough
@pytest.mark.parametrize("system", SYSTEMS)
def test_a_planner_that_was_opened_and_saved_without_recalculating_all_is_clean(
    planners: Planners, system: System, tmp_path: Path
) -> None:
    """As LibreOffice is installed it keeps what a file has stored, and drops blanks at the end of a stored text."""
    planner = planners.get("full", system)
    values = stored(planner.file)
    assert [at for at, value in values.items() if isinstance(value, str) and value != value.strip()] == []
    assert verify(resave(planner.path, tmp_path)).findings == ()


def typed_like_formulas(file: File) -> list[str]:
    """Texts that a careless program would take for formulas."""
    return [
        cell.value
        for sheet in file.sheets
        for cell in sheet.cells.values()
        if cell.formula is None and isinstance(cell.value, str) and cell.value.startswith(("=", "+", "-", "@"))
    ]


@pytest.mark.parametrize("system", SYSTEMS)
def test_notes_that_begin_like_formulas_stay_text(planners: Planners, system: System) -> None:
    planner = planners.get("full", system)
    notes = typed_like_formulas(planner.file)
    assert {note[0] for note in notes} == {"=", "+", "-", "@"}
    assert len([note for note in notes if "SUM" in note]) == DIARY_LINES
    assert not [text for *_, text in planner.formulas() if f"={text}" in notes]
