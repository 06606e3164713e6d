"""The tanks of the round: lawns of one day and sprayer that get the same products at the same rates.

One record a tank: shape (round_tanks,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, magnitude, only, or_zero, where
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.relations import count_by, latest_by, pick, sum_by
from wbgen.model.tools.rounding import exceeds, half_up, up
from wbgen.model.tools.words import counts
from wbgen.model.types import Area, Date, Each, Mask, Number, Table, Text, Volume, VolumePerArea, each

BLANK_UNLESS = ("spot",)


def _first_turn(
    turn: Each[Number], tank: Each[Number], lines: Each[Number], counted: Mask | bool = True
) -> Each[Number]:
    """The lowest of the turns of a tank's lines, of those that are counted; blank where there is none."""
    found = [lines[(tank == one) & counted] for one in turn]
    return each(np.array([np.min(turns) if len(turns) else np.nan for turns in found], dtype=float))


def spot(turn: Each[Number], round_whole: Table, round_lines: Table) -> Each[Number]:
    """The tank's first line on the round, the heading row being line 1; blank past the last tank."""
    first = _first_turn(turn, round_lines.tank, round_lines.turn)
    return where(turn > only(round_whole.tanks_in), np.nan, first + 1)


def day(spot: Each[Number], round_lines: Table) -> Each[Date]:
    """The day, as a serial number."""
    return at(round_lines.day, spot)


def sprayer(spot: Each[Number], round_lines: Table) -> Each[Text]:
    """The sprayer."""
    return at(round_lines.sprayer, spot)


def sprayer_line(sprayer: Each[Text], sprayers: Table) -> Each[Number]:
    """The line of the sprayer, the heading row being line 1; blank for an unknown one."""
    return match(sprayer, sprayers.name)


def lawns_count(turn: Each[Number], round_lines: Table) -> Each[Number]:
    """How many lawns share the tank."""
    return count_by(round_lines.tank, turn, round_lines.lawn_new > 0)


def products_count(turn: Each[Number], spot: Each[Number], round_lines: Table) -> Each[Number]:
    """How many products are in it: the lines of its first lawn."""
    first = at(round_lines.lawn, spot)
    return each(np.array([np.sum((round_lines.tank == one) & (round_lines.lawn == name))
                          for one, name in zip(turn, first, strict=True)], dtype=float))  # fmt: skip


def lawns_words(
    turn: Each[Number], spot: Each[Number], lawns_count: Each[Number], round_lines: Table, ones: Table
) -> Each[Text]:
    """The lawns in walking order: two of them, and how many more."""
    return _listed(round_lines.lawn, round_lines.lawn_place, turn, spot, lawns_count, ones)


def products_words(
    turn: Each[Number], spot: Each[Number], products_count: Each[Number], round_lines: Table, ones: Table
) -> Each[Text]:
    """The products: two of them, and how many more."""
    return _listed(round_lines.product, round_lines.product_place, turn, spot, products_count, ones)


def _listed(
    names: Each[Text], places: Each[Number], turn: Each[Number], spot: Each[Number], number: Each[Number], ones: Table
) -> Each[Text]:
    second = at(names, match(turn * only(ones.key_step) + 2, places))
    more = where(number > 2, " and " + counts(number - 2) + " more", "")
    return at(names, spot) + where(number > 1, ", " + second, "") + more


def area(turn: Each[Number], round_lines: Table) -> Each[Area]:
    """The area (m²) of its lawns."""
    return sum_by(round_lines.tank, turn, round_lines.area, round_lines.lawn_new > 0)


def wanted_carrier(turn: Each[Number], round_lines: Table) -> Each[VolumePerArea]:
    """The most carrier volume (L/ha) that the programme wants of a product in it; 0 where it wants none."""
    return or_zero(latest_by(round_lines.tank, turn, round_lines.carrier_volume))


def carrier_volume(
    sprayer_line: Each[Number], wanted_carrier: Each[VolumePerArea], sprayers: Table
) -> Each[VolumePerArea]:
    """The carrier volume (L/ha) that the sprayer delivers, else the one wanted; blank where there is neither."""
    delivered = at(sprayers.carrier_volume, sprayer_line)
    wanted = where(magnitude(wanted_carrier) > 0, wanted_carrier, np.nan)
    return where(magnitude(delivered) > 0, delivered, wanted)


def capacity(sprayer_line: Each[Number], sprayers: Table) -> Each[Volume]:
    """The spray (L) that one tank of the sprayer makes; blank where that is not known."""
    return at(sprayers.spray_capacity, sprayer_line)


def water(
    area: Each[Area], carrier_volume: Each[VolumePerArea], sprayer_line: Each[Number], sprayers: Table
) -> Each[Volume]:
    """The spray (L) for its lawns: area times carrier volume, and what stays in the sprayer's tank."""
    return (area * carrier_volume).to("L") + or_zero(at(sprayers.remainder, sprayer_line))


def fills(water: Each[Volume], capacity: Each[Volume]) -> Each[Number]:
    """How many fills of the sprayer that is."""
    known = magnitude(capacity) > 0
    filled = (water / where(known, capacity, np.nan)).to("").magnitude
    return up(half_up(filled, 9))


def each_fill(water: Each[Volume], fills: Each[Number]) -> Each[Volume]:
    """The spray (L) of each, where they are made alike."""
    return water / where(fills > 0, fills, np.nan)


def asked(turn: Each[Number], round_lines: Table) -> Each[Number]:
    """The turn of its first line that asks first; blank where none does."""
    return _first_turn(turn, round_lines.tank, round_lines.turn, round_lines.line_level == 1)


def words(
    turn: Each[Number],
    asked: Each[Number],
    products_count: Each[Number],
    sprayer_line: Each[Number],
    capacity: Each[Volume],
    carrier_volume: Each[VolumePerArea],
    round_lines: Table,
    mix_products: Table,
    limits: Table,
) -> Each[Text]:
    """What the round knows of the tank, and what is missing."""
    asks = where(blank(asked), "nothing against it here", "ask first: " + pick(round_lines.ask_words, asked - 1))
    jar = count_by(round_lines.tank, turn, round_lines.jar > 0) > 0
    many = where(exceeds(products_count, only(limits.ask_products)), "; many products in one tank", "")
    too_many = products_count > mix_products.records
    no_tank = where(blank(capacity), "; give the working capacity of its sprayer", "")
    return (
        asks
        + where(jar, "; jar test first", "")
        + where(too_many, "; more products than the sheet Mix has room for", many)
        + where(blank(sprayer_line), "; choose a sprayer", no_tank)
        + where(blank(carrier_volume), "; no spray volume", "")
    )
