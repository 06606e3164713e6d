"""The stock: one record a product, as the catalogue lists them; what there is, what it takes, what is to be bought.

A count is of the evening: what is bought or used on later days comes on top. Dates are serial numbers.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen import units
from wbgen.model._lines import at, lines_of
from wbgen.model.relations import (
    blank,
    folded,
    joined,
    latest_by,
    like,
    lookup,
    magnitude,
    only,
    or_zero,
    ratio,
    sum_by,
    where,
)
from wbgen.model.rounding import exceeds, half_up, up

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


def counted_on(product: Value, shelf: Value, start: Value) -> Value:
    """The latest day, up to the as-of date, on which the product was counted; blank where it never was."""
    counted = (folded(shelf.deed) == "counted") & (shelf.date <= only(start.as_of))
    return latest_by(shelf.product, product, shelf.date, counted)


def counted_mass(product: Value, counted_on: Value, shelf: Value) -> Value:
    """The mass that was counted on that day, in all its places."""
    return _counted(product, counted_on, shelf, shelf.mass_in)


def counted_volume(product: Value, counted_on: Value, shelf: Value) -> Value:
    """The volume that was counted on that day, in all its places."""
    return _counted(product, counted_on, shelf, shelf.volume_in)


def bought_mass(product: Value, counted_on: Value, shelf: Value, start: Value) -> Value:
    """The mass bought after that day."""
    return _bought(product, counted_on, shelf, shelf.mass_in, start)


def bought_volume(product: Value, counted_on: Value, shelf: Value, start: Value) -> Value:
    """The volume bought after that day."""
    return _bought(product, counted_on, shelf, shelf.volume_in, start)


def used_mass(product: Value, counted_on: Value, diary: Value, shelf: Value, start: Value) -> Value:
    """The mass that the diary says was weighed after that day."""
    return _since(product, counted_on, diary, diary.weighed.to(shelf.mass.units), start)


def used_volume(product: Value, counted_on: Value, diary: Value, shelf: Value, start: Value) -> Value:
    """The volume that the diary says was poured after that day."""
    return _since(product, counted_on, diary, diary.poured.to(shelf.volume.units), start)


def _counted(product: Value, counted_on: Value, shelf: Value, brought: Value) -> Value:
    """What the lines of the day of the count bring."""
    day = joined(shelf.product, shelf.date)
    return _known(counted_on, sum_by(day, joined(product, counted_on), brought, folded(shelf.deed) == "counted"))


def _bought(product: Value, counted_on: Value, shelf: Value, brought: Value, start: Value) -> Value:
    """What purchases after the count bring."""
    return _since(product, counted_on, shelf, brought, start, folded(shelf.deed) == "bought")


def _since(product: Value, counted_on: Value, lines: Value, values: Value, start: Value, wanted: Any = True) -> Value:
    """The sum of `values` over those lines of each product that are after its count, up to the as-of date."""
    later = (lines.date > lookup(lines.product, product, counted_on)) & (lines.date <= only(start.as_of))
    return _known(counted_on, sum_by(lines.product, product, values, later & wanted))


def _known(counted_on: Value, found: Value) -> Value:
    """Nothing is known of a product that was never counted."""
    return where(blank(counted_on), np.nan, found)


def _kind(turn: Value, products: Value) -> Any:
    """Whether the product is measured by mass or by volume."""
    return at(products.measured_by, lines_of(turn))


def on_hand_mass(turn: Value, counted_mass: Value, bought_mass: Value, used_mass: Value, products: Value) -> Value:
    """The mass there is of a solid: counted, and bought since, less what was used; blank for one never counted."""
    return where(_kind(turn, products) == "mass", counted_mass + bought_mass - used_mass, np.nan)


def on_hand_volume(
    turn: Value, counted_volume: Value, bought_volume: Value, used_volume: Value, products: Value
) -> Value:
    """The volume there is of a liquid, likewise."""
    return where(_kind(turn, products) == "volume", counted_volume + bought_volume - used_volume, np.nan)


def needed_mass(turn: Value, product: Value, due: Value, shelf: Value, products: Value) -> Value:
    """The mass of a solid that the visits to come take; 0 where there is none, blank for a liquid."""
    needed = sum_by(due.product, product, due.mass_to_come.to(shelf.mass.units))
    return where(_kind(turn, products) == "mass", needed, np.nan)


def needed_volume(turn: Value, product: Value, due: Value, shelf: Value, products: Value) -> Value:
    """The volume of a liquid that the visits to come take; 0 where there is none, blank for a solid."""
    needed = sum_by(due.product, product, due.volume_to_come.to(shelf.volume.units))
    return where(_kind(turn, products) == "volume", needed, np.nan)


def short_mass(needed_mass: Value, on_hand_mass: Value) -> Value:
    """The mass that is needed and not there; 0 where there is enough, all of it where nothing is known to be there."""
    return _short(needed_mass, on_hand_mass)


def short_volume(needed_volume: Value, on_hand_volume: Value) -> Value:
    """The volume that is needed and not there, likewise."""
    return _short(needed_volume, on_hand_volume)


def _short(needed: Value, on_hand: Value) -> Value:
    there = np.maximum(magnitude(or_zero(on_hand.to(needed.units))), 0.0)
    return like(needed, np.maximum(magnitude(needed) - there, 0.0))


def short_packs(turn: Value, short_mass: Value, short_volume: Value, products: Value) -> Value:
    """The packs that this comes to; blank where the size of a pack is not known."""
    lines = lines_of(turn)
    solid = ratio(short_mass, at(products.pack_mass, lines)).to("pack").magnitude
    liquid = ratio(short_volume, at(products.pack_volume, lines)).to("pack").magnitude
    return np.where(_kind(turn, products) == "volume", liquid, solid)


def packs_to_buy(short_packs: Value) -> Value:
    """The whole packs to buy; a pack that is filled exactly is no reason for another.

    >>> packs_to_buy(np.array([0.0812, 2.0000000000001, 0.0]))
    array([1., 2., 0.])
    """
    return up(half_up(short_packs, 9))


def cost_to_buy(turn: Value, packs_to_buy: Value, products: Value) -> Value:
    """What they cost (currency); blank without a price."""
    return (units.FLOAT.Quantity(packs_to_buy, "pack") * at(products.price, lines_of(turn))).to("currency")


def stock_words(
    counted_on: Value,
    on_hand_mass: Value,
    on_hand_volume: Value,
    needed_mass: Value,
    needed_volume: Value,
    short_mass: Value,
    short_volume: Value,
) -> Value:
    """How the stock stands, in words; nothing for a product that was never counted and is not needed."""
    needed = (magnitude(needed_mass) > 0) | (magnitude(needed_volume) > 0)
    less = exceeds(-on_hand_mass, 0.0) | exceeds(-on_hand_volume, 0.0)
    short = exceeds(short_mass, 0.0) | exceeds(short_volume, 0.0)
    stands = where(less, "less than nothing: count again", where(short, "short", "enough"))
    return where(blank(counted_on), where(needed, "never counted", ""), stands)
