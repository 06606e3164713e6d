"""What follows from what: a stored value alone is no evidence, and never the cause of another finding."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Final

import pytest

from support.edits import edited, formula, stored
from support.planners import Built, Planners
from wbgen.files.findings import CellAddress, Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.sheet_cells import SheetContent
from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.verify.causes import follow, references
from wbgen.verify.verification import verify

S: Final = "Mix"
CHANGED: Final = Kind.FORMULA_CHANGED
STALE: Final = Kind.STALE_RESULT
WRONG: Final = Kind.WRONG_RESULT
FOLLOWS: Final = Kind.FOLLOWS


def found_in(
    formulas: dict[str, str], kinds: dict[str, Kind], model_only: dict[str, list[str]] | None = None
) -> dict[str, tuple[Kind, str]]:
    """Kind and cause ("" for none) of each finding of a sheet whose first column holds these formulas from A1 down."""
    read = {
        CellAddress(S, cell): [CellAddress(S, other) for other in others] for cell, others in (model_only or {}).items()
    }
    texts = {int(cell[1:]) - 1: text for cell, text in formulas.items()}
    file = File(Path("planner.xlsx"), (SheetCells(S, False, SheetContent({0: texts})),), {}, ())
    found = {CellAddress(S, cell): Finding(S, cell, kind, None, None, "") for cell, kind in kinds.items()}
    findings = follow(found, set(), file, read)
    return {one.cell: (one.kind, one.cause.cell if one.cause else "") for one in findings}


def test_a_stale_cell_is_passed_over_on_the_way_to_the_cause() -> None:
    """A4 reads the stale A2 before the changed A3; so does A5 through A4."""
    formulas = {"A2": "A1+1", "A3": "A1+2", "A4": "A2+A3", "A5": "A2+A4"}
    found = found_in(formulas, {"A2": STALE, "A3": CHANGED, "A4": FOLLOWS, "A5": FOLLOWS})
    assert found == {"A2": (STALE, ""), "A3": (CHANGED, ""), "A4": (FOLLOWS, "A3"), "A5": (FOLLOWS, "A3")}


def test_what_follows_from_nothing_but_a_stale_cell_names_no_cause() -> None:
    assert found_in({"A2": "A1+1", "A3": "A2+1"}, {"A2": STALE, "A3": FOLLOWS})["A3"] == (FOLLOWS, "")


@pytest.mark.parametrize("kind", [STALE, WRONG])
def test_a_stale_or_wrong_cell_behind_a_stale_one_stays_itself(kind: Kind) -> None:
    assert found_in({"A2": "A1+1", "A3": "A2+1"}, {"A2": STALE, "A3": kind}) == {"A2": (STALE, ""), "A3": (kind, "")}


def test_a_stale_cell_behind_a_changed_one_follows_from_it() -> None:
    found = found_in({"A2": "A1+1", "A3": "A2+1", "A4": "A3+1"}, {"A2": CHANGED, "A3": STALE, "A4": FOLLOWS})
    assert found == {"A2": (CHANGED, ""), "A3": (FOLLOWS, "A2"), "A4": (FOLLOWS, "A2")}


def test_a_wrong_result_follows_from_what_only_the_model_asks() -> None:
    """A3 does without A2; the model asks for it."""
    formulas, kinds = {"A2": "A1+1", "A3": "A1+2"}, {"A2": CHANGED, "A3": WRONG}
    assert found_in(formulas, kinds)["A3"] == (WRONG, "")
    assert found_in(formulas, kinds, {"A3": ["A2"]}) == {"A2": (CHANGED, ""), "A3": (FOLLOWS, "A2")}


def test_a_column_that_only_the_model_asks_takes_the_blame(planners: Planners, tmp_path: Path) -> None:
    """The packs of the round go by the product's line in the formula, by its name in the model."""
    planner = planners.get("starter", "metric")
    product, packs = (address(*planner.placed["round_products"].cell(key)) for key in ("product", "packs_exact"))
    change = {("Round", product): formula(lambda _: '"Nobody\'s"')}
    findings = verify(edited(planner.path, tmp_path / "changed.xlsx", change)).findings
    causes = {one.address: one.cause for one in findings}
    assert causes[CellAddress("Round", product)] is None
    assert causes[CellAddress("Round", packs)] == CellAddress("Round", product)
    assert set(causes.values()) == {None, CellAddress("Round", product)}
    assert sum(cause is None for cause in causes.values()) == 1


def test_a_stale_cell_of_a_planner_takes_the_blame_for_nothing(planners: Planners, tmp_path: Path) -> None:
    """A lawn's area is changed, and each cell that a follower reads before it holds a stale value."""
    planner = planners.get("pocket", "metric")
    area = address(*planner.placed["lawns"].cell("area"))
    change = {("Lawns", area): formula(lambda text: f"({text})*2")}
    findings = planner.verify(edited(planner.path, tmp_path / "changed.xlsx", change)).findings
    wrong = {one.address for one in findings}
    beside = {at for one in findings for at in read_by(planner, one.address) if at not in wrong}
    assert len(beside) > 10
    both = {**change, **{(at.sheet, at.cell): stored(7.75) for at in beside}}
    again = planner.verify(edited(planner.path, tmp_path / "both.xlsx", both)).findings
    assert {one.cause for one in again} == {None, CellAddress("Lawns", area)}
    followers = {one.address for one in again if one.cause}
    assert wrong - {CellAddress("Lawns", area)} <= followers <= wrong | beside
    assert {one.address for one in again if one.kind is STALE} | followers >= beside


def read_by(planner: Built, at: CellAddress) -> Iterator[CellAddress]:
    """The single cells with formulas that a cell's formula refers to."""
    cell = planner.sheets[at.sheet][at.cell]
    for area in references(str(cell.value)[1:], at.sheet):
        if (area.top, area.left) == (area.bottom, area.right):
            other = planner.sheets[area.sheet].cell(area.top + 1, area.left + 1).value
            if str(other).startswith("="):
                yield CellAddress(area.sheet, address(area.top, area.left))
