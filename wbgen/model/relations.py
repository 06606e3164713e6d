"""What columns do with one another: choose, look up, gather by group.

All of these take arrays, quantities of arrays, or scalars. Text matches without case. The grouped ones cost
n log n, so that a diary may be long.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen import units

Value = Any


def magnitude(value: Value) -> Any:
    """The bare numbers of a quantity; anything else as it is."""
    return getattr(value, "magnitude", value)


def like(value: Value, numbers: Any) -> Value:
    """`numbers` in the unit of `value`."""
    unit = getattr(value, "units", None)
    return numbers if unit is None else units.FLOAT.Quantity(numbers, unit)


def is_text(value: Value) -> bool:
    return isinstance(value, str) or getattr(value, "dtype", None) == object


def blank(value: Value) -> Any:
    """True where a figure is not there: NaN, or the empty text. Same shape as `value`.

    >>> blank(np.array([1.0, np.nan])), bool(blank(""))
    (array([False,  True]), True)
    """
    return np.asarray(value == "") if is_text(value) else np.isnan(magnitude(value))


def or_zero(value: Value) -> Value:
    """`value` with 0 where it is blank.

    >>> or_zero(np.array([2.0, np.nan]))
    array([2., 0.])
    """
    return like(value, np.where(blank(value), 0.0, magnitude(value))[()])


def where(condition: Any, yes: Value, no: Value) -> Value:
    """`yes` where the condition holds, else `no`; quantities are brought to one unit, text stays text.

    >>> where(np.array([True, False]), "a", "")
    array(['a', ''], dtype=object)
    """
    if is_text(yes) or is_text(no):
        return np.where(condition, np.asarray(yes, dtype=object), np.asarray(no, dtype=object))[()]
    unit = getattr(yes, "units", None) or getattr(no, "units", None)
    if unit is None:
        return np.where(condition, yes, no)[()]
    bare = [side.to(unit).magnitude if hasattr(side, "units") else _unitless(side) for side in (yes, no)]
    return units.FLOAT.Quantity(np.where(condition, *bare)[()], unit)


def _unitless(side: Any) -> Any:
    """A side without a unit may only be zero or blank."""
    if not np.all((np.asarray(side) == 0) | np.isnan(side)):
        raise ValueError("a plain number meets a quantity")
    return side


def folded(text: Value) -> Any:
    """Text without its case, as spreadsheets compare it. Same shape as `text`."""
    return np.array([str(one).casefold() for one in np.atleast_1d(text)], dtype=object)


def find(keys: Value, names: Value) -> Any:
    """The place (from 0) of each key among `names`, the first of equal ones; -1 where there is none or no key.

    Shape of the result: that of `keys`, at least one dimension.
    """
    first: dict[str, int] = {}
    for place, name in enumerate(folded(names) if is_text(names) else np.atleast_1d(magnitude(names))):
        first.setdefault(name, place)
    wanted = folded(keys) if is_text(keys) else np.atleast_1d(magnitude(keys))
    return np.array([first.get(key, -1) if key != "" else -1 for key in wanted], dtype=int)


def lookup(keys: Value, names: Value, values: Value) -> Value:
    """The value beside each key's first match among `names`; blank where there is none.

    A scalar key gives a scalar.

    >>> lookup(np.array(["B", "x"], dtype=object), np.array(["a", "b"], dtype=object), np.array([1.0, 2.0]))
    array([ 2., nan])
    """
    return pick(values, find(keys, names) if np.ndim(keys) else find(keys, names)[0])


def pick(values: Value, places: Any) -> Value:
    """`values` at `places` (from 0); blank where a place is -1 or past the end."""
    bare = np.atleast_1d(magnitude(values))
    places = np.asarray(places)
    gone = (places < 0) | (places >= len(bare))
    if len(bare) == 0:
        return like(values, np.full(places.shape, "" if is_text(values) else np.nan)[()])
    taken = bare[np.where(gone, 0, places)]
    empty = "" if is_text(values) else np.nan
    return like(values, np.where(gone, empty, taken).astype(bare.dtype)[()])


def sum_by(groups: Value, keys: Value, values: Value, counted: Any = True) -> Value:
    """For each of `keys`, the sum of the `values` whose group is it and for which `counted` holds.

    Blank values count as nothing; a key that no group has sums to 0.

    >>> groups = np.array(["a", "b", "A"], dtype=object)
    >>> sum_by(groups, np.array(["a", "c"], dtype=object), np.array([1.0, 5.0, 2.0]))
    array([3., 0.])
    """
    scalar = np.ndim(keys) == 0
    wanted = np.atleast_1d(keys)
    unique = {name: place for place, name in enumerate(dict.fromkeys(folded(wanted) if is_text(keys) else wanted))}
    own = folded(groups) if is_text(groups) else np.atleast_1d(magnitude(groups))
    places = np.array([unique.get(one, -1) for one in own], dtype=int)
    bare = np.nan_to_num(np.broadcast_to(magnitude(values), own.shape))
    use = (places >= 0) & np.broadcast_to(counted, own.shape)
    sums = np.bincount(places[use], weights=bare[use], minlength=len(unique))
    names = folded(wanted) if is_text(keys) else wanted
    found = sums[[unique[one] for one in names]] if len(unique) else np.zeros(0)
    return like(values, found[0] if scalar else found)


def count_by(groups: Value, keys: Value, counted: Any = True) -> Any:
    """For each of `keys`, how many of `groups` are it where `counted` holds."""
    return sum_by(groups, keys, np.ones(len(np.atleast_1d(groups))), counted)


def joined(*columns: Value) -> Any:
    """One key of several columns, for groups by more than one: an object array, "" where any is blank."""
    parts = [np.atleast_1d(magnitude(column)) for column in columns]
    gone = np.any([np.atleast_1d(blank(column)) for column in columns], axis=0)
    texts = ["\x1f".join(str(one).casefold() for one in row) for row in zip(*parts, strict=True)]
    return np.where(gone, "", np.array(texts, dtype=object))
