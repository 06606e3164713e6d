"""What stands in the records up to each one, itself included: running sums and days of a group.

A diary is written from the top down; what is asked of a line is asked of it and of those above. A blank is in no
group. Everything costs n log n, but for moving the days of a group that come out of order.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from typing import Any

import numpy as np

from wbgen.model.tools.elementwise import like, magnitude, or_zero
from wbgen.model.tools.relations import keys_of
from wbgen.model.values import Each, Mask, SerialDate, T, each


def sum_so_far(groups: Each[Any], values: Each[T]) -> Each[T]:
    """For each record, the sum of the `values` of its group up to it; blank without a group. A blank value is nothing.

    >>> sum_so_far(np.array([4.0, 4.0, np.nan, 5.0, 4.0]), np.array([1.0, np.nan, 9.0, 2.0, 3.0]))
    array([ 1.,  1., nan,  2.,  4.])
    """
    sums: dict[Any, float] = {}
    found = []
    bare: Any = values
    for group, value in zip(keys_of(groups), magnitude(or_zero(bare)), strict=True):
        if group is not None:
            sums[group] = sums.get(group, 0.0) + float(value)
        found.append(np.nan if group is None else sums[group])
    return like(values, np.array(found, dtype=float))


class _DaysAbove:
    """The different days of each group, as far as the records have been gone through."""

    def __init__(self) -> None:
        self._days: dict[Any, list[float]] = {}

    def with_one_more(self, group: Any, day: float) -> list[float]:
        """The group's days in order, that of this record among them."""
        days = self._days.setdefault(group, [])
        place = bisect_left(days, day)
        if place == len(days) or days[place] != day:
            insort(days, day)
        return days


def day_before(groups: Each[Any], days: Each[SerialDate]) -> Each[SerialDate]:
    """The latest earlier day that stands above in the record's group; blank where there is none.

    >>> day_before(np.array(["a", "a", "b", "A"], dtype=object), np.array([9.0, 9.0, 3.0, 12.0]))
    array([nan, nan, nan,  9.])
    """
    above, found = _DaysAbove(), []
    for group, day in zip(keys_of(groups), keys_of(days), strict=True):
        known = [] if group is None or day is None else above.with_one_more(group, day)
        place = bisect_left(known, day) if known else 0
        found.append(known[place - 1] if place else np.nan)
    return each(np.array(found, dtype=float))


def days_since(groups: Each[Any], days: Each[SerialDate], since: Each[SerialDate]) -> Each[float]:
    """How many different days, from `since` up to its own, stand in the record's group up to it; blank without a group.

    >>> group = np.array(["a", "a", "a", "a"], dtype=object)
    >>> days_since(group, np.array([3.0, 9.0, 9.0, 8.0]), np.array([1.0, 4.0, 1.0, 1.0]))
    array([1., 1., 2., 2.])
    """
    above, found = _DaysAbove(), []
    for group, day, begin in zip(keys_of(groups), keys_of(days), keys_of(since), strict=True):
        known = [] if group is None or day is None else above.with_one_more(group, day)
        asked = bool(known) and begin is not None
        found.append(max(bisect_right(known, day) - bisect_left(known, begin), 0) if asked else np.nan)
    return each(np.array(found, dtype=float))


def is_below_later(days: Each[SerialDate], until: SerialDate) -> Mask:
    """True where a later day stands above, of those that are not after `until`.

    >>> is_below_later(np.array([9.0, 99.0, 8.0, np.nan, 9.0]), 20.0)
    array([False, False,  True, False, False])
    """
    counted = np.where(magnitude(days) <= until, magnitude(days), -np.inf)
    latest = np.maximum.accumulate(counted)
    return np.asarray(magnitude(days) < latest)
