"""From records and constants to Inputs: every input and constant column of every table, in its own unit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from itertools import zip_longest
from typing import Any

import numpy as np

from wbgen.catalogue import Catalogue
from wbgen.constants import constants
from wbgen.diagnostics import Report
from wbgen.families import MONTH_NAMES
from wbgen.inputs import DATE, TEXT, Inputs, blank_column
from wbgen.intake import rows_of, settings_of
from wbgen.lawns import Site
from wbgen.leaves import Measure
from wbgen.rows import Cell, Row
from wbgen.serial import serial
from wbgen.sheets.book import Book
from wbgen.sheets.template import Column, Unit
from wbgen.site_records import Setting
from wbgen.unit_names import NUTRIENT_ATOMS
from wbgen.units import UnitError, convert, label, parse_quantity, with_nutrient

SPARE = {"lawns": 4, "parts": 8, "points": 16, "products": 8, "sprayers": 2, "catches": 8, "programme": 12, "shelf": 24,
         "recipes": 3, "ingredients": 10, "scores": 60}  # fmt: skip
"""Empty records that a fresh planner has beyond those of the files."""
MIX_PRODUCTS = 8
FIXED = {"mix_products": MIX_PRODUCTS, "card_steps": MIX_PRODUCTS + 2, "months": len(MONTH_NAMES), "weeks": 53,
         "fortnight": 10, "flagged_lines": 20, "round_products": 16, "response_mixes": 20}  # fmt: skip
"""Records that every planner has of a kind, whatever the files say."""
ROUND_LINES = (18, 30, 70, 150, 300)
"""The sizes that a round's sheet can have: the smallest is taken that holds every line on every lawn, or the last.
The first fits on a page with what stands above it."""
_PURE = ("", "percent", "dimensionless")


@dataclass(frozen=True)
class Filled:
    inputs: Inputs
    capacities: Mapping[str, int]


def fill(book: Book, site: Site, catalogue: Catalogue, diary_rows: int, built_on: date, report: Report) -> Filled:
    """The inputs of a fresh planner. `diary_rows` is the least number of lines that the diary has room for."""
    rows = rows_of(site, catalogue, report)
    own = settings_of(site, _setting_names(book), lambda at, s, r: _fits(book, at, s, r), report)
    fixed = constants(book, catalogue, built_on)
    capacities = _capacities(book, rows.tables, fixed, diary_rows, _of_season(site))
    values: dict[str, dict[str, np.ndarray[Any, Any]]] = {}
    records = {}
    forms = set()
    for key, table in book.tables.items():
        count = table.records if isinstance(table.records, int) else capacities[table.records]
        records[key] = count
        if table.direction == "across" and table.records == 1:
            forms.add(key)
        given = _together(fixed.get(key, ()), rows.tables.get(key, ()))
        values[key] = {
            column.key: _column(
                column,
                book.units[key][column.key],
                count,
                () if (key, column.key) in own else given,
                own.get((key, column.key), default_of(column, book)),
            )
            for column in table.columns
            if column.role != "formula"
        }
    inputs = Inputs(values, book.units, records, frozenset(forms), today=serial(site.details.as_of or built_on))
    return Filled(inputs, capacities)


def _together(fixed: Sequence[Row], own: Sequence[Row]) -> tuple[Row, ...]:
    """The records of a table: what the build fills in by itself, and beside it what the files say."""
    empty: Row = {}
    return tuple(one | other for one, other in zip_longest(fixed, own, fillvalue=empty))


def default_of(column: Column, book: Book) -> Cell:
    """What a new planner has in an input column; None for nothing."""
    return getattr(column.default, book.system) if isinstance(column.default, Unit) else column.default


def _column(column: Column, unit: str, count: int, given: tuple[Row, ...], default: Cell) -> Any:
    figures = blank_column(unit, count)
    if column.running:
        return np.arange(1.0, count + 1)
    for index in range(count):
        cell = given[index].get(column.key) if index < len(given) else None
        if cell is None and (count == 1 or index < len(given)):
            cell = default
        if cell is not None:
            figures[index] = cell_value(cell, unit)
    return figures


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


def _capacities(
    book: Book,
    rows: Mapping[str, tuple[Row, ...]],
    fixed: Mapping[str, tuple[Row, ...]],
    diary_rows: int,
    season: Mapping[str, int],
) -> dict[str, int]:
    found = dict(season) | {name: len(rows.get(name, ())) + spare for name, spare in SPARE.items()}
    found |= FIXED | {"diary": max(diary_rows, len(rows.get("diary", ())) + 20)}
    found["diary_lines"] = found["lawns"] * MIX_PRODUCTS
    for key, table in book.tables.items():
        if isinstance(table.records, str) and table.records not in found:
            found[table.records] = len(fixed[key])
    return found


def _of_season(site: Site) -> dict[str, int]:
    """Room for the dates of the programme, for its lines on each lawn, and for a round of them.

    A quarter more than the files have, and some for a beginning.
    """
    groups = [(lawn.group or "").casefold() for lawn in site.lawns]
    dates = sum(line.dates for line in site.programme)
    pairs = sum(
        1 if line.lawn else groups.count(line.group.casefold()) if line.group else len(groups)
        for line in site.programme
    )
    held = [size for size in ROUND_LINES if size >= pairs]
    return {
        "applications": _roomy(dates),
        "pairs": _roomy(pairs),
        "year_pairs": _roomy(max(pairs, len({(line.lawn.casefold(), line.product.casefold()) for line in site.diary}))),
        "round_lines": held[0] if held else ROUND_LINES[-1],
    }


def _roomy(number: int) -> int:
    return number + number // 4 + 24


def _setting_names(book: Book) -> dict[str, tuple[str, str]]:
    return {
        column.key.replace("_", " "): (table, column.key)
        for table in ("settings", "limits", "rules")
        for column in book.tables[table].columns
        if column.role == "input"
    }


def _fits(book: Book, at: tuple[str, str], setting: Setting, report: Report) -> bool:
    unit = book.units[at[0]][at[1]]
    try:
        if unit != TEXT:
            cell_value(setting.measure or setting.text, unit)
        return True
    except UnitError as error:
        shown = label(unit) if unit else "a plain number"
        report.add("setting-unit", setting.place, "this setting has another unit", expected=shown, found=setting.text,
                   remedy=str(error))  # fmt: skip
        return False
