"""What there is of each product, what the rest of the programme takes, what is to be bought for it.

One record a product of the catalogue: shape (products,). A count is of the evening: what is bought or used on later
days comes on top. Without a count, purchases count from the first one on, and what is used from that day on. Dates are
serial numbers.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, like, magnitude, only, or_zero, ratio, where, with_unit, yes
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.relations import count_by, joined, latest_by, lookup, sum_by
from wbgen.model.tools.rounding import exceeds, half_up, up
from wbgen.model.types import Date, Each, Mask, Mass, Money, Number, Quantity, Table, Text, Volume


def product(turn: Each[Number], products: Table) -> Each[Text]:
    """The product whose turn it is (from 1)."""
    return at(products.name, lines_of(turn))


def brewed(product: Each[Text], recipes: Table) -> Each[Text]:
    """ "yes" for a product that has a recipe."""
    return where(count_by(recipes.product, product) > 0, "yes", "")


def counted_on(product: Each[Text], shelf: Table, start: Table) -> Each[Date]:
    """The latest day, up to the as-of date, on which the product was counted; blank where it never was."""
    counted = (folded(shelf.deed) == "counted") & (shelf.date <= only(start.as_of))
    return latest_by(shelf.product, product, shelf.date, counted)


def after(product: Each[Text], counted_on: Each[Date], shelf: Table, start: Table) -> Each[Date]:
    """The day after which all counts: that of the count; where there is none, the one before the first purchase."""
    bought = (folded(shelf.deed) == "bought") & (shelf.date <= only(start.as_of))
    first = -latest_by(shelf.product, product, -shelf.date, bought)
    return where(blank(counted_on), first - 1, counted_on)


def counted_mass(product: Each[Text], counted_on: Each[Date], shelf: Table) -> Each[Mass]:
    """The mass that was counted on that day, in all its places."""
    return _counted(product, counted_on, shelf, shelf.mass_in)


def counted_volume(product: Each[Text], counted_on: Each[Date], shelf: Table) -> Each[Volume]:
    """The volume that was counted on that day, in all its places."""
    return _counted(product, counted_on, shelf, shelf.volume_in)


def bought_mass(product: Each[Text], after: Each[Date], shelf: Table, start: Table) -> Each[Mass]:
    """The mass bought after that day."""
    return _bought(product, after, shelf, shelf.mass_in, start)


def bought_volume(product: Each[Text], after: Each[Date], shelf: Table, start: Table) -> Each[Volume]:
    """The volume bought after that day."""
    return _bought(product, after, shelf, shelf.volume_in, start)


def used_mass(product: Each[Text], after: Each[Date], diary: Table, shelf: Table, start: Table) -> Each[Mass]:
    """The mass that the diary says was weighed after that day, on lines that count nowhere else too: it has left the
    shed, whether or not it is known on which lawn it went."""
    return _since(product, after, diary, diary.weighed.to(shelf.mass.units), start)


def used_volume(product: Each[Text], after: Each[Date], diary: Table, shelf: Table, start: Table) -> Each[Volume]:
    """The volume that the diary says was poured after that day, likewise."""
    return _since(product, after, diary, diary.poured.to(shelf.volume.units), start)


def _counted(product: Each[Text], counted_on: Each[Date], shelf: Table, brought: Each[Quantity]) -> Each[Quantity]:
    """What the lines of the day of the count bring."""
    day = joined(shelf.product, shelf.date)
    return _known(counted_on, sum_by(day, joined(product, counted_on), brought, folded(shelf.deed) == "counted"))


def _bought(
    product: Each[Text], after: Each[Date], shelf: Table, brought: Each[Quantity], start: Table
) -> Each[Quantity]:
    """What purchases after that day bring."""
    return _since(product, after, shelf, brought, start, folded(shelf.deed) == "bought")


def _since(
    product: Each[Text],
    after: Each[Date],
    lines: Table,
    values: Each[Quantity],
    start: Table,
    wanted: Mask | bool = True,
) -> Each[Quantity]:
    """The sum of `values` over those lines of each product that are after its day, up to the as-of date."""
    later = (lines.date > lookup(lines.product, product, after)) & (lines.date <= only(start.as_of))
    return _known(after, sum_by(lines.product, product, values, later & wanted))


def _known(day: Each[Date], found: Each[Quantity]) -> Each[Quantity]:
    """Nothing is known of a product without a day to reckon from."""
    return where(blank(day), np.nan, found)


def _kind(turn: Each[Number], products: Table) -> Each[Text]:
    """Whether the product is measured by mass or by volume."""
    return at(products.measured_by, lines_of(turn))


def on_hand_mass(
    turn: Each[Number],
    after: Each[Date],
    counted_mass: Each[Mass],
    bought_mass: Each[Mass],
    used_mass: Each[Mass],
    products: Table,
) -> Each[Mass]:
    """The mass there is of a solid: counted, and bought since, less what was used.

    Blank for one that was neither counted nor bought.
    """
    there = _known(after, or_zero(counted_mass) + bought_mass - used_mass)
    return where(_kind(turn, products) == "mass", there, np.nan)


def on_hand_volume(
    turn: Each[Number],
    after: Each[Date],
    counted_volume: Each[Volume],
    bought_volume: Each[Volume],
    used_volume: Each[Volume],
    products: Table,
) -> Each[Volume]:
    """The volume there is of a liquid, likewise."""
    there = _known(after, or_zero(counted_volume) + bought_volume - used_volume)
    return where(_kind(turn, products) == "volume", there, np.nan)


def needed_mass(turn: Each[Number], product: Each[Text], due: Table, shelf: Table, products: Table) -> Each[Mass]:
    """The mass of a solid that the visits to come take; 0 where there is none, blank for a liquid."""
    needed = sum_by(due.product, product, due.mass_to_come.to(shelf.mass.units))
    return where(_kind(turn, products) == "mass", needed, np.nan)


def needed_volume(turn: Each[Number], product: Each[Text], due: Table, shelf: Table, products: Table) -> Each[Volume]:
    """The volume of a liquid that the visits to come take; 0 where there is none, blank for a solid."""
    needed = sum_by(due.product, product, due.volume_to_come.to(shelf.volume.units))
    return where(_kind(turn, products) == "volume", needed, np.nan)


def short_mass(needed_mass: Each[Mass], on_hand_mass: Each[Mass]) -> Each[Mass]:
    """The mass that is needed and not there; 0 where there is enough, all of it where nothing is known to be there."""
    return _short(needed_mass, on_hand_mass)


def short_volume(needed_volume: Each[Volume], on_hand_volume: Each[Volume]) -> Each[Volume]:
    """The volume that is needed and not there, likewise."""
    return _short(needed_volume, on_hand_volume)


def _short(needed: Each[Quantity], on_hand: Each[Quantity]) -> Each[Quantity]:
    there = np.maximum(magnitude(or_zero(on_hand.to(needed.units))), 0.0)
    return like(needed, np.maximum(magnitude(needed) - there, 0.0))


def short_packs(
    turn: Each[Number], brewed: Each[Text], short_mass: Each[Mass], short_volume: Each[Volume], products: Table
) -> Each[Number]:
    """The packs that this comes to; blank where the size of a pack is not known, and for what is brewed."""
    lines = lines_of(turn)
    solid = ratio(short_mass, at(products.pack_mass, lines)).to("pack").magnitude
    liquid = ratio(short_volume, at(products.pack_volume, lines)).to("pack").magnitude
    bought = where(_kind(turn, products) == "volume", liquid, solid)
    return where(yes(brewed), np.nan, bought)


def packs_to_buy(short_packs: Each[Number]) -> Each[Number]:
    """The whole packs to buy; a pack that is filled exactly is no reason for another.

    >>> packs_to_buy(np.array([0.0812, 2.0000000000001, 0.0]))
    array([1., 2., 0.])
    """
    return up(half_up(short_packs, 9))


def cost_to_buy(turn: Each[Number], packs_to_buy: Each[Number], products: Table) -> Each[Money]:
    """What they cost (currency); blank without a price."""
    return (with_unit(packs_to_buy, "pack") * at(products.price, lines_of(turn))).to("currency")


def stock_words(
    brewed: Each[Text],
    counted_on: Each[Date],
    after: Each[Date],
    on_hand_mass: Each[Mass],
    on_hand_volume: Each[Volume],
    needed_mass: Each[Mass],
    needed_volume: Each[Volume],
    short_mass: Each[Mass],
    short_volume: Each[Volume],
) -> Each[Text]:
    """How the stock stands, in words; nothing for a product of which nothing is known and nothing needed.

    What is brewed is never bought, and is there only on its day.
    """
    needed = exceeds(needed_mass, 0.0) | exceeds(needed_volume, 0.0)
    less = exceeds(-on_hand_mass, 0.0) | exceeds(-on_hand_volume, 0.0)
    short = exceeds(short_mass, 0.0) | exceeds(short_volume, 0.0)
    stands = where(less, "less than nothing: count again", where(short, "short", "enough"))
    stands = stands + where(blank(counted_on), "; never counted: what was bought counts", "")
    bought = where(blank(after), where(needed, "never counted", ""), stands)
    return where(yes(brewed), where(short, "to brew", ""), bought)
