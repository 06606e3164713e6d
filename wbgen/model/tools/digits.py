"""Whole numbers that have a digit of their own for each of some properties.

Such a number is of at most fifteen digits, which a spreadsheet keeps exactly, and so does a float.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.values import Each, Mask, each


def present(counts: Each[float]) -> Each[float]:
    """The number with a 1 in each digit that is not 0; 0 for a blank.

    >>> present(np.array([203.0, 0.0, np.nan]))
    array([101.,   0.,   0.])
    """
    return each(np.array([_one_present(count) for count in np.nan_to_num(counts)], dtype=float))


def _one_present(count: float) -> float:
    return float("".join("0" if digit == "0" else "1" for digit in f"{count:.0f}"))


def share_a_digit(first: Each[float], second: Each[float]) -> Mask:
    """True where both numbers have the same digit that is not 0; a blank has none.

    >>> share_a_digit(np.array([101.0, 101.0]), np.array([10.0, 100.0]))
    array([False,  True])
    """
    pairs = zip(np.nan_to_num(first), np.nan_to_num(second), strict=True)
    return np.array([any(one != "0" != other for one, other in _side_by_side(*pair)) for pair in pairs], dtype=bool)


def _side_by_side(first: float, second: float) -> zip[tuple[str, str]]:
    return zip(reversed(f"{first:.0f}"), reversed(f"{second:.0f}"), strict=False)
