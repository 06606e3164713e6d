"""Recompute every formula cell of a workbook and say where the witnesses disagree, and why."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from wbgen import engine, places
from wbgen.causes import follow
from wbgen.finding import Disagreement, Spot
from wbgen.inputs import NOT_YET, Inputs
from wbgen.openxml import UnsafeFile
from wbgen.reader import File, read
from wbgen.returned import Returned, address, inputs_of, stored_value, tables_in
from wbgen.rows import serial
from wbgen.sheets.book import Book, compile_book, prove_book, read_sheets
from wbgen.sheets.found import Found
from wbgen.sheets.template import System
from wbgen.today import today as day_of_use
from wbgen.witnesses import ColumnWitnesses, cells, gather, is_blank, normalised, same

UNITS_CELL = ("start", "units")


@dataclass(frozen=True)
class Verification:
    """What verify found. `counts` has the formula cells and how many each witness spoke of."""

    path: Path
    findings: tuple[Disagreement, ...]
    counts: Mapping[str, int]
    witnesses: tuple[str, ...]
    today: float

    @property
    def clean(self) -> bool:
        return not self.findings


@dataclass(frozen=True)
class Opened:
    """A workbook as verify and explain see it."""

    file: File
    book: Book
    returned: Returned
    columns: Mapping[tuple[str, str], ColumnWitnesses]
    recalculated: bool

    @property
    def inputs(self) -> Inputs:
        return self.returned.inputs


def verify(path: Path) -> Verification:
    """Verify a workbook that wbgen built. Raises UnsafeFile where the file is refused or is no such workbook."""
    file = read(path)
    book = book_of(file)
    found = tables_in(file, book)
    unusual = [*_notes(file), *_lost(found)]
    if found.lost:
        return Verification(path, tuple(unusual), {"formula cells": 0}, (), 0.0)
    opened = open_tables(file, book, found)
    stray = _stray(file, opened.columns)
    findings = [*unusual, *opened.returned.findings, *stray, *judged(opened)]
    number = sum(len(column.cells) for column in opened.columns.values())
    witnesses = ("text", "engine", "model", *(("cached",) if opened.recalculated else ()))
    counts = {"formula cells": number} | dict.fromkeys(("text", "engine", "model"), number)
    counts["cached"] = number if opened.recalculated else 0
    return Verification(path, tuple(findings), counts, witnesses, opened.inputs.today)


def book_of(file: File) -> Book:
    """The templates in the system of units of a file. Raises UnsafeFile where it is not wbgen's workbook."""
    sheets = read_sheets(places.templates())
    systems: tuple[System, ...] = ("metric", "us")
    book = prove_book(sheets, systems[0])
    placed = tables_in(file, book).placed
    if "start" not in placed:
        raise UnsafeFile(
            "not-a-planner", "a workbook that wbgen built", "none of its tables",
            "give the planner itself, or build one with wbgen build",
        )  # fmt: skip
    sheet = file.sheet(placed["start"].sheet)
    cell = sheet.cells.get(placed["start"].cell(UNITS_CELL[1])) if sheet else None
    named = str(cell.value) if cell else ""
    return prove_book(sheets, systems[1]) if named == systems[1] else book


def open_tables(file: File, book: Book, found: Found) -> Opened:
    """The witnesses of every computed column of a file in which every table was found."""
    returned = inputs_of(file, book, found)
    today = returned.inputs.today or serial(day_of_use())
    inputs = replace(returned.inputs, today=today)
    returned = replace(returned, inputs=inputs)
    extents = {
        sheet.name: (max((r for r, _ in sheet.cells), default=-1) + 1, max((c for _, c in sheet.cells), default=-1) + 1)
        for sheet in file.sheets
    }
    values = engine.evaluate(file.path, extents, today)
    columns = gather(book, file, found.placed, compile_book(book, found.placed), values, inputs)
    canary = stored_value(file, found, "start", "recalculated")
    return Opened(file, book, returned, columns, canary not in (None, "", NOT_YET))


