"""Tells at once whether a planner has the facts that came with wbgen, without reading the catalogue.

`shipped_facts.json` has a fingerprint of what a build fills in from the shipped catalogue, in each system of units,
and one of the catalogue's own files: where these are others, or anything differs, the catalogue itself is read
(`wbgen.verify.provenance`). A fingerprint that is out of date costs time and never hides a difference in the files;
a test holds that it follows the code. `python tests/tools/examples.py` makes it anew.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

import numpy as np

from wbgen.files import shipped
from wbgen.inputs.locate import Found
from wbgen.model.inputs import Inputs
from wbgen.sheets.column import System
from wbgen.verify.compare import is_blank

IDENTITY: Final[Mapping[str, tuple[str, ...]]] = {
    "products": ("name",), "facts": ("product", "fact"), "sources": ("source",),
}  # fmt: skip
"""The tables that the catalogue fills, each with the columns that say which record is meant."""
KEPT: Final = Path(__file__).with_name("shipped_facts.json")

Records = Mapping[str, Iterable[Mapping[str, Any]]]
"""Records by table: the figures of a record by column, in the column's unit."""


def as_shipped(system: System, found: Found, inputs: Inputs) -> bool:
    """Whether a planner's facts are those of the shipped catalogue for certain: order and empty lines do not count."""
    kept = json.loads(KEPT.read_text("utf-8")) if KEPT.is_file() else {}
    return (
        kept.get("catalogue") == stamp_of_catalogue()
        and not any(there.any() for (table, _), there in inputs.misplaced.items() if table in IDENTITY)
        and kept.get(system) == fingerprint(records_of(found, inputs))
    )


def records_of(found: Found, inputs: Inputs) -> Records:
    """What stands in the tables of a file that the catalogue fills, as far as they are there."""
    return {
        table: [
            {key: figures[record] for key, figures in inputs.values[table].items()}
            for record in range(found.placed[table].count)
        ]
        for table in IDENTITY
        if table in found.placed
    }


def fingerprint(records: Records) -> str:
    """The same for the same facts in whatever order. A number counts with the 15 digits that a workbook keeps."""
    lines = sorted(line for table, of in records.items() for line in _lines(table, of))
    return sha256("\n".join(lines).encode()).hexdigest()


def _lines(table: str, records: Iterable[Mapping[str, Any]]) -> Iterator[str]:
    for record in records:
        said = [f"{key}={_digits(figure)!r}" for key, figure in record.items() if not is_blank(figure)]
        if said:
            yield " ".join((table, *sorted(said)))


def _digits(figure: Any) -> str:
    return f"{figure:.15g}" if isinstance(figure, float | np.floating) else str(figure)


@cache
def stamp_of_catalogue() -> str:
    """What tells the files of the shipped catalogue from others."""
    stamp = sha256()
    for path in sorted(shipped.product_catalogue().glob("*.yaml")):
        stamp.update(path.name.encode() + path.read_bytes())
    return stamp.hexdigest()
