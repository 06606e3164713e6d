"""What the days ahead take of each product, for the sheet Order: when it runs out, and what is to be bought by then.

One record a product of the catalogue: shape (products,). Dates are serial numbers.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, like, magnitude, only, or_zero, ratio, where, with_unit, yes
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.relations import latest_by, sum_by
from wbgen.model.tools.rounding import exceeds, half_up, up
from wbgen.model.types import Date, Each, Mass, Money, Number, Quantity, Table, Text, Volume


def order_mass(turn: Each[Number], applications: Table, order: Table, products: Table) -> Each[Mass]:
    """The mass of a solid that goes on up to the day bought for; 0 where none does, blank for a liquid."""
    goes_on = applications.coming_day <= order.until
    needed = sum_by(applications.product_line, lines_of(turn), applications.coming_mass, goes_on)
    return where(at(products.measured_by, lines_of(turn)) == "mass", needed, np.nan)


def order_volume(turn: Each[Number], applications: Table, order: Table, products: Table) -> Each[Volume]:
    """The volume of a liquid that goes on up to that day, likewise."""
    goes_on = applications.coming_day <= order.until
    needed = sum_by(applications.product_line, lines_of(turn), applications.coming_volume, goes_on)
    return where(at(products.measured_by, lines_of(turn)) == "volume", needed, np.nan)


def order_packs(
    turn: Each[Number],
    brewed: Each[Text],
    order_mass: Each[Mass],
    order_volume: Each[Volume],
    on_hand_mass: Each[Mass],
    on_hand_volume: Each[Volume],
    products: Table,
) -> Each[Number]:
    """The whole packs that are missing by then; blank where a pack's size is not known, and for what is brewed."""
    lines = lines_of(turn)
    solid = ratio(_missing(order_mass, on_hand_mass), at(products.pack_mass, lines)).to("pack").magnitude
    liquid = ratio(_missing(order_volume, on_hand_volume), at(products.pack_volume, lines)).to("pack").magnitude
    return where(yes(brewed), np.nan, up(half_up(where(blank(order_mass), liquid, solid), 9)))


def _missing(needed: Each[Quantity], there: Each[Quantity]) -> Each[Quantity]:
    """What is needed beyond what there is; less than nothing is nothing."""
    usable = np.maximum(magnitude(or_zero(there.to(needed.units))), 0.0)
    return like(needed, np.maximum(magnitude(needed) - usable, 0.0))


def order_cost(turn: Each[Number], order_packs: Each[Number], products: Table) -> Each[Money]:
    """What they cost (currency); blank without a price."""
    return (with_unit(order_packs, "pack") * at(products.price, lines_of(turn))).to("currency")


def runs_out(turn: Each[Number], applications: Table) -> Each[Date]:
    """The first day for which there is not enough; blank where it lasts for the rest of the programme."""
    return -latest_by(applications.product_line, lines_of(turn), -applications.short_day)


def order_key(
    turn: Each[Number],
    after: Each[Date],
    needed_mass: Each[Mass],
    needed_volume: Each[Volume],
    runs_out: Each[Date],
    ones: Table,
) -> Each[Number]:
    """One number that rises with the day on which it runs out, then in the order of the catalogue.

    What lasts comes last. Blank for what is neither needed nor known to be there.
    """
    step = only(ones.key_step)
    day = where(blank(runs_out), step - 1, runs_out - only(ones.key_day))
    needed = exceeds(needed_mass, 0.0 * needed_mass) | exceeds(needed_volume, 0.0 * needed_volume)
    return where(needed | ~blank(after), day * step + turn, np.nan)
