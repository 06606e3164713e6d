"""The products of this visit: label and rate, what is weighed and poured, and what speaks against it.

Arrays have one figure a record of the table (n,); the forms `mix`, `settings`, `scales` and `rules` give scalars.
A record without a product has no figures, nor has one whose product is not in the catalogue, but for its verdict.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen import units
from wbgen.model import _measuring
from wbgen.model.bind import of_family
from wbgen.model.dates import month_of
from wbgen.model.relations import blank, find, folded, latest_by, magnitude, or_zero, pick, plain, ratio, where
from wbgen.model.rounding import exceeds

Value = Any

BLANK_UNLESS = ("product_line",)
NEVER_BLANK = ("level", "product_verdict", "product_reason", "words_so_far")

_HEADING_AND_ONE = 2
"""The line of the first product: the heading row is line 1."""


def _of_product(product_line: Value, column: Value) -> Value:
    """What the catalogue says in `column` of the product on each line; blank without a line."""
    return pick(column, product_line - _HEADING_AND_ONE)


def _is(text: Value, word: str) -> Any:
    return folded(text) == word


def product_line(product: Value, products: Value) -> Value:
    """The line of each product in the catalogue, the heading row being line 1; blank where it is not there."""
    places = find(product, products.name)
    return np.where(places < 0, np.nan, places + _HEADING_AND_ONE)


def measured_by(product_line: Value, products: Value) -> Value:
    """Whether a product goes by "mass" or by "volume"; blank where it is unknown."""
    return _of_product(product_line, products.measured_by)


def rates_given(own_rate_mass: Value, own_rate_volume: Value, wanted_every: list[Value]) -> Value:
    """How many of the own rates and wanted nutrients are filled; 0 is filled."""
    return sum((~blank(rate)).astype(float) for rate in (own_rate_mass, own_rate_volume, *wanted_every))


def rate_from(rates_given: Value, own_rate_mass: Value, own_rate_volume: Value) -> Value:
    """Which rate is taken: the label's usual one unless just one other is given."""
    single = where(~blank(own_rate_mass) | ~blank(own_rate_volume), "own", "wanted")
    return where(rates_given == 0, "usual", where(rates_given > 1, "two rates", single))


def usual_carrier(product_line: Value, products: Value) -> Value:
    """The carrier volume (L/ha) that each product usually has."""
    return _of_product(product_line, products.usual_carrier)


def label_mass_each(product_line: Value, products: Value, mix: Value) -> Value:
    """The label rate of a solid (g/m²); where the label gives a dilution, that times the carrier volume."""
    fixed = _of_product(product_line, products.spray_mass_each)
    return where(~blank(fixed), fixed, _of_product(product_line, products.diluted_mass_each) * mix.carrier_volume)


def label_volume_each(product_line: Value, products: Value, mix: Value) -> Value:
    """The label rate of a liquid (mL/m²); where the label gives a dilution, that times the carrier volume."""
    fixed = _of_product(product_line, products.spray_volume_each)
    return where(~blank(fixed), fixed, _of_product(product_line, products.diluted_volume_each) * mix.carrier_volume)


def wanted_mass_each(wanted_each: Value, product_line: Value, products: Value) -> Value:
    """The rate (g/m²) at which a solid alone brings the wanted nutrient; blank where it holds none."""
    return ratio(wanted_each, _of_product(product_line, products.mass_content_each))


def wanted_volume_each(wanted_each: Value, product_line: Value, products: Value) -> Value:
    """The rate (mL/m²) at which a liquid alone brings the wanted nutrient; blank where it holds none."""
    return ratio(wanted_each, _of_product(product_line, products.volume_content_each))


def rate_mass(
    measured_by: Value, rate_from: Value, own_rate_mass: Value, label_mass_usual: Value, wanted_mass_every: list[Value]
) -> Value:
    """The application rate of a solid, in the unit of own rates; blank for what is measured by volume."""
    rate = _measuring.rate(rate_from, own_rate_mass, label_mass_usual, wanted_mass_every)
    return where(_is(measured_by, "volume"), np.nan, rate)


def rate_volume(
    measured_by: Value,
    rate_from: Value,
    own_rate_volume: Value,
    label_volume_usual: Value,
    wanted_volume_every: list[Value],
) -> Value:
    """The application rate of a liquid, in the unit of own rates; blank for what is measured by mass."""
    rate = _measuring.rate(rate_from, own_rate_volume, label_volume_usual, wanted_volume_every)
    return where(_is(measured_by, "mass"), np.nan, rate)


