"""Texts where numbers and dates belong, as pasting brings them in: a finding each, and nothing else wrong."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import pytest

from support.edits import Edit, edited, typed, unstored
from support.planners import SYSTEMS, Built, Planners
from support.tier import others_thorough
from wbgen.files.findings import Kind
from wbgen.files.xlsx.addresses import address
from wbgen.sheets.column import System
from wbgen.verify.verification import verify

TABLES: Final = ("diary", "shelf", "scores")
"""The tables that are filled in through the year."""
ONLY: Final = {
    "lawns": ("walking_order", "typed_area"),
    "round": ("begin", "length"),
    "months": ("mean_temperature",),
    "recipes": ("brewing_time", "use_within", "extra"),
    "ingredients": ("mass", "volume"),
}
"""Columns of other tables. Without the batch of a recipe nothing is worked out of its ingredients."""
WORDS: Final = {"a handful": Kind.INPUT_NOT_VALID, "12.5": Kind.NUMBER_AS_TEXT, "1-04-2026": Kind.INPUT_NOT_VALID}
"""Texts, and the finding that each gives."""


def spots(planner: Built, table: str, key: str) -> list[tuple[str, str]]:
    placed = planner.placed[table]
    return [(placed.sheet, address(*placed.cell(key, record))) for record in range(planner.inputs.records[table])]


@pytest.mark.parametrize("system", others_thorough(SYSTEMS, ["us"]))
def test_a_text_for_a_number_is_found_and_spoils_nothing(planners: Planners, system: System, tmp_path: Path) -> None:
    """Each column of figures gets each text in a line of its own, and all of them stand together in one more."""
    planner = planners.get("full", system)
    edits: dict[tuple[str, str], Edit] = {(s, address(row, at)): unstored for s, row, at in planner.cells("formula")}
    told: dict[tuple[str, str], Kind] = {}
    columns = {table: planner.placed[table].table.columns for table in TABLES}
    wanted = {
        table: [c.key for c in of if c.role == "input" and c.meaning.type != "text"] for table, of in columns.items()
    }
    for table, figures in {**wanted, **ONLY}.items():
        for number, key in enumerate(figures):
            column = spots(planner, table, key)
            for turn, (words, kind) in enumerate(WORDS.items()):
                at = column[(1 + turn * len(figures) + number) % len(column)]
                edits[at], told[at] = typed(words), kind
            edits[column[0]], told[column[0]] = typed("all"), Kind.INPUT_NOT_VALID
    found = verify(edited(planner.path, tmp_path / "changed.xlsx", edits)).findings
    assert {(one.sheet, one.cell): one.kind for one in found} == told
    assert len(found) == len(told) > 50


def test_the_empty_text_is_nothing(planners: Planners, tmp_path: Path) -> None:
    """Some programs leave it where an empty result was pasted as a value."""
    planner = planners.get("full", "metric")
    edits: dict[tuple[str, str], Edit] = {(s, address(row, at)): unstored for s, row, at in planner.cells("formula")}
    for table in TABLES:
        for number, column in enumerate(planner.placed[table].table.columns):
            if column.role == "input":
                edits[spots(planner, table, column.key)[number]] = typed("")
    assert verify(edited(planner.path, tmp_path / "changed.xlsx", edits)).findings == ()
