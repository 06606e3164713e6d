"""How the grass answered each product: the mean change over the lines that brought it.

A line that follows another of its product, lawn and day counts no second time.
"""

from __future__ import annotations

from typing import Any, Final

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.tools.relations import blank

Value = Any

BLANK_UNLESS = ("product",)
NEVER_BLANK = ("bit",)

MOST: Final = 48
"""As many products have a place in a mix: two to the power of more is no whole number of 15 digits."""


def product(turn: Value, products: Value) -> Value:
    """Name of the product whose turn it is (from 1), blank where there is none."""
    return at(products.name, lines_of(turn))


def bit(turn: Value) -> Value:
    """The number by which it is known in a mix: two to the power of its place; blank past the last place."""
    return np.where(turn <= MOST, 2.0 ** (np.minimum(turn, MOST) - 1), np.nan)


@of_family("scored")
def number_each(turn: Value, diary: Value) -> Value:
    """How many lines have a change."""
    return number_of(diary.product_line, lines_of(turn), diary.change_each, ~blank(diary.mix_bit))


@of_family("scored")
def alone_each(turn: Value, diary: Value) -> Value:
    """How many of these had the visit to themselves."""
    return number_of(diary.product_line, lines_of(turn), diary.change_each, diary.alone == 1)


@of_family("scored")
def mean_each(turn: Value, number_each: Value, diary: Value, settings: Value) -> Value:
    """Their mean change; blank where they are too few."""
    own = ~blank(diary.mix_bit)
    return mean_of(diary.product_line, lines_of(turn), diary.change_each, number_each, settings, own)
