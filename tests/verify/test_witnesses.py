"""Changes in a file as it was built, which no program has saved yet: verify names each one, and what follows from it.

Mutants of files that a spreadsheet program saved are in `test_mutations.py`: every operator on every column.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import pytest

from support.edits import Edit, edited, emptied, formula, stored, typed
from support.planners import Built, Planners
from support.tier import others_thorough
from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.model.inputs import DATE, TEXT
from wbgen.sheets.column import System
from wbgen.verify.compare import is_blank
from wbgen.verify.verification import Verification

BATCHES: Final = 4
"""One column in so many is changed in a file, so that most of the changes do not stand on one another."""
CLOCK: Final = ("start", "today")
"""The one formula whose stored value is an input: it tells on which day the file was calculated."""


@dataclass(frozen=True)
class Target:
    """One cell of a formula column: where it stands, what the engine makes of it, and whether it is a quantity."""

    name: str
    sheet: str
    cell: str
    value: Any
    quantity: bool


def targets(planner: Built) -> Iterator[Target]:
    """A record drawn at random from each formula column, one with a figure where there is any."""
    draw = random.Random(20260630)  # noqa: S311 - the same records every time
    for placed, column in planner.columns("formula"):
        table, key = placed.table.key, column.key
        places = [placed.cell(key, record) for record in range(planner.inputs.records[table])]
        figures = {at: planner.values[placed.sheet][at[0]][at[1]] for at in places}
        at = draw.choice([one for one in places if not is_blank(figures[one])] or places)
        quantity = planner.book.units[table][key] not in ("", TEXT, DATE) and not is_blank(figures[at])
        yield Target(f"{table}.{key}", placed.sheet, address(*at), figures[at], quantity)


def changed(target: Target) -> Edit:
    """A quantity gets one more; a place, a state or a text, which others look up, keeps its value."""
    return formula((lambda text: f"({text})+1") if target.quantity else (lambda text: f"IF(1>0,{text},{text})"))


def typed_over(target: Target) -> Edit:
    """A number in the place of a quantity; elsewhere the very value that the formula gave, or nothing for nothing."""
    if is_blank(target.value):
        return emptied
    return typed(target.value + 1 if target.quantity else target.value)


def poisoned(target: Target) -> Edit:
    return stored(7.0 if target.value != 7 else 8.0)


MUTATIONS: Final[dict[Kind, Callable[[Target], Edit]]] = {
    Kind.FORMULA_CHANGED: changed,
    Kind.TYPED_OVER: typed_over,
    Kind.STALE_RESULT: poisoned,
}


def causes(result: Verification) -> dict[tuple[str, str], Finding]:
    return {(finding.sheet, finding.cell): finding for finding in result.findings if finding.cause is None}


EACH: Final = [
    (Kind.FORMULA_CHANGED, "pocket", "us"), (Kind.TYPED_OVER, "pocket", "metric"),
    (Kind.FORMULA_CHANGED, "full", "metric"), (Kind.TYPED_OVER, "full", "us"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "site", "system"), others_thorough(EACH, EACH[:2]))
def test_what_is_changed_in_a_column_is_named_and_nothing_else(
    planners: Planners, kind: Kind, site: str, system: System, tmp_path: Path
) -> None:
    planner = planners.get(site, system)
    drawn = list(targets(planner))
    assert len(drawn) == sum(len(columns) for columns in planner.book.formulas.values())
    random.Random(kind).shuffle(drawn)  # noqa: S311
    check(planner, kind, drawn[::BATCHES], tmp_path)


@pytest.mark.parametrize("site", others_thorough(["pocket", "full"], ["pocket"]))
def test_a_poisoned_result_is_named_in_every_column(planners: Planners, site: str, tmp_path: Path) -> None:
    planner = planners.get(site, "metric")
    result = check(
        planner, Kind.STALE_RESULT, [one for one in targets(planner) if one.name != ".".join(CLOCK)], tmp_path
    )
    assert all(finding.cause is None for finding in result.findings)


def check(planner: Built, kind: Kind, drawn: list[Target], folder: Path) -> Verification:
    edits = {(target.sheet, target.cell): MUTATIONS[kind](target) for target in drawn}
    result = planner.verify(edited(planner.path, folder / "changed.xlsx", edits))
    found = causes(result)
    names = {(target.sheet, target.cell): target.name for target in drawn}
    assert [names[at] for at in names if at not in found] == []
    assert [found[at] for at in found if at not in names] == []
    gone = {(target.sheet, target.cell) for target in drawn if edits[target.sheet, target.cell] is emptied}
    assert {found[at].kind for at in names if at not in gone} == {kind}
    assert {found[at].kind for at in gone} <= {Kind.FORMULA_MISSING}
    for finding in result.findings:
        if finding.cause is not None:
            assert (finding.cause.sheet, finding.cause.cell) in names
    return result


def test_one_changed_cell_leads_to_all_that_follows_from_it(planners: Planners, tmp_path: Path) -> None:
    """A lawn's area is doubled in its formula: shares, rates and totals follow, and all point back to it."""
    planner = planners.get("pocket", "metric")
    lawns = planner.placed["lawns"]
    at = address(*lawns.cell("area", 0))
    result = planner.verify(
        edited(planner.path, tmp_path / "changed.xlsx", {("Lawns", at): formula(lambda text: f"({text})*2")})
    )
    assert list(causes(result)) == [("Lawns", at)]
    assert {finding.sheet for finding in result.findings} >= {"Lawns", "Diary", "Nutrients", "Mix"}
    first = result.findings[0] if result.findings[0].cause is None else causes(result)["Lawns", at]
    assert (first.kind, first.heading) == (Kind.FORMULA_CHANGED, lawns.column("area").heading)
    assert str(first.found).endswith(")*2")
    assert first.expected == str(first.found)[1:].removesuffix(")*2").replace("(", "=", 1)


def test_a_swapped_reference_is_a_changed_formula(planners: Planners, tmp_path: Path) -> None:
    planner = planners.get("pocket", "us")
    diary = planner.placed["diary"]
    at = address(*diary.cell("share_used", 3))
    water, left = (address(*diary.cell(key, 3)) for key in ("water", "left_over"))
    swap = formula(lambda text: text.replace(f"{left}/{water}", f"{water}/{left}"))
    found = causes(planner.verify(edited(planner.path, tmp_path / "changed.xlsx", {("Diary", at): swap})))
    assert [(at, finding.kind) for at, finding in found.items()] == [(("Diary", at), Kind.FORMULA_CHANGED)]
    assert f"{left}/{water}" in found["Diary", at].expected
