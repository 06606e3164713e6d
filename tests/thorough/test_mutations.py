"""Mutation testing of verify: every mutant that is planted in a file is named at its own cell, and nothing else is.

The quick tier plants one of a column in six of the metric planner, every table and operator among them; the thorough
one a third of all, and of those that change a formula with its value a fourteenth.
`python tests/thorough/test_mutations.py` plants every mutant of the metric planner, a seventh of the latter, and
prints the table of the operators with every survivor.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path
from random import Random
from typing import Final

import pytest

from support.planners import SYSTEMS
from support.shared import Shared
from support.tier import TIER, Recorder, others_thorough
from thorough.mutations.batches import Batch, batches, planner, scored
from thorough.mutations.broken import BROKEN
from thorough.mutations.operators import PUBLISHED
from thorough.mutations.poisons import POISONS
from thorough.mutations.report import report
from thorough.mutations.slips import COVERS, SLIPS
from wbgen.sheets.column import System
from wbgen.verify.verification import verify

LEAST: Final = 2000
"""So many mutants of the formulas of one system there are at the least where they are spread over files."""
FOLLOWED: Final = 0.1
"""The share of the mutants of a file that at the least have cells that follow from them."""
CALCULATED: Final = [
    one for one in batches("formulas") if one.number == 0 and (TIER.thorough or one.system == "metric")
]
"""The files that a spreadsheet program saves before they are verified."""


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("mutants")


@pytest.mark.parametrize("system", others_thorough(SYSTEMS, ["metric"]))
def test_nothing_is_found_where_nothing_is_planted(shared: Shared, system: System) -> None:
    """Else what is found among mutants would say nothing of them."""
    assert verify(planner(shared, system).path).findings == ()


@pytest.mark.parametrize("batch", batches("formulas"), ids=str)
def test_a_mutant_of_a_formula_is_named_and_nothing_else(
    shared: Shared, folder: Path, batch: Batch, record_property: Recorder
) -> None:
    told = scored(batch, shared, folder)
    record_property("mutants", len(told.planted))
    assert told.right, told.told()
    followed = {mutant.spot for mutant in told.planted} & told.followed
    assert len(followed) >= FOLLOWED * len(told.planted), told.told()


@pytest.mark.parametrize("batch", CALCULATED, ids=str)
def test_a_mutant_is_named_in_a_file_that_a_spreadsheet_program_saved(
    shared: Shared, folder: Path, batch: Batch, record_property: Recorder
) -> None:
    """Where the program and the engine calculate a mutant differently, values stored after it say so, and no more."""
    told = scored(batch, shared, folder, calculated=True)
    record_property("mutants saved by LibreOffice", len(told.planted))
    assert not told.survivors, told.told()
    assert {finding.kind for finding in told.blamed if finding.cause is None} <= {"stale result"}, told.told()


@pytest.mark.parametrize("batch", batches("values"), ids=str)
def test_a_value_stored_wrongly_is_named_and_nothing_else(
    shared: Shared, folder: Path, batch: Batch, record_property: Recorder
) -> None:
    told = scored(batch, shared, folder)
    record_property("mutants", len(told.planted))
    assert told.right, told.told()
    assert not told.followed, "a stored value is read by no formula"


@pytest.mark.parametrize("batch", batches("mixed"), ids=str)
def test_a_formula_changed_with_its_value_is_named_as_changed_and_nothing_else(
    shared: Shared, folder: Path, batch: Batch, record_property: Recorder
) -> None:
    """A value that was made to go with the change, or not, covers nothing and blames nobody else."""
    told = scored(batch, shared, folder)
    record_property("mutants", len(told.planted))
    assert told.right, told.told()
    assert all(mutant.held.value != mutant.was.value or mutant.held.type != mutant.was.type for mutant in told.planted)
    assert all(mutant.held.formula != mutant.was.formula for mutant in told.planted)


@pytest.mark.parametrize("system", others_thorough(SYSTEMS, ["metric"]))
def test_the_slip_that_takes_one_way_to_state_a_nutrient_for_the_other_is_planted(
    shared: Shared, system: System
) -> None:
    """P for P2O5 and K for K2O: the factors are the ratios of the molar masses."""
    from periodictable import formula

    for oxide, element, slip in (("P2O5", "P2", "slip: P for P₂O₅"), ("K2O", "K2", "slip: K for K₂O")):
        factor = f"{formula(oxide).mass / formula(element).mass:.4f}"
        planted = [one for one in planner(shared, system).mutants if one.operator == slip]
        assert len(planted) > 0.9 * sum(field.quantity for field in planner(shared, system).fields)
        assert all(factor in str(one.held.formula) for one in planted)


def test_a_formula_that_cannot_be_evaluated_is_named_and_does_no_harm(shared: Shared, folder: Path) -> None:
    known = planner(shared, "metric")
    fields = Random(len(BROKEN)).sample(known.fields, len(BROKEN))  # noqa: S311 - the same columns every time
    spots = [(field.sheet, field.places[0]) for field in fields]
    planted = {at: replace(known.stored.cell(*at), formula=text) for at, text in zip(spots, BROKEN, strict=True)}
    result = verify(known.stored.planted(folder / "broken.xlsx", planted))
    causes = {(one.sheet, one.cell): one.kind for one in result.findings if one.cause is None}
    assert causes == dict.fromkeys(spots, "formula changed")


@pytest.mark.parametrize("system", others_thorough(SYSTEMS, ["metric"]))
def test_every_column_has_mutants_and_every_operator_has_columns(shared: Shared, system: System) -> None:
    known = planner(shared, system)
    own = [batch for batch in batches("formulas") if batch.system == system]
    planted = [mutant for batch in own for mutant in batch.of(known)]
    assert {mutant.column for mutant in planted} == {f"{field.table}.{field.key}" for field in known.fields}
    assert {field.table for field in known.fields} == {field.table for field in known.every_field}
    operators = {mutant.operator for mutant in planted}
    assert operators >= PUBLISHED.keys() | COVERS.keys() | SLIPS.keys()
    assert len(planted) >= (LEAST if TIER.mutants == "spread" else len(known.fields))
    assert {mutant.operator for mutant in known.poisoned} == POISONS.keys()


if __name__ == "__main__":
    sys.exit(0 if report() else 1)