def in_water_mass(rate_mass: Value, mix: Value) -> Value:
    """The concentration (g/L) of a solid in the spray: rate ÷ carrier volume; blank without a rate."""
    return _measuring.concentration(rate_mass, mix.carrier_volume)


def in_water_volume(rate_volume: Value, mix: Value) -> Value:
    """The concentration (mL/L) of a liquid in the spray: rate ÷ carrier volume; blank without a rate."""
    return _measuring.concentration(rate_volume, mix.carrier_volume)


def exact_mass_each(in_water_mass: Value, mix: Value) -> Value:
    """The mass (g) of a solid in a load, before any rounding."""
    return in_water_mass * mix.volume_each


def exact_volume_each(in_water_volume: Value, mix: Value) -> Value:
    """The volume (mL) of a liquid in a load, before any rounding."""
    return in_water_volume * mix.volume_each


def scale_step_each(exact_mass_each: Value, scales: Value) -> Value:
    """The step (g) of the finest scale whose capacity suffices, else of the coarse one."""
    return _measuring.step(
        exact_mass_each, scales.fine_scale_step, scales.coarse_scale_step, scales.fine_scale_capacity
    )


def jug_step_each(exact_volume_each: Value, scales: Value) -> Value:
    """The step (mL) of the finest jug whose capacity suffices, else of the coarse one."""
    return _measuring.step(exact_volume_each, scales.fine_jug_step, scales.coarse_jug_step, scales.fine_jug_capacity)


def weigh_each(exact_mass_each: Value, scale_step_each: Value, label_mass_high: Value, mix: Value) -> Value:
    """What to weigh (g) for a load: the nearest step, or the one below where that exceeds the label's high rate."""
    return _measuring.to_measure(exact_mass_each, scale_step_each, label_mass_high, mix.volume_each, mix.carrier_volume)


def pour_each(exact_volume_each: Value, jug_step_each: Value, label_volume_high: Value, mix: Value) -> Value:
    """What to pour (mL) for a load: the nearest step, or the one below where that exceeds the label's high rate."""
    return _measuring.to_measure(
        exact_volume_each, jug_step_each, label_volume_high, mix.volume_each, mix.carrier_volume
    )


def mass_total(weigh_full: Value, weigh_last: Value, mix: Value) -> Value:
    """What is weighed (g) for all loads, the part load counting nothing where there is none."""
    return weigh_full * mix.full_loads + or_zero(weigh_last)


def volume_total(pour_full: Value, pour_last: Value, mix: Value) -> Value:
    """What is poured (mL) for all loads, the part load counting nothing where there is none."""
    return pour_full * mix.full_loads + or_zero(pour_last)


def rounding_error(
    mass_total: Value,
    volume_total: Value,
    exact_mass_full: Value,
    exact_mass_last: Value,
    exact_volume_full: Value,
    exact_volume_last: Value,
    mix: Value,
) -> Value:
    """What is measured in all against what is exact, less 1; a share."""
    mass = ratio(mass_total, exact_mass_full * mix.full_loads + or_zero(exact_mass_last))
    volume = ratio(volume_total, exact_volume_full * mix.full_loads + or_zero(exact_volume_last))
    return where(~blank(mass), plain(mass), plain(volume)) - 1


def mixing_place(product_line: Value, products: Value) -> Value:
    """The place of each product in the mixing order; one that has none goes after all of the catalogue."""
    own = _of_product(product_line, products.mixing_place)
    known = products.mixing_place[~blank(products.mixing_place)]
    return np.where(blank(own), (known.max() if known.size else 0) + 1, own)


def pouring_order(mixing_place: Value) -> Value:
    """The rank (from 1) of each product by its place in the mixing order, equals in the order of the table.

    >>> pouring_order(np.array([5.0, np.nan, 2.0, 5.0]))
    array([ 2., nan,  1.,  3.])
    """
    ranks = np.empty(len(mixing_place))
    ranks[np.argsort(mixing_place, kind="stable")] = np.arange(len(mixing_place)) + 1.0
    return np.where(np.isnan(mixing_place), np.nan, ranks)


def solubility(product_line: Value, products: Value, mix: Value, settings: Value) -> Value:
    """How much of a product (g/L) dissolves at the water's temperature; common practice, no source."""
    return _measuring.solubility_at(
        mix.water_used,
        settings.cold_water,
        settings.mild_water,
        _of_product(product_line, products.solubility_cold),
        _of_product(product_line, products.solubility_mild),
    )


def bucket(weigh_full: Value, solubility: Value, settings: Value) -> Value:
    """The water (L) that dissolves a load's solid first, at the share of its solubility that the settings allow."""
    return ratio(weigh_full, settings.dissolve_share * solubility)


