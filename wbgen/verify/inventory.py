"""Every cell of a file that is not empty, accounted for: formulas, inputs, constants, labels, and spare cells.

What is the planner's is known from the templates and the places of its tables. What is nobody's is spare: a person's
own notes, which are counted and said, and never taken for the planner's figures.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from wbgen.files.findings import Finding
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
    """How many cells are of each kind, labels that were changed, and what is spare."""

    cells: Mapping[str, int]
    findings: tuple[Finding, ...]
    notices: tuple[Finding, ...]


Cells = dict[int, set[int]]
"""Rows that are taken, by column."""


def inventory(file: File, book: Book, placed: Mapping[str, Placed]) -> Inventory:
    """The inventory of all cells of a file whose tables were found."""
    counts = dict.fromkeys(("formulas", "inputs", "constants", "labels", "spare"), 0)
    findings: list[Finding] = []
    notices: list[Finding] = []
    taken: dict[str, Cells] = {}
    for one in placed.values():
        sheet = file.sheet(one.sheet) or SheetCells(one.sheet, False)
        for column in one.table.columns:
            counts[ROLES[column.role]] += _take(sheet, one, column.key, taken.setdefault(one.sheet, {}))
    for label in labels_in_file(book, placed, file.text_at):
        sheet = file.sheet(label.sheet) or SheetCells(label.sheet, False)
        counts["labels"] += _claim(sheet, label.row, label.column, taken[label.sheet])
        findings += _changed(sheet, label)
        findings += of_label(sheet, label, file)
    for sheet in file.sheets:
        findings += _covered(sheet, taken.get(sheet.name, {}))
        spare = list(_spare(sheet, taken.get(sheet.name, {})))
        counts["spare"] += len(spare)
        told = findings if sheet.name in taken else notices  # a sheet of one's own is one's own
        told += [*_copies(sheet, spare, placed), *_stray(sheet, spare)]
        notices += _said(sheet, spare)
    return Inventory(counts, tuple(findings), tuple(notices))


def _take(sheet: SheetCells, placed: Placed, key: str, taken: Cells) -> int:
    """Claim a column's cells; the number that are not empty."""
    if placed.table.direction == "down":
        at = placed.at[key]
        rows = taken.setdefault(at, set())
        formulas, values = sheet.content.formulas.get(at, {}), sheet.content.values.get(at, {})
        own = set(range(placed.first, placed.last + 1)) & (formulas.keys() | values.keys()) - rows
        rows |= own
        return len(own)
    return sum(_claim(sheet, *placed.cell(key, record), taken) for record in range(placed.count))


def _filled(sheet: SheetCells, row: int, column: int) -> bool:
    return sheet.value(row, column) is not None or sheet.formula(row, column) is not None


def _claim(sheet: SheetCells, row: int, column: int, taken: Cells) -> int:
    rows = taken.setdefault(column, set())
    if row in rows or not _filled(sheet, row, column):
        return 0
    rows.add(row)
    return 1


def _changed(sheet: SheetCells, label: Label) -> Iterator[Finding]:
    found = sheet.value(label.row, label.column)
    formula = sheet.formula(label.row, label.column)
    if formula is None and (label.text is None or found == label.text):
        return
    kind, what = "label changed", f"this {label.kind} is not what the planner came with"
    if label.kind == "unit":
        kind, what = "unit changed", "the figures here are in another unit than is printed"
    at = address(label.row, label.column)
    yield Finding(
        sheet.name, at, kind, found if formula is None else "=" + formula, label.text, what, None, label.heading
    )


def _covered(sheet: SheetCells, taken: Cells) -> Iterator[Finding]:
    """Cells of the planner that lie under merged ones: what they hold counts, and nobody sees it."""
    for top, left, bottom, right in sheet.content.merged:
        for column in range(left, right + 1):
            for row in sorted(
                taken.get(column, set()) & set(range(top, bottom + 1)) - ({top} if column == left else set())
            ):
                yield Finding(
                    sheet.name, address(row, column), "merged cells",
                    f"{address(top, left)}:{address(bottom, right)}", None,
                    "cells merged over this one hide what it holds",
                )  # fmt: skip


def _spare(sheet: SheetCells, taken: Cells) -> Iterator[tuple[int, int]]:
    formulas, values = sheet.content.formulas, sheet.content.values
    for column in sorted(formulas.keys() | values.keys()):
        rows = formulas.get(column, {}).keys() | values.get(column, {}).keys()
        for row in sorted(rows - taken.get(column, set())):
            yield row, column


def _stray(sheet: SheetCells, spare: Sequence[tuple[int, int]]) -> Iterator[Finding]:
    """Formulas outside every table: nothing the planner knows stands on them, and no witness looks at them."""
    for row, column in spare:
        formula = sheet.formula(row, column)
        if formula is not None:
            yield Finding(
                sheet.name, address(row, column), "stray formula", "=" + formula, None,
                "a formula of your own: nothing here checks it",
            )  # fmt: skip


def _copies(sheet: SheetCells, spare: Sequence[tuple[int, int]], placed: Mapping[str, Placed]) -> Iterator[Finding]:
    """Headings of a table outside it: figures below them would be taken for the planner's own."""
    texts = {at: value for at in spare if isinstance(value := sheet.value(*at), str)}
    for one in placed.values():
        headings = {column.heading for column in one.table.columns}
        hits = [at for at, text in texts.items() if text in headings]
        lines = Counter(row for row, _ in hits) + Counter()
        stands = Counter(column for _, column in hits)
        for at in hits:
            if max(lines[at[0]], stands[at[1]]) >= min(LIKE_A_TABLE, max(2, len(headings))):
                yield Finding(
                    sheet.name, address(*at), "copy of a table", texts[at], None,
                    f"headings of the table {one.table.title!r} stand here a second time, outside it",
                )  # fmt: skip
                break


def _said(sheet: SheetCells, spare: Sequence[tuple[int, int]]) -> Iterator[Finding]:
    for row, column in spare:
        value = sheet.value(row, column)
        if sheet.formula(row, column) is None and value not in (None, ""):
            yield Finding(
                sheet.name, address(row, column), "spare cell", value, None,
                "this is yours, not the planner's: nothing here checks it",
            )  # fmt: skip
