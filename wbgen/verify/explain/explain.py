"""Where a figure comes from: its formula in words, what its witnesses say of it, and the figures it is made of.

Down to what was typed, and from there back to the line of the file that the planner was filled from.
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
from wbgen.verify.explain.figure import Figures, Said, plain
from wbgen.verify.explain.place import Figure, Position, figures, no_figure, place_meant, refused
from wbgen.verify.explain.precedents import reached
from wbgen.verify.provenance import Origin, Provenance, provenance
from wbgen.verify.recomputed import recompute
from wbgen.verify.shown import unit_shown

MOST_PARTS = 16
"""How many figures of one step are shown."""
FEW = 3
"""A column with so many figures or fewer is shown figure by figure."""


@dataclass(frozen=True)
class Step:
    """One figure, or one whole column, and what it is made of.

    `role` is "formula", "typed" (an input), "given" (a constant of the planner) or "column". `value` is the engine's,
    in `unit` as it is printed; None for blank and for a column; a date is ISO text. `record` names the record of the
    table, `words` is the formula in the planner's own names, `formula` the one in the file. `below` counts
    the parts that are not shown; `repeated` is true where they are shown at an earlier step.
    """

    place: str
    heading: str
    role: str
    value: Any
    unit: str
    shown: str
    record: str = ""
    words: str = ""
    formula: str = ""
    note: str = ""
    witnesses: Said | None = None
    came_from: Origin | None = None
    parts: tuple[Step, ...] = ()
    below: int = 0
    repeated: bool = False


def explain(path: Path, place: str, depth: int = 4, lawns: Path | None = None, design: Design | None = None) -> Step:
    """The figure at `place` ("Mix!D12"), explained to `depth` steps; with `lawns`, inputs back to that file.

    `design` None is wbgen's own planner.

    Raises UnsafeFile where the workbook is refused, InputError where there is no figure at that place or where
    `lawns` has a mistake.
    """
    file = read(path)
    design = design or Design()
    book = book_of(file, design)
    found = tables_in(file, book)
    if found.lost:
        raise no_figure(path, place, "a workbook whose tables are all there", "run wbgen verify on it first")
    spot = place_meant(place, file)
    at = figures(found.placed)
    if spot not in at:
        raise refused(spot, file, book, found.placed)
    opened = recompute(file, book, found, design)
    return _Explainer(Figures(opened, at), provenance(book, opened.inputs, lawns)).step(spot, depth)


class _Explainer:
    def __init__(self, figures: Figures, origins: Provenance) -> None:
        self.figures, self.origins = figures, origins
        self.at = figures.at
        self.told: dict[Position, int] = {}

    def step(self, spot: Position, depth: int) -> Step:
        figure = self.at[spot]
        table, key, record = figure.placed.table.key, figure.key, figure.record
        column = figure.placed.column(key)
        unit, value = self.figures.unit(figure), self.figures.value(figure)
        witnesses = self.figures.witnesses(figure)
        step = Step(
            f"{quoted(spot[0])}!{address(spot[1], spot[2])}", self.figures.heading(figure), column.role,
            plain(value, unit), unit_shown(unit, self.figures.currency), self.figures.display(figure, value),
            self.figures.record(figure), note=column.note,
        )  # fmt: skip
        if witnesses is None:
            typed = column.role == "input"
            origin = self.origins.of(table, key, record) if typed else None
            return replace(step, role="typed" if typed else "given", came_from=origin)
        text = witnesses.texts[record]
        step = replace(
            step, words=self.figures.opened.book.formulas[table][key].source,
            formula="" if text is None else "=" + text, witnesses=self.figures.said(witnesses, figure),
        )  # fmt: skip
        return self.with_parts(step, spot, text or "", depth)

    def with_parts(self, step: Step, spot: Position, formula: str, depth: int) -> Step:
        """The step with its parts, unless an earlier one has shown them at least as deep."""
        areas = list(self.areas(formula, spot))
        if areas and self.told.get(spot, 0) >= max(depth, 2):
            return replace(step, repeated=True)
        if depth <= 1:
            return replace(step, below=len(areas))
        self.told[spot] = depth
        parts = tuple(self.part(area, depth - 1) for area in areas[:MOST_PARTS])
        return replace(step, parts=parts, below=len(areas) - len(parts))

    def areas(self, formula: str, spot: Position) -> Iterator[Area]:
        """What a formula refers to that holds figures of the planner."""
        for area in reached(formula, spot[0], self.figures.value_at):
            if self.inside(area):
                yield area

    def part(self, area: Area, depth: int) -> Step:
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
        return [(cell, self.at[cell]) for cell in cells if cell in self.at]

    def column(self, area: Area, depth: int) -> Step:
        """A whole column of a table as one step; its figures below it where they are few."""
        inside = self.inside(area)
        first = inside[0][1]
        unit = self.figures.unit(first)
        values = [(spot, self.figures.value(figure)) for spot, figure in inside]
        filled = [(spot, value) for spot, value in values if not is_blank(value)]
        said = f"{len(filled)} of {len(values)} filled" + self.figures.summary(first, [value for _, value in filled])
        parts = tuple(self.step(spot, depth - 1) for spot, _ in filled) if depth > 1 and len(filled) <= FEW else ()
        whole = f"{quoted(area.sheet)}!{address(area.top, area.left)}:{address(area.bottom, area.right)}"
        return Step(
            whole, f"column {self.figures.heading(first)}", "column", None, unit_shown(unit, self.figures.currency),
            said, parts=parts, below=len(filled) - len(parts),
        )  # fmt: skip
