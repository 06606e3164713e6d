"""Figures and reasons as they stand in a sentence."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.relations import or_zero
from wbgen.model.rounding import half_up

Value = Any


def days(time: Value) -> Any:
    """Times as numbers of days to one decimal, in text; a blank is 0.

    >>> from wbgen.units import FLOAT
    >>> days(FLOAT.Quantity(np.array([6.0, 1 / 7]), "week"))
    array(['42', '1'], dtype=object)
    """
    return counts(half_up(or_zero(time).to("day").magnitude, 1))


def counts(numbers: Any) -> Any:
    """Numbers in text, as spreadsheets write them; a blank is 0.

    >>> counts(np.array([3.0, np.nan, 2.5]))
    array(['3', '0', '2.5'], dtype=object)
    """
    return np.array([f"{number:.15g}" for number in or_zero(numbers)], dtype=object)


def ended(texts: Any) -> Any:
    """Reasons parted by semicolons, without blanks at either end and without a last semicolon.

    >>> ended(["too soon; ", "", "too soon; too many; "])
    array(['too soon', '', 'too soon; too many'], dtype=object)
    """
    return np.array([text.strip(" ").removesuffix(";") for text in texts], dtype=object)
