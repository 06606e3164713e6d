"""Figures and reasons as they stand in a sentence."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.dates import day_of, month_of, year_of
from wbgen.model.tools.relations import blank, or_zero, pick, where
from wbgen.model.tools.rounding import half_up
from wbgen.units.quantity import label

Value = Any


def days(time: Value) -> Any:
    """Times as numbers of days to one decimal, in text; a blank is 0.

    >>> from wbgen.units.quantity import FLOAT
    >>> days(FLOAT.Quantity(np.array([6.0, 1 / 7]), "week"))
    array(['42', '1'], dtype=object)
    """
    return counts(half_up(or_zero(time).to("day").magnitude, 1))


def counts(numbers: Any) -> Any:
    """Numbers in text, as spreadsheets write them; a blank is 0. One number gives one text.

    >>> counts(np.array([3.0, np.nan, 2.5]))
    array(['3', '0', '2.5'], dtype=object)
    """
    texts = [f"{number:.15g}" for number in np.ravel(or_zero(numbers))]
    return np.array(texts, dtype=object) if np.ndim(numbers) else texts[0]


def amount(figures: Value, unit: Any, digits: int) -> Any:
    """Figures with a unit as a sentence gives them, rounded to so many decimals; a blank is 0.

    >>> from wbgen.units.quantity import FLOAT
    >>> amount(FLOAT.Quantity(np.array([1.005, np.nan]), "g_N/m**2"), "g_N/m**2", 2)
    array(['1.01 g N/m²', '0 g N/m²'], dtype=object)
    """
    return counts(half_up(or_zero(figures).to(unit).magnitude, digits)) + f" {label(str(unit))}"


def in_words(dates: Any, months: Value) -> Any:
    """Serial dates as a sentence gives them; nothing for a blank. One date gives one text.

    >>> from types import SimpleNamespace
    >>> in_words(np.array([45292.9, np.nan]), SimpleNamespace(month=np.array(["January"], dtype=object)))
    array(['1 January 2024', ''], dtype=object)
    """
    days, years = (counts(part(np.ravel(dates))) for part in (day_of, year_of))
    names = pick(months.month, month_of(np.ravel(dates)) - 1)
    texts = where(blank(np.ravel(dates)), "", days + " " + names + " " + years)
    return texts if np.ndim(dates) else texts[0]


def listed(texts: Any) -> Any:
    """Reasons parted by semicolons; each comes with one before it, and the first goes without.

    No text ends in a blank: some programs drop it when they store what a formula gave.

    >>> listed(["; too soon", "", "; too soon; too many"])
    array(['too soon', '', 'too soon; too many'], dtype=object)
    """
    return np.array([text.removeprefix("; ") for text in texts], dtype=object)


def together(*columns: Any) -> Any:
    """The texts of each record that are not blank, parted by semicolons.

    >>> together(np.array(["a", "", ""], dtype=object), np.array(["b", "c", ""], dtype=object))
    array(['a; b', 'c', ''], dtype=object)
    """
    return np.array(["; ".join(filter(None, texts)) for texts in zip(*columns, strict=True)], dtype=object)
