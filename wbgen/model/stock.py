"""The stock: one record a product, as the catalogue lists them; here what the next round takes of it."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model._lines import at, lines_of
from wbgen.model.relations import blank, count_by, sum_by

Value = Any

BLANK_UNLESS = ("product",)


def product(turn: Value, products: Value) -> Value:
    """The product whose turn it is (from 1)."""
    return at(products.name, lines_of(turn))


def round_mass(product: Value, due: Value) -> Value:
    """The mass (g) of a solid that the round takes; 0 where it takes none."""
    return sum_by(due.product, product, due.round_mass)


def round_volume(product: Value, due: Value) -> Value:
    """The volume (mL) of a liquid that the round takes; 0 where it takes none."""
    return sum_by(due.product, product, due.round_volume)


def round_turn(product: Value, due: Value) -> Value:
    """The product's turn among those of the round, from 1; blank for a product that is not in it."""
    taken = count_by(due.product, product, ~blank(due.round_key)) > 0
    return np.where(taken, np.cumsum(taken).astype(float), np.nan)
