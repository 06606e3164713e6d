"""Records in their order: ranks, running counts, the first and the last of a group within some days.

Arrays and arrays of objects throughout, as in `relations`; a blank is in no group and has no rank. Everything costs
n log n at most.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from typing import Any, Literal, overload

import numpy as np

from wbgen.model.tools.elementwise import Array, like, magnitude, or_zero
from wbgen.model.tools.relations import keys_of
from wbgen.model.values import Each, Mask, Places, SerialDate, T, each


def ranked(values: Each[float]) -> Each[float]:
    """The rank of each number from 1, equal ones in the order of the records; blank for a blank.

    >>> ranked(np.array([5.0, np.nan, 2.0, 5.0]))
    array([ 2., nan,  1.,  3.])
    """
    ranks = np.empty(len(values))
    ranks[np.argsort(values, kind="stable")] = np.arange(len(values)) + 1.0
    return each(np.where(np.isnan(values), np.nan, ranks))


def place_of_rank(values: Each[float], turn: Each[float]) -> Places:
    """The place (from 0) of the number whose rank is each `turn`; -1 where there are fewer.

    >>> place_of_rank(np.array([5.0, np.nan, 2.0]), np.array([1.0, 2.0, 3.0]))
    array([ 2,  0, -1])
    """
    order = np.argsort(values, kind="stable")
    known = int(np.sum(~np.isnan(values)))
    places = np.asarray(turn).astype(int) - 1
    here = (places >= 0) & (places < known)
    return np.where(here, np.append(order, -1)[np.where(here, places, -1)], -1)


def first_to_reach(totals: Array, numbers: Each[float]) -> Places:
    """The place (from 0) of the first of the rising `totals` that is as large as each number.

    The place after the last where none is.

    >>> first_to_reach(np.array([3.0, 3.0, 5.0]), np.array([1.0, 3.0, 4.0, 6.0]))
    array([0, 0, 2, 3])
    """
    return np.searchsorted(totals, np.asarray(numbers), side="left")


def numbered(groups: Each[Any], counted: Mask | bool = True) -> Each[float]:
    """How many records of a record's own group stand up to it, itself included, of those that are `counted`.

    Blank without a group.

    >>> numbered(np.array(["a", "b", "A", ""], dtype=object))
    array([ 1.,  1.,  2., nan])
    """
    so_far: dict[Any, float] = {}
    found = []
    keys = keys_of(groups)
    for key, one in zip(keys, np.broadcast_to(counted, len(keys)), strict=True):
        so_far[key] = so_far.get(key, 0.0) + float(one)
        found.append(np.nan if key is None else so_far[key])
    return each(np.array(found))


def is_first(groups: Each[Any]) -> Mask:
    """True for the first record of each group.

    >>> is_first(np.array([4.0, np.nan, 4.0, 5.0]))
    array([ True, False, False,  True])
    """
    return numbered(groups) == 1


class Days:
    """The different days of each group, to be asked for those between two days, both included."""

    def __init__(self, groups: Each[Any], days: Each[SerialDate]) -> None:
        found: dict[Any, set[float]] = {}
        for group, day in zip(keys_of(groups), keys_of(days), strict=True):
            if group is not None and day is not None:
                found.setdefault(group, set()).add(day)
        self._days = {group: sorted(days) for group, days in found.items()}

    def before(self, keys: Each[Any], day: Each[SerialDate]) -> Each[SerialDate]:
        """The latest day that each key's group has before a day; blank where there is none.

        >>> days = Days(np.array([1.0, 1.0]), np.array([3.0, 9.0]))
        >>> days.before(np.array([1.0, 1.0, 2.0]), np.array([9.0, 3.0, 9.0]))
        array([ 3., nan, nan])
        """
        groups = [self._days.get(key, []) for key in keys_of(keys)]
        ends = [0 if one is None else bisect_left(days, one) for days, one in zip(groups, keys_of(day), strict=True)]
        return each(np.array([days[end - 1] if end else np.nan for days, end in zip(groups, ends, strict=True)], float))

    def _between(self, key: Any, since: Any, until: Any) -> tuple[list[float], int, int]:
        """The group's days, and which of them lie between; none where a bound is blank."""
        days = self._days.get(key, [])
        if None in (since, until):
            return days, 0, 0
        return days, bisect_left(days, since), bisect_right(days, until)

    def _each(self, keys: Each[Any], since: Each[float], until: Each[float]) -> list[tuple[list[float], int, int]]:
        return [self._between(*one) for one in zip(keys_of(keys), keys_of(since), keys_of(until), strict=True)]

    def number(self, keys: Each[Any], since: Each[float], until: Each[float]) -> Each[float]:
        """How many different days each key's group has between; 0 where a bound is blank or there is no group.

        >>> days = Days(np.array(["a", "a", "a"], dtype=object), np.array([3.0, 9.0, 3.0]))
        >>> days.number(np.array(["A", "b"], dtype=object), np.array([1.0, 1.0]), np.array([9.0, 9.0]))
        array([2., 0.])
        """
        return each(np.array([float(max(end - begin, 0)) for _, begin, end in self._each(keys, since, until)]))

    def latest(self, keys: Each[Any], since: Each[float], until: Each[float]) -> Each[SerialDate]:
        """The latest day that each key's group has between; blank where there is none.

        >>> days = Days(np.array([1.0, 1.0]), np.array([3.0, 9.0]))
        >>> days.latest(np.array([1.0, 1.0]), np.array([1.0, 4.0]), np.array([8.0, 8.0]))
        array([ 3., nan])
        """
        found = self._each(keys, since, until)
        return each(np.array([days[end - 1] if end > begin else np.nan for days, begin, end in found]))

    def earliest(self, keys: Each[Any], since: Each[float], until: Each[float]) -> Each[SerialDate]:
        """The earliest day that each key's group has between; blank where there is none.

        >>> days = Days(np.array([1.0, 1.0]), np.array([3.0, 9.0]))
        >>> days.earliest(np.array([1.0, 1.0]), np.array([1.0, 4.0]), np.array([8.0, 8.0]))
        array([ 3., nan])
        """
        found = self._each(keys, since, until)
        return each(np.array([days[begin] if end > begin else np.nan for days, begin, end in found]))


