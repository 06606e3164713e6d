"""A small planner with every table in use, whose stored values LibreOffice calculated."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Final

from support.office import recalculate
from support.planners import site_text
from thorough.mutations.drawing import Drawn, Field, mutants, poisoned, with_other_values
from thorough.mutations.planting import Workbook, workbook
from wbgen.build import Planner, build
from wbgen.files.xlsx.addresses import letters
from wbgen.sheets.template import System

LINES: Final = 12
"""Lines of the diary; some more are left empty."""
SEED: Final = "20260630"


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
        book, inputs = self.made.book, self.made.inputs
        found = []
        for table, formulas in book.formulas.items():
            placed = self.made.laid.placed[table]
            for key in formulas:
                cells = [placed.cell(key, record) for record in range(inputs.records[table])]
                places = tuple(f"{letters(column)}{row + 1}" for row, column in cells)
                found.append(Field(table, key, book.units[table][key], placed.sheet, places))
        return found

    @cached_property
    def mutants(self) -> Drawn:
        return mutants(self.stored, self.fields, f"{SEED} {self.made.book.system}")

    @cached_property
    def poisoned(self) -> Drawn:
        return poisoned(self.stored, self.fields, f"{SEED} {self.made.book.system} stored")

    @cached_property
    def mixed(self) -> Drawn:
        return with_other_values(self.mutants, f"{SEED} {self.made.book.system} mixed")


def subject(folder: Path, system: System) -> Subject:
    """Build the planner in `folder`, have it calculated, and draw its mutants."""
    lawns = folder / f"{system}.yaml"
    lawns.write_text(few_lines(site_text("full")), encoding="utf-8")
    built = folder / f"{system}.xlsx"
    made = build(lawns, built, system=system, diary_rows=LINES + 4, today=date(2026, 6, 30))
    return Subject(recalculate(built, folder / "calculated"), made)


def few_lines(site: str) -> str:
    """A site with the first lines of its diary only."""
    head, mark, diary = site.partition("diary:\n")
    assert mark
    return head + mark + "".join(diary.splitlines(keepends=True)[:LINES])
