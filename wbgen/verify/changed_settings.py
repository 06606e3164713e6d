"""Says which settings are not what a new planner has, so that nobody has to look for them."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.inputs.constants import settings_tables
from wbgen.inputs.entry_checks import unchanged
from wbgen.inputs.rows import cell_value, default_of
from wbgen.model.inputs import TEXT
from wbgen.verify.figure_text import found_value
from wbgen.verify.recomputed import Recomputed


def settings_changed(recomputed: Recomputed) -> Iterator[Finding]:
    """A notice for each setting, limit or rule that differs from the template's own."""
    for table in settings_tables(recomputed.book):
        placed = recomputed.found.placed[table.key]
        for column in table.columns:
            if column.role != "input":
                continue
            unit = recomputed.book.units[table.key][column.key]
            default = default_of(column, recomputed.book)
            usual = ("" if unit == TEXT else np.nan) if default is None else cell_value(default, unit)
            found = recomputed.inputs.values[table.key][column.key][0]
            if not unchanged(usual, found):
                yield Finding(
                    placed.sheet, address(*placed.cell(column.key)), Kind.SETTING_CHANGED,
                    found_value(found), found_value(usual), "this is not what a new planner has", None, column.heading,
                )  # fmt: skip
