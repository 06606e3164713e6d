"""The model's figures as a sheet holds them: bare numbers in the unit of their column, or text."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

import numpy as np

from wbgen.model.binding import Model
from wbgen.model.inputs import TEXT, Figures
from wbgen.units.registry import float_unit


def all_figures(model: Model, computed: Mapping[str, Collection[str]]) -> dict[str, dict[str, Figures]]:
    """Every column of every table: inputs and constants as they are, and by the model the `computed` ones, by table."""
    inputs = model.inputs
    return {
        table: {
            **inputs.values[table],
            **{
                key: magnitudes(model.column(table, key), inputs.units[table][key], inputs.records[table])
                for key in keys
            },
        }
        for table, keys in computed.items()
    }


def magnitudes(value: Any, unit: str, records: int) -> Figures:
    """A column of the model in `unit`: shape (records,), NaN or "" where blank.

    Raises pint.DimensionalityError where the model gives another dimension.
    """
    if hasattr(value, "units"):
        value = value.to(float_unit(unit or "dimensionless")).magnitude
    elif unit not in ("", TEXT, "date") and not np.all(np.isnan(np.asarray(value, dtype=float))):
        raise TypeError(f"the model gives a plain number for a column in {unit}")
    array = np.asarray(value, dtype=object if unit == TEXT else float)
    return np.broadcast_to(array, (records,))
