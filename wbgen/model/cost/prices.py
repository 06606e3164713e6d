"""What a price buys: one record a product, as the catalogue lists them."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.relations import as_number, blank, ratio, where
from wbgen.trade.families import Member

Value = Any

BLANK_UNLESS = ("product",)


def product(turn: Value, products: Value) -> Value:
    """The product whose turn it is (from 1)."""
    return at(products.name, lines_of(turn))


def by_mass(turn: Value, products: Value) -> Value:
    """The price of a mass of a solid; blank for a liquid, and where it is not known."""
    return at(products.price_by_mass, lines_of(turn))


def by_volume(turn: Value, products: Value) -> Value:
    """The price of a volume of a liquid; blank for a solid, and where it is not known."""
    return at(products.price_by_volume, lines_of(turn))


@of_family("priced")
def pure_each(each: Member, turn: Value, by_mass: Value, by_volume: Value, products: Value) -> Value:
    """The price of the nutrient that is in the product, taken for the whole price; blank where it holds none."""
    unit = f"currency/g_{each.says['symbol']}"
    solid = ratio(by_mass, at(products.mass_content_each, lines_of(turn))).to(unit)
    liquid = ratio(by_volume, at(products.volume_content_each, lines_of(turn))).to(unit)
    return where(blank(by_mass), liquid, solid)


def active_word(turn: Value, products: Value) -> Value:
    """What is counted as the active content."""
    return at(products.active_word, lines_of(turn))


def pure_active(turn: Value, by_mass: Value, by_volume: Value, products: Value) -> Value:
    """The price of the active content; that of a liquid needs the mass by volume that its analysis is of."""
    share = as_number(at(products.active_share, lines_of(turn)))
    solid = by_mass / where(share > 0, share, np.nan)
    liquid = ratio(by_volume, where(share > 0, share, np.nan) * at(products.millilitre_mass, lines_of(turn)))
    return where(blank(by_mass), liquid.to(solid.units), solid)
