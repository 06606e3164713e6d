"""Says what the sheets themselves say is to be mended, so that nobody has to look through them for it."""

from __future__ import annotations

from collections.abc import Iterator

from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.verify.recomputed import Recomputed

STATE, HEADING = "_state", "To mend"
"""End of the key, and heading, of a column that says, record by record, what is to be mended of it."""


def to_mend(recomputed: Recomputed) -> Iterator[Finding]:
    """A notice for each record of which its sheet says that something is to be mended."""
    for (_, key), column in recomputed.columns.items():
        heading = column.placed.column(key).heading
        if not key.endswith(STATE) or heading != HEADING:
            continue
        for cell, words in zip(column.cells, column.global_model, strict=True):
            if words:
                yield Finding(column.placed.sheet, address(*cell), Kind.TO_MEND, None, None, str(words), None, heading)
