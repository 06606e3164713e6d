"""What two products that meet do to one another, by their traits."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.relations import folded, only, or_zero

Value = Any

NEVER: int = 2
"""The level of a rule that lets nothing meet; the level below asks for a jar test first."""


def yes(text: Value) -> Any:
    """True where a text is the word yes, whatever its case.

    >>> yes(np.array(["Yes", "", "no"], dtype=object))
    array([ True, False, False])
    """
    return folded(text) == "yes"


def level_met(first: Value, second: Value, beside_first: Value, beside_second: Value, level: Value) -> Any:
    """The rule's `level` where a record has one trait and another record beside it the other, else 0.

    `first` and `second` are texts, "yes" for a trait that the record has; those beside are numbers of other records.
    """
    met = (yes(first) & (beside_second > 0)) | (yes(second) & (beside_first > 0))
    return np.where(met, only(or_zero(level)), 0.0)


def worst(levels: list[Value]) -> Any:
    """The highest of several levels, record by record."""
    return np.maximum.reduce(levels)
