"""The dates of the programme: one record a line and date, line after line; `number` counts the records from 1."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools import dates
from wbgen.model.tools.lines import at, lines_at, match
from wbgen.model.tools.order import first_to_reach, ranked
from wbgen.model.tools.relations import blank, joined, only, or_zero, pick, sum_by, where
from wbgen.model.tools.rounding import half_up
from wbgen.model.tools.traits import NEVER, level_met, worst, yes
from wbgen.model.tools.words import together

Value = Any

BLANK_UNLESS = ("programme_line",)


def programme_line(number: Value, plan: Value, programme: Value) -> Value:
    """The line of the programme that the date is of, its heading row being line 1; blank past the last date."""
    lines = lines_at(first_to_reach(programme.dates_up_to, number))
    return np.where(number > plan.dates_total, np.nan, lines)


def turn_of_line(number: Value, programme_line: Value, programme: Value) -> Value:
    """Which of its line's dates this is, from 1."""
    return number - at(programme.dates_up_to - programme.times_planned, programme_line)


def date(programme_line: Value, turn_of_line: Value, programme: Value) -> Value:
    """The day: the line's first, and an interval on for each turn, to the nearest day."""
    apart = or_zero(at(programme.interval, programme_line)).to("day").magnitude
    return at(programme.first, programme_line) + half_up(half_up((turn_of_line - 1) * apart, 6))


def product(programme_line: Value, programme: Value) -> Value:
    """The product."""
    return at(programme.product, programme_line)


def where_words(programme_line: Value, programme: Value) -> Value:
    """Where it goes, in words."""
    return at(programme.where_words, programme_line)


def scope_key(programme_line: Value, programme: Value) -> Value:
    """The line of the lawn, or of the group's first lawn; 0 for all lawns."""
    return at(programme.scope_key, programme_line)


def kind(programme_line: Value, programme: Value) -> Value:
    """Whether it goes on a lawn, on a group of them or on all."""
    lawn, group = at(programme.lawn, programme_line), at(programme.group, programme_line)
    return where(~blank(lawn), "lawn", where(~blank(group), "group", "all"))


def group_of_lawn(kind: Value, scope_key: Value, lawns: Value) -> Value:
    """The group that the ground belongs to, as the line of its first lawn; blank for all lawns, or without a group."""
    of_lawn = match(at(lawns.group, scope_key), lawns.group)
    return np.where(kind == "lawn", of_lawn, np.where(kind == "group", scope_key, np.nan))


@of_family("traits")
def has_each(programme_line: Value, programme: Value, products: Value) -> Value:
    """ "yes" where the product has the trait."""
    product_line = at(programme.product_line, programme_line)
    return where(yes(at(products.trait_each, product_line)), "yes", "")


@of_family("traits")
def beside_each(date: Value, kind: Value, scope_key: Value, group_of_lawn: Value, has_each: Value) -> Value:
    """How many other applications of the day have the trait, on ground that may be the same.

    All lawns are the same ground as any; a group, as itself and as its lawns; a lawn, as itself and its group.
    """
    has = yes(has_each)

    def of_day(wanted: str, *more: Value) -> Any:
        key = joined(date, *more)
        return sum_by(key, key, has.astype(float), kind == wanted)

    of_group = of_day("group", group_of_lawn)
    near = {
        "all": of_day("all") + of_day("group") + of_day("lawn"),
        "group": of_day("all") + of_group + of_day("lawn", group_of_lawn),
        "lawn": of_day("all") + of_group + of_day("lawn", scope_key),
    }
    return np.select([kind == name for name in near], list(near.values()), np.nan) - has


@of_family("trait_rules")
def rule_each(
    has_each_first: Value, has_each_second: Value, beside_each_first: Value, beside_each_second: Value, rules: Value
) -> Value:
    """The rule's level where it has one trait and another application of the day the other, else 0."""
    return level_met(has_each_first, has_each_second, beside_each_first, beside_each_second, rules.level_each)


@reads_every(rule="trait_rules")
def level(rule_every: list[Value]) -> Value:
    """The worst of all rules."""
    return worst(rule_every)


def out_of_month(date: Value, programme_line: Value, programme: Value, products: Value) -> Value:
    """ "yes" where the product does not suit the month: a hyphen at its place among the twelve signs."""
    suited = at(products.months_suited, at(programme.product_line, programme_line))
    unsuited = [
        not np.isnan(month) and signs[int(month) - 1 : int(month)] == "-"
        for signs, month in zip(suited, dates.month_of(date), strict=True)
    ]
    return where(np.array(unsuited, dtype=bool), "yes", "")


def month(date: Value) -> Value:
    """The number of the calendar month, 1 to 12."""
    return dates.month_of(date)


def closed_month(month: Value, months: Value) -> Value:
    """ "yes" where the month is closed to feeding."""
    return pick(months.closed, month - 1)


def in_year(date: Value, settings: Value, growth_view: Value) -> Value:
    """ "yes" where the date lies in this season, whether it is past or to come."""
    return where((date >= only(settings.season_start)) & (date < growth_view.year_end), "yes", "")


@of_family("nutrients")
def brings_each(programme_line: Value, programme: Value) -> Value:
    """The nutrient (g/m²) that it brings; blank for an unknown product."""
    return at(programme.by_area_each, programme_line)


def mass(programme_line: Value, programme: Value) -> Value:
    """The mass (g) of a solid for all of its lawns; blank without a rate."""
    return at(programme.rate_mass * programme.area_counted, programme_line).to("g")


def volume(programme_line: Value, programme: Value) -> Value:
    """The volume (mL) of a liquid for all of its lawns; blank without a rate."""
    return at(programme.rate_volume * programme.area_counted, programme_line).to("mL")


def water(programme_line: Value, programme: Value) -> Value:
    """The spray (L) for all of its lawns."""
    return at(programme.water_each_time, programme_line)


def date_rank(date: Value) -> Value:
    """Its place in the order of time, from 1; those of one day go in the order of the lines."""
    return ranked(date)


def date_words(level: Value, out_of_month: Value, closed_month: Value) -> Value:
    """What is to be said of the day."""
    met = where(level >= NEVER, "keep apart from others of this day", "jar test with others of this day")
    return together(
        where(level > 0, met, ""),
        where(yes(out_of_month), "out of its months", ""),
        where(yes(closed_month), "a closed month", ""),
    )
