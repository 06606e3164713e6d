"""From a workbook file back to Inputs: what stands in its input cells, with everything about them that is not right."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from wbgen.constants import fixed_constants
from wbgen.families import MONTH_NAMES
from wbgen.fill import cell_value
from wbgen.finding import Disagreement
from wbgen.inputs import DATE, TEXT, Inputs, blank_column
from wbgen.reader import Cell, File
from wbgen.sheets.book import Book
from wbgen.sheets.formula import letters
from wbgen.sheets.found import Bounds, Found, find_tables
from wbgen.sheets.layout import Placed
from wbgen.sheets.template import Column
from wbgen.units import label
from wbgen.writer import TABLE_NAME

OUTSIDE = "outside the table"
"""The kind of finding for what is typed below a table's records."""
FORBIDDEN = ("*", "?", "~")
FORBIDDEN_FIRST = ("=", "<", ">")


@dataclass(frozen=True)
class Returned:
    """A file's tables in their places, its inputs, and what is wrong with the inputs."""

    found: Found
    inputs: Inputs
    findings: tuple[Disagreement, ...]


def address(row: int, column: int) -> str:
    """The A1 address of a cell, row and column from 0."""
    return f"{letters(column)}{row + 1}"


def tables_in(file: File, book: Book) -> Found:
    """The places of the book's tables in a file."""
    sheets = {sheet.name: sheet.cells for sheet in file.sheets}

    def text_at(sheet: str, row: int, column: int) -> str:
        cell = sheets.get(sheet, {}).get((row, column))
        return str(cell.value) if cell is not None and cell.formula is None and cell.value is not None else ""

    bounds = {
        name.removeprefix(TABLE_NAME): Bounds(area.sheet, area.top, area.left, area.bottom, area.right)
        for name, area in file.names.items()
        if name.startswith(TABLE_NAME) and area.sheet in sheets
    }
    return find_tables(book.tables, bounds, text_at)


def inputs_of(file: File, book: Book, found: Found) -> Returned:
    """The inputs of a file whose tables were found."""
    sheets = {sheet.name: sheet.cells for sheet in file.sheets}
    given = _given(book)
    values: dict[str, dict[str, Any]] = {}
    findings: list[Disagreement] = []
    for key, placed in found.placed.items():
        values[key] = {}
        records = 1 if placed.single else placed.records
        for column in placed.table.columns:
            if column.role == "formula":
                continue
            unit = book.units[key][column.key]
            figures = blank_column(unit, records)
            for record in range(records):
                row, at = placed.cell(column.key, record)
                cell = sheets[placed.sheet].get((row, at))
                reading = _Reading(placed, column, unit, record, cell, address(row, at))
                figures[record] = reading.value()
                findings += reading.problems(given.get((key, column.key, record)))
            values[key][column.key] = figures
        findings += _names_twice(placed, values[key])
        findings += _outside(placed, found.placed, sheets[placed.sheet])
        findings += _units_changed(placed, book, sheets[placed.sheet])
    today = _stored(file, found, "start", "today")
    records_of = {key: 1 if placed.single else placed.records for key, placed in found.placed.items()}
    forms = frozenset(key for key, placed in found.placed.items() if placed.single)
    inputs = Inputs(values, book.units, records_of, forms, today if isinstance(today, float) else 0.0)
    return Returned(found, inputs, tuple(findings))


def _stored(file: File, found: Found, table: str, key: str) -> Any:
    placed = found.placed[table]
    sheet = file.sheet(placed.sheet)
    cell = sheet.cells.get(placed.cell(key)) if sheet else None
    return cell.value if cell else None


def stored_value(file: File, found: Found, table: str, key: str) -> Any:
    """The value that a file has stored for a form's figure."""
    return _stored(file, found, table, key)


def _given(book: Book) -> Mapping[tuple[str, str, int], Any]:
    """The constants that are the same in every planner of one system, by table, column and record."""
    months = tuple({"month": name} for name in MONTH_NAMES)
    rows: dict[str, Sequence[Mapping[str, Any]]] = dict(fixed_constants(book))
    rows |= {key: table.rows for key, table in book.tables.items() if table.rows}
    rows |= {"months": months, "months_together": months, "season_months": months}
    return {
        (key, column, record): cell_value(cell, book.units[key][column])
        for key, records in rows.items()
        for record, row in enumerate(records)
        for column, cell in row.items()
    }


