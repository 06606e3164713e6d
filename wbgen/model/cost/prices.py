"""What a price buys: one record a product, as the catalogue lists them.

One record a product of the catalogue: shape (products,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import as_number, blank, ratio, where
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.types import Each, MoneyPerMass, MoneyPerNutrient, MoneyPerVolume, Number, Table, Text
from wbgen.trade.families import Member

BLANK_UNLESS = ("product",)


def product(turn: Each[Number], products: Table) -> Each[Text]:
    """The product whose turn it is (from 1)."""
    return at(products.name, lines_of(turn))


def by_mass(turn: Each[Number], products: Table) -> Each[MoneyPerMass]:
    """The price of a mass of a solid; blank for a liquid, and where it is not known."""
    return at(products.price_by_mass, lines_of(turn))


def by_volume(turn: Each[Number], products: Table) -> Each[MoneyPerVolume]:
    """The price of a volume of a liquid; blank for a solid, and where it is not known."""
    return at(products.price_by_volume, lines_of(turn))


@of_family("priced")
def pure_each(
    each: Member, turn: Each[Number], by_mass: Each[MoneyPerMass], by_volume: Each[MoneyPerVolume], products: Table
) -> Each[MoneyPerNutrient]:
    """The price of the nutrient that is in the product, taken for the whole price; blank where it holds none."""
    unit = f"currency/g_{each.says['symbol']}"
    solid = ratio(by_mass, at(products.mass_content_each, lines_of(turn))).to(unit)
    liquid = ratio(by_volume, at(products.volume_content_each, lines_of(turn))).to(unit)
    return where(blank(by_mass), liquid, solid)


def active_word(turn: Each[Number], products: Table) -> Each[Text]:
    """What is counted as the active content."""
    return at(products.active_word, lines_of(turn))


def pure_active(
    turn: Each[Number], by_mass: Each[MoneyPerMass], by_volume: Each[MoneyPerVolume], products: Table
) -> Each[MoneyPerMass]:
    """The price of the active content; that of a liquid needs the mass by volume that its analysis is of."""
    share = as_number(at(products.active_share, lines_of(turn)))
    solid = by_mass / where(share > 0, share, np.nan)
    liquid = ratio(by_volume, where(share > 0, share, np.nan) * at(products.millilitre_mass, lines_of(turn)))
    return where(blank(by_mass), liquid.to(solid.units), solid)
