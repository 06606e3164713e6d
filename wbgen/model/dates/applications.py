"""The dates of the programme: one record a line and date, line after line; `number` counts the records from 1.

One record a line and date: shape (applications,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, greater, only, or_zero, where, yes
from wbgen.model.tools.growth import is_known, is_slow, is_watched
from wbgen.model.tools.lines import at, lines_at, match
from wbgen.model.tools.methods import way as method_in_words
from wbgen.model.tools.order import first_to_reach, ranked
from wbgen.model.tools.relations import joined, latest_by, pick, sum_by
from wbgen.model.tools.rounding import half_up
from wbgen.model.tools.traits import NEVER, level_met, worst
from wbgen.model.tools.words import counts, listed
from wbgen.model.types import (
    Date,
    Each,
    IronPerArea,
    Mask,
    Mass,
    NitrogenPerArea,
    Number,
    NutrientPerArea,
    Quantity,
    Table,
    Text,
    Volume,
    each,
)

BLANK_UNLESS = ("programme_line",)


def programme_line(number: Each[Number], plan: Table, programme: Table) -> Each[Number]:
    """The line of the programme that the date is of, its heading row being line 1; blank past the last date."""
    lines = lines_at(first_to_reach(programme.dates_up_to, number))
    return where(number > plan.dates_total, np.nan, lines)


def turn_of_line(number: Each[Number], programme_line: Each[Number], programme: Table) -> Each[Number]:
    """Which of its line's dates this is, from 1."""
    return number - at(programme.dates_up_to - programme.times_planned, programme_line)


def date(programme_line: Each[Number], turn_of_line: Each[Number], programme: Table) -> Each[Date]:
    """The day: the line's first, and an interval on for each turn, to the nearest day."""
    apart = or_zero(at(programme.interval, programme_line)).to("day").magnitude
    return at(programme.first, programme_line) + half_up(half_up((turn_of_line - 1) * apart, 6))


def product(programme_line: Each[Number], programme: Table) -> Each[Text]:
    """The product."""
    return at(programme.product, programme_line)


def where_words(programme_line: Each[Number], programme: Table) -> Each[Text]:
    """Where it goes, in words."""
    return at(programme.where_words, programme_line)


def scope_key(programme_line: Each[Number], programme: Table) -> Each[Number]:
    """The line of the lawn, or of the group's first lawn; 0 for all lawns."""
    return at(programme.scope_key, programme_line)


def kind(programme_line: Each[Number], programme: Table) -> Each[Text]:
    """Whether it goes on a lawn, on a group of them or on all."""
    lawn, group = at(programme.lawn, programme_line), at(programme.group, programme_line)
    return where(~blank(lawn), "lawn", where(~blank(group), "group", "all"))


def group_of_lawn(kind: Each[Text], scope_key: Each[Number], lawns: Table) -> Each[Number]:
    """The group that the ground belongs to, as the line of its first lawn; blank for all lawns, or without a group."""
    of_lawn = match(at(lawns.group, scope_key), lawns.group)
    return where(kind == "lawn", of_lawn, where(kind == "group", scope_key, np.nan))


def way(programme_line: Each[Number], programme: Table) -> Each[Text]:
    """Whether it is spread dry; all else counts as sprayed."""
    return method_in_words(at(programme.method, programme_line))


