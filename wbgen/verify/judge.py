"""Where the witnesses of a formula cell disagree: one finding a cell, and what it follows from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from wbgen.files.findings import FOLLOWS, MISSING, STALE, WRONG, CellAddress, Finding
from wbgen.files.xlsx.addresses import address
from wbgen.model.inputs import NOT_YET
from wbgen.sheets.book import references
from wbgen.verify.causes import follow, row_and_column
from wbgen.verify.compare import Side, agree, is_blank, one_formula, same_shown
from wbgen.verify.recomputed import Recomputed
from wbgen.verify.witnesses import ColumnWitnesses

At = tuple[str, str]
"""A column: its table and its key."""


def judged(opened: Recomputed) -> list[Finding]:
    """A finding for each formula cell whose witnesses disagree, with the cell that it follows from."""
    any_stored = any(
        value is not None and text is not None
        for column in opened.columns.values()
        for value, text in zip(column.stored, column.texts, strict=True)
    )
    found: dict[CellAddress, Finding] = {}
    of_column: dict[At, list[Finding]] = {}
    for at, column in opened.columns.items():
        of_column[at] = list(_of_column(column, any_stored))
        found |= {finding.spot: finding for finding in of_column[at]}
    wrong_inputs = {finding.spot for finding in opened.returned.findings}
    return [
        _with_units(finding, opened) for finding in follow(found, wrong_inputs, opened.file, _beside(opened, of_column))
    ]


def _beside(opened: Recomputed, of_column: Mapping[At, Sequence[Finding]]) -> dict[CellAddress, list[CellAddress]]:
    """For each wrong result, the cells that disagree in columns which the model asks and the formula does without.

    Which record of them it goes by is not known. What is only stored stale is read by no witness.
    """
    wrong = {
        at: spots for at, found in of_column.items() if (spots := [one.spot for one in found if one.kind == WRONG])
    }
    referred = references(opened.book) if wrong else {}
    beside: dict[CellAddress, list[CellAddress]] = {}
    for at, spots in wrong.items():
        asked = opened.columns[at].reads - referred[at] - {at}
        astray = [other.spot for read in asked for other in of_column.get(read, ()) if other.kind != STALE]
        beside |= dict.fromkeys(spots, astray)
    return beside


def _of_column(column: ColumnWitnesses, any_stored: bool) -> Iterator[Finding]:
    """The records of a column on which its witnesses disagree. The whole column is compared at once."""
    suspect = np.zeros(len(column.texts), dtype=bool)
    if column.texts != column.expected:  # hardly ever: so asked of all records at once first
        suspect[:] = [text != wanted for text, wanted in zip(column.texts, column.expected, strict=True)]
    engine, model = column.evaluated, column.agreed
    alone = model if column.local_model is column.global_model else agree(engine, Side(column.local_model))
    stored = agree(Side(column.stored), engine) if any_stored else np.ones(len(suspect), dtype=bool)
    for record in np.flatnonzero(suspect | ~alone | ~model | ~stored):
        finding = _judge(column, int(record), bool(alone[record]), bool(model[record]), bool(stored[record]))
        if finding is not None:
            yield finding


def _judge(column: ColumnWitnesses, record: int, alone: bool, model: bool, stored: bool) -> Finding | None:
    text, expected = column.texts[record], column.expected[record]
    value, kept = column.engine[record], column.stored[record]

    def finding(kind: str, found: Any, wanted: Any, message: str) -> Finding:
        cell = address(*column.placed.cell(column.key, record))
        heading = column.placed.column(column.key).heading
        return Finding(column.placed.sheet, cell, kind, _shown(found), _shown(wanted), message, None, heading)

    if text is None:
        kind, what = (MISSING, "the cell is empty") if kept is None else ("typed over", "a value stands")
        return finding(kind, kept, "=" + expected, f"{what} where a formula belongs")
    if not one_formula(text, expected):
        return finding("formula changed", "=" + text, "=" + expected, "this is not the planner's formula")
    if not alone:
        return finding(
            WRONG, value, column.local_model[record], "the formula and the model disagree on the same arguments"
        )
    if not model:
        return finding(FOLLOWS, value, column.global_model[record], "this follows from another cell")
    if not stored and not _stored_agrees(column, kept, value):
        return finding(STALE, kept, value, "the stored value is not what the formula gives")
    return None


def _stored_agrees(column: ColumnWitnesses, stored: Any, value: Any) -> bool:
    if column.placed.table.key == "start" and column.key == "recalculated" and stored == NOT_YET:
        return True
    return same_shown(stored, value)


def _shown(value: Any) -> Any:
    """A value as JSON takes it; blank is empty text."""
    if is_blank(value):
        return ""
    return float(value) if not isinstance(value, (str, bool)) else value


def _with_units(finding: Finding, opened: Recomputed) -> Finding:
    """The finding with what the proof of units says of the formula that stands in the file."""
    if finding.kind != "formula changed":
        return finding
    return replace(
        finding, units=opened.units.verdict(str(finding.found)[1:], finding.sheet, row_and_column(finding.cell))
    )
