"""Where the printed pages of a sheet of several tables begin: between tables, never inside one that fits on a page."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

USUAL_HEIGHT: Final = 15.0
"""Points of a row of which nothing else is said."""

Rows = tuple[int, int]
"""The first and the last row of a block."""


def blocks_of(tables: Iterable[Rows]) -> list[Rows]:
    """Blocks from tables, from the top: those that stand side by side are one.

    >>> blocks_of([(8, 9), (1, 4), (3, 6)])
    [(1, 6), (8, 9)]
    """
    found: list[Rows] = []
    for top, bottom in sorted(tables):
        if found and top <= found[-1][1]:
            found[-1] = (found[-1][0], max(bottom, found[-1][1]))
        else:
            found.append((top, bottom))
    return found


def breaks_between(blocks: Sequence[Rows], first: int, heights: Mapping[int, float], page: float) -> list[int]:
    """The rows with which a page begins, but for the first page.

    `first` is the first row that is printed, `heights` are points by row, `page` is the height of a page in points of
    the sheet. A block longer than a page begins where it
    stands, unless little of it would.

    >>> breaks_between([(1, 3), (5, 8), (10, 11)], 0, {}, 120.0)
    [5]
    >>> breaks_between([(1, 3), (5, 30)], 0, {}, 150.0), breaks_between([(1, 8), (10, 30)], 0, {}, 150.0)
    ([], [10])
    """

    def high(top: int, bottom: int) -> float:
        return sum(heights.get(row, USUAL_HEIGHT) for row in range(top, bottom + 1))

    found: list[int] = []
    begins, used, at = first, 0.0, first
    for top, bottom in blocks:
        used += high(at, top - 1)
        own = high(top, bottom)
        fits, most = used + own <= page, used > page / 2
        if top > begins and not fits and (own <= page or most):
            found.append(top)
            begins, used = top, 0.0
        used += own
        while used > page:
            used -= page
        at = bottom + 1
    return found