def soluble(programme_line: Each[Number], programme: Table) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) that it brings; blank for an unknown product."""
    return at(programme.soluble_nitrogen, programme_line)


def _on_its_ground(
    date: Each[Date],
    way: Each[Text],
    kind: Each[Text],
    scope_key: Each[Number],
    group_of_lawn: Each[Number],
    brings: Each[Quantity],
) -> Each[Quantity]:
    """What all applications of the day and method bring that go on the whole of its ground.

    Those for all lawns go on any; those for a lawn's group, or for the lawn itself, on the lawn.
    """

    def of_day(wanted: str, *more: Each[Number]) -> Each[Quantity]:
        key = joined(date, way, *more)
        return sum_by(key, key, brings, kind == wanted)

    everywhere, in_group = of_day("all"), of_day("group", group_of_lawn)
    narrower = where(kind == "lawn", of_day("lawn", scope_key), 0.0 * brings.units)
    grouped = where((kind != "all") & ~blank(group_of_lawn), in_group, 0.0 * brings.units)
    return everywhere + grouped + narrower


def _where_it_is_most(
    date: Each[Date], way: Each[Text], kind: Each[Text], group_of_lawn: Each[Number], ground: Each[Quantity]
) -> Each[Quantity]:
    """What comes together on the lawn of its ground that gets most: a lawn may have applications of its own."""
    day, of_group = joined(date, way), joined(date, way, group_of_lawn)
    anywhere = latest_by(day, day, ground)
    in_group = where(kind == "group", latest_by(of_group, of_group, ground, kind == "lawn"), ground * 0)
    return greater(ground, where(kind == "all", anywhere, in_group))


def ground_nitrogen(
    date: Each[Date],
    way: Each[Text],
    kind: Each[Text],
    scope_key: Each[Number],
    group_of_lawn: Each[Number],
    soluble: Each[NitrogenPerArea],
) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) of its day and method on the whole of its ground."""
    return _on_its_ground(date, way, kind, scope_key, group_of_lawn, soluble)


def most_nitrogen(
    date: Each[Date],
    way: Each[Text],
    kind: Each[Text],
    group_of_lawn: Each[Number],
    ground_nitrogen: Each[NitrogenPerArea],
) -> Each[NitrogenPerArea]:
    """The same on the lawn of its ground that gets most."""
    return _where_it_is_most(date, way, kind, group_of_lawn, ground_nitrogen)


def ground_iron(
    date: Each[Date],
    way: Each[Text],
    kind: Each[Text],
    scope_key: Each[Number],
    group_of_lawn: Each[Number],
    brings_iron: Each[IronPerArea],
) -> Each[IronPerArea]:
    """The iron (g Fe/m²) of its day and method on the whole of its ground."""
    return _on_its_ground(date, way, kind, scope_key, group_of_lawn, brings_iron)


def most_iron(
    date: Each[Date], way: Each[Text], kind: Each[Text], group_of_lawn: Each[Number], ground_iron: Each[IronPerArea]
) -> Each[IronPerArea]:
    """The same on the lawn of its ground that gets most."""
    return _where_it_is_most(date, way, kind, group_of_lawn, ground_iron)


@of_family("rule_traits")
def has_each(programme_line: Each[Number], programme: Table, products: Table) -> Each[Text]:
    """ "yes" where the product has the trait."""
    product_line = at(programme.product_line, programme_line)
    return where(yes(at(products.property_each, product_line)), "yes", "")


@of_family("rule_traits")
def beside_each(
    date: Each[Date], kind: Each[Text], scope_key: Each[Number], group_of_lawn: Each[Number], has_each: Each[Text]
) -> Each[Number]:
    """How many other applications of the day have the trait, on ground that may be the same.

    All lawns are the same ground as any; a group, as itself and as its lawns; a lawn, as itself and its group.
    """
    has = yes(has_each)

    def of_day(wanted: str, *more: Each[Number]) -> Each[Number]:
        key = joined(date, *more)
        return sum_by(key, key, each(has.astype(float)), kind == wanted)

    of_group = of_day("group", group_of_lawn)
    near = {
        "all": of_day("all") + of_day("group") + of_day("lawn"),
        "group": of_day("all") + of_group + of_day("lawn", group_of_lawn),
        "lawn": of_day("all") + of_group + of_day("lawn", scope_key),
    }
    return each(np.select([kind == name for name in near], [np.asarray(one) for one in near.values()], np.nan) - has)


@of_family("trait_rules")
def rule_each(
    has_each_first: Each[Text],
    has_each_second: Each[Text],
    beside_each_first: Each[Number],
    beside_each_second: Each[Number],
    rules: Table,
) -> Each[Number]:
    """The rule's level where it has one trait and another application of the day the other, else 0."""
    return level_met(has_each_first, has_each_second, beside_each_first, beside_each_second, rules.level_each)


@reads_every(rule="trait_rules")
def level(rule_every: list[Each[Number]]) -> Each[Number]:
    """The worst of all rules."""
    return worst(rule_every)


