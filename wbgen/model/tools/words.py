"""Figures and reasons as they stand in a sentence."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, overload

import numpy as np

from wbgen.model.tools.dates import day_of, month_of, year_of
from wbgen.model.tools.elementwise import blank, or_zero, where
from wbgen.model.tools.relations import pick
from wbgen.model.tools.rounding import half_up
from wbgen.model.values import Each, Mask, Quantity, SerialDate, Table, each
from wbgen.units.quantity import label


def graded(too: Mask, much: Mask, words: str) -> Each[str]:
    """Too much of something, or much of it; each begins with a semicolon.

    >>> graded(np.array([True, False]), np.array([True, True]), "wind")
    array(['; too much wind', '; much wind'], dtype=object)
    """
    return where(too, "; too much " + words, where(much, "; much " + words, ""))


@overload
def days(time: Each[Quantity]) -> Each[str]: ...
@overload
def days(time: Quantity) -> str: ...
def days(time: Any) -> Any:
    """Times as numbers of days to one decimal, in text; a blank is 0.

    >>> from wbgen.units.quantity import FLOAT
    >>> days(FLOAT.Quantity(np.array([6.0, 1 / 7]), "week"))
    array(['42', '1'], dtype=object)
    """
    return counts(half_up(or_zero(time).to("day").magnitude, 1))


@overload
def counts(numbers: Each[float]) -> Each[str]: ...
@overload
def counts(numbers: float) -> str: ...
def counts(numbers: Any) -> Any:
    """Numbers in text, as spreadsheets write them; a blank is 0. One number gives one text.

    >>> counts(np.array([3.0, np.nan, 2.5]))
    array(['3', '0', '2.5'], dtype=object)
    """
    texts = [f"{number:.15g}" for number in np.ravel(or_zero(numbers))]
    return np.array(texts, dtype=object) if np.ndim(numbers) else texts[0]


@overload
def amount(figures: Each[Quantity], unit: Any, digits: int) -> Each[str]: ...
@overload
def amount(figures: Quantity, unit: Any, digits: int) -> str: ...
def amount(figures: Any, unit: Any, digits: int) -> Any:
    """Figures with a unit as a sentence gives them, rounded to so many decimals; a blank is 0.

    >>> from wbgen.units.quantity import FLOAT
    >>> amount(FLOAT.Quantity(np.array([1.005, np.nan]), "g_N/m**2"), "g_N/m**2", 2)
    array(['1.01 g N/m²', '0 g N/m²'], dtype=object)
    """
    return counts(half_up(or_zero(figures).to(unit).magnitude, digits)) + f" {label(str(unit))}"


@overload
def in_words(dates: Each[SerialDate], months: Table) -> Each[str]: ...
@overload
def in_words(dates: SerialDate, months: Table) -> str: ...
def in_words(dates: Any, months: Any) -> Any:
    """Serial dates as a sentence gives them; nothing for a blank. One date gives one text.

    >>> from types import SimpleNamespace
    >>> in_words(np.array([45292.9, np.nan]), SimpleNamespace(month=np.array(["January"], dtype=object)))
    array(['1 January 2024', ''], dtype=object)
    """
    column: Each[SerialDate] = each(np.ravel(dates))
    days, years = counts(day_of(column)), counts(year_of(column))
    names = pick(months.month, month_of(column) - 1)
    texts = where(blank(column), "", days + " " + names + " " + years)
    return texts if np.ndim(dates) else texts[0]


def listed(texts: Each[str] | Sequence[str]) -> Each[str]:
    """Reasons parted by semicolons; each comes with one before it, and the first goes without.

    No text ends in a blank: some programs drop it when they store what a formula gave.

    >>> listed(["; too soon", "", "; too soon; too many"])
    array(['too soon', '', 'too soon; too many'], dtype=object)
    """
    return each(np.array([text.removeprefix("; ") for text in texts], dtype=object))


def together(*columns: Each[str]) -> Each[str]:
    """The texts of each record that are not blank, parted by semicolons.

    >>> together(np.array(["a", "", ""], dtype=object), np.array(["b", "c", ""], dtype=object))
    array(['a; b', 'c', ''], dtype=object)
    """
    return each(np.array(["; ".join(filter(None, texts)) for texts in zip(*columns, strict=True)], dtype=object))
