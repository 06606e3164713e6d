"""Where a figure comes from: its formula in words, and the figures it is made of, down to what was typed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from wbgen.causes import Range, references
from wbgen.comparison import is_blank, same
from wbgen.diagnostics import Finding, InputError, Place
from wbgen.inputs import DATE, TEXT
from wbgen.opened import Opened, book_of, open_tables
from wbgen.reader import read
from wbgen.returned import tables_in
from wbgen.rows import date_of
from wbgen.sheets.formula import place as address
from wbgen.sheets.layout import Placed
from wbgen.units import label

MOST_CHILDREN = 12
"""How many figures of one step are shown."""


@dataclass(frozen=True)
class Step:
    """One figure: where it stands, what it is called, its value with its unit, its formula, and what it is made of."""

    place: str
    heading: str
    value: str
    formula: str = ""
    witnesses: str = ""
    parts: tuple[Step, ...] = field(default=())


def explain(path: Path, place: str, depth: int = 4) -> Step:
    """The figure at `place` ("Mix!D12"), explained to `depth` steps.

    Raises UnsafeFile where the file is refused, InputError where there is no figure at that place.
    """
    file = read(path)
    book = book_of(file)
    found = tables_in(file, book)
    if found.lost:
        raise _no_figure(path, place, "a workbook whose tables are all there", "run wbgen verify on it first")
    opened = open_tables(file, book, found)
    sheet, _, cell = place.rpartition("!")
    areas = list(references(place if sheet else "A1", ""))
    name = sheet.strip("'")
    if not sheet or not cell or not areas or file.sheet(name) is None:
        known = ", ".join(one.name for one in file.sheets)
        raise _no_figure(path, place, "a sheet and a cell such as Mix!D12", f"the sheets are: {known}")
    step = _Explainer(opened).step(name, areas[0].top, areas[0].left, depth)
    if step is None:
        raise _no_figure(path, place, "a cell that holds a figure of the planner", "choose a cell below a heading")
    return step


def _no_figure(path: Path, place: str, expected: str, remedy: str) -> InputError:
    return InputError([Finding("no-figure", Place(str(path)), expected, place, remedy, "there is nothing to explain")])


class _Explainer:
    def __init__(self, opened: Opened) -> None:
        self.opened = opened
        self.at: dict[tuple[str, int, int], tuple[Placed, str, int]] = {}
        for placed in opened.returned.found.placed.values():
            for column in placed.table.columns:
                for record in range(1 if placed.single else placed.records):
                    self.at[(placed.sheet, *placed.cell(column.key, record))] = (placed, column.key, record)

    def step(self, sheet: str, row: int, column: int, depth: int) -> Step | None:
        known = self.at.get((sheet, row, column))
        if known is None:
            return None
        placed, key, record = known
        table = placed.table.key
        shown = f"{sheet}!{address(row, column)}"
        heading = (
            f"{placed.table.title}: {placed.column(key).heading}" if placed.table.title else placed.column(key).heading
        )
        unit = self.opened.book.units[table][key]
        witnesses = self.opened.columns.get((table, key))
        if witnesses is None:
            value = self.opened.inputs.values[table][key][record]
            role = "typed" if placed.column(key).role == "input" else "given"
            return Step(shown, heading, display(value, unit), role)
        value, model, stored = witnesses.engine[record], witnesses.model[record], witnesses.stored[record]
        agree = "engine and model agree" if same(value, model) else f"the model says {display(model, unit)}"
        if self.opened.recalculated and not same(value, stored):
            agree += f"; the file has stored {display(stored, unit)}"
        source = self.opened.book.formulas[table][key].source
        formula = witnesses.texts[record] or ""
        parts = tuple(self._parts(formula, sheet, depth - 1)) if depth > 1 else ()
        return Step(shown, heading, display(value, unit), source, agree, parts)

    def _parts(self, formula: str, sheet: str, depth: int) -> Iterator[Step]:
        seen: set[Range] = set()
        for area in references(formula, sheet):
            if area in seen or len(seen) >= MOST_CHILDREN:
                continue
            seen.add(area)
            if (area.top, area.left) == (area.bottom, area.right):
                step = self.step(area.sheet, area.top, area.left, depth)
                if step is not None:
                    yield step
            else:
                yield self._column(area)

    def _column(self, area: Range) -> Step:
        """A whole column of a table as one step."""
        middle = [self.at.get((area.sheet, row, column)) for row, column in _some_cells(area)]
        known = next((one for one in middle if one is not None), None)
        shown = f"{area.sheet}!{address(area.top, area.left)}:{address(area.bottom, area.right)}"
        if known is None:
            return Step(shown, "cells", "")
        placed, key, _ = known
        table = placed.table.key
        witnesses = self.opened.columns.get((table, key))
        figures = witnesses.engine if witnesses else list(self.opened.inputs.values[table][key])
        filled = sum(not is_blank(value) for value in figures)
        return Step(
            shown,
            f"{placed.table.title}: the column {placed.column(key).heading}",
            f"{filled} of {len(figures)} filled",
        )


def _some_cells(area: Range) -> Iterator[tuple[int, int]]:
    for row in range(area.top, min(area.bottom, area.top + 3) + 1):
        for column in range(area.left, min(area.right, area.left + 3) + 1):
            yield row, column


def display(value: Any, unit: str) -> str:
    """A figure with its unit, for a person.

    >>> display(2.5, "g/m**2"), display(46023.0, "date"), display(float("nan"), "kg")
    ('2.5 g/m²', '2026-01-01', 'empty')
    """
    if is_blank(value):
        return "empty"
    if unit == TEXT or isinstance(value, str):
        return str(value)
    if unit == DATE:
        return date_of(value).isoformat()
    return f"{float(value):.10g}" + (f" {label(unit)}" if unit else "")
