"""Reads Inputs back from a workbook file: what stands in its input and constant cells, column by column."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

import numpy as np

from wbgen import __version__
from wbgen.files.findings import Finding
from wbgen.files.xlsx.cell_types import Scalar
from wbgen.files.xlsx.references import Area
from wbgen.files.xlsx.refusal import UnsafeFile
from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.inputs.constants import given_constants
from wbgen.inputs.design import Design
from wbgen.inputs.entry_checks import Entries, column_problems, duplicate_names, outside_table, unknown_names
from wbgen.inputs.locate import Found, column_cells, find_tables
from wbgen.model.inputs import TEXT, Inputs, blank_column
from wbgen.sheets.book import MARK, Book
from wbgen.sheets.layout import TABLE_NAME

_BUILT_BY: Final = re.compile(r"wbgen [0-9]\S*")


@dataclass(frozen=True)
class ReadInputs:
    """The tables found in a file, its inputs, and what is wrong with the inputs."""

    found: Found
    inputs: Inputs
    findings: tuple[Finding, ...]


def book_of(file: File, design: Design) -> Book:
    """The book of the design in the system of units of a file.

    Raises UnsafeFile where it is not wbgen's workbook, or one that was built from other templates.
    """
    _refuse_others(file, design)
    book = design.book("metric")
    placed = tables_in(file, book).placed
    if not placed:
        raise UnsafeFile(
            "not-a-planner", "a workbook that wbgen built", "none of its tables",
            "give the planner itself, or build one with wbgen build",
        )  # fmt: skip
    if "start" not in placed:
        return book
    sheet = file.sheet(placed["start"].sheet)
    named = str(sheet.value(*placed["start"].cell("units"))) if sheet else ""
    return design.book("us") if named == "us" else book


def _refuse_others(file: File, design: Design) -> None:
    """Raise UnsafeFile where a file says that it was built from other templates than the design's: what stands in it
    would be taken for something else. By its mark, or where a program lost that, by the version on the sheet Start."""
    mark, builder, this = file.index.properties.get(MARK, ""), built_by(file), f"wbgen {__version__}"
    if mark == design.templates.mark or (not mark and builder in ("", this)):
        return
    raise UnsafeFile(
        "other-templates", f"a planner that {this} built from these templates",
        f"a planner that {builder or 'another wbgen'} built" + (" from other templates" if builder == this else ""),
        "use the wbgen that built it; or build a planner anew beside it, and paste the lines of its diary, shed, "
        "scores and soil tests into that as values",
    )  # fmt: skip


def tables_in(file: File, book: Book) -> Found:
    """The places of the book's tables in a file."""
    bounds = {name.removeprefix(TABLE_NAME): within for name, _, within in _bounds(file)}
    return find_tables(book.sheets, bounds, file.text_at)


def built_by(file: File) -> str:
    """What the sheet Start says that the file was built by, such as "wbgen 1.0"; "" where it says nothing.

    It is looked for by its own words, since another version's sheet may have it elsewhere.
    """
    start = file.sheet("Start")
    texts = [cell.value for _, cell in sorted(start.cells.items())] if start else []
    return next((text for text in texts if isinstance(text, str) and _BUILT_BY.fullmatch(text)), "")


def stretched(file: File) -> Iterator[tuple[str, Area, Area]]:
    """Each name of a table that reaches beyond the cells of its sheet, its range, and what is read of it."""
    return ((name, area, within) for name, area, within in _bounds(file) if area != within)


def _bounds(file: File) -> Iterator[tuple[str, Area, Area]]:
    """Each name of a table with its range, and that range cut to the cells of the sheet, beyond which is nothing."""
    for name, area in file.names.items():
        sheet = file.sheet(area.sheet)
        if name.startswith(TABLE_NAME) and sheet is not None:
            rows, columns = sheet.content.ends
            within = replace(area, bottom=min(area.bottom, rows - 1), right=min(area.right, columns - 1))
            yield name, area, within


