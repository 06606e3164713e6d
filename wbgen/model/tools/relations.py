"""What columns do with one another: look up, gather by group.

All of these take one figure a record, and give a scalar for a scalar key. Text matches without case, a blank matches
nothing. The grouped ones cost n log n, so that a diary may be long. Any stands where numpy and pint do not say what
they hold.
"""

from __future__ import annotations

from typing import Any, Final, overload
from weakref import ReferenceType, ref

import numpy as np

from wbgen.model.tools.elementwise import Array, folded, is_text, like, magnitude, or_zero
from wbgen.model.values import Each, Mask, Places, T, each

_MADE: Final[dict[int, tuple[ReferenceType[Any], list[Any]]]] = {}
"""The keys of columns that are still there, by identity: a diary's are asked for by hundreds of columns."""


def keys_of(values: Any) -> list[Any]:
    """The records of a column as keys of a dict; None for a blank. Not to be changed: others may have the same list."""
    bare = magnitude(values)
    if not isinstance(bare, np.ndarray) or bare.flags.writeable:
        return _made_keys(bare)
    number = id(bare)
    if number not in _MADE:
        forget = _MADE.pop  # bound here: as a process ends, the module's own names go before its columns do
        _MADE[number] = ref(bare, lambda _: forget(number, None)), _made_keys(bare)
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
