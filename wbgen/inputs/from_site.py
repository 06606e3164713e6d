"""From records and constants to Inputs: every input and constant column of every table, in its own unit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import zip_longest
from typing import Any

import numpy as np

from wbgen.files.dates import serial
from wbgen.files.diagnostics import Report
from wbgen.inputs.capacity import capacities
from wbgen.inputs.catalogue_constants import constants
from wbgen.inputs.constants import settings_tables
from wbgen.inputs.rows import Cell, Row, cell_value, default_of
from wbgen.inputs.site_rows import rows_of, settings_of
from wbgen.model.inputs import TEXT, Inputs, blank_column
from wbgen.records.catalogue import Catalogue
from wbgen.records.site.details import Setting
from wbgen.records.site.site import Site
from wbgen.sheets.book import Book
from wbgen.sheets.column import Column
from wbgen.units.quantity import UnitError, label


@dataclass(frozen=True)
class Filled:
    inputs: Inputs
    capacities: Mapping[str, int]


def fill(book: Book, site: Site, catalogue: Catalogue, diary_rows: int, built_on: date, report: Report) -> Filled:
    """The inputs of a fresh planner. `diary_rows` is the least number of lines that the diary has room for."""
    rows = rows_of(site, catalogue, report)
    own = settings_of(site, _setting_names(book), lambda at, s, r: _fits(book, at, s, r), report)
    fixed = constants(book, catalogue, built_on)
    held = capacities(book, site, rows.tables, fixed, diary_rows, report)
    values: dict[str, dict[str, np.ndarray[Any, Any]]] = {}
    records = {}
    forms = set()
    for key, table in book.tables.items():
        count = table.records if isinstance(table.records, int) else held[table.records]
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
                report,
            )
            for column in table.columns
            if column.role != "formula"
        }
    inputs = Inputs(values, book.units, records, frozenset(forms), today=serial(site.details.as_of or built_on))
    return Filled(inputs, held)


def _together(fixed: Sequence[Row], own: Sequence[Row]) -> tuple[Row, ...]:
    """The records of a table: what the build fills in by itself, and beside it what the files say."""
    empty: Row = {}
    return tuple(one | other for one, other in zip_longest(fixed, own, fillvalue=empty))


def _column(
    column: Column, unit: str, count: int, given: tuple[Row, ...], default: Cell, report: Report
) -> Any:  # fmt: skip
    figures = blank_column(unit, count)
    if column.meaning.running:
        return np.arange(1.0, count + 1)
    for index in range(count):
        cell = given[index].get(column.key) if index < len(given) else None
        if cell is None and (count == 1 or index < len(given)):
            cell = default
        if cell is not None:
            try:
                figures[index] = cell_value(cell, unit)
            except (UnitError, ValueError) as error:  # the template has another unit, or type, than what fills it in
                report.add("wrong-value", column.written.place, f"{column.key} cannot hold what fills it in: {error}",
                           expected="a column of its unit or type", remedy="correct the template")  # fmt: skip
    return figures


def _setting_names(book: Book) -> dict[str, tuple[str, str]]:
    return {
        column.key.replace("_", " "): (table.key, column.key)
        for table in settings_tables(book)
        for column in table.columns
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
