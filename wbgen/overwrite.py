"""What a build may put in the place of: nothing that holds work it would lose."""

from __future__ import annotations

import math
from collections import Counter
from pathlib import Path

from wbgen.files.diagnostics import Diagnostic, InputError, Place
from wbgen.files.findings import Kind
from wbgen.files.xlsx.refusal import UnsafeFile
from wbgen.files.xlsx.workbook import read
from wbgen.inputs.design import Design
from wbgen.inputs.from_workbook import book_of, inputs_of, tables_in
from wbgen.model.inputs import Inputs
from wbgen.units.quantity import convert

RECORDS = {"diary": "diary", "shelf": "shed", "scores": "scores", "soil_tests": "soil tests"}
"""The tables that hold what happened, which nobody could plan anew, and how a person calls them."""


def refuse_loss(target: Path, fresh: Inputs, force: bool, design: Design) -> None:
    """Raise InputError where `target` exists and may not be overwritten by a planner filled with `fresh`.

    Without `force` nothing is overwritten; with it, nothing whose records have lines that `fresh` has not.
    """
    if not target.exists():
        return
    if not force:
        raise _refusal(target, "there-already", "a file stands there already", "give another name, or add --force")
    try:
        file = read(target)
        book = book_of(file, design)
        found = tables_in(file, book)
        if "diary" in fresh.units and "diary" not in found.placed:
            raise UnsafeFile("not-a-planner", "a planner", "no diary", "")
        read_inputs = inputs_of(file, book, found)
    except UnsafeFile as error:
        raise _refusal(
            target, "unreadable", f"what stands there cannot be looked through ({error.found}), so it may hold work",
            "move it away yourself, or give another name",
        ) from error  # fmt: skip
    for table, called in RECORDS.items():
        if table not in fresh.units:
            continue
        sheet = found.placed[table].sheet if table in found.placed else ""
        if any(finding.kind is Kind.OUTSIDE_TABLE and finding.sheet == sheet for finding in read_inputs.findings):
            raise _refusal(
                target, "would-lose-work", f"lines stand below the last record of its {called}",
                f"move them up into the {called} first, or give another name",
            )  # fmt: skip
        lost = _lines(table, read_inputs.inputs, fresh) - _lines(table, fresh, fresh)
        if lost:
            number = sum(lost.values())
            raise _refusal(
                target, "would-lose-work", f"its {called} has {number} lines that this build would lose",
                "give another name, or bring the lines into lawns.yaml first",
            )  # fmt: skip


def _lines(table: str, inputs: Inputs, fresh: Inputs) -> Counter[tuple[str, ...]]:
    """Every line of a table with anything in it, all its cells together, in the units of the fresh one."""
    ours, theirs = inputs.units.get(table, {}), fresh.units[table]
    values = inputs.values.get(table, {})
    columns = [[_cell(one, ours[key], theirs[key]) for one in column] for key, column in values.items()]
    return Counter(line for line in zip(*columns, strict=True) if any(line))


def _cell(value: str | float, ours: str, theirs: str) -> str:
    """A cell for comparison: a number to nine digits, since units are converted on the way."""
    if isinstance(value, str):
        return value
    if math.isnan(value):
        return ""
    return f"{value if ours == theirs else convert(value, ours, theirs):.9g}"


def _refusal(target: Path, code: str, message: str, remedy: str) -> InputError:
    return InputError([Diagnostic(code, Place(str(target)), "", "", remedy, message)])
