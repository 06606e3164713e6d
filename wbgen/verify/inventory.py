"""Counts every cell of a file that is not empty as a formula, an input, a constant, a label or a spare cell.

Which cells are the planner's is known from the templates and from where its tables stand. All others are spare: notes
of the user's own, which are counted and named, and never taken for the planner's figures.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.sheets.book import Book
from wbgen.sheets.labels import Label
from wbgen.sheets.layout import Placed
from wbgen.verify.display.cells import of_label
from wbgen.verify.labels import labels_in_file

ROLES = {"formula": "formulas", "input": "inputs", "constant": "constants"}
LIKE_A_TABLE = 3
"""So many headings of one table beside each other outside it are taken for a copy of it; of a smaller table all of
them, but never one alone, which is a word that may stand anywhere."""


@dataclass(frozen=True)
class Inventory:
    """How many cells are of each kind; labels that were changed, merged cells, and spare cells."""

    cells: Mapping[str, int]
    findings: tuple[Finding, ...]


Cells = dict[int, set[int]]
"""Rows that are taken, by column."""


def inventory_of(file: File, book: Book, placed: Mapping[str, Placed]) -> Inventory:
    """The inventory of all cells of a file whose tables were found."""
    counts = dict.fromkeys(("formulas", "inputs", "constants", "labels", "spare"), 0)
    findings: list[Finding] = []
    taken: dict[str, Cells] = {}
    for placed_table in placed.values():
        sheet = file.sheet(placed_table.sheet) or SheetCells(placed_table.sheet, False)
        cells = taken.setdefault(placed_table.sheet, {})
        for column in placed_table.table.columns:
            counts[ROLES[column.role]] += _take_column(sheet, placed_table, column.key, cells)
    for label in labels_in_file(book, placed, file.text_at):
        sheet = file.sheet(label.sheet) or SheetCells(label.sheet, False)
        counts["labels"] += _take_cell(sheet, label.row, label.column, taken[label.sheet])
        findings += _changed_label(sheet, label)
        findings += of_label(sheet, label, file)
    for sheet in file.sheets:
        findings += _merged_over(sheet, taken.get(sheet.name, {}))
        spare = list(_spare(sheet, taken.get(sheet.name, {})))
        counts["spare"] += len(spare)
        findings += [*_copies(sheet, spare, placed), *_stray_formulas(sheet, spare), *_spare_values(sheet, spare)]
    return Inventory(counts, tuple(findings))


def _take_column(sheet: SheetCells, placed: Placed, key: str, taken: Cells) -> int:
    """Take a column's cells that are not empty and were not taken before; their number."""
    if placed.table.direction == "down":
        column = placed.at[key]
        rows = taken.setdefault(column, set())
        formulas, values = sheet.content.formulas.get(column, {}), sheet.content.values.get(column, {})
        own = set(range(placed.first, placed.last + 1)) & (formulas.keys() | values.keys()) - rows
        rows |= own
        return len(own)
    return sum(_take_cell(sheet, *placed.cell(key, record), taken) for record in range(placed.count))


def _filled(sheet: SheetCells, row: int, column: int) -> bool:
    return sheet.value(row, column) is not None or sheet.formula(row, column) is not None


def _take_cell(sheet: SheetCells, row: int, column: int, taken: Cells) -> int:
    rows = taken.setdefault(column, set())
    if row in rows or not _filled(sheet, row, column):
        return 0
    rows.add(row)
    return 1


def _changed_label(sheet: SheetCells, label: Label) -> Iterator[Finding]:
    found = sheet.value(label.row, label.column)
    formula = sheet.formula(label.row, label.column)
    if formula is None and (label.text is None or found == label.text):
        return
    kind, message = Kind.LABEL_CHANGED, f"this {label.kind} is not what the planner came with"
    if label.kind == "unit":
        kind, message = Kind.UNIT_CHANGED, "the figures here are in another unit than is printed"
    cell = address(label.row, label.column)
    text = found if formula is None else "=" + formula
    yield Finding(sheet.name, cell, kind, text, label.text, message, None, label.heading)


def _merged_over(sheet: SheetCells, taken: Cells) -> Iterator[Finding]:
    """Cells of the planner that lie under merged ones: what they hold counts and is not seen."""
    for top, left, bottom, right in sheet.content.merged:
        for column in range(left, right + 1):
            hidden = set(range(top, bottom + 1)) - ({top} if column == left else set())
            for row in sorted(taken.get(column, set()) & hidden):
                yield Finding(
                    sheet.name, address(row, column), Kind.MERGED_CELLS,
                    f"{address(top, left)}:{address(bottom, right)}", None,
                    "cells merged over this one hide what it holds",
                )  # fmt: skip


def _spare(sheet: SheetCells, taken: Cells) -> Iterator[tuple[int, int]]:
    formulas, values = sheet.content.formulas, sheet.content.values
    for column in sorted(formulas.keys() | values.keys()):
        rows = formulas.get(column, {}).keys() | values.get(column, {}).keys()
        for row in sorted(rows - taken.get(column, set())):
            yield row, column


def _stray_formulas(sheet: SheetCells, spare: Sequence[tuple[int, int]]) -> Iterator[Finding]:
    """Formulas outside every table: no figure of the planner depends on them, and no witness looks at them."""
    for row, column in spare:
        formula = sheet.formula(row, column)
        if formula is not None:
            yield Finding(
                sheet.name, address(row, column), Kind.STRAY_FORMULA, "=" + formula, None,
                "a formula of your own: nothing here checks it",
            )  # fmt: skip


def _copies(sheet: SheetCells, spare: Sequence[tuple[int, int]], placed: Mapping[str, Placed]) -> Iterator[Finding]:
    """Headings of a table outside it: figures below them would be taken for the planner's own."""
    texts = {cell: value for cell in spare if isinstance(value := sheet.value(*cell), str)}
    for placed_table in placed.values():
        headings = {column.heading for column in placed_table.table.columns}
        hits = [cell for cell, text in texts.items() if text in headings]
        in_row = Counter(row for row, _ in hits)
        in_column = Counter(column for _, column in hits)
        for row, column in hits:
            if max(in_row[row], in_column[column]) >= min(LIKE_A_TABLE, max(2, len(headings))):
                yield Finding(
                    sheet.name, address(row, column), Kind.TABLE_COPY, texts[row, column], None,
                    f"headings of the table {placed_table.table.title!r} stand here a second time, outside it",
                )  # fmt: skip
                break


def _spare_values(sheet: SheetCells, spare: Sequence[tuple[int, int]]) -> Iterator[Finding]:
    for row, column in spare:
        value = sheet.value(row, column)
        if sheet.formula(row, column) is None and value not in (None, ""):
            yield Finding(
                sheet.name, address(row, column), Kind.SPARE_CELL, value, None,
                "this is yours, not the planner's: nothing here checks it",
            )  # fmt: skip
