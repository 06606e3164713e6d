"""What shares a tank on the round.

A line that must not meet an earlier one of its lawn and day goes into the second tank of that lawn and day; if it must
not meet an earlier one outside the first either, it has a tank of its own, and so has a live brew, a product that goes
on twice, one that the catalogue does not know, and whatever comes after ten others. Then lawns of one day and sprayer
whose tanks hold the same products at the same rates share one.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.digits import present, share_a_digit
from wbgen.model.tools.elementwise import blank, folded, magnitude, only, or_zero, ratio, where, yes
from wbgen.model.tools.lines import at
from wbgen.model.tools.order import is_first, numbered
from wbgen.model.tools.relations import count_by, joined, pick, sum_by
from wbgen.model.tools.so_far import sum_so_far
from wbgen.model.tools.traits import NEVER
from wbgen.model.types import (
    Date,
    Each,
    Mask,
    MassPerArea,
    Number,
    PerArea,
    Table,
    Text,
    VolumePerArea,
    each,
)

_MOST_LINES = 10
"""Of a lawn and day: as many as one digit can count beside the line itself."""
_MOST_ALIKE = 49
"""Products at a rate that have a number of their own: sums of two to the power of less than 53 are exact."""


def in_tank(method: Each[Text], line_level: Each[Number]) -> Each[Number]:
    """1 for what is sprayed, unless it must not go on; else 0."""
    return where((folded(method) == "spray") & (line_level < NEVER), 1.0, 0.0)


def sprayer(spot: Each[Number], due: Table, lawns: Table, round_whole: Table) -> Each[Text]:
    """The sprayer of the lawn, else that of the round; "none" where there is none at all."""
    own = at(lawns.sprayer, at(due.lawn_line, spot))
    of_round = where(blank(round_whole.sprayer), "none", round_whole.sprayer)
    return where(blank(own), of_round, own)


def live(product_line: Each[Number], in_tank: Each[Number], products: Table, rules: Table) -> Each[Number]:
    """1 for a live brew that goes into a tank of its own; 0 for all else, and where the rule lets it share one."""
    parted = only(or_zero(rules.level_live_brew_with_not_live)) >= NEVER
    return where((in_tank > 0) & yes(at(products.property_live_brew, product_line)) & parted, 1.0, 0.0)


def traits(
    product_line: Each[Number], in_tank: Each[Number], live: Each[Number], products: Table
) -> Each[Number]:  # fmt: skip
    """Its traits, a digit each; 0 for what is in no tank with others."""
    return where((in_tank > 0) & (live < 1), or_zero(at(products.traits_digits, product_line)), 0.0)


def before(lawn: Each[Text], day: Each[Date], traits: Each[Number]) -> Each[Number]:
    """The traits that a line above has, of its lawn and day."""
    return present(sum_so_far(joined(lawn, day), traits) - traits)


def before_apart(lawn: Each[Text], day: Each[Date], traits: Each[Number], apart: Each[Number]) -> Each[Number]:
    """The traits of those of them that are not in the first tank."""
    return present(sum_so_far(joined(lawn, day), traits * apart) - traits * apart)


def _parted(
    lawn: Each[Text], day: Each[Date], product: Each[Text], in_tank: Each[Number], live: Each[Number],
    product_line: Each[Number],
) -> Mask:  # fmt: skip
    """True for what is in a tank of its own whatever is beside it."""
    goes = in_tank > 0
    twice = numbered(joined(lawn, day, product), goes) > 1
    late = numbered(joined(lawn, day), goes) > _MOST_LINES
    return goes & (twice | late | (live > 0) | blank(product_line))


def apart(
    lawn: Each[Text],
    day: Each[Date],
    product: Each[Text],
    in_tank: Each[Number],
    live: Each[Number],
    before: Each[Number],
    product_line: Each[Number],
    products: Table,
) -> Each[Number]:
    """1 where the line does not go into the first tank of its lawn and day."""
    met = share_a_digit(before, at(products.apart_digits, product_line))
    parted = _parted(lawn, day, product, in_tank, live, product_line)
    return where((in_tank > 0) & (parted | met), 1.0, 0.0)


def again(
    lawn: Each[Text],
    day: Each[Date],
    product: Each[Text],
    in_tank: Each[Number],
    live: Each[Number],
    apart: Each[Number],
    before_apart: Each[Number],
    product_line: Each[Number],
    products: Table,
) -> Each[Number]:
    """1 where it does not go into the second tank either."""
    met = share_a_digit(before_apart, at(products.apart_digits, product_line))
    parted = _parted(lawn, day, product, in_tank, live, product_line)
    return where((apart > 0) & (parted | met), 1.0, 0.0)


def part(
    lawn: Each[Text], day: Each[Date], in_tank: Each[Number], apart: Each[Number], again: Each[Number]
) -> Each[Number]:
    """The number of its tank on its lawn and day, from 1; blank for what goes into none."""
    own = 2 + where(again > 0, numbered(joined(lawn, day), again > 0), 0.0)
    return where(in_tank > 0, where(apart > 0, own, 1.0), np.nan)


def beside(
    lawn: Each[Text], day: Each[Date], traits: Each[Number], part: Each[Number], in_tank: Each[Number]
) -> Each[Number]:
    """The traits that a line above has, of the same tank of its lawn and day; 0 for what goes into none."""
    return where(in_tank > 0, present(sum_so_far(joined(lawn, day, part), traits) - traits), 0.0)


def jar(
    lawn: Each[Text],
    day: Each[Date],
    part: Each[Number],
    beside: Each[Number],
    in_tank: Each[Number],
    product_line: Each[Number],
    products: Table,
    rules: Table,
) -> Each[Number]:
    """1 where a jar test with one of them comes first; of a live brew that may share a tank, with whatever is in it."""
    met = share_a_digit(beside, at(products.jar_digits, product_line))
    shared = joined(lawn, day, part)
    with_others = yes(at(products.property_live_brew, product_line)) & (count_by(shared, shared) > 1)
    asks = only(or_zero(rules.level_live_brew_with_not_live)) > 0
    return where((in_tank > 0) & (met | (with_others & asks)), 1.0, 0.0)


def rate(rate_mass: Each[MassPerArea], rate_volume: Each[VolumePerArea], ones: Table) -> Each[PerArea]:
    """The rate in its own unit, as a number by area."""
    return or_zero(ratio(rate_mass, ones.one_mass)) + or_zero(ratio(rate_volume, ones.one_volume))


def alike_line(turn: Each[Number], product: Each[Text], rate: Each[PerArea], in_tank: Each[Number]) -> Each[Number]:
    """The turn of the first line that brings the same product at the same rate into a tank; blank for no tank.

    Rates are the same where they differ by a millionth at most: one typed, and one brought over from another unit.
    """
    lines = list(zip(turn, folded(product), magnitude(rate), in_tank > 0, strict=True))
    found = [
        next((first for first, name, other, there in lines if there and name == one and _alike(other, own)), np.nan)
        if goes else np.nan
        for _, one, own, goes in lines
    ]  # fmt: skip
    return each(np.array(found, dtype=float))


def _alike(first: float, second: float) -> bool:
    return second * 0.999999 <= first <= second * 1.000001


def _first_turn(groups: Each[Text]) -> Each[Number]:
    """The turn of the first record of each record's group; blank without a group."""
    first: dict[str, float] = {}
    found = [first.setdefault(group, turn + 1.0) if group else np.nan for turn, group in enumerate(groups)]
    return each(np.array(found, dtype=float))


