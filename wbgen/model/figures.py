"""The model's figures as a sheet holds them: bare numbers in the unit of their column, or text."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.binding import Model
from wbgen.model.inputs import TEXT, Column, Inputs
from wbgen.sheets.book import Book
from wbgen.units.registry import float_unit


def all_figures(book: Book, inputs: Inputs, model: Model) -> dict[str, dict[str, Column]]:
    """Every column of every table: inputs and constants as they are, computed ones by the model."""
    return {
        key: {
            column.key: (
                inputs.values[key][column.key]
                if column.role != "formula"
                else bare(model.column(key, column.key), book.units[key][column.key], inputs.records[key])
            )
            for column in table.columns
        }
        for key, table in book.tables.items()
    }


def bare(value: Any, unit: str, records: int) -> Column:
    """A column of the model in `unit`: shape (records,), NaN or "" where blank.

    Raises pint.DimensionalityError where the model gives another dimension.
    """
    if hasattr(value, "units"):
        value = value.to(float_unit(unit or "dimensionless")).magnitude
    elif unit not in ("", TEXT, "date") and not np.all(np.isnan(np.asarray(value, dtype=float))):
        raise TypeError(f"the model gives a plain number for a column in {unit}")
    array = np.asarray(value, dtype=object if unit == TEXT else float)
    return np.broadcast_to(array, (records,))
