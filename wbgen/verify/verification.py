"""Recompute every formula cell of a workbook and say where the witnesses disagree, and why."""

from __future__ import annotations

import gc
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from wbgen.files.dates import serial
from wbgen.files.dates import today as day_of_use
from wbgen.files.diagnostics import Steps, silent
from wbgen.files.findings import Finding
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.workbook import read
from wbgen.inputs.capacity import FIXED, diary_lines
from wbgen.inputs.design import Design
from wbgen.inputs.from_workbook import book_of, built_by, inputs_of, stored_value, tables_in
from wbgen.sheets.layout import Placed
from wbgen.verify import file_state
from wbgen.verify.display import cells, conditional
from wbgen.verify.inventory import inventory
from wbgen.verify.judge import judged
from wbgen.verify.recomputed import Recomputed, is_day, recompute
from wbgen.verify.settings import settings_changed

WITNESSES = ("text", "engine", "model", "cached")
STEPS = ("reading", "evaluating formulas", "recomputing", "comparing")


@dataclass(frozen=True)
class Verification:
    """What verify found.

    `findings` are wrong, `notices` only said. `cells` counts the cells that are not empty by what they are:
    formulas, inputs, constants, labels, spare. `witnesses` has, for each, the formula cells that it spoke of.
    `today` is the serial number of the day for which the file was recomputed. `built_by` is what the sheet Start says
    that the file was built by, such as "wbgen 1.0"; "" where it says nothing.
    """

    path: Path
    findings: tuple[Finding, ...]
    notices: tuple[Finding, ...]
    cells: Mapping[str, int]
    witnesses: Mapping[str, int]
    today: float
    built_by: str = ""

    @property
    def clean(self) -> bool:
        return not self.findings

    @property
    def heard(self) -> tuple[str, ...]:
        """The witnesses that spoke."""
        return tuple(name for name, number in self.witnesses.items() if number)


def verify(path: Path, step: Steps = silent, design: Design | None = None) -> Verification:
    """Verify a workbook that was built by a `design`, None being wbgen's own planner.

    Raises UnsafeFile where the file is refused or is no such workbook.
    """
    with _uncollected():
        return _verified(path, step, design or Design())


@contextmanager
def _uncollected() -> Iterator[None]:
    """Without the collector of cycles: looking for them among all the cells takes long, and few are made here."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()


def _verified(path: Path, step: Steps, design: Design) -> Verification:
    step("reading")
    file = read(path)
    book = book_of(file, design)
    found = tables_in(file, book)
    whole = (*file_state.findings(file, book, found), *cells.findings(file, book, found.placed),
             *conditional.findings(file, book, found.placed))  # fmt: skip
    said = (*file_state.notices(file, found), *cells.notices(file, book, found.placed))
    counted = inventory(file, book, found.placed)
    around = (*whole, *counted.findings)
    notices = (*said, *counted.notices)
    if found.lost:
        inputs = inputs_of(file, book, found).findings
        return Verification(path, (*around, *inputs), notices, counted.cells, dict.fromkeys(WITNESSES, 0), 0.0,
                            built_by(file))  # fmt: skip
    opened = recompute(file, book, found, design, step)
    step("comparing")
    findings = (*around, *_rows_missing(opened), *_clock(opened), *opened.returned.findings, *judged(opened))
    notices = (*notices, *settings_changed(opened))
    number = sum(len(column.texts) for column in opened.columns.values())
    witnesses = dict.fromkeys(WITNESSES, number)
    if not opened.recalculated:
        witnesses["cached"] = 0
    return Verification(path, findings, notices, counted.cells, witnesses, opened.inputs.today, built_by(file))


def _rows_missing(opened: Recomputed) -> Iterator[Finding]:
    """Tables that have fewer records than every planner, or than the records that they should follow."""
    for key, placed in opened.found.placed.items():
        table = placed.table
        wanted = max(_least(opened, table.records), len(opened.given.get(key, ())))
        if placed.records < wanted and not placed.single:
            at = address(placed.last, placed.left)
            yield Finding(
                placed.sheet, at, "row missing", float(placed.records), float(wanted),
                f"the table {table.title!r} has fewer records than there is to tell", None, table.title,
            )  # fmt: skip


def _least(opened: Recomputed, records: int | str) -> int:
    """How many records a table must have: a fixed number, or as many as the table of that name has in use.

    Where nothing is typed into that table, as many as the longest of its capacity.
    """
    if isinstance(records, int):
        return records
    if records == "diary_lines":
        lawns = int(np.sum(opened.columns["mix_lawns", "lawn_used"].global_model != ""))
        return diary_lines(lawns, _used(opened, "mix_products"))
    placed = opened.found.placed
    if records in placed and not _typed(placed[records]):
        others = max(other.records for other in placed.values() if other.table.records == records)
    else:
        others = _used(opened, records)
    return max(FIXED.get(records, 0), others)


def _typed(placed: Placed) -> list[str]:
    """The input columns of a table."""
    return [column.key for column in placed.table.columns if column.role == "input"]


def _used(opened: Recomputed, table: str) -> int:
    """The number of records of a table up to the last one that has a name or, where none has, anything typed in."""
    placed = opened.found.placed.get(table)
    if placed is None:
        return 0
    typed = _typed(placed)
    columns = [opened.inputs.values[table][key] for key in (["name"] if "name" in typed else typed)]
    filled = [column != "" if column.dtype == object else ~np.isnan(column) for column in columns]
    return max((int(np.flatnonzero(one).max(initial=-1)) + 1 for one in filled), default=0)


def _clock(opened: Recomputed) -> Iterator[Finding]:
    """A day of calculation that cannot be: none at all, before the planner was built, or later than tomorrow."""
    placed = opened.found.placed["start"]
    stored = stored_value(opened.file, opened.found, "start", "today")
    today = stored if isinstance(stored, float) else opened.inputs.today
    at = address(*placed.cell("today"))
    built = opened.built_on
    if not is_day(today):
        what = "the file says that it was calculated on a day that no calendar has"
    elif today > serial(day_of_use()) + 1:
        what = "the file says that it was calculated on a day that is still to come"
    elif opened.recalculated and built is not None and today < built - 1:
        what = "the file says that it was calculated before it was built"
    else:
        return
    yield Finding(placed.sheet, at, "date of calculation", today, None, what, None,
                       placed.column("today").heading)  # fmt: skip
