"""Rounding as spreadsheets do it: half away from zero, on the fifteen digits that a program shows."""

from __future__ import annotations

from collections.abc import Callable
from decimal import ROUND_CEILING, ROUND_DOWN, ROUND_FLOOR, ROUND_HALF_UP, Context, Decimal
from typing import Any, Final, TypeVar, overload

import numpy as np

from wbgen.model.tools.elementwise import like, magnitude
from wbgen.model.values import Each, Mask, Quantity

V = TypeVar("V")

# The largest float has 309 digits before the point: enough for any number and any place that is asked for.
_LONG: Final = Context(prec=400)
_HAIR: Final = 0.5e-9
"""A difference that nine decimals show is this or more."""


def _by(mode: str) -> Callable[[Any, int], Any]:
    def one(number: float, digits: int) -> float:
        shown = Decimal(f"{number:.15g}")
        # A zero is given without a sign.
        return float(shown.quantize(Decimal(1).scaleb(-digits), rounding=mode, context=_LONG)) + 0.0

    whole = np.frompyfunc(one, 2, 1)

    def rounded(value: Any, digits: int) -> Any:
        numbers, places = np.broadcast_arrays(np.asarray(magnitude(value), dtype=float), digits)
        found, known = numbers.copy(), np.isfinite(numbers)
        found[known] = whole(numbers[known], places[known])
        return like(value, found[()])

    return rounded


_half, _down, _floor, _ceiling = map(_by, (ROUND_HALF_UP, ROUND_DOWN, ROUND_FLOOR, ROUND_CEILING))


def half_up(value: V, digits: int = 0) -> V:
    """The nearest number with `digits` decimals, halves away from zero. NaN stays NaN; a unit is kept.

    >>> half_up(np.array([2.675, 1.005, -0.125]), 2)
    array([ 2.68,  1.01, -0.13])
    """
    return _half(value, digits)


def towards_zero(value: V, digits: int = 0) -> V:
    """The next number towards zero with `digits` decimals. NaN stays NaN; a unit is kept.

    >>> towards_zero(np.array([2.679, -2.679]), 2)
    array([ 2.67, -2.67])
    """
    return _down(value, digits)


def up(value: V, digits: int = 0) -> V:
    """The next larger number with `digits` decimals. NaN stays NaN; a unit is kept.

    >>> up(np.array([2.1, -2.1, 3.0]))
    array([ 3., -2.,  3.])
    """
    return _ceiling(value, digits)


def down(value: V, digits: int = 0) -> V:
    """The next smaller number with `digits` decimals. NaN stays NaN; a unit is kept.

    >>> down(np.array([2.9, -2.1, 3.0]))
    array([ 2., -3.,  3.])
    """
    return _floor(value, digits)


@overload
def exceeds(value: Each[Any], limit: Each[Any] | Quantity | float) -> Mask: ...
@overload
def exceeds(value: Quantity | float, limit: Each[Any]) -> Mask: ...
@overload
def exceeds(value: Quantity | float, limit: Quantity | float) -> bool: ...
def exceeds(value: Any, limit: Any) -> Any:
    """Where `value` is over `limit` by more than the noise of floats (9 decimals); nowhere for a blank.

    >>> bool(exceeds(0.1 + 0.2, 0.3)), bool(exceeds(0.31, 0.3))
    (False, True)
    """
    return _difference(value, limit) >= _HAIR


@overload
def reaches(value: Each[Any], limit: Each[Any] | Quantity | float) -> Mask: ...
@overload
def reaches(value: Quantity | float, limit: Each[Any]) -> Mask: ...
@overload
def reaches(value: Quantity | float, limit: Quantity | float) -> bool: ...
def reaches(value: Any, limit: Any) -> Any:
    """Where `value` is at `limit` or over it, the noise of floats aside; nowhere for a blank."""
    return _difference(value, limit) > -_HAIR


def _difference(value: Any, limit: Any) -> Any:
    unit = getattr(value, "units", None)
    bare = magnitude(limit.to(unit)) if unit is not None and hasattr(limit, "to") else magnitude(limit)
    return magnitude(value) - bare


_FORTY: Final = Context(prec=40)


def exponential(power: Each[float]) -> Each[float]:
    """e to a power, rounded rightly to the last bit: numpy's own last bit is not the same on every processor.

    Shape and blanks (NaN) are those of `power`.

    >>> exponential(np.array([0.0, -0.5, np.nan])).round(6)
    array([1.      , 0.606531,      nan])
    """
    known = np.frompyfunc(lambda one: float(_FORTY.exp(Decimal(one))), 1, 1)
    found: Any = np.full(np.shape(power), np.nan)
    given = ~np.isnan(power)
    found[given] = known(power[given])
    return found
