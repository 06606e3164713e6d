"""What may share a tank on the round: the lines of one lawn, whatever their day.

A line that must not meet an earlier one of its lawn goes into the second tank; if it must not meet an earlier one
outside the first either, it has a tank of its own.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools.lines import at
from wbgen.model.tools.order import is_first, numbered
from wbgen.model.tools.relations import folded, joined, latest_by, magnitude, pick, sum_by, where
from wbgen.model.tools.traits import NEVER, level_met, worst, yes

Value = Any


def in_tank(method: Value, line_level: Value) -> Value:
    """1 for what is sprayed, unless it must not go on; else 0."""
    return np.where((folded(method) == "spray") & (line_level < NEVER), 1.0, 0.0)


@of_family("traits")
def has_each(product_line: Value, in_tank: Value, products: Value) -> Value:
    """ "yes" where the product has the trait and goes into a tank."""
    return where(yes(at(products.trait_each, product_line)) & (in_tank > 0), "yes", "")


@of_family("traits")
def beside_each(lawn: Value, in_tank: Value, has_each: Value) -> Value:
    """How many other lines of the lawn have the trait; 0 for what goes into no tank."""
    has = yes(has_each)
    return np.where(in_tank > 0, sum_by(lawn, lawn, has.astype(float)) - has, 0.0)


@of_family("trait_rules")
def rule_each(
    has_each_first: Value, has_each_second: Value, beside_each_first: Value, beside_each_second: Value, rules: Value
) -> Value:
    """The rule's level where the line has one trait and another line of the lawn the other, else 0."""
    return level_met(has_each_first, has_each_second, beside_each_first, beside_each_second, rules.level_each)


@reads_every(rule="trait_rules")
def level(rule_every: list[Value]) -> Value:
    """The worst of all rules."""
    return worst(rule_every)


def _turns(turn: Value, lawn: Value, has: Value) -> dict[str, list[float]]:
    """The turns of the lines that have a trait, by lawn."""
    found: dict[str, list[float]] = {}
    for number, name, one in zip(turn, folded(lawn), yes(has), strict=True):
        if one:
            found.setdefault(name, []).append(float(number))
    return found


def _met(turn: Value, lawn: Value, has_first: Value, has_second: Value) -> list[list[float]]:
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
    turn: Value, lawn: Value, level: Value, rule_each: Value, has_each_first: Value, has_each_second: Value
) -> Value:
    """The turn of the first line that this one meets by the rule, where that is the worst of its rules; else blank."""
    found = [met[0] if met else np.nan for met in _met(turn, lawn, has_each_first, has_each_second)]
    return np.where((level > 0) & (rule_each >= level), np.array(found), np.nan)


@reads_every(partner="trait_rules")
def nearest(partner_every: list[Value]) -> Value:
    """The first of the lines that the worst rules name."""
    return np.fmin.reduce(np.array(partner_every))


@reads_every(partner="trait_rules")
def furthest(partner_every: list[Value]) -> Value:
    """The last of them."""
    return np.fmax.reduce(np.array(partner_every))


@of_family("trait_rules")
def others_each(
    turn: Value,
    lawn: Value,
    partner_each: Value,
    nearest: Value,
    furthest: Value,
    has_each_first: Value,
    has_each_second: Value,
) -> Value:
    """1 where the line meets by the rule, one of its worst, another line than the two that are named; else 0."""
    met = _met(turn, lawn, has_each_first, has_each_second)
    more = [bool(set(one) - {*named}) for one, *named in zip(met, nearest, furthest, strict=True)]
    return np.where(np.isnan(partner_each), 0.0, np.array(more, dtype=float))


@reads_every(others="trait_rules")
def tank_words(level: Value, nearest: Value, furthest: Value, others_every: list[Value], product: Value) -> Value:
    """What the line meets by its worst rules, in words: two of the lines, and whether there are others."""
    names = pick(product, nearest - 1) + where(furthest > nearest, " or " + pick(product, furthest - 1), "")
    said = where(level >= NEVER, "; not in one tank with ", "; jar test first with ") + names
    return where(np.isnan(nearest), "", said + where(worst(others_every) > 0, " or others", ""))


def _meets_earlier(lawn: Value, first: Value, second: Value, counted: Any) -> Any:
    """True where a line has one trait and one before it on its lawn, of those `counted`, the other."""
    has = [yes(one) & counted for one in (first, second)]
    before = [np.nan_to_num(numbered(lawn, one)) - one for one in has]
    return counted & ((has[0] & (before[1] > 0)) | (has[1] & (before[0] > 0)))


@of_family("trait_rules")
def apart_each(rule_each: Value, has_each_first: Value, has_each_second: Value, lawn: Value) -> Value:
    """1 where by the rule the line must not meet an earlier one of its lawn, else 0."""
    met = _meets_earlier(lawn, has_each_first, has_each_second, np.ones(len(lawn), dtype=bool))
    return np.where(met & (rule_each >= NEVER), 1.0, 0.0)


@reads_every(apart="trait_rules")
def apart(apart_every: list[Value]) -> Value:
    """1 where any rule says so: it does not go into the first tank."""
    return worst(apart_every)


@of_family("trait_rules")
def again_each(rule_each: Value, apart: Value, has_each_first: Value, has_each_second: Value, lawn: Value) -> Value:
    """1 where by the rule the line must not meet an earlier one that is not in the first tank either, else 0."""
    met = _meets_earlier(lawn, has_each_first, has_each_second, apart > 0)
    return np.where(met & (rule_each >= NEVER), 1.0, 0.0)


@reads_every(again="trait_rules")
def again(again_every: list[Value]) -> Value:
    """1 where any rule says so: it has a tank of its own."""
    return worst(again_every)


def tank(lawn: Value, in_tank: Value, apart: Value, again: Value) -> Value:
    """The number of its tank on the lawn, from 1; blank for what goes into none."""
    own = 2 + np.where(again > 0, numbered(lawn, again > 0), 0.0)
    return np.where(in_tank > 0, np.where(apart > 0, own, 1.0), np.nan)


def tank_water(lawn: Value, day: Value, tank: Value, area: Value, carrier_volume: Value) -> Value:
    """The spray (L) of a tank, on the first of its lines: the lawn's area times the most carrier volume in it.

    Lines of another day are another tankful. Blank on the other lines, and where nothing is sprayed.
    """
    filled = joined(lawn, day, tank)
    water = (area * latest_by(filled, filled, carrier_volume)).to("L")
    return where(is_first(filled) & (magnitude(water) > 0), water, np.nan)