def judged(opened: Opened) -> list[Disagreement]:
    """A finding for each formula cell whose witnesses disagree, with the cell that it follows from."""
    any_stored = any(
        value is not None and text is not None
        for column in opened.columns.values()
        for value, text in zip(column.stored, column.texts, strict=True)
    )
    found: dict[Spot, Disagreement] = {}
    for column, record in cells(opened.columns):
        finding = _judge(column, record, any_stored)
        if finding is not None:
            found[Spot(finding.sheet, finding.cell)] = finding
    wrong_inputs = {Spot(f.sheet, f.cell) for f in opened.returned.findings}
    return follow(found, wrong_inputs, opened.file)


def _judge(column: ColumnWitnesses, record: int, any_stored: bool) -> Disagreement | None:
    row, at = column.cells[record]
    text, expected_text = column.texts[record], column.expected[record]
    value, model, alone, stored = (
        column.engine[record], column.model[record], column.alone[record], column.stored[record],
    )  # fmt: skip
    heading = column.placed.column(column.key).heading

    def finding(kind: str, found: Any, expected: Any, message: str) -> Disagreement:
        return Disagreement(column.placed.sheet, address(row, at), kind, found, expected, message, None, heading)

    if text is None:
        kind, what = ("formula missing", "the cell is empty") if stored is None else ("typed over", "a value stands")
        return finding(
            kind, stored, "=" + expected_text, f"{what} where a formula belongs: copy it from the record beside"
        )
    if text != expected_text and normalised(text) != normalised(expected_text):
        return finding("formula changed", "=" + text, "=" + expected_text, "this is not the planner's formula")
    if not same(value, alone):
        return finding("wrong result", value, _shown(alone), "the formula and the model disagree on the same arguments")
    if not same(value, model):
        return finding("follows", value, _shown(model), "this follows from another cell")
    if any_stored and not _stored_agrees(column, stored, value):
        return finding(
            "stale result", stored, _shown(value), "the stored value is not what the formula gives: recalculate"
        )
    return None


def _stored_agrees(column: ColumnWitnesses, stored: Any, value: Any) -> bool:
    if column.placed.table.key == "start" and column.key == "recalculated" and stored == NOT_YET:
        return True
    return same(stored, value)


def _shown(value: Any) -> Any:
    """A value as JSON takes it; blank is empty text."""
    if is_blank(value):
        return ""
    return float(value) if not isinstance(value, (str, bool)) else value


def _notes(file: File) -> Iterator[Disagreement]:
    for note in file.notes:
        yield Disagreement(note.part, "", note.code.replace("-", " "), note.text, None, f"{note.text} ({note.part})")
    for sheet in file.sheets:
        if sheet.hidden and not any(note.code == "hidden-sheet" for note in file.notes):
            yield Disagreement(sheet.name, "", "hidden sheet", sheet.name, None, "a planner hides no sheet: show it")


def _lost(found: Found) -> Iterator[Disagreement]:
    for lost in found.lost:
        what = f"the column {lost.heading!r} of" if lost.key else ""
        yield Disagreement(
            lost.table, "", "column missing" if lost.key else "table missing", None, lost.heading,
            f"{what} the table {lost.table!r} is not there: its heading or its defined name was changed",
            None, lost.heading,
        )  # fmt: skip


def _stray(file: File, columns: Mapping[tuple[str, str], ColumnWitnesses]) -> list[Disagreement]:
    """Formulas outside every table: nothing the planner knows stands on them, and no witness looks at them."""
    known: dict[str, set[tuple[int, int]]] = {}
    for column in columns.values():
        known.setdefault(column.placed.sheet, set()).update(column.cells)
    inputs: dict[str, set[tuple[int, int]]] = {}
    for placed in {id(column.placed): column.placed for column in columns.values()}.values():
        for one in placed.table.columns:
            if one.role != "formula":
                records = range(1 if placed.single else placed.records)
                inputs.setdefault(placed.sheet, set()).update(placed.cell(one.key, record) for record in records)
    return [
        Disagreement(sheet.name, address(*at), "stray formula", "=" + cell.formula, None,
                     "a formula of your own: nothing here checks it")
        for sheet in file.sheets
        for at, cell in sheet.cells.items()
        if cell.formula is not None and at not in known.get(sheet.name, ()) and at not in inputs.get(sheet.name, ())
    ]  # fmt: skip
