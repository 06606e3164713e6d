"""What may share a tank on the round: the lines of one lawn, whatever their day.

A line that must not meet an earlier one of its lawn goes into the second tank; if it must not meet an earlier one
outside the first either, it has a tank of its own. A live brew always leaves the first tank to the others.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools.elementwise import folded, magnitude, where, yes
from wbgen.model.tools.lines import at
from wbgen.model.tools.order import is_first, numbered
from wbgen.model.tools.relations import joined, latest_by, pick, sum_by
from wbgen.model.tools.traits import NEVER, level_met, worst
from wbgen.model.types import Area, Date, Each, Mask, Number, Table, Text, Volume, VolumePerArea, each


def in_tank(method: Each[Text], line_level: Each[Number]) -> Each[Number]:
    """1 for what is sprayed, unless it must not go on; else 0."""
    return where((folded(method) == "spray") & (line_level < NEVER), 1.0, 0.0)


@of_family("rule_traits")
def has_each(product_line: Each[Number], in_tank: Each[Number], products: Table) -> Each[Text]:
    """ "yes" where the product has the trait and goes into a tank."""
    return where(yes(at(products.property_each, product_line)) & (in_tank > 0), "yes", "")


@of_family("rule_traits")
def beside_each(lawn: Each[Text], in_tank: Each[Number], has_each: Each[Text]) -> Each[Number]:
    """How many other lines of the lawn have the trait; 0 for what goes into no tank."""
    has = yes(has_each)
    return where(in_tank > 0, sum_by(lawn, lawn, each(has.astype(float))) - has, 0.0)


@of_family("trait_rules")
def rule_each(
    has_each_first: Each[Text],
    has_each_second: Each[Text],
    beside_each_first: Each[Number],
    beside_each_second: Each[Number],
    rules: Table,
) -> Each[Number]:
    """The rule's level where the line has one trait and another line of the lawn the other, else 0."""
    return level_met(has_each_first, has_each_second, beside_each_first, beside_each_second, rules.level_each)


@reads_every(rule="trait_rules")
def level(rule_every: list[Each[Number]]) -> Each[Number]:
    """The worst of all rules."""
    return worst(rule_every)


def _turns(turn: Each[Number], lawn: Each[Text], has: Each[Text]) -> dict[str, list[float]]:
    """The turns of the lines that have a trait, by lawn."""
    found: dict[str, list[float]] = {}
    for number, name, one in zip(turn, folded(lawn), yes(has), strict=True):
        if one:
            found.setdefault(name, []).append(float(number))
    return found


def _met(turn: Each[Number], lawn: Each[Text], has_first: Each[Text], has_second: Each[Text]) -> list[list[float]]:
    """The turns of the lines that each line meets by a rule: those for its first trait, then those for its second."""
    first, second = _turns(turn, lawn, has_first), _turns(turn, lawn, has_second)
    records = zip(turn, folded(lawn), yes(has_first), yes(has_second), strict=True)
    return [
        [one for one in (second.get(name, []) if by_first else []) + (first.get(name, []) if by_second else [])
         if one != number]
        for number, name, by_first, by_second in records
    ]  # fmt: skip


@of_family("trait_rules")
def partner_each(
    turn: Each[Number],
    lawn: Each[Text],
    level: Each[Number],
    rule_each: Each[Number],
    has_each_first: Each[Text],
    has_each_second: Each[Text],
) -> Each[Number]:
    """The turn of the first line that this one meets by the rule, where that is the worst of its rules; else blank."""
    found = [met[0] if met else np.nan for met in _met(turn, lawn, has_each_first, has_each_second)]
    return where((level > 0) & (rule_each >= level), np.array(found), np.nan)


@reads_every(partner="trait_rules")
def nearest(partner_every: list[Each[Number]]) -> Each[Number]:
    """The first of the lines that the worst rules name."""
    return np.fmin.reduce(np.array(partner_every))


@reads_every(partner="trait_rules")
def furthest(partner_every: list[Each[Number]]) -> Each[Number]:
    """The last of them."""
    return np.fmax.reduce(np.array(partner_every))