def inputs_of(file: File, book: Book, found: Found) -> ReadInputs:
    """The inputs of a file whose tables were found."""
    given = given_constants(book, _rate_units(file, found))
    values: dict[str, dict[str, Any]] = {}
    misplaced: dict[tuple[str, str], Any] = {}
    findings: list[Finding] = []
    for key, placed in found.placed.items():
        sheet = file.sheet(placed.sheet) or SheetCells(placed.sheet, False)
        values[key] = {}
        for column in placed.table.columns:
            if column.role == "formula":
                continue
            unit = book.units[key][column.key]
            formulas, shown = column_cells(sheet, placed, column.key)
            figures = _figures(shown, unit)
            values[key][column.key] = figures
            if column.role == "input" and unit != TEXT:
                misplaced[key, column.key] = _misplaced(shown, figures)
            entries = Entries(placed, column, unit, shown, formulas, figures)
            findings += column_problems(entries, given.get((key, column.key)))
        findings += duplicate_names(placed, values[key])
        findings += outside_table(placed, found.placed, sheet)
    findings += unknown_names(found.placed, values)
    today = stored_value(file, found, "start", "today")
    records = {key: placed.count for key, placed in found.placed.items()}
    forms = frozenset(key for key, placed in found.placed.items() if placed.single)
    inputs = Inputs(values, book.units, records, forms, today if isinstance(today, float) else 0.0, misplaced)
    return ReadInputs(found, inputs, tuple(findings))


def _rate_units(file: File, found: Found) -> list[str]:
    """The units of label rates that a file has, each a text."""
    placed = found.placed.get("rate_units")
    sheet = file.sheet(placed.sheet) if placed else None
    if placed is None or sheet is None:
        return []
    _, shown = column_cells(sheet, placed, "rate_unit")
    return [str(value or "") for value in shown]


def _figures(shown: Sequence[Scalar | None], unit: str) -> Any:
    """A column as the model takes it; blank where something of another kind stands."""
    if unit != TEXT:
        return np.array([value if type(value) is float else np.nan for value in shown], dtype=float)
    figures = np.empty(len(shown), dtype=object)
    figures[:] = ["" if value is None else value if isinstance(value, str) else _plain_text(value) for value in shown]
    return figures


def _misplaced(shown: Sequence[Scalar | None], figures: Any) -> Any:
    """True where something stands in a column of figures that is none; the empty text is nothing."""
    there = np.array([value is not None and value != "" for value in shown], dtype=bool)
    return there & np.isnan(figures)


def _plain_text(value: float | bool) -> str:
    return str(value).upper() if isinstance(value, bool) else f"{value:g}"


def stored_value(file: File, found: Found, table: str, key: str) -> Scalar | None:
    """The value that a file has stored for a form's figure; None too where the form was not found."""
    placed = found.placed.get(table)
    sheet = file.sheet(placed.sheet) if placed else None
    return sheet.value(*placed.cell(key)) if placed and sheet else None


def align_lengths(inputs: Inputs, book: Book) -> Inputs:
    """The inputs with all tables of one capacity in one length: blank records at the end of the shorter ones.

    A running number runs on.
    """
    tables = {key: table for key, table in book.tables.items() if isinstance(table.records, str)}
    longest: dict[int | str, int] = {}
    for key, table in tables.items():
        longest[table.records] = max(longest.get(table.records, 0), inputs.records[key])
    values, records, misplaced = dict(inputs.values), dict(inputs.records), dict(inputs.misplaced)
    for key, table in tables.items():
        have, want = records[key], longest[table.records]
        if have == want:
            continue
        running = {column.key for column in table.columns if column.meaning.running}
        values[key] = {
            name: np.concatenate([
                figures,
                np.arange(have + 1.0, want + 1) if name in running
                else blank_column(inputs.units[key][name], want - have),
            ])
            for name, figures in values[key].items()
        }  # fmt: skip
        for at in [at for at in misplaced if at[0] == key]:
            misplaced[at] = np.append(misplaced[at], np.zeros(want - have, dtype=bool))
        records[key] = want
    return replace(inputs, values=values, records=records, misplaced=misplaced)
