"""Values as a part has them stored: numbers, texts, truth values, errors and dates (ECMA-376 part 1, 18.18.11)."""

from __future__ import annotations

import math
from datetime import datetime

from wbgen.files.dates import EPOCH

Scalar = float | str | bool


class ErrorValue(str):
    """An error value that a program stored or an engine gave, such as #DIV/0!."""

    __slots__ = ()


def as_number(text: str) -> Scalar:
    """A stored number; what is none stays text."""
    try:
        number = float(text)
    except ValueError:
        return text
    # Python reads more than W3C XML Schema part 2, 3.2.5, allows: 24_0, digits of other scripts, infinity.
    return number if math.isfinite(number) and text.isascii() and "_" not in text else text


def as_scalar(kind: str, text: str) -> Scalar:
    """A stored value of any kind: a number, text, a truth value, an error value, or a date as its serial number.

    `kind` is the cell's `t`. What cannot be read as its kind stays text.
    """
    if kind == "n":
        return as_number(text)
    if kind == "b":
        return text.strip() in ("1", "true")
    if kind == "e":
        return ErrorValue(text)
    if kind == "d":
        try:
            return (datetime.fromisoformat(text.removesuffix("Z")) - EPOCH).total_seconds() / 86_400
        except (ValueError, TypeError):
            return text
    return text
