"""What each line of the diary cost, and which lines open a visit."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import where
from wbgen.model.tools.lines import at
from wbgen.model.types import Each, Mass, Money, Number, Table, Volume


def cost(product_line: Each[Number], weighed: Each[Mass], poured: Each[Volume], products: Table) -> Each[Money]:
    """What the product measured cost (currency), with what was left in the tank; blank without a price or a measure."""
    solid = (weighed * at(products.price_by_mass, product_line)).to("currency")
    liquid = (poured * at(products.price_by_volume, product_line)).to("currency")
    kind = at(products.measured_by, product_line)
    return where(kind == "mass", solid, where(kind == "volume", liquid, np.nan))
