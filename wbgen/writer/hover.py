"""What a heading says while one points at it: of an input what it is, its unit and an example; of an answer what it is
worked out from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Final

from wbgen.sheets.book import Book, references
from wbgen.sheets.column import Column, System
from wbgen.sheets.layout import Placed
from wbgen.sheets.template import Sheet, Table
from wbgen.writer.data_validation import told_of
from wbgen.writer.font import lines_in
from wbgen.writer.styles import SMALL_SIZE

MOST_SOURCES: Final = 8
"""So many columns that an answer is worked out from are named; the others are counted."""
WIDE: Final = 256
"""Pixels of a note, twice what it has by itself."""
_HIGH: Final = 74
"""Pixels of a note's height that it has by itself."""
_LINE: Final = 15
"""Pixels of a line in a note."""

Sources = Mapping[tuple[str, str], tuple[str, ...]]


def sources_of(book: Book) -> Sources:
    """The headings that each answer is worked out from, by its table and key; those of other sheets say which."""
    home = {table.key: sheet for sheet in book.sheets for table in sheet.tables}
    columns = {(key, column.key): column for key, table in book.tables.items() for column in table.columns}

    def words(at: tuple[str, str], here: Sheet) -> str:
        sheet = home[at[0]]
        return columns[at].heading if sheet is here else f"{columns[at].heading} ({sheet.name})"

    order = {at: number for number, at in enumerate(columns)}
    return {
        at: tuple(dict.fromkeys(words(one, home[at[0]]) for one in sorted(found, key=order.__getitem__)))
        for at, found in references(book).items()
    }


def note_of(sheet: Sheet, placed: Placed, column: Column, unit: str, tables: Mapping[str, Placed],
            sources: Sources, system: System) -> str:  # fmt: skip
    """What a heading says; "" for one that says nothing: the workings have only what their template says."""
    note = column.page.note
    if column.role == "input":
        return told_of(column, unit, tables, system)
    if column.role == "constant" or not _in_front(sheet, placed, column):
        return note
    return " ".join(filter(None, (note, _worked_out(sources.get((placed.table.key, column.key), ())))))


def _in_front(sheet: Sheet, placed: Placed, column: Column) -> bool:
    """Whether a column is among what a person reads: not behind, not folded away, not beyond what is printed."""
    if sheet.part == "behind" or column.key in _folded(placed.table) or placed.table.standing:
        return False
    return not sheet.printed or placed.cell(column.key)[1] < sheet.printed


def _folded(table: Table) -> set[str]:
    return {key for _, keys in table.outlines for key in keys}


def _worked_out(sources: tuple[str, ...]) -> str:
    named = ", ".join(sources[:MOST_SOURCES])
    more = len(sources) - MOST_SOURCES
    return f"Worked out from: {named}{f' and {more} more' if more > 0 else ''}." if named else ""


def shape(text: str) -> dict[str, Any]:
    """How large a note is, as xlsxwriter takes it."""
    lines = sum(_lines(text))
    return {"font_name": "Arial", "font_size": SMALL_SIZE, "width": WIDE, "height": max(_HIGH / 2, _LINE * (lines + 1))}


def _lines(text: str) -> Iterator[int]:
    return (lines_in(part, WIDE * 0.9, SMALL_SIZE) for part in text.split("\n"))
