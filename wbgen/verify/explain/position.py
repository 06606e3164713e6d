"""Finds the figure that a person means by "Mix!D53", or says what stands there instead."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from wbgen.files.diagnostics import Diagnostic, InputError, Place, did_you_mean, shown
from wbgen.files.xlsx.addresses import COLUMNS, ROWS, address, position_of
from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.sheets.book import Book
from wbgen.sheets.compile import quoted
from wbgen.sheets.labels import Label
from wbgen.sheets.layout import Placed
from wbgen.verify.labels import labels_in_file

Position = tuple[str, int, int]
"""Sheet, row and column, both from 0."""

_KINDS = {
    "title": "the title", "note": "a note", "group": "the heading of a group", "heading": "a heading",
    "slot": "a heading", "unit": "a printed unit", "closing": "the mark of a closing row",
    "link": "a link", "stub": "the name of folded columns",
}  # fmt: skip


@dataclass(frozen=True)
class Figure:
    """A cell of a table that holds a figure: the table, the column's key, and the record from 0."""

    placed: Placed
    key: str
    record: int


def figures(placed: Mapping[str, Placed]) -> dict[Position, Figure]:
    """Every cell of every table, by its position."""
    return {
        (table.sheet, *table.cell(column.key, record)): Figure(table, column.key, record)
        for table in placed.values()
        for column in table.table.columns
        for record in range(table.count)
    }


def no_figure(path: Path, found: str, expected: str, remedy: str) -> InputError:
    """The error for an address that cannot be explained."""
    return InputError(
        [Diagnostic("no-figure", Place(str(path)), expected, found, remedy, "there is nothing to explain")]
    )


def position_meant(text: str, file: File) -> Position:
    """The position of an address that a person wrote: "Mix!D53", "'Diary lines'!$B$7", "mix!d53".

    Raises InputError for anything else than one cell of a sheet of the file.
    """
    names = [sheet.name for sheet in file.sheets]
    listed = f"the sheets are: {', '.join(names)}"
    name, mark, cell = text.strip().rpartition("!")
    if ":" in text:
        raise no_figure(file.path, shown(text), "one cell, not a range", "explain one of its cells at a time")
    if not mark:
        more = f"name its sheet too, such as Mix!{cell}; " if position_of(cell.upper()) else ""
        raise no_figure(file.path, shown(text), "a sheet and a cell, such as Mix!D12", more + listed)
    sheet_name = name[1:-1].replace("''", "'") if len(name) > 1 and name[0] == name[-1] == "'" else name
    sheet = next((known for known in names if known.casefold() == sheet_name.casefold()), None)
    position = position_of(cell.strip().upper())
    if "!" in name or (sheet is not None and position is None):
        raise no_figure(
            file.path, shown(text), "one cell, such as Mix!D12, and nothing beside it",
            "explain one cell at a time; a calculation of your own has no history in the planner",
        )  # fmt: skip
    if sheet is None:
        raise no_figure(file.path, shown(sheet_name), "a sheet of the workbook", did_you_mean(sheet_name, names))
    row, column = position or (-1, -1)
    if row >= ROWS or column >= COLUMNS:
        raise no_figure(file.path, shown(text), "a cell of the sheet", "a sheet ends at XFD1048576")
    return sheet, row, column


def refused(position: Position, file: File, book: Book, placed: Mapping[str, Placed]) -> InputError:
    """The error for a cell without a figure of the planner: it says what stands there, and where a figure is."""
    name, row, column = position
    sheet = file.sheet(name) or SheetCells(name, False)
    tables = [table for table in placed.values() if table.sheet == name]
    what, remedy = "an empty cell", "choose a cell below a heading, or beside one"
    value = sheet.value(row, column)
    all_labels = labels_in_file(book, placed, file.text_at)
    label = next((label for label in all_labels if (label.sheet, label.row, label.column) == position), None)
    if not tables:
        what, remedy = "a cell of a sheet of your own", "choose a cell of one of the planner's sheets"
    elif label is not None:
        what, remedy = f"{_KINDS[label.kind]}, {shown(value)}", _first_figure(label, tables)
    elif sheet.formula(row, column) is not None:
        what, remedy = "a formula of your own", "wbgen knows only the planner's own formulas"
    elif value is not None:
        what = f"{shown(value)}, which is no figure of the planner"
    here = f"{quoted(name)}!{address(row, column)}"
    return no_figure(file.path, f"{here} is {what}", "a cell that holds a figure of the planner", remedy)


def _first_figure(label: Label, tables: list[Placed]) -> str:
    """Where the first figure of a labelled column is."""
    for table in tables:
        for column in table.table.columns:
            row, sheet_column = table.cell(column.key)
            if column.heading == label.heading and (sheet_column == label.column or row == label.row):
                return f"its first figure is {quoted(label.sheet)}!{address(row, sheet_column)}"
    return "choose a cell below a heading, or beside one"
