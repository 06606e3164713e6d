"""What each line of the diary cost, and which lines open a visit."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.order import is_first
from wbgen.model.types import Date, Each, Mass, Money, Number, Table, Volume


def cost(product_line: Each[Number], weighed: Each[Mass], poured: Each[Volume], products: Table) -> Each[Money]:
    """What the product measured cost (currency), with what was left in the tank; blank without a price or a measure."""
    solid = (weighed * at(products.price_by_mass, product_line)).to("currency")
    liquid = (poured * at(products.price_by_volume, product_line)).to("currency")
    kind = at(products.measured_by, product_line)
    return where(kind == "mass", solid, where(kind == "volume", liquid, np.nan))


def lawn_day_key(lawn_line: Each[Number], date: Each[Date], ones: Table) -> Each[Number]:
    """One number for lawn and day; within a lawn it rises with the day. Blank for an unknown lawn."""
    return lawn_line * only(ones.key_step) + (date - only(ones.key_day))


def visit_first(lawn_day_key: Each[Number]) -> Each[Number]:
    """1 on the first line of a lawn and day, blank on those that follow: together they are one visit.

    >>> visit_first(np.array([7.0, 8.0, 7.0, np.nan]))
    array([ 1.,  1., nan, nan])
    """
    return where(is_first(lawn_day_key) & ~blank(lawn_day_key), 1.0, np.nan)
