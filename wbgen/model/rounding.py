"""Rounding as spreadsheets do it: half away from zero, on the fifteen digits that a program shows."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_DOWN, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from typing import Any

import numpy as np

from wbgen.model.relations import like, magnitude

Value = Any


def _by(mode: str) -> Any:
    def one(number: float, digits: int) -> float:
        if not np.isfinite(number):
            return number
        return float(Decimal(f"{number:.15g}").quantize(Decimal(1).scaleb(-digits), rounding=mode))

    whole = np.frompyfunc(one, 2, 1)

    def rounded(value: Value, digits: int = 0) -> Value:
        found = np.asarray(whole(magnitude(value), digits), dtype=float)
        return like(value, found[()])

    return rounded


_half, _down, _floor, _ceiling = map(_by, (ROUND_HALF_UP, ROUND_DOWN, ROUND_FLOOR, ROUND_CEILING))


def half_up(value: Value, digits: int = 0) -> Value:
    """The nearest number with `digits` decimals, halves away from zero. NaN stays NaN; a unit is kept.

    >>> half_up(2.675, 2), half_up(-0.5), half_up(1.005, 2)
    (2.68, -1.0, 1.01)
    """
    return _half(value, digits)


def towards_zero(value: Value, digits: int = 0) -> Value:
    """The next number towards zero with `digits` decimals."""
    return _down(value, digits)


def up(value: Value, digits: int = 0) -> Value:
    """The next larger number with `digits` decimals."""
    return _ceiling(value, digits)


def down(value: Value, digits: int = 0) -> Value:
    """The next smaller number with `digits` decimals."""
    return _floor(value, digits)
