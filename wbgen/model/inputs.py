"""What a planner is filled with: the same record whether it comes from YAML or from a used workbook."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

Figures = NDArray[Any]
"""The figures of one column: float64 with NaN for blank, or objects (str) with "" for blank."""

NOT_YET = "not yet"
"""Stored by a build for the cell that tells whether a spreadsheet program has recalculated the file."""

TEXT, DATE = "text", "date"
"""Stand where a unit would, for columns that have none. A date is its serial number (days since 1899-12-30)."""


@dataclass(frozen=True)
class Inputs:
    """The input and constant columns of every table.

    `values[table][column]` has shape (records,). `units[table][column]` is the column's unit as pint text
    ("" for a plain number), or TEXT or DATE. `records[table]` is the number of records. `forms` are the
    tables of one scenario, whose figures are scalars. `today` is the serial number of the day the
    workbook was last calculated. `misplaced[table, column]` tells for each record whether something other than a
    number, such as a text, stands where a number belongs: its figure is blank, but its cell is not. A column in
    which none does may be missing.
    """

    values: Mapping[str, Mapping[str, Figures]]
    units: Mapping[str, Mapping[str, str]]
    records: Mapping[str, int]
    forms: frozenset[str] = frozenset()
    today: float = 0.0
    misplaced: Mapping[tuple[str, str], NDArray[np.bool_]] = field(default_factory=dict)


def blank_column(unit: str, records: int) -> Figures:
    """An empty column of `records` figures.

    >>> blank_column("kg", 2), blank_column("text", 1)
    (array([nan, nan]), array([''], dtype=object))
    """
    return np.full(records, "", dtype=object) if unit == TEXT else np.full(records, np.nan)
