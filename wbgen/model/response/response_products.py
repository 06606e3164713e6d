"""How the grass answered each product: the mean change over the lines that brought it.

One record a product of the catalogue: shape (products,). A line that follows another of its product, lawn and day
counts no second time.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, where
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.types import Each, Figure, Number, Table, Text

BLANK_UNLESS = ("product",)
NEVER_BLANK = ("bit",)

MOST: Final = 48
"""As many products have a place in a mix: two to the power of more is no whole number of 15 digits."""


def product(turn: Each[Number], products: Table) -> Each[Text]:
    """Name of the product whose turn it is (from 1), blank where there is none."""
    return at(products.name, lines_of(turn))


def bit(turn: Each[Number]) -> Each[Number]:
    """The number by which it is known in a mix: two to the power of its place; blank past the last place."""
    return where(turn <= MOST, 2.0 ** (np.minimum(turn, MOST) - 1), np.nan)


@of_family("scored")
def number_each(turn: Each[Number], answers: Table) -> Each[Number]:
    """How many lines have a change."""
    return number_of(answers.product_line, lines_of(turn), answers.change_each, ~blank(answers.bit))


@of_family("scored")
def alone_each(turn: Each[Number], answers: Table) -> Each[Number]:
    """How many of these had the visit to themselves."""
    return number_of(answers.product_line, lines_of(turn), answers.change_each, answers.alone == 1)


@of_family("scored")
def mean_each(turn: Each[Number], number_each: Each[Number], answers: Table, settings: Table) -> Each[Figure]:
    """Their mean change; blank where they are too few."""
    own = ~blank(answers.bit)
    return mean_of(answers.product_line, lines_of(turn), answers.change_each, number_each, settings, own)
