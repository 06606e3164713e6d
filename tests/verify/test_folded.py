"""Columns that the templates fold away are the planner's own; any other hidden column is told."""

from __future__ import annotations

import re
import zipfile
from pathlib import Path

import pytest

from support.edits import edited, replaced, typed
from support.office import resave
from support.planners import Built, Planners
from thorough.mutations.planting import packed
from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address


@pytest.fixture
def planner(planners: Planners) -> Built:
    return planners.get("pocket", "metric")


def part(planner: Built) -> str:
    return f"xl/worksheets/sheet{planner.sheets.sheetnames.index('Products') + 1}.xml"


def hidden(found: tuple[Finding, ...]) -> list[str]:
    return [one.message for one in found if one.kind is Kind.HIDDEN_COLUMNS and one.sheet == "Products"]


def test_what_is_folded_away_is_the_planners_own_before_and_after_a_program_saved_it(
    planner: Built, tmp_path: Path
) -> None:
    ((words, first, last),) = planner.placed["products"].folded
    assert (words, last > first) == ("+ Workings", True)
    for path in (planner.path, resave(planner.path, tmp_path)):
        told = planner.verify(path)
        assert told.clean
        assert hidden(told.notices) == []
        assert not [one for one in told.notices if one.kind is Kind.SPARE_CELL]


def test_unfolded_columns_are_no_matter(planner: Built, tmp_path: Path) -> None:
    with zipfile.ZipFile(planner.path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    parts[part(planner)] = re.sub(rb' hidden="1"', b"", parts[part(planner)])
    told = planner.verify(packed(tmp_path / "open.xlsx", parts))
    assert told.clean
    assert hidden(told.notices) == []


def test_another_column_that_is_hidden_is_told(planner: Built, tmp_path: Path) -> None:
    old = '<col min="2" max="2"'
    path = replaced(planner.path, tmp_path / "hidden.xlsx", part(planner), old, f'{old} hidden="1"')
    assert hidden(planner.verify(path).notices) == ["columns are hidden: B to B"]


def test_other_words_on_a_stub_are_told_and_no_column_is_lost(planner: Built, tmp_path: Path) -> None:
    placed = planner.placed["products"]
    ((_, first, last),) = placed.folded
    stub = ("Products", address(placed.opening, last + 1))
    told = planner.verify(edited(planner.path, tmp_path / "stub.xlsx", {stub: typed("+ Play")}))
    assert [(one.cell, one.kind) for one in told.findings] == [(stub[1], Kind.LABEL_CHANGED)]
    heading = ("Products", address(placed.opening, first))
    told = planner.verify(edited(planner.path, tmp_path / "heading.xlsx", {heading: typed("Elsewhere")}))
    assert [(one.cell, one.kind) for one in told.findings] == [(heading[1], Kind.LABEL_CHANGED)]
