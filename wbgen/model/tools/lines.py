"""Lines of a table: the heading row is line 1, the first record line 2."""

from __future__ import annotations

from typing import Any, Final, overload

import numpy as np

from wbgen.model.tools.elementwise import Array
from wbgen.model.tools.relations import find, pick
from wbgen.model.values import Each, T, each

FIRST: Final = 2.0
"""The line of the first record."""


def lines_at(places: Each[float] | Array) -> Each[float]:
    """Lines of places counted from 0; blank for a place that is none (-1).

    >>> lines_at(np.array([0, 3, -1]))
    array([ 2.,  5., nan])
    """
    return each(np.where(np.asarray(places) < 0, np.nan, np.asarray(places) + FIRST))


def match(keys: Each[Any], names: Each[Any]) -> Each[float]:
    """The line of each key among `names`, the first of equal ones; blank where there is none.

    >>> match(np.array(["B", "", "x"], dtype=object), np.array(["a", "b"], dtype=object))
    array([ 3., nan, nan])
    """
    return lines_at(find(keys, names))


@overload
def at(values: Each[T], line: Each[float]) -> Each[T]: ...
@overload
def at(values: Each[T], line: float) -> T: ...
def at(values: Any, line: Any) -> Any:
    """The `values` at lines; blank where the line is."""
    return pick(values, line - FIRST)


def lines_of(turn: Each[float]) -> Each[float]:
    """The line of the record whose turn it is, turns counting from 1."""
    return turn - 1 + FIRST
