"""Explains where a figure comes from: its formula in words, its witnesses, and the figures that it is made of.

It goes down to what was typed, and from there back to the line of the file that the planner was filled from.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.references import Area
from wbgen.files.xlsx.workbook import read
from wbgen.inputs.design import Design
from wbgen.inputs.from_workbook import book_of, tables_in
from wbgen.sheets.compile import quoted
from wbgen.verify.compare import is_blank
from wbgen.verify.engine.process import Engine, evaluating
from wbgen.verify.explain.figure import Figures, WitnessValues
from wbgen.verify.explain.position import Figure, Position, figures, no_figure, position_meant, refused
from wbgen.verify.explain.precedents import precedents
from wbgen.verify.figure_text import plain_value, unit_shown
from wbgen.verify.provenance import Origin, Provenance, provenance
from wbgen.verify.recomputed import recompute

MOST_PARTS = 16
"""How many figures of one step are shown."""
FEW = 3
"""A column with so many figures or fewer is shown figure by figure."""


@dataclass(frozen=True)
class Step:
    """One figure, or one whole column, and what it is made of.

    `address` is "Mix!D53", of a column "Lawns!G8:G17". `role` is "formula", "typed" (an input), "given" (a constant of
    the planner) or "column". `value` is the engine's, in `unit` as it is printed; None for blank and for a column; a
    date is ISO text. `shown` is value and unit for a person. `record` names the record of the table, `words` is the
    formula in the planner's own names, `formula` the one in the file. `below` counts the parts that are not shown;
    `repeated` is true where they are shown at an earlier step.
    """

    address: str
    heading: str
    role: str
    value: Any
    unit: str
    shown: str
    record: str = ""
    words: str = ""
    formula: str = ""
    note: str = ""
    witnesses: WitnessValues | None = None
    came_from: Origin | None = None
    parts: tuple[Step, ...] = ()
    below: int = 0
    repeated: bool = False


def explain(path: Path, written: str, depth: int = 4, lawns: Path | None = None, design: Design | None = None) -> Step:
    """The figure at the address `written` ("Mix!D12"), explained to `depth` steps; with `lawns`, inputs back to that
    file. `design` None is wbgen's own planner.

    Raises UnsafeFile where the workbook is refused, InputError where there is no figure at that address or where
    `lawns` has a mistake.
    """
    with evaluating(path) as engine:
        return _explained(path, written, depth, lawns, design or Design(), engine)


def _explained(path: Path, written: str, depth: int, lawns: Path | None, design: Design, engine: Engine) -> Step:
    file = read(path, engine.look)
    book = book_of(file, design)
    found = tables_in(file, book)
    if found.lost:
        raise no_figure(path, written, "a workbook whose tables are all there", "run wbgen verify on it first")
    position = position_meant(written, file)
    by_position = figures(found.placed)
    if position not in by_position:
        raise refused(position, file, book, found.placed)
    recomputed = recompute(file, book, found, design, engine)
    explainer = _Explainer(Figures(recomputed, by_position), provenance(book, recomputed.inputs, lawns))
    return explainer.step(position, depth)


class _Explainer:
    def __init__(self, figures: Figures, origins: Provenance) -> None:
        self.figures, self.origins = figures, origins
        self.explained: dict[Position, int] = {}
        """To what depth each formula was explained."""

    def step(self, position: Position, depth: int) -> Step:
        """The step of one figure."""
        figure = self.figures.by_position[position]
        table, key, record = figure.placed.table.key, figure.key, figure.record
        column = figure.placed.column(key)
        unit, value = self.figures.unit(figure), self.figures.value(figure)
        witnesses = self.figures.witnesses(figure)
        sheet, row, sheet_column = position
        step = Step(
            f"{quoted(sheet)}!{address(row, sheet_column)}", self.figures.heading(figure), column.role,
            plain_value(value, unit), unit_shown(unit, self.figures.currency), self.figures.display(figure, value),
            self.figures.record(figure), note=column.page.note,
        )  # fmt: skip
        if witnesses is None:
            typed = column.role == "input"
            origin = self.origins.of(table, key, record) if typed else None
            return replace(step, role="typed" if typed else "given", came_from=origin)
        text = witnesses.texts[record]
        step = replace(
            step, words=self.figures.recomputed.book.formulas[table][key].source,
            formula="" if text is None else "=" + text,
            witnesses=self.figures.witness_values(witnesses, figure),
        )  # fmt: skip
        return self.with_parts(step, position, text or "", depth)

    def with_parts(self, step: Step, position: Position, formula: str, depth: int) -> Step:
        """The step with its parts, unless an earlier one has shown them at least as deep."""
        areas = list(self.areas(formula, position))
        if areas and self.explained.get(position, 0) >= max(depth, 2):
            return replace(step, repeated=True)
        if depth <= 1:
            return replace(step, below=len(areas))
        self.explained[position] = depth
        parts = tuple(self.part(area, depth - 1) for area in areas[:MOST_PARTS])
        return replace(step, parts=parts, below=len(areas) - len(parts))

    def areas(self, formula: str, position: Position) -> Iterator[Area]:
        """What a formula refers to that holds figures of the planner."""
        for area in precedents(formula, position[0], self.figures.value_at):
            if self.inside(area):
                yield area

    def part(self, area: Area, depth: int) -> Step:
        """The step of one figure or of a whole column."""
        if (area.top, area.left) == (area.bottom, area.right):
            return self.step((area.sheet, area.top, area.left), depth)
        return self.column(area, depth)

    def inside(self, area: Area) -> list[tuple[Position, Figure]]:
        """The cells of a range that hold figures."""
        cells = (
            (area.sheet, row, column)
            for row in range(area.top, area.bottom + 1)
            for column in range(area.left, area.right + 1)
        )
        known = self.figures.by_position
        return [(cell, known[cell]) for cell in cells if cell in known]

    def column(self, area: Area, depth: int) -> Step:
        """A whole column of a table as one step; its figures below it where they are few."""
        inside = self.inside(area)
        first = inside[0][1]
        unit = self.figures.unit(first)
        values = [(position, self.figures.value(figure)) for position, figure in inside]
        filled = [(position, value) for position, value in values if not is_blank(value)]
        shown = f"{len(filled)} of {len(values)} filled" + self.figures.summary(first, [value for _, value in filled])
        few = depth > 1 and len(filled) <= FEW
        parts = tuple(self.step(position, depth - 1) for position, _ in filled) if few else ()
        cells = f"{quoted(area.sheet)}!{address(area.top, area.left)}:{address(area.bottom, area.right)}"
        return Step(
            cells, f"column {self.figures.heading(first)}", "column", None, unit_shown(unit, self.figures.currency),
            shown, parts=parts, below=len(filled) - len(parts),
        )  # fmt: skip
