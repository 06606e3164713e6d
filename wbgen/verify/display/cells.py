"""Cells that show something else than they hold: by their number format, by how they are aligned, by being merged."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.sheets.book import Book
from wbgen.sheets.labels import Label
from wbgen.sheets.layout import Placed
from wbgen.sheets.template import Column
from wbgen.verify.display.number_formats import fewer_digits, misleading, misleading_words
from wbgen.verify.labels import printed_currency

FILLED: Final = "it repeats what the cell holds"


def findings(file: File, book: Book, placed: Mapping[str, Placed]) -> Iterator[Finding]:
    """Cells of the tables that show another figure or other words; the first of each stretch of a column."""
    currency = printed_currency(book, placed, file.text_at)
    for one in placed.values():
        for sheet, column, at, row, style in _styles(file, one):
            code = file.index.format_of(style)
            why = FILLED if style in file.index.filling else misleading(code, column, book.system, currency)
            if why:
                what = f"the cell shows something else than it holds: {why}"
                yield Finding(
                    sheet.name, address(row, at), Kind.SHOWN_OTHERWISE, code, None, what, None, column.heading
                )


def of_label(sheet: SheetCells, label: Label, file: File) -> Iterator[Finding]:
    """A label whose cell shows other words."""
    style = sheet.content.style(label.row, label.column)
    code = file.index.format_of(style)
    why = FILLED if style in file.index.filling else misleading_words(code)
    if why:
        what = f"this {label.kind} shows other words than it holds: {why}"
        yield Finding(
            sheet.name, address(label.row, label.column), Kind.SHOWN_OTHERWISE, code, None, what, None, label.heading
        )


def notices(file: File, book: Book, placed: Mapping[str, Placed]) -> Iterator[Finding]:
    """Columns that show fewer decimals, or dates without a year: a person may want so."""
    for one in placed.values():
        for sheet, column, at, row, style in _styles(file, one):
            code = file.index.format_of(style)
            if fewer_digits(code, column, book.system):
                what = "the cell shows fewer decimals, or less of a date, than the planner came with"
                yield Finding(sheet.name, address(row, at), Kind.FEWER_DIGITS, code, None, what, None, column.heading)


def _styles(file: File, placed: Placed) -> Iterator[tuple[SheetCells, Column, int, int, int]]:
    """Sheet, column of the table, sheet column, row and style, where a stretch of one style begins."""
    sheet = file.sheet(placed.sheet)
    if sheet is None:
        return
    for column in placed.table.columns:
        ends = range(placed.count) if placed.table.direction == "across" else (0, placed.count - 1)
        rows: dict[int, list[int]] = {}
        for row, at in (placed.cell(column.key, record) for record in ends):
            rows.setdefault(at, []).append(row)
        for at, held in rows.items():
            for row, style in _stretches(sheet.content.styles.get(at, []), held[0], held[-1]):
                yield sheet, column, at, row, style


def _stretches(styles: list[tuple[int, int]], first: int, last: int) -> Iterator[tuple[int, int]]:
    """Row and style where a stretch of one style begins, from `first` to `last`."""
    before = None
    for row, style in styles:
        if row > last:
            break
        if row < first:
            before = style
            continue
        if before is not None and row > first:
            yield first, before
        before = None
        yield row, style
    if before is not None:
        yield first, before
