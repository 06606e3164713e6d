"""Cells that show something else than they hold: by their number format, by how they are aligned, by being merged."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from wbgen.files.findings import Finding
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.sheets.book import Book
from wbgen.sheets.labels import Label, unit_text
from wbgen.sheets.layout import Placed
from wbgen.sheets.number_format import number_format
from wbgen.verify.display.number_formats import Shown, shown
from wbgen.verify.labels import printed_currency

KIND: Final = "shown otherwise"
FILLED: Final = Shown("it repeats what the cell holds")
_Judged = tuple[str, str, str, str, str, Shown]


def findings(file: File, book: Book, placed: Mapping[str, Placed]) -> Iterator[Finding]:
    """Cells of the tables that show another figure or other words; the first of each stretch of a column."""
    for sheet, cell, code, wanted, heading, found in _judged(file, book, placed):
        if found.wrong:
            what = f"the cell shows something else than it holds: {found.wrong}"
            yield Finding(sheet, cell, KIND, code, wanted, what, None, heading)


def of_label(sheet: SheetCells, label: Label, file: File) -> Iterator[Finding]:
    """A label whose cell shows other words."""
    style = sheet.content.style(label.row, label.column)
    code = file.index.format_of(style)
    found = FILLED if style in file.index.filling else shown(code, "@")
    if found.wrong:
        what = f"this {label.kind} shows other words than it holds: {found.wrong}"
        yield Finding(sheet.name, address(label.row, label.column), KIND, code, None, what, None, label.heading)


def notices(file: File, book: Book, placed: Mapping[str, Placed]) -> Iterator[Finding]:
    """Columns that show fewer decimals, or less of a date: a person may want so."""
    for sheet, cell, code, wanted, heading, found in _judged(file, book, placed):
        if found.less:
            what = f"the cell shows {found.less} than the planner came with"
            yield Finding(sheet, cell, "fewer digits", code, wanted, what, None, heading)


def _judged(file: File, book: Book, placed: Mapping[str, Placed]) -> Iterator[_Judged]:
    """Sheet and cell where a stretch of one style begins, its format and the planner's, its heading, what it shows."""
    currency = printed_currency(book, placed, file.text_at)
    for one in placed.values():
        sheet = file.sheet(one.sheet)
        if sheet is None:
            continue
        for column in one.table.columns:
            wanted, unit = number_format(column, book.system), unit_text(column, book.system)
            ends = range(one.count) if one.table.direction == "across" else (0, one.count - 1)
            cells = [one.cell(column.key, record) for record in ends]
            for at in dict.fromkeys(at for _, at in cells):
                rows = [row for row, other in cells if other == at]
                for row, style in _stretches(sheet.content.styles.get(at, []), rows[0], rows[-1]):
                    code = file.index.format_of(style)
                    found = FILLED if style in file.index.filling else shown(code, wanted, unit, currency)
                    yield sheet.name, address(row, at), code, wanted, column.heading, found


def _stretches(styles: list[tuple[int, int]], first: int, last: int) -> Iterator[tuple[int, int]]:
    """Row and style where a stretch of one style begins, from `first` to `last`."""
    before = [style for row, style in styles if row <= first][-1:]
    yield from ((first, style) for style in before)
    yield from ((row, style) for row, style in styles if first < row <= last)
