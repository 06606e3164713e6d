"""Figures record by record: what they hold, whether they are there, choose and divide.

All of these take one figure a record, or one figure; quantities keep their unit, and text stays text. What goes in
and comes out is said by kind and shape; Any stands where numpy and pint do not say what they hold.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeVar, overload

import numpy as np
from numpy.typing import NDArray

from wbgen.model.values import Each, Mask, Quantity, SerialDate, T, each
from wbgen.units.quantity import FLOAT

V = TypeVar("V")

Array = NDArray[Any]
"""Numbers or texts on their way through numpy, which does not tell them apart."""


@overload
def magnitude(value: Each[Quantity] | Each[float]) -> Each[float]: ...
@overload
def magnitude(value: Quantity | float) -> float: ...
@overload
def magnitude(value: Each[str] | str) -> Each[str] | str: ...
def magnitude(value: Any) -> Any:
    """The bare numbers of a quantity; anything else as it is."""
    return getattr(value, "magnitude", value)


def like(value: V, numbers: Any) -> V:
    """`numbers` in the unit of `value`."""
    unit = getattr(value, "units", None)
    found: Any = numbers if unit is None else FLOAT.Quantity(numbers, unit)
    return found


@overload
def with_unit(numbers: Each[float], unit: Any) -> Each[Quantity]: ...
@overload
def with_unit(numbers: float, unit: Any) -> Quantity: ...
def with_unit(numbers: Any, unit: Any) -> Any:
    """Numbers as quantities in `unit`, by its text or as pint has it."""
    return FLOAT.Quantity(numbers, unit)


def is_text(value: Any) -> bool:
    """True for a text, and for an array of texts."""
    return isinstance(value, str) or bool(np.asarray(magnitude(value)).dtype.kind in "OUS")


@overload
def blank(value: Each[Any]) -> Mask: ...
@overload
def blank(value: str | float | Quantity) -> np.bool_: ...
def blank(value: Any) -> Any:
    """True where a figure is not there: NaN, or the empty text. Same shape as `value`.

    >>> blank(np.array([1.0, np.nan])), bool(blank(""))
    (array([False,  True]), True)
    """
    return np.asarray(value == "") if is_text(value) else np.isnan(magnitude(value))


def or_zero(value: V) -> V:
    """`value` with 0 where it is blank.

    >>> or_zero(np.array([2.0, np.nan]))
    array([2., 0.])
    """
    bare: Any = value
    return like(value, np.where(blank(bare), 0.0, magnitude(bare))[()])


@overload
def only(value: Each[T]) -> T: ...
@overload
def only(value: V) -> V: ...
def only(value: Any) -> Any:
    """The figure of a form, or of a table with one record, as a scalar.

    >>> float(only(np.array([3.0])))
    3.0
    """
    return like(value, np.ravel(magnitude(value))[0]) if np.ndim(magnitude(value)) else value


@overload
def as_number(value: Each[Quantity] | Each[float]) -> Each[float]: ...
@overload
def as_number(value: Quantity | float) -> float: ...
def as_number(value: Any) -> Any:
    """The bare numbers of a share, whatever units it was worked out in; a bare number as it is.

    >>> float(as_number(FLOAT.Quantity(5.0, "g/kg")))
    0.005
    """
    return value.to("dimensionless").magnitude if hasattr(value, "units") else value


@overload
def ratio(above: Each[Quantity], below: Each[Quantity] | Each[float] | Quantity | float) -> Each[Quantity]: ...
@overload
def ratio(above: Each[float], below: Each[Quantity] | Quantity) -> Each[Quantity]: ...
@overload
def ratio(above: Each[float], below: Each[float] | float) -> Each[float]: ...
@overload
def ratio(above: Quantity, below: Each[Quantity] | Each[float]) -> Each[Quantity]: ...
@overload
def ratio(above: Quantity, below: Quantity | float) -> Quantity: ...
@overload
def ratio(above: float, below: Each[Quantity]) -> Each[Quantity]: ...
@overload
def ratio(above: float, below: Each[float]) -> Each[float]: ...
@overload
def ratio(above: float, below: Quantity) -> Quantity: ...
@overload
def ratio(above: float, below: float) -> float: ...
def ratio(above: Any, below: Any) -> Any:
    """`above` ÷ `below`, blank where the divisor is blank or 0.

    >>> ratio(np.array([6.0, 1.0]), np.array([2.0, 0.0]))
    array([ 3., nan])
    """
    return above / where(np.equal(magnitude(below), 0), np.nan, below)


@overload
def where(condition: Mask, yes: Each[str] | str, no: Each[str] | str) -> Each[str]: ...
@overload
def where(condition: Mask, yes: Each[Quantity] | Quantity, no: Each[Quantity] | Quantity | float) -> Each[Quantity]: ...
@overload
def where(condition: Mask, yes: float, no: Each[Quantity] | Quantity) -> Each[Quantity]: ...
@overload
def where(condition: Mask, yes: Each[SerialDate] | SerialDate, no: Each[SerialDate] | float) -> Each[SerialDate]: ...
@overload
def where(condition: Mask, yes: float, no: Each[SerialDate] | SerialDate) -> Each[SerialDate]: ...
@overload
def where(condition: Mask, yes: Each[float] | Array | float, no: Each[float] | Array | float) -> Each[float]: ...
@overload
def where(condition: bool | np.bool_, yes: str, no: Each[str]) -> Each[str]: ...
@overload
def where(condition: bool | np.bool_, yes: Quantity, no: Quantity | float) -> Quantity: ...
@overload
def where(condition: bool | np.bool_, yes: float, no: Quantity) -> Quantity: ...
@overload
def where(condition: bool | np.bool_, yes: T, no: T) -> T: ...
def where(condition: Any, yes: Any, no: Any) -> Any:
    """`yes` where the condition holds, else `no`; quantities are brought to one unit, text stays text.

    >>> where(np.array([True, False]), "a", "")
    array(['a', ''], dtype=object)
    """
    if is_text(yes) or is_text(no):
        return np.where(condition, np.asarray(yes, dtype=object), np.asarray(no, dtype=object))[()]
    unit = getattr(yes, "units", None) or getattr(no, "units", None)
    if unit is None or unit.dimensionless:
        return np.where(condition, as_number(yes), as_number(no))[()]
    bare = [side.to(unit).magnitude if hasattr(side, "units") else _unitless(side) for side in (yes, no)]
    return FLOAT.Quantity(np.where(condition, *bare)[()], unit)


def _unitless(side: Any) -> Any:
    """A side without a unit may only be zero or blank."""
    if not np.all((np.asarray(side) == 0) | np.isnan(side)):
        raise ValueError("a plain number meets a quantity")
    return side


def greater(first: Each[Quantity], second: Each[Quantity]) -> Each[Quantity]:
    """The greater of two figures of each record, in the unit of the first; a blank is passed over.

    >>> from wbgen.units.quantity import FLOAT
    >>> first, second = FLOAT.Quantity(np.array([1.0, np.nan]), "kg"), FLOAT.Quantity(np.array([1500.0, 2.0]), "g")
    >>> greater(first, second).magnitude
    array([1.5  , 0.002])
    """
    return like(first, np.fmax(magnitude(first), magnitude(second.to(first.units))))


def any_given(columns: Sequence[Each[Any]]) -> Mask:
    """True where one of the columns at least has a figure or a text.

    >>> any_given([np.array([1.0, np.nan]), np.array([np.nan, np.nan])])
    array([ True, False])
    """
    return ~np.logical_and.reduce([blank(column) for column in columns])


def folded(text: Each[str] | str) -> Each[str]:
    """Text in small letters, as spreadsheets compare it (ß is not ss). Shape (n,), (1,) for a scalar.

    >>> folded("Front LAWN"), folded(np.array(["Straße"], dtype=object))
    (array(['front lawn'], dtype=object), array(['straße'], dtype=object))
    """
    return each(np.array([str(one).lower() for one in np.atleast_1d(np.asarray(text))], dtype=object))


def is_word(text: Each[str] | str, word: str) -> Mask:
    """True where a text is a word, which is given in small letters. Shape (n,), (1,) for a scalar.

    >>> is_word(np.array(["Yes", "", "no"], dtype=object), "yes")
    array([ True, False, False])
    """
    return folded(text) == word


def yes(text: Each[str] | str) -> Mask:
    """True where a text is the word yes, whatever its case.

    >>> yes(np.array(["Yes", "", "no"], dtype=object))
    array([ True, False, False])
    """
    return is_word(text, "yes")
