"""A planner opened for verify, explain and export: its templates, its tables, its inputs, and its witnesses."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from typing import Any

from wbgen.files.accepted import LAST_DAY
from wbgen.files.dates import serial
from wbgen.files.dates import today as day_of_use
from wbgen.files.diagnostics import Steps, silent
from wbgen.files.xlsx.workbook import File
from wbgen.inputs.constants import given_constants
from wbgen.inputs.design import Design
from wbgen.inputs.from_workbook import Returned, align_lengths, inputs_of, stored_value
from wbgen.inputs.locate import Found
from wbgen.model.inputs import NOT_YET, Inputs
from wbgen.sheets.book import Book, compile_book
from wbgen.verify import engine
from wbgen.verify.unit_proof import UnitsInFile
from wbgen.verify.witnesses import ColumnWitnesses, add_engine_values, run_model, text_and_model


@dataclass(frozen=True)
class Recomputed:
    """A workbook as verify and explain see it.

    `recalculated` is true where a spreadsheet program has calculated and saved the file since it was built: only
    then is what it has stored a witness.
    """

    file: File
    book: Book
    returned: Returned
    columns: Mapping[tuple[str, str], ColumnWitnesses]
    recalculated: bool

    @property
    def inputs(self) -> Inputs:
        return self.returned.inputs

    @property
    def found(self) -> Found:
        return self.returned.found

    @cached_property
    def given(self) -> Mapping[str, Sequence[Any]]:
        """The records of the tables whose constants are the same in every planner, by table."""
        return {table: rows for (table, _), rows in given_constants(self.book).items()}

    @property
    def built_on(self) -> float | None:
        """The serial number of the day on which the planner was built; None where that cannot be read."""
        try:
            return serial(date.fromisoformat(str(self.inputs.values["start"]["built_on"][0])))
        except ValueError:
            return None

    @cached_property
    def units(self) -> UnitsInFile:
        """The proof of units over the file's own formulas."""
        return UnitsInFile(self.book, self.found.placed)


FIRST_DAY = 61
"""The serial number from which spreadsheet programs agree: some know a 29 February 1900, the day before."""


def is_day(number: float) -> bool:
    """Whether a serial number is a whole day that every program reads alike."""
    return number == int(number) and FIRST_DAY <= number <= serial(LAST_DAY)


def recompute(file: File, book: Book, found: Found, design: Design, step: Steps = silent) -> Recomputed:
    """The witnesses of every computed column of a file in which every table was found."""
    returned = inputs_of(file, book, found)
    today = returned.inputs.today
    if not is_day(today):  # none is stored, or one that no calendar has
        today = serial(day_of_use())
    inputs = align_lengths(replace(returned.inputs, today=today), book)
    extents = {sheet.name: sheet.extent for sheet in file.sheets}
    step("evaluating formulas")
    with ThreadPoolExecutor(1) as beside:  # the engine is no Python and leaves the other core to the model
        evaluated = beside.submit(engine.evaluate, file.path, extents, today)
        compiled, modelled = compile_book(book, found.placed), run_model(book, inputs, design)
        columns = text_and_model(book, file, found.placed, compiled, modelled)
        values = evaluated.result()
    step("recomputing")
    add_engine_values(columns, values, inputs, design)
    canary = stored_value(file, found, "start", "recalculated")
    return Recomputed(file, book, replace(returned, inputs=inputs), columns, canary not in (None, "", NOT_YET))