def solubility_share(in_water_mass: Value, solubility: Value, mix: Value) -> Value:
    """The share of its solubility that a solid takes in the tank, where a hose-end jar holds the concentrate."""
    return plain(ratio(in_water_mass * mix.dilution, solubility))


def _dissolved(product_line: Value, products: Value) -> Value:
    """What a litre of each liquid adds to the salts; what is not known adds nothing."""
    return or_zero(_of_product(product_line, products.dissolved_solids))


def salts(in_water_mass: Value, in_water_volume: Value, product_line: Value, products: Value) -> Value:
    """The salts (g/L) in the spray, solids as sold and the dissolved solids of liquids."""
    return or_zero(in_water_mass) + or_zero(in_water_volume) * _dissolved(product_line, products)


def salt_index(product_line: Value, products: Value, settings: Value) -> Value:
    """The salt index of each product, that of the settings where none is known (Rader et al. 1943)."""
    own = _of_product(product_line, products.salt_index)
    return np.where(blank(own), settings.unknown_salt_index, own)


def salt_load(
    rate_mass: Value, rate_volume: Value, salt_index: Value, product_line: Value, products: Value, settings: Value
) -> Value:
    """The salt load (g/m²): salt times its index over the reference salt's; common practice, no source."""
    salt = or_zero(rate_mass) + or_zero(rate_volume) * _dissolved(product_line, products)
    return ratio(salt * salt_index, settings.salt_index_reference)


def delivered_each(rate_mass: Value, rate_volume: Value, product_line: Value, products: Value) -> Value:
    """The nutrient (g/m²) that a product delivers; what is not stated delivers nothing."""
    solid = or_zero(rate_mass) * or_zero(_of_product(product_line, products.mass_content_each))
    return solid + or_zero(rate_volume) * or_zero(_of_product(product_line, products.volume_content_each))


def soluble_nitrogen(delivered_nitrogen: Value, product_line: Value, products: Value) -> Value:
    """The nitrogen (g N/m²) that is not of slow release; 0 where the product holds none."""
    slow = or_zero(_of_product(product_line, products.slow_nitrogen))
    total = _of_product(product_line, products.share_nitrogen)
    return delivered_nitrogen * or_zero(1 - plain(ratio(slow, total)))


@of_family("traits")
def trait_each(product_line: Value, products: Value) -> Value:
    """1 where the product has the trait, else 0."""
    return _is(_of_product(product_line, products.trait_each), "yes").astype(float)


@of_family("trait_rules")
def rule_each(trait_each_first: Value, trait_each_second: Value, rules: Value) -> Value:
    """The rule's level where a product has one trait and another product the other, else 0."""
    first, second = or_zero(trait_each_first), or_zero(trait_each_second)
    with_second, with_first = second.sum() - second, first.sum() - first
    met = ((first > 0) & (with_second > 0)) | ((second > 0) & (with_first > 0))
    return np.where(met, or_zero(rules.level_each), 0.0)


def family(product_line: Value, products: Value) -> Value:
    """The family of each product, by which limits on number and interval go."""
    return _of_product(product_line, products.family)


def _before_this(diary: Value, mix: Value) -> Any:
    return _is(diary.of_this_mix, "yes") & (diary.date < mix.visit_date)


def last_date(family: Value, diary: Value, mix: Value) -> Value:
    """The latest earlier date of the family on any lawn of this visit, as a serial number."""
    return latest_by(diary.family, family, diary.date, _before_this(diary, mix))


def days_since(last_date: Value, mix: Value) -> Value:
    """The time since the family was last on a lawn of this visit."""
    return units.FLOAT.Quantity(mix.visit_date - last_date, "day")


def number_this_season(family: Value, diary: Value, mix: Value, settings: Value) -> Value:
    """The number of this visit in its family's season, on the lawn that has had most."""
    counted = _before_this(diary, mix) & (diary.date >= settings.season_start)
    return 1 + or_zero(latest_by(diary.family, family, diary.number_this_season, counted))


def level_rate(rate_from: Value, rate_mass: Value, rate_volume: Value) -> Value:
    """2 where two rates are given, or no rate comes out; else 0."""
    return np.where(_is(rate_from, "two rates") | ~((rate_mass > 0) | (rate_volume > 0)), 2.0, 0.0)


def level_label(rate_mass: Value, rate_volume: Value, label_mass_high: Value, label_volume_high: Value) -> Value:
    """2 where a rate is over the label's high rate; else 0."""
    over = exceeds(rate_mass, label_mass_high) | exceeds(rate_volume, label_volume_high)
    return np.where(over, 2.0, 0.0)


