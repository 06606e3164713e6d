"""Finds the labels of a file's tables where they stand now: rows and columns that were inserted have moved some."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import replace
from typing import Final

from wbgen.inputs.locate import TextAt
from wbgen.sheets.book import Book
from wbgen.sheets.labels import Kind, Label, labels
from wbgen.sheets.layout import Placed
from wbgen.sheets.template import Sheet

FURTHEST: Final = 30
"""So many rows or columns from where the template has it a label is looked for."""
WIDEST: Final = 200
"""So many columns the head of a sheet is looked for in."""


def labels_in_file(book: Book, placed: Mapping[str, Placed], text_at: TextAt) -> Iterator[Label]:
    """Every label of the tables that were found, where it stands in the file."""
    for sheet in book.sheets:
        tables = [placed[table.key] for table in sheet.tables if table.key in placed]
        if tables:
            leftmost = min(reversed(tables), key=lambda one: one.left)
            yield from _head(sheet, leftmost, text_at)
        for table in tables:
            yield from _settled(labels(sheet, table, book.system), table.table.direction == "across", text_at)


def printed_currency(book: Book, placed: Mapping[str, Placed], text_at: TextAt) -> str:
    """The currency that a file prints in its units, an ISO 4217 code; "" where it prints none."""
    for label in labels_in_file(book, placed, text_at):
        if label.kind == "unit" and label.text is None:
            return text_at(label.sheet, label.row, label.column).partition("/")[0]
    return ""


def _head(sheet: Sheet, below: Placed, text_at: TextAt) -> Iterator[Label]:
    """The title of a sheet, and the row below it: its links from left to right, then what it is for."""
    title = Label(below.sheet, 0, below.left, "title", sheet.name, sheet.name)
    (title,) = _moved([title], "rows", text_at, {sheet.name, sheet.purpose})
    yield title
    said = (*sheet.links, sheet.purpose)
    texts = _head_row(said, below.sheet, title.row + 1, text_at)
    row = min((row for row, _ in texts), default=title.row + 1)
    own = {text: column for (_, column), text in reversed(texts.items())}
    others = iter(column for (_, column), text in texts.items() if text not in said)
    for step, text in enumerate(said):
        column = own.get(text)
        kind: Kind = "note" if text == sheet.purpose else "link"
        place = next(others, below.left + step) if column is None else column
        yield Label(below.sheet, row, place, kind, text, sheet.name)


def _head_row(said: Sequence[str], sheet: str, first: int, text_at: TextAt) -> dict[tuple[int, int], str]:
    """The texts of the first row from `first` on that has one of those said, by row and column; of `first` if none."""
    before: dict[tuple[int, int], str] = {}
    for row in range(first, first + FURTHEST):
        found = ((row, column, text_at(sheet, row, column)) for column in range(WIDEST))
        texts = {(row, column): text for row, column, text in found if text}
        if not set(texts.values()).isdisjoint(said):
            return texts
        before = before or (texts if row == first else {})
    return before


def _settled(expected: Iterable[Label], across: bool, text_at: TextAt) -> Iterator[Label]:
    """The labels of a table, those of one line moved together.

    They move over empty cells alone, so that a label that was changed is not excused by one like it elsewhere; a
    title, which stands above the other labels, moves over those of its own table too.
    """
    lines: dict[tuple[str, str, int], list[Label]] = {}
    own: set[str] = set()
    for label in expected:
        own.add(label.text or "")
        sideways = label.kind in ("closing", "stub") or (across and label.kind in ("unit", "note"))
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
    return all((before < row) == (after < now) and (before > row) == (after > now) for before, after in rows)


def _moved(line: Sequence[Label], axis: str, text_at: TextAt, passable: Set[str]) -> Sequence[Label]:
    """The labels where one of them is found; on the way there may be only empty cells and the texts of `passable`."""
    if _found(line, text_at):
        return line
    for step in (1, -1):
        before: Sequence[Label] = line
        for away in range(step, step * FURTHEST, step):
            if any(text_at(label.sheet, label.row, label.column) not in ("", *passable) for label in before):
                break
            here = [_shifted(label, axis, away) for label in line]
            if any(min(label.row, label.column) < 0 for label in here):
                break
            if _found(here, text_at):
                return here
            before = here
    return line


def _shifted(label: Label, axis: str, by: int) -> Label:
    return replace(label, row=label.row + by) if axis == "rows" else replace(label, column=label.column + by)


def _found(line: Sequence[Label], text_at: TextAt) -> bool:
    return any(label.text and text_at(label.sheet, label.row, label.column) == label.text for label in line)
