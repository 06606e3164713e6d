"""Checks what stands in the input and constant cells of a file: one finding a cell that is not right."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from wbgen.files.accepted_values import FIRST_DAY, LAST_DAY, LONGEST_TEXT, NAMES, as_read, bad_name
from wbgen.files.dates import serial
from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.cell_types import Scalar
from wbgen.files.xlsx.workbook import SheetCells
from wbgen.model.inputs import DATE, TEXT, Figures
from wbgen.sheets.column import Column
from wbgen.sheets.layout import Placed

SAVED_DIGITS: Final = 1e-12
"""How far a number may lie from the one that was written: a program that saves a file may keep 15 digits only."""
LIMIT_EDGE: Final = 1e-9
"""By so much a figure may pass a limit: the limit itself, converted to another unit, is still allowed."""


@dataclass(frozen=True)
class Entries:
    """An input or constant column as it stands in a file: what its cells show, their formulas, and its figures."""

    placed: Placed
    column: Column
    unit: str
    shown: Sequence[Scalar | None]
    formulas: Sequence[str | None]
    figures: Figures

    def finding(self, record: int, kind: Kind, message: str, expected: Any = None) -> Finding:
        cell = address(*self.placed.cell(self.column.key, record))
        found = self.formulas[record]
        shown = self.shown[record] if found is None else "=" + found
        return Finding(self.placed.sheet, cell, kind, shown, expected, message, None, self.column.heading)


def column_problems(entries: Entries, given: Sequence[Any] | None) -> Iterator[Finding]:
    """What is wrong with a column, at most one finding a cell. `given` are the constants it came with."""
    formulas = [record for record, formula in enumerate(entries.formulas) if formula is not None]
    for record in formulas:
        yield entries.finding(record, Kind.FORMULA_IN_INPUT, "a formula stands where a value belongs")
    reported = set(formulas)
    problems = _changed(entries, given) if entries.column.role == "constant" else _not_valid(entries)
    for record, kind, message, expected in problems:
        if record not in reported:
            reported.add(record)
            yield entries.finding(record, kind, message, expected)


Problems = Iterator[tuple[int, Kind, str, Any]]
"""Record, kind, message, and what was expected or None."""


def _changed(entries: Entries, given: Sequence[Any] | None) -> Problems:
    if entries.column.meaning.running:
        given = [float(record + 1) for record in range(len(entries.shown))]
    if given is None:
        return
    for record, figure in enumerate(entries.figures):
        expected = given[record] if record < len(given) else None
        blank = "" if entries.unit == TEXT else np.nan
        if not unchanged(blank if expected is None else expected, figure):
            yield record, Kind.CONSTANT_CHANGED, "this is not what the planner came with", expected


def unchanged(expected: Any, found: Any) -> bool:
    """Whether a cell still holds what was written into it: text to the letter, a number to `SAVED_DIGITS`.

    Results that were calculated are compared with the wider tolerance of `verify.compare.same_result`.

    >>> unchanged(0.1, 0.1000000000001), unchanged(0.1, 0.10000000001), unchanged(float("nan"), float("nan"))
    (True, False, True)
    """
    if isinstance(expected, str) or isinstance(found, str):
        return str(expected) == str(found)
    if np.isnan(expected) or np.isnan(found):
        return bool(np.isnan(expected) and np.isnan(found))
    return bool(abs(expected - found) <= SAVED_DIGITS * max(1.0, abs(expected)))


def _not_valid(entries: Entries) -> Problems:
    return _text_not_valid(entries) if entries.unit == TEXT else _figure_not_valid(entries)


def _text_not_valid(entries: Entries) -> Problems:
    column = entries.column
    choices = (
        {text.casefold() for text in column.accepts.choices} if isinstance(column.accepts.choices, tuple) else set()
    )
    for record, found in enumerate(entries.shown):
        if found is None or found == "":
            continue
        if type(found) is not str:
            yield record, Kind.INPUT_NOT_VALID, "a number, a date or an error value stands where text is expected", None
        elif choices and found.casefold() not in choices:
            yield record, Kind.INPUT_NOT_VALID, "this is none of the choices", " / ".join(column.accepts.choices)
        elif column.key in NAMES and (reason := bad_name(found)):
            yield record, Kind.INPUT_NOT_VALID, f"this cannot be a name: {reason}", None
        elif len(found) > LONGEST_TEXT:
            yield record, Kind.INPUT_NOT_VALID, f"this is longer than {LONGEST_TEXT} characters", None


def _figure_not_valid(entries: Entries) -> Problems:
    column, figures = entries.column, entries.figures
    for record in np.flatnonzero(np.isnan(figures)).tolist():
        found = entries.shown[record]
        if found is not None and found != "":
            kind = Kind.NUMBER_AS_TEXT if _looks_like_number(found) else Kind.INPUT_NOT_VALID
            yield record, kind, "a " + ("date" if entries.unit == DATE else "number") + " is expected here", None
    if entries.unit == DATE:
        for record in np.flatnonzero(figures != np.floor(figures)).tolist():
            if not np.isnan(figures[record]):
                day = math.floor(figures[record])
                yield record, Kind.INPUT_NOT_VALID, "a date without a time of day is expected here", day
    low, high = column.accepts.minimum, column.accepts.maximum
    least, most = -1e9 if low is None else low, 1e9 if high is None else high
    if entries.unit == DATE:
        least, most = serial(FIRST_DAY), serial(LAST_DAY) + 1
    for record in np.flatnonzero(figures < least - LIMIT_EDGE).tolist():
        yield record, Kind.INPUT_NOT_VALID, "this is less than the least allowed", least
    for record in np.flatnonzero(figures > most + LIMIT_EDGE).tolist():
        yield record, Kind.INPUT_NOT_VALID, "this is more than the most allowed", most


def _looks_like_number(found: Scalar) -> bool:
    if not isinstance(found, str):
        return False
    try:
        float(found.replace(",", ".").strip())
    except ValueError:
        return False
    return True


def duplicate_names(placed: Placed, values: Mapping[str, Any]) -> Iterator[Finding]:
    """Names that a person takes for an earlier one; where they differ by case alone, a look-up does so too."""
    seen: dict[str, int] = {}
    for record, name in enumerate(values.get("name", ())):
        first = seen.setdefault(as_read(name), record)
        if name and first != record:
            where = address(*placed.cell("name", first))
            yield Finding(
                placed.sheet, address(*placed.cell("name", record)), Kind.DUPLICATE_NAME, name, None,
                f"this name stands in {where} too, or one that looks the same", None,
                placed.column("name").heading,
            )  # fmt: skip


def unknown_names(tables: Mapping[str, Placed], values: Mapping[str, Mapping[str, Any]]) -> Iterator[Finding]:
    """Names in an input that stand nowhere in the column they are chosen from."""
    for key, placed in tables.items():
        for column in placed.table.columns:
            if column.role != "input" or not isinstance(column.accepts.choices, str):
                continue
            table, _, of = column.accepts.choices.partition(".")
            known = {str(name).casefold() for name in values.get(table, {}).get(of, ())}
            for record, name in enumerate(values[key][column.key]):
                if known and name and str(name).casefold() not in known:
                    yield Finding(
                        placed.sheet, address(*placed.cell(column.key, record)), Kind.UNKNOWN_NAME, name, None,
                        f"no such name stands on the sheet {tables[table].sheet}", None, column.heading,
                    )  # fmt: skip


def _top(placed: Placed) -> int:
    return placed.opening if placed.table.direction == "down" else min(placed.at.values())


def outside_table(placed: Placed, tables: Mapping[str, Placed], sheet: SheetCells) -> Iterator[Finding]:
    """Values typed in the closing row of a table or below it, which no formula counts."""
    if placed.table.direction != "down" or placed.table.plain:
        return
    others = (other for other in tables.values() if other.sheet == placed.sheet and other is not placed)
    is_last = not any(_top(other) > placed.closing for other in others)
    for column in placed.table.columns:
        if column.role != "input":
            continue
        sheet_column = placed.at[column.key]
        for row, value in sheet.content.values.get(sheet_column, {}).items():
            near = placed.closing <= row and (is_last or row <= placed.closing + 1)
            if near and value != "" and sheet.formula(row, sheet_column) is None:
                yield Finding(
                    placed.sheet, address(row, sheet_column), Kind.OUTSIDE_TABLE, value, None,
                    "this stands below the last record and is counted nowhere", None, column.heading,
                )  # fmt: skip