def out_of_month(date: Each[Date], programme_line: Each[Number], programme: Table, products: Table) -> Each[Text]:
    """ "yes" where the product does not suit the month: a hyphen at its place among the twelve signs."""
    suited = at(products.months_suited, at(programme.product_line, programme_line))
    unsuited = [
        not np.isnan(month) and signs[int(month) - 1 : int(month)] == "-"
        for signs, month in zip(suited, dates.month_of(date), strict=True)
    ]
    return where(np.array(unsuited, dtype=bool), "yes", "")


def month(date: Each[Date]) -> Each[Number]:
    """The number of the calendar month, 1 to 12."""
    return dates.month_of(date)


def closed_month(month: Each[Number], months: Table) -> Each[Text]:
    """ "yes" where the month is closed to feeding."""
    return pick(months.closed, month - 1)


def in_year(date: Each[Date], settings: Table, growth_view: Table) -> Each[Text]:
    """ "yes" where the date lies in this season, whether it is past or to come."""
    return where((date >= only(settings.season_start)) & (date < growth_view.year_end), "yes", "")


@of_family("nutrients")
def brings_each(programme_line: Each[Number], programme: Table) -> Each[NutrientPerArea]:
    """The nutrient (g/m²) that it brings; blank for an unknown product."""
    return at(programme.by_area_each, programme_line)


def mass(programme_line: Each[Number], programme: Table) -> Each[Mass]:
    """The mass (g) of a solid for all of its lawns; blank without a rate."""
    return at(programme.rate_mass * programme.area_counted, programme_line).to("g")


def volume(programme_line: Each[Number], programme: Table) -> Each[Volume]:
    """The volume (mL) of a liquid for all of its lawns; blank without a rate."""
    return at(programme.rate_volume * programme.area_counted, programme_line).to("mL")


def water(programme_line: Each[Number], programme: Table) -> Each[Volume]:
    """The spray (L) for all of its lawns."""
    return at(programme.water_each_time, programme_line)


def date_rank(date: Each[Date]) -> Each[Number]:
    """Its place in the order of time, from 1; those of one day go in the order of the lines."""
    return ranked(date)


def growth_unknown(
    programme_line: Each[Number], month: Each[Number], programme: Table, months: Table, settings: Table
) -> Each[Text]:
    """ "yes" where the line asks for growth and the month has no mean temperature."""
    return where(_asks(programme_line, programme, settings) & ~is_known(month, months), "yes", "")


def _asks(programme_line: Each[Number], programme: Table, settings: Table) -> Mask:
    return yes(at(programme.needs_growth, programme_line)) & is_watched(settings)


def slow_lawns(
    programme_line: Each[Number],
    month: Each[Number],
    growth_unknown: Each[Text],
    programme: Table,
    months: Table,
    settings: Table,
) -> Each[Number]:
    """How many of the line's lawns hardly grow in the month, where it asks for growth and that is known."""
    warm: Each[Number] = at(programme.warm_lawns, programme_line)
    cool = at(programme.lawns_counted, programme_line) - warm
    slow = where(is_slow(pick(months.growth_cool, month - 1), settings), cool, 0.0)
    slow = slow + where(is_slow(pick(months.growth_warm, month - 1), settings), warm, 0.0)
    return where(_asks(programme_line, programme, settings) & ~yes(growth_unknown), slow, 0.0)


def growth_words(
    growth_unknown: Each[Text], slow_lawns: Each[Number], programme_line: Each[Number], programme: Table
) -> Each[Text]:
    """That the grass hardly grows, and on how many of the line's lawns if not on all; or that it is not known."""
    whole = at(programme.lawns_counted, programme_line)
    part = " on " + counts(slow_lawns) + " of " + counts(whole) + " lawns"
    slow = "; the grass hardly grows" + where(slow_lawns == whole, "", part)
    return where(yes(growth_unknown), "; growth not known", where(slow_lawns > 0, slow, ""))


def date_words(
    level: Each[Number], out_of_month: Each[Text], closed_month: Each[Text], growth_words: Each[Text]
) -> Each[Text]:
    """What is to be said of the day."""
    met = where(level >= NEVER, "; keep apart from others of this day", "; jar test with others of this day")
    return listed(
        where(level > 0, met, "")
        + where(yes(out_of_month), "; out of its months", "")
        + where(yes(closed_month), "; a closed month", "")
        + growth_words
    )
