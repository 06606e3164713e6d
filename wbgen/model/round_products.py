"""What to bring on the round, product by product."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model._lines import at, match
from wbgen.model.relations import lookup, magnitude, ratio, where
from wbgen.model.rounding import half_up, up

Value = Any

BLANK_UNLESS = ("spot",)


def spot(turn: Value, stock: Value) -> Value:
    """The line in the stock, its heading row being line 1; blank past the last product of the round."""
    return match(turn, stock.round_turn)


def product(spot: Value, stock: Value) -> Value:
    """The product."""
    return at(stock.product, spot)


def mass(spot: Value, stock: Value) -> Value:
    """The mass (g) of a solid for the round; blank for a liquid."""
    return _some(at(stock.round_mass, spot))


def volume(spot: Value, stock: Value) -> Value:
    """The volume (mL) of a liquid for the round; blank for a solid."""
    return _some(at(stock.round_volume, spot))


def packs_exact(product: Value, mass: Value, volume: Value, products: Value) -> Value:
    """The packs that the round takes; blank where the size of a pack is not known."""
    solid = ratio(mass, lookup(product, products.name, products.pack_mass)).to("pack").magnitude
    liquid = ratio(volume, lookup(product, products.name, products.pack_volume)).to("pack").magnitude
    poured = lookup(product, products.name, products.measured_by) == "volume"
    return np.where(poured, liquid, solid)


def packs(packs_exact: Value) -> Value:
    """The whole packs to bring."""
    return up(half_up(packs_exact, 9))


def _some(quantity: Value) -> Value:
    """What is more than nothing; blank for the rest."""
    return where(magnitude(quantity) > 0, quantity, np.nan)
