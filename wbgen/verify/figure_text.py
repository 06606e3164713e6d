"""Turns a figure into what a person reads (ten digits, its unit) or another program (JSON); dates as ISO 8601."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.files.dates import day_text
from wbgen.model.inputs import DATE, TEXT
from wbgen.units.quantity import label
from wbgen.verify.compare import is_blank

EMPTY = "empty"
_PLAIN = ("", TEXT, DATE, "dimensionless")


def display(value: Any, unit: str, *, share: bool = False, currency: str = "currency", digits: int = 10) -> str:
    """A figure with its unit. `share` is true where a plain number is a share of 1, shown in percent.

    >>> display(2.5, "g/m**2"), display(46023.0, "date"), display(float("nan"), "kg"), display(0.21, "", share=True)
    ('2.5 g/m²', '2026-01-01', 'empty', '21 %')
    >>> display(46023.25, "date")
    '2026-01-01 06:00'
    """
    if is_blank(value):
        return EMPTY
    if unit == TEXT or isinstance(value, (str, bool)):
        return str(value)
    if unit == DATE:
        return day_text(value)
    if share and not unit:
        return f"{100 * float(value):.{digits}g} %"
    printed = unit_shown(unit, currency)
    return f"{float(value):.{digits}g}" + (f" {printed}" if printed else "")


def plain_value(value: Any, unit: str = "") -> Any:
    """A figure as JSON has it: None for blank, text, true or false, a number, a date of `unit` "date" as ISO text.

    >>> plain_value(float("nan")), plain_value(np.float64(2.5)), plain_value("a"), plain_value(46023.0, "date")
    (None, 2.5, 'a', '2026-01-01')
    """
    if is_blank(value):
        return None
    if isinstance(value, (bool, np.bool_)):
        return bool(value)
    if isinstance(value, str):
        return str(value)
    return day_text(value) if unit == DATE else float(value)


def found_value(value: Any) -> Any:
    """A figure as a finding has it: as `plain_value`, but blank is the empty text, and a date its serial number."""
    plain = plain_value(value)
    return "" if plain is None else plain


def unit_shown(unit: str, currency: str = "currency") -> str:
    """A column's unit as it is printed; "" for text, a date and a plain number.

    >>> unit_shown("currency/kg", "EUR"), unit_shown("date")
    ('EUR/kg', '')
    """
    return "" if unit in _PLAIN else label(unit, currency)
