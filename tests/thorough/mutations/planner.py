"""A small planner with every table in use, whose stored values LibreOffice calculated."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Final

from support.office import recalculate
from support.planners import built_once, site_text
from support.shared import Shared
from support.tier import TIER
from thorough.mutations.drawing import Drawn, Field, mutants, poisoned, with_other_values
from thorough.mutations.planting import Workbook, workbook
from wbgen.build import Planner
from wbgen.files.xlsx.addresses import letters
from wbgen.sheets.column import System

LINES: Final = 12
"""Lines of the diary; some more are left empty."""
STEP: Final = 6
"""Where one mutant stands for many, every sixth column has some."""


@dataclass(frozen=True)
class Subject:
    """A planner to be mutated: its stored workbook, and its formula columns."""

    path: Path
    made: Planner

    @cached_property
    def stored(self) -> Workbook:
        return workbook(self.path)

    @cached_property
    def fields(self) -> list[Field]:
        """The columns that mutants are drawn for: all, or the first of each table and some more."""
        if TIER.mutants == "spread":
            return self.every_field
        return [
            field
            for number, field in enumerate(self.every_field)
            if number % STEP == 0 or field.table != self.every_field[number - 1].table
        ]

    @cached_property
    def every_field(self) -> list[Field]:
        book, inputs = self.made.book, self.made.inputs
        found = []
        for table, formulas in book.formulas.items():
            placed = self.made.layout.placed[table]
            for key in formulas:
                cells = [placed.cell(key, record) for record in range(inputs.records[table])]
                places = tuple(f"{letters(column)}{row + 1}" for row, column in cells)
                found.append(Field(table, key, book.units[table][key], placed.sheet, places))
        return found

    @cached_property
    def mutants(self) -> Drawn:
        return mutants(self.stored, self.fields, f"{TIER.seed} {self.made.book.system}")

    @cached_property
    def poisoned(self) -> Drawn:
        return poisoned(self.stored, self.fields, f"{TIER.seed} {self.made.book.system} stored")

    @cached_property
    def mixed(self) -> Drawn:
        return with_other_values(self.mutants, f"{TIER.seed} {self.made.book.system} mixed")


def subject(shared: Shared, system: System) -> Subject:
    """Build the planner, have it calculated, and draw its mutants; the first two once a run."""
    built = built_once(shared, "mutated", few_lines(site_text("full")), system, diary_rows=LINES + 4)
    path = shared.once(f"{built.path.stem}-calculated", lambda: recalculate(built.path, shared.folder / "calculated"))
    return Subject(path, built.made)


def few_lines(site: str) -> str:
    """A site with the first lines of its diary only."""
    head, mark, diary = site.partition("diary:\n")
    assert mark
    return head + mark + "".join(diary.splitlines(keepends=True)[:LINES])
