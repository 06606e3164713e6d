"""The pocket planner that verify's tests go by: it has what they look at, and nothing is wrong with it."""

from __future__ import annotations

from pathlib import Path

import pytest

from support.office import recalculate
from support.planners import SYSTEMS, Planners
from support.tier import others_thorough
from wbgen.sheets.column import System


@pytest.mark.parametrize("system", SYSTEMS)
def test_three_witnesses_agree(planners: Planners, system: System) -> None:
    pocket = planners.get("pocket", system)
    assert pocket.verified.findings == ()
    assert pocket.verified.witnesses == dict.fromkeys(("text", "engine", "model"), pocket.made.formula_cells) | {
        "cached": 0
    }
    assert pocket.made.formula_cells < 600


@pytest.mark.parametrize("system", others_thorough(SYSTEMS, ["us"]))
def test_a_spreadsheet_program_agrees_too(planners: Planners, system: System, tmp_path: Path) -> None:
    pocket = planners.get("pocket", system)
    result = pocket.verify(recalculate(pocket.path, tmp_path))
    assert result.findings == ()
    assert result.witnesses["cached"] == pocket.made.formula_cells


def test_it_has_each_kind_of_table_and_of_column(planners: Planners) -> None:
    book = planners.get("pocket", "metric").book
    tables = book.tables.values()
    columns = [column for table in tables for column in table.columns]
    assert {(table.direction, table.records == 1) for table in tables} >= {
        ("down", False), ("across", False), ("across", True),
    }  # fmt: skip
    assert all(any(getattr(table, key) for table in tables) for key in ("slots", "filter", "vanish", "note", "plain"))
    assert {(column.role, column.meaning.type) for column in columns} >= {
        (role, kind) for role in ("input", "formula") for kind in ("number", "text", "date")
    }
    assert any(column.accepts.choices for column in columns)
    assert any(column.meaning.running for column in columns)
    assert any(column.page.group for column in columns)
    assert any(column.page.note for column in columns)
    assert {"share", "date", "plain"} <= {column.look.show for column in columns}
    assert len(book.conversions) >= 2