@of_family("trait_rules")
def others_each(
    turn: Each[Number],
    lawn: Each[Text],
    partner_each: Each[Number],
    nearest: Each[Number],
    furthest: Each[Number],
    has_each_first: Each[Text],
    has_each_second: Each[Text],
) -> Each[Number]:
    """1 where the line meets by the rule, one of its worst, another line than the two that are named; else 0."""
    met = _met(turn, lawn, has_each_first, has_each_second)
    more = [bool(set(one) - {*named}) for one, *named in zip(met, nearest, furthest, strict=True)]
    return where(np.isnan(partner_each), 0.0, np.array(more, dtype=float))


@reads_every(others="trait_rules")
def tank_words(
    level: Each[Number],
    nearest: Each[Number],
    furthest: Each[Number],
    others_every: list[Each[Number]],
    product: Each[Text],
) -> Each[Text]:
    """What the line meets by its worst rules, in words: two of the lines, and whether there are others."""
    names = pick(product, nearest - 1) + where(furthest > nearest, " or " + pick(product, furthest - 1), "")
    said = where(level >= NEVER, "; not in one tank with ", "; jar test first with ") + names
    return where(np.isnan(nearest), "", said + where(worst(others_every) > 0, " or others", ""))


def _meets_earlier(lawn: Each[Text], first: Each[Text], second: Each[Text], counted: Mask) -> Mask:
    """True where a line has one trait and one before it on its lawn, of those `counted`, the other."""
    has = [yes(one) & counted for one in (first, second)]
    before = [np.nan_to_num(numbered(lawn, one)) - one for one in has]
    return counted & ((has[0] & (before[1] > 0)) | (has[1] & (before[0] > 0)))


@of_family("parting_rules")
def apart_each(
    rule_each: Each[Number], has_each_first: Each[Text], has_each_second: Each[Text], lawn: Each[Text]
) -> Each[Number]:
    """1 where by the rule the line must not meet an earlier one of its lawn, else 0."""
    met = _meets_earlier(lawn, has_each_first, has_each_second, np.ones(len(lawn), dtype=bool))
    return where(met & (rule_each >= NEVER), 1.0, 0.0)


def apart_live(has_live_brew: Each[Text], rule_live_brew_with_not_live: Each[Number]) -> Each[Number]:
    """1 for a live brew that has something else beside it, before it or after it; else 0."""
    return where(yes(has_live_brew) & (rule_live_brew_with_not_live >= NEVER), 1.0, 0.0)


@reads_every(apart="parting_rules")
def apart(apart_every: list[Each[Number]], apart_live: Each[Number]) -> Each[Number]:
    """1 where any rule says so: it does not go into the first tank."""
    return worst([*apart_every, apart_live])


@of_family("trait_rules")
def again_each(
    rule_each: Each[Number],
    apart: Each[Number],
    has_each_first: Each[Text],
    has_each_second: Each[Text],
    lawn: Each[Text],
) -> Each[Number]:
    """1 where by the rule the line must not meet an earlier one that is not in the first tank either, else 0."""
    met = _meets_earlier(lawn, has_each_first, has_each_second, apart > 0)
    return where(met & (rule_each >= NEVER), 1.0, 0.0)


@reads_every(again="trait_rules")
def again(again_every: list[Each[Number]]) -> Each[Number]:
    """1 where any rule says so: it has a tank of its own."""
    return worst(again_every)


def tank(lawn: Each[Text], in_tank: Each[Number], apart: Each[Number], again: Each[Number]) -> Each[Number]:
    """The number of its tank on the lawn, from 1; blank for what goes into none."""
    own = 2 + where(again > 0, numbered(lawn, again > 0), 0.0)
    return where(in_tank > 0, where(apart > 0, own, 1.0), np.nan)


def tank_water(
    lawn: Each[Text], day: Each[Date], tank: Each[Number], area: Each[Area], carrier_volume: Each[VolumePerArea]
) -> Each[Volume]:
    """The spray (L) of a tank, on the first of its lines: the lawn's area times the most carrier volume in it.

    Lines of another day are another tankful. Blank on the other lines, and where nothing is sprayed.
    """
    filled = joined(lawn, day, tank)
    water = (area * latest_by(filled, filled, carrier_volume)).to("L")
    return where(is_first(filled) & (magnitude(water) > 0), water, np.nan)
