"""Recomputes a workbook for verify, explain and export: its tables, its inputs and the witnesses of its cells."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from typing import Any

from wbgen.files.accepted_values import LAST_DAY
from wbgen.files.dates import serial
from wbgen.files.dates import today as day_of_use
from wbgen.files.diagnostics import Steps, silent
from wbgen.files.findings import Finding
from wbgen.files.xlsx.workbook import File
from wbgen.inputs.constants import given_constants
from wbgen.inputs.design import Design
from wbgen.inputs.from_workbook import align_lengths, inputs_of, stored_value
from wbgen.inputs.locate import Found
from wbgen.model.inputs import NOT_YET, Inputs
from wbgen.sheets.book import Book, compile_book
from wbgen.verify.engine.process import Engine
from wbgen.verify.unit_proof import UnitsInFile
from wbgen.verify.witnesses import ColumnKey, ColumnWitnesses, add_engine_values, run_model, text_and_model


@dataclass(frozen=True)
class Recomputed:
    """A workbook and the witnesses of all its computed columns, by table and key.

    `found` are its tables, `inputs` what stands in its input and constant cells, `input_findings` what is wrong with
    that. `recalculated` is true where a spreadsheet program has calculated and saved the file since it was built: only
    then is what it has stored a witness.
    """

    file: File
    book: Book
    found: Found
    inputs: Inputs
    input_findings: tuple[Finding, ...]
    columns: Mapping[ColumnKey, ColumnWitnesses]
    recalculated: bool

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


FIRST_SERIAL = 61
"""The serial number from which spreadsheet programs agree: some know a 29 February 1900, the day before."""


def is_day(number: float) -> bool:
    """Whether a serial number is a whole day that every program reads alike."""
    return number == int(number) and FIRST_SERIAL <= number <= serial(LAST_DAY)


def recompute(file: File, book: Book, found: Found, design: Design, engine: Engine, step: Steps = silent) -> Recomputed:
    """The witnesses of every computed column of a file in which every table was found; it is in the `engine` already.

    Raises UnsafeFile where the engine cannot load the file.
    """
    read_inputs = inputs_of(file, book, found)
    today = read_inputs.inputs.today
    if not is_day(today):  # none is stored, or one that no calendar has
        today = serial(day_of_use())
    inputs = align_lengths(replace(read_inputs.inputs, today=today), book)
    engine.begin(today)
    step("recomputing")
    compiled, modelled = compile_book(book, found.placed), run_model(book, inputs, design)
    columns = text_and_model(book, file, found.placed, compiled, modelled)
    step("evaluating formulas")
    values = engine.values(file)
    add_engine_values(columns, values, inputs, design)
    stored = stored_value(file, found, "start", "recalculated")
    recalculated = stored not in (None, "", NOT_YET)
    return Recomputed(file, book, found, inputs, read_inputs.findings, columns, recalculated)
