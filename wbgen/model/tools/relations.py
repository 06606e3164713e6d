"""What columns do with one another: choose, look up, gather by group.

All of these take arrays, quantities of arrays, or scalars. Text matches without case, a blank matches nothing. The
grouped ones cost n log n, so that a diary may be long.

What goes in and comes out is said by kind and shape. Any stands where numpy and pint do not say what they hold.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from typing import Any, Final, TypeVar, overload
from weakref import ReferenceType, ref

import numpy as np
from numpy.typing import NDArray

from wbgen.model.values import Each, Mask, Places, Quantity, SerialDate, T, each
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


def folded(text: Each[str] | str) -> Each[str]:
    """Text in small letters, as spreadsheets compare it (ß is not ss). Shape (n,), (1,) for a scalar.

    >>> folded("Front LAWN"), folded(np.array(["Straße"], dtype=object))
    (array(['front lawn'], dtype=object), array(['straße'], dtype=object))
    """
    return each(np.array([str(one).lower() for one in np.atleast_1d(np.asarray(text))], dtype=object))


_MADE: Final[dict[int, tuple[ReferenceType[Any], list[Any]]]] = {}
"""The keys of columns that are still there, by identity: a diary's are asked for by hundreds of columns."""


def keys_of(values: Any) -> list[Any]:
    """The records of a column as keys of a dict; None for a blank. Not to be changed: others may have the same list."""
    bare = magnitude(values)
    if not isinstance(bare, np.ndarray) or bare.flags.writeable:
        return _made_keys(bare)
    number = id(bare)
    if number not in _MADE:
        _MADE[number] = ref(bare, lambda _: _MADE.pop(number, None)), _made_keys(bare)
    return _MADE[number][1]


def _made_keys(bare: Any) -> list[Any]:
    if is_text(bare):
        return [key or None for key in folded(bare)]
    return [None if key != key else key for key in np.atleast_1d(bare).tolist()]


def find(keys: Each[Any] | str | float, names: Each[Any]) -> Places:
    """The place (from 0) of each key among `names`, the first of equal ones; -1 where there is none or no key.

    Shape of the result: that of `keys`, at least one dimension. Numbers are compared as they stand, without a unit.

    >>> find(np.array(["B", "", "x"], dtype=object), np.array(["", "b", "B"], dtype=object))
    array([ 1, -1, -1])
    """
    first: dict[Any, int] = {}
    for place, name in enumerate(keys_of(names)):
        first.setdefault(name, place)
    return np.array([-1 if key is None else first.get(key, -1) for key in keys_of(keys)], dtype=int)


@overload
def lookup(keys: Each[Any], names: Each[Any], values: Each[T]) -> Each[T]: ...
@overload
def lookup(keys: str | float, names: Each[Any], values: Each[T]) -> T: ...
def lookup(keys: Any, names: Any, values: Any) -> Any:
    """The value beside each key's first match among `names`; blank where there is none.

    A scalar key gives a scalar.

    >>> lookup(np.array(["B", "x"], dtype=object), np.array(["a", "b"], dtype=object), np.array([1.0, 2.0]))
    array([ 2., nan])
    """
    places = find(keys, names)
    return pick(values, places if np.ndim(magnitude(keys)) else places[0])


@overload
def pick(values: Each[T], places: Each[float] | Array) -> Each[T]: ...
@overload
def pick(values: Each[T], places: float) -> T: ...
def pick(values: Any, places: Any) -> Any:
    """`values` at `places` (from 0); blank where a place is negative, blank or past the end.

    A scalar place gives a scalar.

    >>> pick(np.array(["a", "b"], dtype=object), np.array([1, 2, -1, np.nan]))
    array(['b', '', '', ''], dtype=object)
    """
    bare = np.atleast_1d(magnitude(values))
    empty, kind = ("", object) if is_text(values) else (np.nan, float)
    extended = np.append(bare.astype(kind), np.array([empty], dtype=kind))
    numbers = np.asarray(places, dtype=float)
    here = (numbers >= 0) & (numbers < len(bare))
    return like(values, extended[np.where(here, numbers, len(bare)).astype(int)])


def _coded(groups: Any, keys: Any) -> tuple[Places, list[int], int]:
    """The number of each group among the different `keys` (-1 for none), the keys, and how many differ."""
    wanted = keys_of(keys)
    number: dict[Any, int] = {}
    for key in wanted:
        if key is not None:
            number.setdefault(key, len(number))
    codes = np.array([number.get(one, -1) for one in keys_of(groups)], dtype=int)
    return codes, [number.get(key, -1) for key in wanted], len(number)


@overload
def sum_by(groups: Each[Any], keys: Each[Any], values: Each[T], counted: Mask | bool = True) -> Each[T]: ...
@overload
def sum_by(groups: Each[Any], keys: str | float, values: Each[T], counted: Mask | bool = True) -> T: ...
def sum_by(groups: Any, keys: Any, values: Any, counted: Any = True) -> Any:
    """For each of `keys`, the sum of the `values` whose group is it and for which `counted` holds.

    Blank values count as nothing; a key that no group has, or that is blank, sums to 0.

    >>> groups = np.array(["a", "b", "A"], dtype=object)
    >>> sum_by(groups, np.array(["a", "c"], dtype=object), np.array([1.0, 5.0, 2.0]))
    array([3., 0.])
    """
    codes, wanted, number = _coded(groups, keys)
    bare = np.broadcast_to(magnitude(or_zero(values)), codes.shape)
    use = (codes >= 0) & np.broadcast_to(counted, codes.shape)
    sums = np.append(np.bincount(codes[use], weights=bare[use], minlength=number).astype(float), 0.0)
    found = sums[np.array(wanted, dtype=int)]
    return like(values, found if np.ndim(magnitude(keys)) else found[0])