@dataclass(frozen=True)
class _Reading:
    placed: Placed
    column: Column
    unit: str
    record: int
    cell: Cell | None
    at: str

    @property
    def found(self) -> Any:
        return None if self.cell is None else self.cell.value

    def value(self) -> Any:
        """The figure as the model takes it; blank where it is of another kind."""
        found = self.found
        if self.unit == TEXT:
            return "" if found is None else found if isinstance(found, str) else _plain_text(found)
        return float(found) if isinstance(found, float) else np.nan

    def _finding(self, kind: str, message: str, expected: Any = None) -> Disagreement:
        return Disagreement(self.placed.sheet, self.at, kind, self.found, expected, message, None, self.column.heading)

    def problems(self, given: Any) -> Iterator[Disagreement]:
        if self.cell is not None and self.cell.formula is not None:
            yield self._finding("formula in an input", "a formula stands where a value is typed: paste values only")
        if self.column.role == "constant":
            expected = float(self.record + 1) if self.column.running else given
            if expected is not None and not _same(expected, self.value()):
                yield self._finding("constant changed", "this is not what the planner came with", expected)
            return
        if self.found in (None, ""):
            return
        yield from self._kind()

    def _kind(self) -> Iterator[Disagreement]:
        found, column = self.found, self.column
        if self.unit == TEXT:
            if not isinstance(found, str):
                yield self._finding("input not valid", "a number or a date stands where text is expected")
            elif (
                isinstance(column.choices, tuple)
                and column.choices
                and _folded(found) not in map(_folded, column.choices)
            ):
                yield self._finding("input not valid", "this is none of the choices", " / ".join(column.choices))
            elif column.key in ("name", "part") and (
                any(sign in found for sign in FORBIDDEN) or found.startswith(FORBIDDEN_FIRST)
            ):
                yield self._finding("input not valid", "a name may not hold * ? ~ nor begin with = < >")
        elif not isinstance(found, float):
            number = isinstance(found, str) and _looks_like_number(found)
            kind = "number stored as text" if number else "input not valid"
            yield self._finding(kind, "a " + ("date" if self.unit == DATE else "number") + " is expected here")
        elif column.minimum is not None and found < column.minimum - 1e-9:
            yield self._finding("input not valid", "this is less than the least allowed", column.minimum)
        elif column.maximum is not None and found > column.maximum + 1e-9:
            yield self._finding("input not valid", "this is more than the most allowed", column.maximum)


def _folded(text: str) -> str:
    return text.casefold()


def _plain_text(value: Any) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value).upper()


def _looks_like_number(text: str) -> bool:
    try:
        float(text.replace(",", ".").strip())
    except ValueError:
        return False
    return True


def _same(expected: Any, found: Any) -> bool:
    if isinstance(expected, str) or isinstance(found, str):
        return str(expected) == str(found)
    if np.isnan(expected) or np.isnan(found):
        return bool(np.isnan(expected) and np.isnan(found))
    return bool(abs(expected - found) <= 1e-12 * max(1.0, abs(expected)))


def _outside(
    placed: Placed, tables: Mapping[str, Placed], cells: Mapping[tuple[int, int], Cell]
) -> Iterator[Disagreement]:
    """Values typed in the closing row of a table or below it, which no formula counts."""
    if placed.table.direction != "down" or placed.table.plain:
        return
    inputs = {placed.at[column.key]: column for column in placed.table.columns if column.role == "input"}
    below = [other.opening for other in tables.values() if other.sheet == placed.sheet and other is not placed]
    below += [min(other.at.values()) for other in tables.values() if other.table.direction == "across"
              and other.sheet == placed.sheet]  # fmt: skip
    is_last = not any(row > placed.closing for row in below)
    for (row, at), cell in cells.items():
        near = placed.closing <= row and (is_last or row <= placed.closing + 1)
        if near and at in inputs and cell.value not in (None, ""):
            yield Disagreement(
                placed.sheet, address(row, at), OUTSIDE, cell.value, None,
                "this stands below the last record and is counted nowhere: insert rows above the closing row",
                None, inputs[at].heading,
            )  # fmt: skip


def _units_changed(placed: Placed, book: Book, cells: Mapping[tuple[int, int], Cell]) -> Iterator[Disagreement]:
    """Printed units that are not the column's: a figure is only right beside its unit.

    A table whose slots have units, and money, whose currency a file alone knows, are passed over.
    """
    table = placed.table
    if any("/" in getattr(slot, book.system) for slot in table.slots.values()):
        return
    for column in table.columns:
        unit = getattr(column.unit, book.system) if column.unit else ""
        if not unit or "currency" in unit:
            continue
        row, at = placed.cell(column.key)
        beside = placed.last + 1 if table.plain else placed.first - 1
        place = (placed.opening - 1, at) if table.direction == "down" else (row, beside)
        cell = cells.get(place)
        found = cell.value if cell and cell.formula is None else None
        if found != label(unit):
            yield Disagreement(
                placed.sheet, address(*place), "unit changed", found, label(unit),
                "the figures here are in another unit than is printed", None, column.heading,
            )  # fmt: skip


def _names_twice(placed: Placed, values: Mapping[str, Any]) -> Iterator[Disagreement]:
    """Names that differ from an earlier one only by case, or not at all: a look-up would take the first."""
    seen: dict[str, int] = {}
    for record, name in enumerate(values.get("name", ())):
        first = seen.setdefault(name.casefold(), record)
        if name and first != record:
            row, at = placed.cell("name", record)
            where = address(*placed.cell("name", first))
            yield Disagreement(
                placed.sheet, address(row, at), "name twice", name, None,
                f"this name stands in {where} too: only the first is ever found", None, "name",
            )  # fmt: skip
