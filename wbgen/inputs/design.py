"""A planner's design: the templates that it is built from, and the model that recomputes it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Final

from wbgen.files.diagnostics import Report, did_you_mean
from wbgen.model.binding import PLANNER, ColumnFunctions, Model
from wbgen.model.inputs import Figures, Inputs
from wbgen.sheets.book import Book, Templates, shipped_templates
from wbgen.sheets.column import System


@dataclass(frozen=True)
class Design:
    """Templates and model functions that belong together; those of wbgen's own planner unless others are given.

    Neither half knows the other: each column that the templates compute has a function of the same name in the model.
    """

    templates: Templates = field(default_factory=shipped_templates)
    functions: ColumnFunctions = PLANNER

    def book(self, system: System) -> Book:
        """The book of the templates in a system of units.

        Raises InputError with every mistake in the templates, and with every computed column that the model has no
        function for, every function that no column is computed by.
        """
        return _matched(self, system)

    def model(self, inputs: Inputs, given: Mapping[tuple[str, str], Figures] | None = None) -> Model:
        """The model over `inputs`; `given` columns are taken as they stand."""
        return Model(inputs, given, self.functions)


NEEDED: Final = {
    "today": "the day for which the formulas are calculated",
    "recalculated": "whether a spreadsheet program has saved the file",
    "units": "the system of units of a file that comes back",
    "built_on": "the day on which a file was built",
}
"""Columns of the form `start` that the commands go by, with the reason."""


@cache
def _matched(design: Design, system: System) -> Book:
    book, report = design.templates.book(system), Report()
    _need(book, report)
    for table in book.tables.values():
        _match(table.key, book, design.functions, report)
    report.raise_any()
    return book


def _need(book: Book, report: Report) -> None:
    """Report what the commands look for in the form `start` and do not find."""
    start = book.tables.get("start")
    known = {column.key for column in start.columns} if start else set()
    place = start.written.place if start else book.sheets[0].written.place
    for key in NEEDED.keys() - known:
        report.add("missing-column", place, f"there is no column start.{key}: {NEEDED[key]}",
                   expected=f"a form start with a column {key}", found="none",
                   remedy=did_you_mean(key, known) or f"write the column {key}")  # fmt: skip


def _match(table: str, book: Book, functions: ColumnFunctions, report: Report) -> None:
    """Report the columns of a table that have no function, and the functions that have no column."""
    known, served = functions.of(table), set()
    columns = {column.key: column for column in book.tables[table].columns}
    for key in book.formulas[table]:
        found = functions.function_for(table, key)
        if found is None:
            report.add("no-function", columns[key].written.of("formula"), f"{table}.{key} has no function in the model",
                       expected=f"a function {key} for the table {table} in {functions.package.__name__}",
                       found="none", remedy=did_you_mean(key, known) or f"write the function {key}")  # fmt: skip
        else:
            served.add(found[0].__name__)
    for name in known.keys() - served:
        first = next(iter(columns.values()))
        report.add("no-formula", first.written.place, f"{name} of the model computes no column of {table}",
                   expected=f"a column {name} with a formula", found="none",
                   remedy=did_you_mean(name, columns) or f"write the column, or delete {name}")  # fmt: skip
