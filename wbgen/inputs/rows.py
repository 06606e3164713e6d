"""One record of a table on its way into a workbook, and what its cells hold."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any, Final

import numpy as np

from wbgen.files.dates import serial
from wbgen.files.diagnostics import Report
from wbgen.model.inputs import DATE, TEXT
from wbgen.records.fields import Measure
from wbgen.sheets.book import Book
from wbgen.sheets.column import Column
from wbgen.units.quantity import Quantity, parse_quantity

Cell = Measure | float | str | date | None
Row = dict[str, Cell]
"""One record by column; a column that is not named stays blank."""


_TYPED_IN: Final[Mapping[str, Mapping[str, str]]] = {
    "1/m**2": {"mass rate": "g/m**2", "volume rate": "mL/m**2"},
    "1/thousand_square_feet": {
        "mass rate": "oz/thousand_square_feet",
        "volume rate": "us_fluid_ounce/thousand_square_feet",
    },
}
"""What a rate is that is typed as a plain number an area, by the unit of such a column and the kind of the rate: grams
of a solid and millilitres of a liquid, or ounces and fluid ounces."""


def default_of(column: Column, book: Book) -> Cell:
    """What a new planner has in an input column; None for nothing."""
    return column.accepts.default_in(book.system)


def cell_value(cell: Cell, unit: str) -> Any:
    """A figure in the unit of its column: text stays text, a date becomes its serial number."""
    if unit == TEXT:
        return str(cell)
    if unit == DATE:
        return serial(cell) if isinstance(cell, date) else float(str(cell))
    if isinstance(cell, str):
        if not cell:
            return np.nan
        return _figure(parse_quantity(cell), unit)
    if isinstance(cell, Measure):
        return _figure(cell.quantity, unit)
    return float(cell) if isinstance(cell, (int, float)) else np.nan


def _figure(quantity: Quantity, unit: str) -> float:
    return quantity.figure_in(_TYPED_IN.get(unit, {}).get(quantity.kind, unit))


def rate_cell(rate: Measure, solid: str, liquid: str, report: Report) -> Row:
    """A rate in the column for solids or in that for liquids; one of neither kind goes to the report."""
    if not is_rate(rate, report):
        return {}
    return {solid if rate.kind == "mass rate" else liquid: rate}


def is_rate(rate: Measure, report: Report) -> bool:
    """Whether it is a mass or a volume by area; what is neither goes to the report."""
    if rate.kind in ("mass rate", "volume rate"):
        return True
    report.add(
        "rate-kind", rate.place, "this rate must be a mass or a volume by area",
        expected="a rate such as 2.5 g/m² or 8 L/ha", found=rate.text,
        remedy="leave it out for the usual rate, or write wanted: for a nutrient",
    )  # fmt: skip
    return False
