"""Settings that are not what a new planner has: said, so that nobody has to look for them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from wbgen.files.findings import Finding
from wbgen.files.xlsx.addresses import address
from wbgen.inputs.constants import settings_tables
from wbgen.inputs.rows import cell_value, default_of
from wbgen.model.inputs import TEXT
from wbgen.verify.recomputed import Recomputed


def settings_changed(opened: Recomputed) -> Iterator[Finding]:
    """A notice for each setting, limit or rule that differs from the template's own."""
    for table in settings_tables(opened.book):
        placed = opened.found.placed[table.key]
        for column in table.columns:
            if column.role != "input":
                continue
            unit = opened.book.units[table.key][column.key]
            default = default_of(column, opened.book)
            usual = ("" if unit == TEXT else np.nan) if default is None else cell_value(default, unit)
            found = opened.inputs.values[table.key][column.key][0]
            if not _same(found, usual):
                yield Finding(
                    placed.sheet, address(*placed.cell(column.key)), "setting changed", _shown(found), _shown(usual),
                    "this is not what a new planner has", None, column.heading,
                )  # fmt: skip


def _same(one: Any, other: Any) -> bool:
    if isinstance(one, str) or isinstance(other, str):
        return str(one) == str(other)
    if np.isnan(one) or np.isnan(other):
        return bool(np.isnan(one) and np.isnan(other))
    return bool(abs(one - other) <= 1e-9 * max(1.0, abs(other)))


def _shown(value: Any) -> Any:
    return value if isinstance(value, str) else "" if np.isnan(value) else float(value)