def level_month(product_line: Value, products: Value, mix: Value) -> Value:
    """1 where the sign of the visit's month is a hyphen; else 0, also where the months are not stated."""
    month = int(np.nan_to_num(month_of(mix.visit_date)))
    signs = [str(text)[month - 1 : month] for text in _of_product(product_line, products.months_suited)]
    return np.array([float(sign == "-") for sign in signs])


def level_interval(days_since: Value, product_line: Value, products: Value) -> Value:
    """1 where the family comes sooner than the least interval; else 0."""
    return (days_since < _of_product(product_line, products.least_interval)).astype(float)


def level_number(number_this_season: Value, product_line: Value, products: Value) -> Value:
    """2 where the visit is one more than the product may have in a year; else 0."""
    most = _of_product(product_line, products.most_a_year)
    return np.where((most > 0) & (number_this_season > most), 2.0, 0.0)


def level_tank(rule_every: list[Value]) -> Value:
    """The worst rule that the product breaks by sharing this tank."""
    return np.max([or_zero(rule) for rule in rule_every], axis=0)


def level_small(
    exact_mass_full: Value, exact_mass_last: Value, exact_volume_full: Value, exact_volume_last: Value,
    weigh_full: Value, weigh_last: Value, pour_full: Value, pour_last: Value,
) -> Value:  # fmt: skip
    """2 where nothing is weighed or poured of what a load should have; else 0."""
    exact = (exact_mass_full, exact_mass_last, exact_volume_full, exact_volume_last)
    measured = (weigh_full, weigh_last, pour_full, pour_last)
    missing = [~blank(one) & (magnitude(or_zero(got)) == 0) for one, got in zip(exact, measured, strict=True)]
    return np.where(np.any(missing, axis=0), 2.0, 0.0)


def level_rounding(rounding_error: Value, settings: Value) -> Value:
    """1 where the error of measuring is over the tolerance; else 0."""
    return np.where(exceeds(np.abs(rounding_error), settings.rounding_tolerance), 1.0, 0.0)


def level(
    product: Value,
    product_line: Value,
    level_rate: Value,
    level_label: Value,
    level_month: Value,
    level_interval: Value,
    level_number: Value,
    level_tank: Value,
    level_small: Value,
    level_rounding: Value,
) -> Value:
    """The worst of a product's levels: 0 go, 1 ask first, 2 do not mix; 2 for one that is not in the catalogue."""
    one_way = (level_rate, level_label, level_number, level_small)
    worst = np.max([*one_way, level_month, level_interval, level_tank, level_rounding], axis=0)
    return np.where(blank(product), np.nan, np.where(blank(product_line), 2.0, worst))


def product_verdict(level: Value) -> Value:
    """The verdict on a product, in words."""
    return where(blank(level), "", where(level > 1, "Do not mix", where(level > 0, "Ask first", "Go")))


def product_reason(
    product: Value,
    product_line: Value,
    rate_from: Value,
    level_rate: Value,
    level_label: Value,
    level_month: Value,
    level_interval: Value,
    level_number: Value,
    level_tank: Value,
    level_small: Value,
    level_rounding: Value,
) -> Value:
    """What speaks against a product, in words; without the blanks at either end, as spreadsheets trim."""
    rate = where(_is(rate_from, "two rates"), "two rates given; ", "no rate for this product; ")
    tank = where(level_tank > 1, "must not share this tank; ", "jar test first; ")
    words = (
        where(level_rate > 0, rate, "")
        + where(level_label > 0, "over the label rate; ", "")
        + where(level_month > 0, "out of its months; ", "")
        + where(level_interval > 0, "too soon; ", "")
        + where(level_number > 0, "number reached; ", "")
        + where(level_tank > 0, tank, "")
        + where(level_small > 0, "too little to measure, make a stock solution; ", "")
        + where(level_rounding > 0, "measuring is too coarse; ", "")
    )
    said = where(blank(product), "", where(blank(product_line), "unknown product; ", words))
    return np.array([text.strip(" ") for text in said], dtype=object)


def words_so_far(product: Value, level: Value, product_reason: Value) -> Value:
    """The products up to each one that are not to go in as they are, with their reasons."""
    texts, said = [], ""
    for name, worst, reason in zip(product, level, product_reason, strict=True):
        said += f"{name}, {reason} " if name and worst > 0 else ""
        texts.append(said)
    return np.array(texts, dtype=object)
