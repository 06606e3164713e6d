"""Labels are followed where rows and columns were inserted, and never excuse one that was changed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

import pytest

from support.papers import paper
from wbgen.sheets.labels import Label
from wbgen.verify.labels import FURTHEST, labels_in_file

Cells = dict[tuple[str, int, int], str]
PAPER: Final = paper("metric")


def as_built() -> Cells:
    """Every label where the templates set it."""
    told = labels_in_file(PAPER.book, PAPER.placed, lambda *_: "")
    return {(one.sheet, one.row, one.column): one.text or "€" for one in told}


def off(cells: Mapping[tuple[str, int, int], str], table: str | None = None) -> set[str]:
    """The texts of labels, of one table or all, that do not stand where they are looked for."""
    placed = PAPER.placed if table is None else {table: PAPER.placed[table]}

    def text_at(sheet: str, row: int, column: int) -> str:
        return cells.get((sheet, row, column), "")

    told = labels_in_file(PAPER.book, placed, text_at)
    return {one.text for one in told if one.text and text_at(one.sheet, one.row, one.column) != one.text}


def of_kind(table: str, kind: str) -> list[Label]:
    one = PAPER.placed[table]
    told = labels_in_file(PAPER.book, {table: one}, lambda *_: "")
    return [label for label in told if label.kind == kind and label.row > 1 and label.text]


def moved(cells: Cells, labels: list[Label], rows: int, columns: int) -> Cells:
    here = {(one.sheet, one.row, one.column): one.text or "" for one in labels}
    rest = {at: text for at, text in cells.items() if at not in here}
    return rest | {(sheet, row + rows, column + columns): text for (sheet, row, column), text in here.items()}


def test_a_label_stands_where_the_templates_set_it() -> None:
    assert off(as_built()) == set()


def test_titles_that_were_exchanged_are_both_off() -> None:
    """Tables with the same headings differ by their titles alone."""
    cells = as_built()
    (one,), (other,) = of_kind("season_applied", "title"), of_kind("season_left", "title")
    cells[one.sheet, one.row, one.column] = other.text or ""
    cells[other.sheet, other.row, other.column] = one.text or ""
    assert off(cells) == {one.text, other.text}


def test_units_that_stand_above_their_title_are_off() -> None:
    """They would be read as those of the table before."""
    labels = of_kind("season_applied", "unit")
    (title,) = of_kind("season_applied", "title")
    assert {one.text for one in labels} <= off(moved(as_built(), labels, title.row - 1 - labels[0].row, 0))


MOVES: Final = {
    "units of a form, by a column": ("settings", "unit", 0, 1),
    "units of a form, by two columns": ("settings", "unit", 0, 2),
    "notes of a form, by a column": ("start", "note", 0, 1),
    "a title, by three rows": ("diary", "title", -3, 0),
}


@pytest.mark.parametrize("name", MOVES)
def test_a_line_of_labels_that_moved_together_is_found(name: str) -> None:
    table, kind, rows, columns = MOVES[name]
    labels = of_kind(table, kind)
    alone = {(one.sheet, one.row, one.column): one.text or "" for one in labels}
    assert {one.text for one in labels} & off(moved(alone, labels, rows, columns), table) == set()


def test_a_label_that_was_changed_is_not_excused_by_one_like_it_elsewhere() -> None:
    labels = of_kind("settings", "unit")
    cells = as_built()
    for one in labels:
        cells[one.sheet, one.row, one.column] = "something"
        cells[one.sheet, one.row, one.column + 1] = one.text or ""
    assert {one.text for one in labels} <= off(cells)


def test_one_label_that_was_changed_leaves_its_line_where_it_is() -> None:
    first, *others = of_kind("settings", "unit")
    cells = moved(as_built(), [first], 0, 1)
    assert {one.text for one in others} - {first.text} & off(cells) == set()
    assert first.text in off(cells)


def test_a_label_is_not_looked_for_without_end() -> None:
    labels = of_kind("settings", "unit")
    assert {one.text for one in labels} <= off(moved(as_built(), labels, 0, FURTHEST + 1))