@overload
def sum_upto(times: Each[float], values: Each[T], limits: Each[float], counted: Mask | bool = True) -> Each[T]: ...
@overload
def sum_upto(times: Each[float], values: Each[T], limits: float, counted: Mask | bool = True) -> T: ...
def sum_upto(times: Any, values: Any, limits: Any, counted: Any = True) -> Any:
    """For each of `limits`, the sum of the `values` whose time is not later and for which `counted` holds.

    Times and limits are serial dates; a blank value is nothing. Shape of the result: that of `limits`.

    >>> sum_upto(np.array([3.0, 1.0, np.nan]), np.array([10.0, 1.0, 5.0]), np.array([0.0, 1.0, 9.0, np.nan]))
    array([ 0.,  1., 11., nan])
    """
    return _sum_to(times, values, limits, counted, "right")


def sum_before(times: Each[float], values: Each[T], limits: Each[float], counted: Mask | bool = True) -> Each[T]:
    """As `sum_upto`, but that only what is earlier than each limit counts.

    >>> sum_before(np.array([2.0, 1.0]), np.array([5.0, 3.0]), np.array([1.0, 2.0, np.nan]))
    array([ 0.,  3., nan])
    """
    return _sum_to(times, values, limits, counted, "left")


def _sum_to(times: Any, values: Any, limits: Any, counted: Any, side: Literal["left", "right"]) -> Any:
    use = ~np.isnan(times) & np.broadcast_to(counted, np.shape(times))
    order = np.argsort(times[use], kind="stable")
    so_far = np.append(0.0, np.cumsum(magnitude(or_zero(values))[use][order]))
    found = so_far[np.searchsorted(times[use][order], limits, side=side)]
    return like(values, np.where(np.isnan(limits), np.nan, found)[()])
