"""The labels of a file's tables where they stand now: rows and columns that a person inserted have moved some."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import replace
from typing import Final

from wbgen.inputs.locate import TextAt
from wbgen.sheets.book import Book
from wbgen.sheets.labels import Label, labels
from wbgen.sheets.layout import Placed
from wbgen.sheets.template import Sheet

FURTHEST: Final = 30
"""So many rows or columns a label is looked for away from its place."""


def labels_in_file(book: Book, placed: Mapping[str, Placed], text_at: TextAt) -> Iterator[Label]:
    """Every label of the tables that were found, in its place."""
    for sheet in book.sheets:
        tables = [placed[table.key] for table in sheet.tables if table.key in placed]
        if tables:
            yield from (
                one
                for label in _of_sheet(sheet, tables[-1])
                for one in _moved([label], "rows", text_at, {sheet.name, sheet.purpose})
            )
        for one in tables:
            yield from _settled(labels(sheet, one, book.system), one.table.direction == "across", text_at)


def printed_currency(book: Book, placed: Mapping[str, Placed], text_at: TextAt) -> str:
    """The currency that a file prints in its units, an ISO 4217 code; "" where it prints none."""
    money = (one for one in labels_in_file(book, placed, text_at) if one.kind == "unit" and one.text is None)
    return next((text_at(one.sheet, one.row, one.column).partition("/")[0] for one in money), "")


def _of_sheet(sheet: Sheet, below: Placed) -> Iterator[Label]:
    yield Label(below.sheet, 0, below.left, "title", sheet.name, sheet.name)
    yield Label(below.sheet, 1, below.left, "note", sheet.purpose, sheet.name)


def _settled(told: Iterable[Label], across: bool, text_at: TextAt) -> Iterator[Label]:
    """The labels of a table, those of one line moved together.

    They move over empty cells alone, so that a label that was changed is not excused by one like it elsewhere; a
    title, which stands above the other labels, moves over those of its own table too.
    """
    lines: dict[tuple[str, str, int], list[Label]] = {}
    own: set[str] = set()
    for label in told:
        own.add(label.text or "")
        sideways = label.kind == "closing" or (across and label.kind in ("unit", "note"))
        axis = "columns" if sideways else "rows"
        lines.setdefault((label.kind, axis, label.column if sideways else label.row), []).append(label)
    settled = [
        (line, axis, line if kind == "heading" else _moved(line, axis, text_at, own if kind == "title" else set()))
        for (kind, axis, _), line in lines.items()
    ]
    rows = [(before[0].row, after[0].row) for before, axis, after in settled if axis == "rows"]
    for before, axis, after in settled:
        yield from after if axis == "columns" or _in_order(before[0].row, after[0].row, rows) else before


def _in_order(row: int, now: int, rows: Iterable[tuple[int, int]]) -> bool:
    """Whether a line that moved from `row` to `now` still stands below the lines that were above it."""
    return all((other < row) == (place < now) and (other > row) == (place > now) for other, place in rows)


def _moved(line: Sequence[Label], axis: str, text_at: TextAt, over: Set[str]) -> Sequence[Label]:
    """The labels where one of them is found; on the way there may be only empty cells and the texts of `over`."""
    if _hits(line, text_at):
        return line
    for step in (1, -1):
        before: Sequence[Label] = line
        for away in range(step, step * FURTHEST, step):
            if any(text_at(one.sheet, one.row, one.column) not in ("", *over) for one in before):
                break
            here = [_away(one, axis, away) for one in line]
            if any(min(one.row, one.column) < 0 for one in here):
                break
            if _hits(here, text_at):
                return here
            before = here
    return line


def _away(label: Label, axis: str, by: int) -> Label:
    return replace(label, row=label.row + by) if axis == "rows" else replace(label, column=label.column + by)


def _hits(line: Sequence[Label], text_at: TextAt) -> bool:
    return any(one.text and text_at(one.sheet, one.row, one.column) == one.text for one in line)
