"""Reads a workbook as cells: the only place that knows openpyxl. The file is looked through for danger first."""

from __future__ import annotations

import warnings
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

import openpyxl
from openpyxl.utils.exceptions import InvalidFileException
from openpyxl.worksheet.formula import ArrayFormula, DataTableFormula

from wbgen.openxml import Note, UnsafeFile, inspect

Scalar = float | str | bool | None
EPOCH = datetime(1899, 12, 30)  # noqa: DTZ001 - spreadsheets know no time zones


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell that is not empty: a formula (without its equals sign) and the value last stored for it, or a value."""

    formula: str | None
    value: Scalar


@dataclass(frozen=True)
class SheetCells:
    """The cells of a sheet by row and column, both from 0."""

    name: str
    hidden: bool
    protected: bool
    cells: Mapping[tuple[int, int], Cell]


@dataclass(frozen=True)
class Area:
    """A defined name's range: first and last row and column, from 0."""

    sheet: str
    top: int
    left: int
    bottom: int
    right: int


@dataclass(frozen=True)
class File:
    """A workbook file: its sheets in order, its defined ranges by name in lower case, and what is unusual about it."""

    path: Path
    sheets: tuple[SheetCells, ...]
    names: Mapping[str, Area]
    notes: tuple[Note, ...]

    def sheet(self, name: str) -> SheetCells | None:
        return next((sheet for sheet in self.sheets if sheet.name == name), None)


def read(path: Path) -> File:
    """The cells of a workbook. Raises UnsafeFile where it is refused or cannot be read; nothing in it is followed."""
    package = inspect(path)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # openpyxl warns of what it does not keep; nothing is written back
        formulas, values = (_loaded(path, data_only=wanted) for wanted in (False, True))
    sheets = tuple(_cells(formulas[name], values[name]) for name in formulas.sheetnames if name in values.sheetnames)
    return File(path, sheets, dict(_areas(formulas)), package.notes)


def _loaded(path: Path, *, data_only: bool) -> Any:
    try:
        return openpyxl.load_workbook(path, data_only=data_only, keep_links=False)
    except (InvalidFileException, zipfile.BadZipFile, KeyError, ValueError, TypeError, AttributeError, IndexError) as e:
        raise UnsafeFile(
            "unreadable", "a workbook as spreadsheet programs write it", f"parts that do not fit together ({e})",
            "open it in a spreadsheet program and save it again as .xlsx",
        ) from e  # fmt: skip


def _cells(sheet: Any, stored: Any) -> SheetCells:
    if not hasattr(sheet, "iter_rows"):
        return SheetCells(sheet.title, sheet.sheet_state != "visible", False, {})
    cells = {}
    for (row, column), cell in sheet._cells.items():
        value = cell.value
        if value is None:
            continue
        formula = _formula(value) if cell.data_type == "f" else None
        kept = stored._cells.get((row, column))
        shown = _scalar(kept.value if kept is not None else None) if formula is not None else _scalar(value)
        cells[row - 1, column - 1] = Cell(formula, shown)
    return SheetCells(sheet.title, sheet.sheet_state != "visible", bool(sheet.protection.sheet), cells)


def _formula(value: Any) -> str:
    if isinstance(value, ArrayFormula):
        return "{" + str(value.text).removeprefix("=") + "}"
    if isinstance(value, DataTableFormula):
        return "{TABLE}"
    return str(value).removeprefix("=")


def _scalar(value: Any) -> Scalar:
    if value is None or isinstance(value, (str, bool)):
        return value
    if isinstance(value, datetime):
        return (value - EPOCH).total_seconds() / 86_400
    if isinstance(value, date):
        return float((datetime(value.year, value.month, value.day) - EPOCH).days)  # noqa: DTZ001
    if isinstance(value, time):
        return (value.hour * 3600 + value.minute * 60 + value.second) / 86_400
    return float(value) if isinstance(value, (int, float)) else str(value)


def _areas(workbook: Any) -> Any:
    for name, defined in workbook.defined_names.items():
        try:
            destinations = list(defined.destinations)
        except (ValueError, AttributeError, TypeError):
            continue
        if len(destinations) == 1:
            sheet, reference = destinations[0]
            bounds = openpyxl.utils.cell.range_boundaries(reference.replace("$", ""))
            if None not in bounds:
                left, top, right, bottom = (int(bound) - 1 for bound in bounds)
                yield name.lower(), Area(sheet, top, left, bottom, right)
