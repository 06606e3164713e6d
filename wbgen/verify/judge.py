"""Judges each formula cell whose witnesses disagree: one finding a cell, with the cell that it follows from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from wbgen.files.findings import CellAddress, Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.model.inputs import NOT_YET
from wbgen.sheets.book import references
from wbgen.verify.causes import follow, row_and_column
from wbgen.verify.compare import Side, agree, one_formula, same_shown
from wbgen.verify.figure_text import found_value
from wbgen.verify.recomputed import Recomputed
from wbgen.verify.witnesses import ColumnKey, ColumnWitnesses


def judge(recomputed: Recomputed) -> list[Finding]:
    """A finding for each formula cell whose witnesses disagree, with the cell that it follows from."""
    any_stored = any(
        value is not None and text is not None
        for column in recomputed.columns.values()
        for value, text in zip(column.stored, column.texts, strict=True)
    )
    found: dict[CellAddress, Finding] = {}
    by_column: dict[ColumnKey, list[Finding]] = {}
    for key, column in recomputed.columns.items():
        by_column[key] = list(_disagreements(column, any_stored))
        found |= {finding.address: finding for finding in by_column[key]}
    wrong_inputs = {finding.address for finding in recomputed.input_findings}
    findings = follow(found, wrong_inputs, recomputed.file, _read_by_model_only(recomputed, by_column))
    return [_with_units(finding, recomputed) for finding in findings]


def _read_by_model_only(
    recomputed: Recomputed, by_column: Mapping[ColumnKey, Sequence[Finding]]
) -> dict[CellAddress, list[CellAddress]]:
    """For each wrong result, the cells that disagree in columns which the model reads and the formula does not.

    Which record of them it goes by is not known. What is only stored stale is read by no witness.
    """
    wrong = {
        key: addresses
        for key, findings in by_column.items()
        if (addresses := [finding.address for finding in findings if finding.kind is Kind.WRONG_RESULT])
    }
    referred = references(recomputed.book) if wrong else {}
    model_only: dict[CellAddress, list[CellAddress]] = {}
    for key, addresses in wrong.items():
        columns = recomputed.columns[key].reads - referred[key] - {key}
        disagreeing = [
            finding.address
            for column in columns
            for finding in by_column.get(column, ())
            if finding.kind is not Kind.STALE_RESULT
        ]
        model_only |= dict.fromkeys(addresses, disagreeing)
    return model_only


def _disagreements(column: ColumnWitnesses, any_stored: bool) -> Iterator[Finding]:
    """The records of a column on which its witnesses disagree. The whole column is compared at once."""
    suspect = np.zeros(len(column.texts), dtype=bool)
    if column.texts != column.expected:  # hardly ever: so asked of all records at once first
        suspect[:] = [text != expected for text, expected in zip(column.texts, column.expected, strict=True)]
    engine, global_model = column.evaluated, column.agreed
    local_model = global_model if column.local_model is column.global_model else agree(engine, Side(column.local_model))
    stored = agree(Side(column.stored), engine) if any_stored else np.ones(len(suspect), dtype=bool)
    for record in np.flatnonzero(suspect | ~local_model | ~global_model | ~stored):
        agreeing = bool(local_model[record]), bool(global_model[record]), bool(stored[record])
        finding = _judge_record(column, int(record), *agreeing)
        if finding is not None:
            yield finding


def _judge_record(
    column: ColumnWitnesses, record: int, local_model: bool, global_model: bool, stored: bool
) -> Finding | None:
    """The finding of one record; the three flags say which of its values agree with the engine's."""
    text, expected = column.texts[record], column.expected[record]
    engine_value, stored_value = column.engine[record], column.stored[record]

    def finding(kind: Kind, found: Any, wanted: Any, message: str) -> Finding:
        cell = address(*column.placed.cell(column.key, record))
        heading = column.placed.column(column.key).heading
        return Finding(column.placed.sheet, cell, kind, found_value(found), found_value(wanted), message, None, heading)

    if text is None:
        if stored_value is None:
            return finding(Kind.FORMULA_MISSING, None, "=" + expected, "the cell is empty where a formula belongs")
        return finding(Kind.TYPED_OVER, stored_value, "=" + expected, "a value stands where a formula belongs")
    if not one_formula(text, expected):
        return finding(Kind.FORMULA_CHANGED, "=" + text, "=" + expected, "this is not the planner's formula")
    if not local_model:
        message = "the formula and the model disagree on the same arguments"
        return finding(Kind.WRONG_RESULT, engine_value, column.local_model[record], message)
    if not global_model:
        return finding(Kind.FOLLOWS, engine_value, column.global_model[record], "this follows from another cell")
    if not stored and not _stored_agrees(column, stored_value, engine_value):
        message = "the stored value is not what the formula gives"
        return finding(Kind.STALE_RESULT, stored_value, engine_value, message)
    return None


def _stored_agrees(column: ColumnWitnesses, stored: Any, value: Any) -> bool:
    if column.placed.table.key == "start" and column.key == "recalculated" and stored == NOT_YET:
        return True
    return same_shown(stored, value)


def _with_units(finding: Finding, recomputed: Recomputed) -> Finding:
    """The finding with what the proof of units says of the formula that stands in the file."""
    if finding.kind is not Kind.FORMULA_CHANGED:
        return finding
    formula = str(finding.found).removeprefix("=")
    return replace(finding, units=recomputed.units.verdict(formula, finding.sheet, row_and_column(finding.cell)))
