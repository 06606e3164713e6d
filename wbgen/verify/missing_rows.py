"""Finds tables that have fewer records than every planner, or than the records that they should follow."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.inputs.capacity import FIXED, diary_lines
from wbgen.sheets.layout import Placed
from wbgen.verify.recomputed import Recomputed


def missing_rows(recomputed: Recomputed) -> Iterator[Finding]:
    """A finding for each table that lacks records, at its last one."""
    for key, placed in recomputed.found.placed.items():
        table = placed.table
        needed = max(_needed(recomputed, table.records), len(recomputed.given.get(key, ())))
        if placed.records < needed and not placed.single:
            cell = address(placed.last, placed.left)
            yield Finding(
                placed.sheet, cell, Kind.ROW_MISSING, float(placed.records), float(needed),
                f"the table {table.title!r} has fewer records than there is to tell", None, table.title,
            )  # fmt: skip


def _needed(recomputed: Recomputed, records: int | str) -> int:
    """How many records a table must have: a fixed number, or as many as the table of that name has in use.

    Where nothing is typed into that table, as many as the longest of its capacity.
    """
    if isinstance(records, int):
        return records
    if records == "diary_lines":
        lawns = int(np.sum(recomputed.columns["mix_lawns", "lawn_used"].global_model != ""))
        return diary_lines(lawns, _used(recomputed, "chosen_products"))
    placed = recomputed.found.placed
    if records in placed and not _input_columns(placed[records]):
        others = max(other.records for other in placed.values() if other.table.records == records)
    else:
        others = _used(recomputed, records)
    return max(FIXED.get(records, 0), others)


def _input_columns(placed: Placed) -> list[str]:
    return [column.key for column in placed.table.columns if column.role == "input"]


def _used(recomputed: Recomputed, table: str) -> int:
    """The number of records of a table up to the last one that has a name or, where none has, anything typed in."""
    placed = recomputed.found.placed.get(table)
    if placed is None:
        return 0
    inputs = _input_columns(placed)
    columns = [recomputed.inputs.values[table][key] for key in (["name"] if "name" in inputs else inputs)]
    filled = [column != "" if column.dtype == object else ~np.isnan(column) for column in columns]
    return max((int(np.flatnonzero(records).max(initial=-1)) + 1 for records in filled), default=0)
