"""Means of what the grass answered, over groups of lines, where there are enough of them to speak of one.

The least number is that of the settings; a blank one is 0, but a mean of nothing is never there.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.elementwise import blank, like, magnitude, only, or_zero, ratio, where
from wbgen.model.tools.relations import count_by, sum_by
from wbgen.model.values import Each, Mask, T, Table, each


def number_of(groups: Each[Any], keys: Each[Any], changes: Each[Any], counted: Mask | bool = True) -> Each[float]:
    """For each of `keys`, how many of the `changes` there are whose group is it and for which `counted` holds.

    >>> number_of(np.array([2.0, 2.0, 3.0]), np.array([2.0, 4.0]), np.array([1.0, np.nan, 1.0]))
    array([1., 0.])
    """
    return count_by(groups, keys, ~blank(changes) & counted)


def mean_of(
    groups: Each[Any],
    keys: Each[Any],
    changes: Each[T],
    number: Each[float],
    settings: Table,
    counted: Mask | bool = True,
) -> Each[T]:
    """Their mean, in the unit of the changes; blank where their `number` is less than the settings ask for, or 0."""
    enough = number >= only(or_zero(settings.least_observations))
    total: Each[Any] = sum_by(groups, keys, changes, counted)
    return ratio(total, where(enough, number, np.nan))


def means_between(
    times: Each[float], values: Each[T], begins: Each[float], ends: Each[float], counted: Mask | bool = True
) -> Each[T]:
    """The mean of the `values` from each of `begins` up to, and not on, each of `ends`; blank where there is none.

    >>> means_between(np.array([1.0, 2.0, 3.0]), np.array([4.0, 6.0, 9.0]), np.array([1.0, 4.0]), np.array([3.0, 6.0]))
    array([ 5., nan])
    """
    use = ~blank(values) & ~np.isnan(times) & counted
    order = np.argsort(times[use], kind="stable")
    days, sums = times[use][order], np.append(0.0, np.cumsum(magnitude(each(values))[use][order]))
    first, last = np.searchsorted(days, begins, "left"), np.searchsorted(days, ends, "left")
    number = np.where(np.isnan(begins + ends), 0, np.maximum(last - first, 0))
    return like(values, (sums[last] - sums[first]) / np.where(number > 0, number, np.nan))
