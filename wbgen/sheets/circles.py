"""What needs itself by way of others."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from typing import TypeVar

T = TypeVar("T")


def circles(needs: Mapping[T, Iterable[T]]) -> Iterator[tuple[T, ...]]:
    """Circles in `needs`, no member in two of them, each from the member on that comes first in `needs`.

    >>> list(circles({"a": ["b"], "b": ["c"], "c": ["a", "d"], "d": []}))
    [('a', 'b', 'c')]
    """
    left = {one: [other for other in others if other in needs] for one, others in needs.items()}
    order = {one: place for place, one in enumerate(left)}
    while True:
        try:
            TopologicalSorter(left).prepare()
        except CycleError as error:
            backwards: list[T] = error.args[1][1:]
            circle = backwards[::-1]
            first = circle.index(min(circle, key=order.__getitem__))
            yield tuple(circle[first:] + circle[:first])
            for one in circle:
                del left[one]
            left = {one: [other for other in others if other in left] for one, others in left.items()}
        else:
            return
