"""Links at the head of a sheet and in its tables lead where they say, or it is told."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import pytest

from support.edits import edited, replaced, typed
from support.office import resave
from support.planners import Built, Planners
from wbgen.files.findings import Kind
from wbgen.verify.labels import labels_in_file

LINK: Final = '<hyperlink ref="C2" location="Card!A1"'
CHANGES: Final = {
    "to another sheet": ('location="Mix!A1"', Kind.LINK_CHANGED),
    "out of the file": ('r:id="rId1"', Kind.LINK_CHANGED),
    "to no cells": ('location="see_below"', Kind.LINK_CHANGED),
    "to a sheet that is not there": ('location="Garden!A1"', Kind.LINK_LOST),
    "to another cell of the sheet": ('location="Card!B20"', None),
}


@pytest.fixture
def planner(planners: Planners) -> Built:
    return planners.get("pocket", "metric")


def part(planner: Built) -> str:
    return f"xl/worksheets/sheet{planner.sheets.sheetnames.index('Lawns') + 1}.xml"


@pytest.mark.parametrize("change", CHANGES)
def test_a_link_that_leads_elsewhere_is_told(planner: Built, change: str, tmp_path: Path) -> None:
    target, kind = CHANGES[change]
    path = replaced(planner.path, tmp_path / "led.xlsx", part(planner), 'location="Card!A1"', target)
    told = planner.verify(path)
    assert [(one.sheet, one.cell, one.kind) for one in told.findings] == (
        [("Lawns", "C2", kind)] if kind is Kind.LINK_CHANGED else []
    )
    assert ("C2" in [one.cell for one in told.notices if one.kind is Kind.LINK_LOST]) == (kind is Kind.LINK_LOST)


def test_words_without_their_link_are_told(planner: Built, tmp_path: Path) -> None:
    path = replaced(planner.path, tmp_path / "lost.xlsx", part(planner), LINK, LINK.replace("C2", "Z99"))
    told = planner.verify(path)
    assert told.clean
    assert ("Lawns", "C2", Kind.LINK_LOST) in [(one.sheet, one.cell, one.kind) for one in told.notices]


def test_other_words_in_the_place_of_a_link_are_told(planner: Built, tmp_path: Path) -> None:
    told = planner.verify(edited(planner.path, tmp_path / "word.xlsx", {("Lawns", "C2"): typed("Map")}))
    assert [(one.cell, one.kind, one.expected) for one in told.findings] == [("C2", Kind.LABEL_CHANGED, "Card")]


def test_links_are_the_planners_own_before_and_after_a_program_saved_them(planner: Built, tmp_path: Path) -> None:
    assert {Kind.LINK_LOST, Kind.SPARE_CELL}.isdisjoint(one.kind for one in planner.verify(planner.path).notices)
    saved = planner.verify(resave(planner.path, tmp_path))
    assert saved.clean
    assert {Kind.LINK_LOST, Kind.SPARE_CELL}.isdisjoint(one.kind for one in saved.notices)


def test_the_row_of_links_is_found_where_rows_and_columns_were_inserted(planner: Built) -> None:
    def text_at(sheet: str, row: int, column: int) -> str:
        if row in (1, 2) or column == 2:
            return ""
        row, column = row - 2 * (row > 2), column - (column > 2)
        return planner.file.text_at(sheet, row, column)

    told = labels_in_file(planner.book, {"lawns": planner.placed["lawns"]}, text_at)
    head = [(one.text, one.row, one.column) for one in told if one.kind == "link"]
    assert head == [("Start", 3, 1), ("Card", 3, 3)]
