"""What to bring on the round, product by product.

One record a product to bring: shape (round_products,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, ratio, where
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.relations import count_by, lookup, sum_by
from wbgen.model.tools.rounding import half_up, up
from wbgen.model.types import Each, Mass, Number, Table, Text, Volume

BLANK_UNLESS = ("spot",)


def spot(turn: Each[Number], round_lines: Table) -> Each[Number]:
    """The line of the round that has the product first, the heading row being line 1; blank past the last product."""
    return match(turn, round_lines.bring_turn)


def product(spot: Each[Number], round_lines: Table) -> Each[Text]:
    """The product."""
    return at(round_lines.product, spot)


def product_line(spot: Each[Number], round_lines: Table) -> Each[Number]:
    """The line of the product in the catalogue; blank for an unknown one."""
    return at(round_lines.product_line, spot)


def mass(spot: Each[Number], product: Each[Text], round_lines: Table) -> Each[Mass]:
    """The mass of a solid for all lawns of the round; blank for a liquid."""
    whole = sum_by(round_lines.product, product, round_lines.mass)
    return where(blank(at(round_lines.mass, spot)), np.nan, whole)


def volume(spot: Each[Number], product: Each[Text], round_lines: Table) -> Each[Volume]:
    """The volume of a liquid for all lawns of the round; blank for a solid."""
    whole = sum_by(round_lines.product, product, round_lines.volume)
    return where(blank(at(round_lines.volume, spot)), np.nan, whole)


def packs_exact(
    product: Each[Text], mass: Each[Mass], volume: Each[Volume], products: Table, recipes: Table
) -> Each[Number]:
    """The packs that the round takes; blank where the size of a pack is not known, and for what is brewed."""
    solid = ratio(mass, lookup(product, products.name, products.pack_mass)).to("pack").magnitude
    liquid = ratio(volume, lookup(product, products.name, products.pack_volume)).to("pack").magnitude
    poured = lookup(product, products.name, products.measured_by) == "volume"
    brewed = count_by(recipes.product, product) > 0
    return where(brewed, np.nan, where(poured, liquid, solid))


def packs(packs_exact: Each[Number]) -> Each[Number]:
    """The whole packs to bring."""
    return up(half_up(packs_exact, 9))
