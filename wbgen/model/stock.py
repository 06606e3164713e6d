"""The stock: one record a product, as the catalogue lists them; here what the next round takes of it."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model._lines import at, lines_of
from wbgen.model.relations import blank, magnitude, sum_by

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


def in_round(round_mass: Value, round_volume: Value) -> Value:
    """1 for a product of the round, blank for another."""
    return np.where((magnitude(round_mass) > 0) | (magnitude(round_volume) > 0), 1.0, np.nan)


def round_turn(in_round: Value) -> Value:
    """The product's turn among those of the round, from 1; blank for a product that is not in it."""
    return np.where(blank(in_round), np.nan, np.cumsum(~blank(in_round)).astype(float))
