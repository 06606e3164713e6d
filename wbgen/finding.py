"""What verify says of one cell."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Spot:
    sheet: str
    cell: str


@dataclass(frozen=True)
class Disagreement:
    """One cell that is not as it should be.

    `kind` is a stable short name. `cause` is the cell that this one follows from, or None where it is itself the
    cause. `heading` is what the cell's column is called.
    """

    sheet: str
    cell: str
    kind: str
    found: Any
    expected: Any
    message: str
    cause: Spot | None = None
    heading: str = ""
