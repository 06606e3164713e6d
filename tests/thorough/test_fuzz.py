"""Formulas and model agree on whatever a person may type, and no cell shows an error value.

A case is found again by the tier's seed and its number.
"""

from __future__ import annotations

import zipfile
from collections import Counter
from pathlib import Path
from typing import Final

import pytest

from support.office import recalculate
from support.tier import QUICK, TIER, Recorder, others_thorough
from thorough.fuzz_files import INVALID, heard, written
from thorough.fuzzing import Case, base, usual_figure
from wbgen.model.binding import Model
from wbgen.model.inputs import DATE, TEXT
from wbgen.sheets.column import System
from wbgen.verify.verification import verify

SYSTEMS: Final[tuple[System, ...]] = ("metric", "us")
FORMULA_CELLS: Final = 3000
"""A case has more formula cells than this; with fewer, something was not looked at."""


def case(number: int, seed: str = TIER.seed) -> Case:
    return Case(f"{seed} {number}", SYSTEMS[number % 2])


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_usual_figure_is_of_the_unit_of_its_column(system: System) -> None:
    """Else it could not be written in that unit."""
    drawn = base(system)
    for key, table in drawn.book.tables.items():
        for column in table.columns:
            unit = drawn.book.units[key][column.key]
            if column.role == "input" and unit not in (TEXT, DATE):
                usual_figure(column.key, unit)


@pytest.mark.parametrize("number", range(TIER.fuzz_cases))
def test_formulas_and_model_agree_and_show_no_error(number: int, tmp_path: Path, record_property: Recorder) -> None:
    record_property("cases of inputs", 1)
    drawn = case(number)
    said = heard(written(drawn, tmp_path / "case.xlsx"), drawn.book)
    assert said.cells > FORMULA_CELLS
    assert said.errors == ()
    assert said.findings == ()


@pytest.mark.parametrize("number", others_thorough([1001, 1002], [1001]))
def test_libreoffice_gives_the_same(number: int, tmp_path: Path, record_property: Recorder) -> None:
    record_property("cases of inputs in LibreOffice", 1)
    found = verify(recalculate(written(case(number), tmp_path / "case.xlsx"), tmp_path / "anew"))
    assert found.witnesses["cached"] == found.witnesses["text"] > FORMULA_CELLS
    refused = {(one.sheet, one.cell) for one in found.findings if one.kind in INVALID}
    # A name of blanks is refused where it is typed; LibreOffice reads it otherwise, and so does what follows from it.
    assert [
        one
        for one in found.findings
        if one.kind not in INVALID and not (one.cause and (one.cause.sheet, one.cause.cell) in refused)
    ] == []


def test_cases_go_where_formulas_branch() -> None:
    """A few dozen cases show cards, part loads, concentrates in jars, what is due, and whatever a verdict may say."""
    seen: Counter[str] = Counter()
    for number in range(32):
        model = Model(case(number, QUICK.seed).inputs())
        seen["card"] += int(model.column("card", "fill_mark").magnitude > 0)
        seen["part load"] += int(model.column("mix", "part_load") == "yes")
        seen["jar"] += int(model.column("mix", "dilution") > 1)
        seen.update(model.column("mix_products", "rate_from"))
        seen.update(model.column("sprayers", "calibration"))
        seen[str(model.column("verdict", "verdict"))] += 1
        seen.update(model.column("due", "state"))
        seen.update(one for words in model.column("stock", "stock_words") for one in words.split("; "))
        for words in (*model.column("mix_products", "product_reason"), *model.column("diary", "flags")):
            said = words.strip(";").split("; ")
            seen.update(one.partition(":")[0] for one in said)
            seen["too soon"] += sum(one.startswith("too soon") for one in said)
    wanted = {
        "Ask first", "Do not mix", "card", "part load", "jar", "usual", "own", "wanted", "two rates", "unknown product",
        "too soon", "unknown lawn", "over the label", "say spray or dry", "known area",
        "boom, catch test", "never calibrated", "overdue", "missed", "later", "enough",
        "less than nothing: count again", "never counted",
    }  # fmt: skip
    assert {one for one in wanted if not seen[one]} == set()


def test_some_blank_cells_hold_an_empty_text(tmp_path: Path) -> None:
    drawn = case(0)
    drawn.pasted = 1.0
    with zipfile.ZipFile(written(drawn, tmp_path / "case.xlsx")) as archive:
        sheets = [archive.read(name).decode() for name in archive.namelist() if "worksheets/sheet" in name]
    assert sum(sheet.count('t="inlineStr"') for sheet in sheets) > 100


def test_a_formula_that_divides_by_nothing_is_heard(tmp_path: Path) -> None:
    path = written(case(0), tmp_path / "case.xlsx")
    spoilt = tmp_path / "spoilt.xlsx"
    summed = base("metric").layout.placed["season_grams"].sheet
    number = [sheet.name for sheet in base("metric").book.sheets].index(summed) + 1
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(spoilt, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            if name == f"xl/worksheets/sheet{number}.xml":
                content = content.replace(b"<f>SUMIFS(", b"<f>1/0*SUMIFS(", 1)
            new.writestr(name, content)
    said = heard(spoilt, case(0).book)
    assert len(said.errors) >= 1
    assert "formula changed" in {one.kind for one in said.findings}