def alike_new(turn: Each[Number], alike_line: Each[Number]) -> Each[Number]:
    """1 on that first line, else 0."""
    return where(alike_line == turn, 1.0, 0.0)


def bit(in_tank: Each[Number], alike_new: Each[Number], alike_line: Each[Number]) -> Each[Number]:
    """A number of its own for each product at a rate, two to the power of its place; 0 for what is in no tank.

    Blank where there are more of them than have one.
    """
    so_far = np.cumsum(alike_new)
    places = pick(each(so_far.astype(float)), alike_line - 1)
    powers: Each[Number] = each(2.0 ** (np.nan_to_num(places, nan=1.0) - 1))
    return where(in_tank > 0, where(so_far > _MOST_ALIKE, np.nan, powers), 0.0)


def mix(lawn: Each[Text], day: Each[Date], part: Each[Number], bit: Each[Number]) -> Each[Number]:
    """The numbers of all that goes into the same tank of its lawn and day, added."""
    filled = joined(lawn, day, part)
    return where(blank(part) | blank(bit), np.nan, sum_by(filled, filled, bit))


def tank_line(day: Each[Date], sprayer: Each[Text], mix: Each[Number]) -> Each[Number]:
    """The turn of the first line of its tank; blank for what has none."""
    return _first_turn(joined(day, sprayer, mix))


def tank_new(turn: Each[Number], tank_line: Each[Number]) -> Each[Number]:
    """1 on that first line, else 0."""
    return where(tank_line == turn, 1.0, 0.0)


def tank(in_tank: Each[Number], tank_line: Each[Number], tank_new: Each[Number]) -> Each[Number]:
    """The number of its tank on the round, from 1; blank for what has none."""
    number = pick(each(np.cumsum(tank_new).astype(float)), tank_line - 1)
    return where((in_tank > 0) & ~blank(tank_line), number, np.nan)


def lawn_new(tank: Each[Number], lawn: Each[Text]) -> Each[Number]:
    """1 on the first line of each lawn of a tank, else 0."""
    return where(is_first(joined(tank, lawn)), 1.0, 0.0)


def lawn_place(tank: Each[Number], lawn_new: Each[Number], ones: Table) -> Each[Number]:
    """One number for the tank and the lawn's turn in it, on that line; blank on the others."""
    return where(lawn_new > 0, tank * only(ones.key_step) + numbered(tank, lawn_new > 0), np.nan)


def product_place(tank: Each[Number], tank_line: Each[Number], lawn: Each[Text], ones: Table) -> Each[Number]:
    """One number for the tank and the product's turn in it, on the lines of its first lawn; blank on the others."""
    first = folded(pick(lawn, tank_line - 1)) == folded(lawn)
    key = tank * only(ones.key_step) + numbered(joined(tank, lawn))
    return where(blank(tank) | ~first, np.nan, key)


def tank_words(
    apart: Each[Number],
    live: Each[Number],
    jar: Each[Number],
    in_tank: Each[Number],
    tank: Each[Number],
    product_line: Each[Number],
) -> Each[Text]:
    """Why it is not in the first tank of its lawn, whether a jar test comes first, and where there is no tank left."""
    others = "; not in one tank with the others of its lawn"
    parted = where(blank(product_line), "; not in the catalogue, so in a tank of its own", others)
    alone = where(live > 0, "; a live brew goes on alone", parted)
    return (
        where(apart > 0, alone, "")
        + where(jar > 0, "; jar test first", "")
        + where((in_tank > 0) & blank(tank), "; no tank: too many mixes in one round", "")
    )
