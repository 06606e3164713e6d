"""One record of a table on its way into a workbook, and what its cells hold."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import Any

import numpy as np

from wbgen.files.dates import serial
from wbgen.files.diagnostics import Report
from wbgen.model.inputs import DATE, TEXT
from wbgen.records.fields import Measure
from wbgen.sheets.book import Book
from wbgen.sheets.template import Column, Unit
from wbgen.units.names import NUTRIENT_ATOMS
from wbgen.units.quantity import convert, parse_quantity, with_nutrient

Cell = Measure | float | str | date | None
Row = dict[str, Cell]
"""One record by column; a column that is not named stays blank."""

_PURE = ("", "percent", "dimensionless")


def default_of(column: Column, book: Book) -> Cell:
    """What a new planner has in an input column; None for nothing."""
    return getattr(column.default, book.system) if isinstance(column.default, Unit) else column.default


def cell_value(cell: Cell, unit: str) -> Any:
    """A figure in the unit of its column: text stays text, a date becomes its serial number."""
    if unit == TEXT:
        return str(cell)
    if unit == DATE:
        return serial(cell) if isinstance(cell, date) else float(str(cell))
    if isinstance(cell, str):
        if not cell:
            return np.nan
        quantity = parse_quantity(cell)
        return _converted(quantity.exact, quantity.unit, unit, quantity.nutrient)
    if isinstance(cell, Measure):
        return _converted(cell.quantity.exact, cell.unit, unit, cell.quantity.nutrient)
    return float(cell) if isinstance(cell, (int, float)) else np.nan


def _converted(number: Fraction, unit: str, target: str, nutrient: str | None) -> float:
    """The number in the column's unit. A mass in a column of one nutrient is of that nutrient; a share is itself."""
    if unit in _PURE:
        return float(number * (Fraction(1, 100) if unit == "percent" else 1))
    symbol = NUTRIENT_ATOMS.get(target.partition("/")[0])
    if nutrient is None and symbol is not None:
        unit = with_nutrient(unit, symbol)
    return convert(number, unit, target or "dimensionless")


def rate_cell(rate: Measure, solid: str, liquid: str, report: Report) -> Row:
    """A rate in the column for solids or in that for liquids; one of neither kind goes to the report."""
    if rate.kind not in ("mass rate", "volume rate"):
        report.add(
            "rate-kind", rate.place, "this rate must be a mass or a volume by area",
            expected="a rate such as 2.5 g/m² or 8 L/ha", found=rate.text,
            remedy="leave it out for the usual rate, or write wanted: for a nutrient",
        )  # fmt: skip
        return {}
    return {solid if rate.kind == "mass rate" else liquid: rate}
