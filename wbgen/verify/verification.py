"""Recomputes every formula cell of a workbook and says where the witnesses disagree, and why."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator, Mapping, Set
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from wbgen.files.dates import serial
from wbgen.files.dates import today as day_of_use
from wbgen.files.diagnostics import Steps, silent
from wbgen.files.findings import Finding, Kind, Level
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.workbook import read
from wbgen.inputs.design import Design
from wbgen.inputs.from_workbook import book_of, built_by, inputs_of, stored_value, tables_in
from wbgen.verify import file_state, links
from wbgen.verify.changed_facts import facts_changed
from wbgen.verify.changed_settings import settings_changed
from wbgen.verify.display import cells, conditional
from wbgen.verify.engine.process import Engine, evaluating
from wbgen.verify.inventory import inventory_of
from wbgen.verify.judge import judge
from wbgen.verify.missing_rows import missing_rows
from wbgen.verify.recomputed import Recomputed, is_day, recompute
from wbgen.verify.to_mend import to_mend

WITNESSES = ("text", "engine", "model", "cached")
STEPS = ("reading", "recomputing", "evaluating formulas", "comparing")


@dataclass(frozen=True)
class Verification:
    """What verify found.

    `findings` are wrong; `warnings` and `notices` are not, but should be known, the warnings first. `cells` counts the
    cells that are not empty by what they are: formulas, inputs, constants, labels, spare. `witnesses` has the number of
    formula cells for which each gave evidence, 0 where it gave none. `today` is the serial number of the day for which
    the file was recomputed.
    `built_by` is what the sheet Start says that the file was built by, such as "wbgen 1.0"; "" where it says nothing.
    """

    path: Path
    findings: tuple[Finding, ...]
    notices: tuple[Finding, ...]
    cells: Mapping[str, int]
    witnesses: Mapping[str, int]
    today: float
    built_by: str = ""
    warnings: tuple[Finding, ...] = ()

    @property
    def clean(self) -> bool:
        return not self.findings

    @property
    def active_witnesses(self) -> tuple[str, ...]:
        """The witnesses that gave evidence."""
        return tuple(name for name, number in self.witnesses.items() if number)


def verify(path: Path, step: Steps = silent, design: Design | None = None, lawns: Path | None = None) -> Verification:
    """Verify a workbook that was built by a `design`, None being wbgen's own planner.

    The facts of its products are compared with the shipped catalogue; with `lawns`, the lawns.yaml that it was built
    from, with the catalogue that belongs to that.

    Raises UnsafeFile where the file is refused or is no such workbook, InputError where `lawns` has a mistake.
    """
    with _uncollected(), evaluating(path) as engine:
        return _verified(path, step, design or Design(), lawns, engine)


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


def _verified(path: Path, step: Steps, design: Design, lawns: Path | None, engine: Engine) -> Verification:
    step("reading")
    file = read(path, engine.look)
    book = book_of(file, design)
    found = tables_in(file, book)
    sheets = {placed.sheet for placed in found.placed.values()}
    inventory = inventory_of(file, book, found.placed)
    of_file = (
        *file_state.findings(file, book, found), *cells.findings(file, book, found.placed),
        *conditional.findings(file, book, found.placed), *links.findings(file, book, found.placed),
        *inventory.findings,
    )  # fmt: skip
    if found.lost:
        read_inputs = inputs_of(file, book, found)
        facts = facts_changed(file, book, found, read_inputs.inputs, lawns)
        findings, warnings, notices = by_level((*of_file, *read_inputs.findings, *facts), sheets)
        return Verification(
            path, findings, notices, inventory.cells, dict.fromkeys(WITNESSES, 0), 0.0, built_by(file), warnings
        )  # fmt: skip
    recomputed = recompute(file, book, found, design, engine, step)
    step("comparing")
    findings, warnings, notices = by_level(
        (
            *of_file, *missing_rows(recomputed), *_calculation_date(recomputed), *recomputed.input_findings,
            *judge(recomputed), *settings_changed(recomputed), *to_mend(recomputed),
            *facts_changed(file, book, found, recomputed.inputs, lawns),
        ),
        sheets,
    )  # fmt: skip
    witnesses = dict.fromkeys(WITNESSES, sum(len(column.texts) for column in recomputed.columns.values()))
    if not recomputed.recalculated:
        witnesses["cached"] = 0
    return Verification(
        path, findings, notices, inventory.cells, witnesses, recomputed.inputs.today, built_by(file), warnings
    )  # fmt: skip


def by_level(found: Iterable[Finding], sheets: Set[str]) -> tuple[tuple[Finding, ...], ...]:
    """Findings, warnings and notices, each in their order. `sheets` are the planner's, by name."""
    wrong: list[Finding] = []
    warnings: list[Finding] = []
    notices: list[Finding] = []
    for finding in found:
        if finding.kind.wrong(on_planner_sheet=finding.sheet in sheets):
            wrong.append(finding)
        else:
            (warnings if finding.kind.level is Level.WARNING else notices).append(finding)
    return tuple(wrong), tuple(warnings), tuple(notices)


def _calculation_date(recomputed: Recomputed) -> Iterator[Finding]:
    """A day of calculation that cannot be: none at all, before the planner was built, or later than tomorrow."""
    placed = recomputed.found.placed["start"]
    stored = stored_value(recomputed.file, recomputed.found, "start", "today")
    today = stored if isinstance(stored, float) else recomputed.inputs.today
    built = recomputed.built_on
    if not is_day(today):
        message = "the file says that it was calculated on a day that no calendar has"
    elif today > serial(day_of_use()) + 1:
        message = "the file says that it was calculated on a day that is still to come"
    elif recomputed.recalculated and built is not None and today < built - 1:
        message = "the file says that it was calculated before it was built"
    else:
        return
    yield Finding(
        placed.sheet, address(*placed.cell("today")), Kind.CALCULATION_DATE, today, None, message, None,
        placed.column("today").heading,
    )  # fmt: skip
