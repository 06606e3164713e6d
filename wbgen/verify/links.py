"""Looks at where the planner's own links lead: each to the sheet that it names, or to a line of one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from wbgen.files.accepted_values import as_read
from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.references import area_of
from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.sheets.book import Book
from wbgen.sheets.compile import Heading
from wbgen.sheets.layout import Placed
from wbgen.verify.labels import labels_in_file

Place = tuple[str, int, int, str]
"""Sheet, row, column, and the name of the template's sheet that stands there."""
HEADING: Final = "Links"


def findings(file: File, book: Book, placed: Mapping[str, Placed]) -> Iterator[Finding]:
    """Links that lead elsewhere than they say, and those that lead nowhere any more."""
    in_file = {
        as_read(sheet.name): placed[table.key].sheet
        for sheet in book.sheets for table in sheet.tables if table.key in placed
    }  # fmt: skip
    links = {sheet.name: _links_of(sheet) for sheet in file.sheets}
    yield from _to_lines(file, book, placed)
    for name, row, column, said in (*_at_the_head(file, book, placed), *_in_tables(file, placed)):
        wanted = in_file.get(as_read(said))
        location = links.get(name, {}).get((row, column))
        area = area_of(location.removeprefix("#"), name) if location else None
        if wanted is None or (area is not None and as_read(area.sheet) == as_read(wanted)):
            continue
        if location is None:
            kind, what = Kind.LINK_LOST, "these words lead nowhere any more"
        elif area is not None and file.sheet(area.sheet) is None:
            kind, what = Kind.LINK_LOST, "this link leads to a sheet that is not there"
        else:
            kind, what = Kind.LINK_CHANGED, "this link leads elsewhere than it says"
        yield Finding(name, address(row, column), kind, location or None, f"{wanted}!A1", what, None, HEADING)


def _to_lines(file: File, book: Book, placed: Mapping[str, Placed]) -> Iterator[Finding]:
    """Formulas with a link to a sheet that has another name now: in a text no program changes it."""
    built = {table.key: sheet.name for sheet in book.sheets for table in sheet.tables}
    for table, formulas in book.pieces.items():
        for key, pieces in formulas.items():
            for to in sorted({piece.name.table for piece in pieces if isinstance(piece, Heading)}):
                if table not in placed or to not in placed or as_read(placed[to].sheet) == as_read(built[to]):
                    continue
                home, there = placed[table], file.sheet(built[to])
                what = "a sheet that is not there" if there is None else "another sheet than its own"
                yield Finding(
                    home.sheet, address(*home.cell(key)), Kind.LINK_LOST if there is None else Kind.LINK_CHANGED,
                    f"#{built[to]}", f"#{placed[to].sheet}", f"this link leads to {what}", None, HEADING,
                )  # fmt: skip


def _at_the_head(file: File, book: Book, placed: Mapping[str, Placed]) -> Iterator[Place]:
    for label in labels_in_file(book, placed, file.text_at):
        if label.kind == "link" and file.text_at(label.sheet, label.row, label.column) == label.text:
            yield label.sheet, label.row, label.column, label.text


def _in_tables(file: File, placed: Mapping[str, Placed]) -> Iterator[Place]:
    for one in placed.values():
        for column in one.table.columns:
            for record in range(one.count) if column.look.style == "link" else ():
                row, at = one.cell(column.key, record)
                yield one.sheet, row, at, file.text_at(one.sheet, row, at)


def _links_of(sheet: SheetCells) -> dict[tuple[int, int], str]:
    """Where the links of a sheet lead, by their cells; "" for one that leads out of the file."""
    found = {}
    for cells, location in sheet.content.links:
        area = area_of(cells, sheet.name)
        if area is not None:
            found[area.top, area.left] = location
    return found