@overload
def count_by(groups: Each[Any], keys: Each[Any], counted: Mask | bool = True) -> Each[float]: ...
@overload
def count_by(groups: Each[Any], keys: str | float, counted: Mask | bool = True) -> float: ...
def count_by(groups: Any, keys: Any, counted: Any = True) -> Any:
    """For each of `keys`, how many of `groups` are it where `counted` holds.

    >>> float(count_by(np.array(["a", "b", "A"], dtype=object), "A"))
    2.0
    """
    return sum_by(groups, keys, each(np.ones(len(np.atleast_1d(magnitude(groups))))), counted)


@overload
def latest_by(groups: Each[Any], keys: Each[Any], values: Each[T], counted: Mask | bool = True) -> Each[T]: ...
@overload
def latest_by(groups: Each[Any], keys: str | float, values: Each[T], counted: Mask | bool = True) -> T: ...
def latest_by(groups: Any, keys: Any, values: Any, counted: Any = True) -> Any:
    """For each of `keys`, the greatest of the `values` whose group is it and for which `counted` holds.

    Blank values are passed over; blank for a key that has none.

    >>> latest_by(np.array(["a", "b", "A"], dtype=object), np.array(["a", "c"], dtype=object), np.array([1.0, 5, 2]))
    array([ 2., nan])
    """
    codes, wanted, number = _coded(groups, keys)
    bare = np.broadcast_to(magnitude(values), codes.shape)
    use = (codes >= 0) & np.broadcast_to(counted, codes.shape) & ~np.isnan(bare)
    greatest = np.full(number + 1, -np.inf)
    np.maximum.at(greatest, codes[use], bare[use])
    found = np.where(np.isneginf(greatest), np.nan, greatest)[np.array(wanted, dtype=int)]
    return like(values, found if np.ndim(magnitude(keys)) else found[0])


@overload
def sum_upto(times: Each[float], values: Each[T], limits: Each[float], counted: Mask | bool = True) -> Each[T]: ...
@overload
def sum_upto(times: Each[float], values: Each[T], limits: float, counted: Mask | bool = True) -> T: ...
def sum_upto(times: Any, values: Any, limits: Any, counted: Any = True) -> Any:
    """For each of `limits`, the sum of the `values` whose time is not later and for which `counted` holds.

    Times and limits are serial dates; shape of the result: that of `limits`.

    >>> sum_upto(np.array([3.0, 1.0, np.nan]), np.array([10.0, 1.0, 5.0]), np.array([0.0, 1.0, 9.0, np.nan]))
    array([ 0.,  1., 11., nan])
    """
    use = ~np.isnan(times) & np.broadcast_to(counted, np.shape(times))
    order = np.argsort(times[use], kind="stable")
    so_far = np.append(0.0, np.cumsum(magnitude(or_zero(values))[use][order]))
    found = so_far[np.searchsorted(times[use][order], limits, side="right")]
    return like(values, np.where(np.isnan(limits), np.nan, found)[()])


def total(values: Each[T], counted: Mask | bool = True) -> T:
    """The sum of a column where `counted` holds, blanks passed over; a scalar.

    >>> float(total(np.array([2.0, np.nan, 3.0])))
    5.0
    """
    bare: Any = values
    return like(bare, np.sum(magnitude(or_zero(bare)), where=counted))


def joined(*columns: Each[Any]) -> Each[str]:
    """One key of several columns, for groups by more than one: an object array, "" where any is blank.

    >>> joined(np.array(["A", ""], dtype=object), np.array([1.0, 2.0]))
    array(['a\\x1f1.0', ''], dtype=object)
    """
    parts = [keys_of(column) for column in columns]
    texts = ["" if None in row else "\x1f".join(map(str, row)) for row in zip(*parts, strict=True)]
    return each(np.array(texts, dtype=object))


def _times_of(groups: Each[Any], times: Each[float]) -> dict[Any, list[float]]:
    """The different times of each group, in order."""
    times_of: dict[Any, set[float]] = {}
    for group, time in zip(keys_of(groups), keys_of(times), strict=True):
        if group is not None and time is not None:
            times_of.setdefault(group, set()).add(time)
    return {group: sorted(found) for group, found in times_of.items()}


def latest_before(groups: Each[Any], times: Each[SerialDate]) -> Each[SerialDate]:
    """For each record, the latest strictly earlier time of its group; blank where there is none.

    >>> latest_before(np.array(["a", "A", "b", "a"], dtype=object), np.array([5.0, 9.0, 7.0, 5.0]))
    array([nan,  5., nan, nan])
    """
    times_of = _times_of(groups, times)

    def one(group: Any, time: Any) -> float:
        own = times_of.get(group, []) if time is not None else []
        place = bisect_left(own, time)
        return own[place - 1] if place else np.nan

    return each(np.array([one(*record) for record in zip(keys_of(groups), keys_of(times), strict=True)], dtype=float))


def distinct_upto(groups: Each[Any], times: Each[SerialDate], since: Each[SerialDate]) -> Each[float]:
    """For each record, how many different times its group has from `since` up to its own, both included.

    Blank where the record has no group, no time or no `since`.

    >>> distinct_upto(np.array(["a", "a", "a"], dtype=object), np.array([3.0, 9.0, 3.0]), np.array([1.0, 1.0, 4.0]))
    array([1., 2., 0.])
    """
    times_of = _times_of(groups, times)

    def one(group: Any, time: Any, start: Any) -> float:
        if None in (group, time, start):
            return np.nan
        own = times_of[group]
        return float(max(bisect_right(own, time) - bisect_left(own, start), 0))

    records = zip(keys_of(groups), keys_of(times), keys_of(since), strict=True)
    return each(np.array([one(*record) for record in records], dtype=float))
