"""What speaks against each product, as levels: 0 go, 1 ask first, 2 do not mix."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import reads_every
from wbgen.model.mix.mix_products._catalogue import HEADING_AND_ONE, is_word, of_product
from wbgen.model.mix.mix_products._misplaced import own_misplaced
from wbgen.model.tools.dates import month_of
from wbgen.model.tools.relations import blank, joined, latest_by, magnitude, or_zero, pick, where
from wbgen.model.tools.rounding import exceeds
from wbgen.units.quantity import FLOAT

Value = Any


def family(product_line: Value, products: Value) -> Value:
    """The family of each product, by which limits on number and interval go."""
    return of_product(product_line, products.family)


def _before_this(diary: Value, mix: Value) -> Any:
    return is_word(diary.of_this_mix, "yes") & (diary.date < mix.visit_date)


def last_date(family: Value, diary: Value, mix: Value) -> Value:
    """The latest earlier date of the family on any lawn of this visit, as a serial number."""
    return latest_by(diary.family, family, diary.date, _before_this(diary, mix))


def days_since(last_date: Value, mix: Value) -> Value:
    """The time since the family was last on a lawn of this visit."""
    return FLOAT.Quantity(mix.visit_date - last_date, "day")


def last_lawn(family: Value, last_date: Value, diary: Value, lawns: Value) -> Value:
    """The lawn that the family was on last; of several on that day, the one that stands last on the sheet Lawns."""
    then, days = joined(family, last_date), joined(diary.family, diary.date)
    return _lawn(latest_by(days, then, diary.lawn_line, is_word(diary.of_this_mix, "yes")), lawns)


def _lawn(line: Value, lawns: Value) -> Value:
    """The name of the lawn on a line, the heading row being line 1."""
    return pick(lawns.name, line - HEADING_AND_ONE)


def number_this_season(family: Value, diary: Value, mix: Value) -> Value:
    """The number of this visit in its family's season, on the lawn that has had most."""
    counted = _before_this(diary, mix) & (diary.date >= mix.season_start)
    return 1 + or_zero(latest_by(diary.family, family, diary.number_this_season, counted))


def number_lawn(family: Value, number_this_season: Value, diary: Value, mix: Value, lawns: Value) -> Value:
    """The lawn that has had most of the family, where one has had any; of several, the last on the sheet Lawns."""
    counted = _before_this(diary, mix) & (diary.date >= mix.season_start)
    most, numbers = joined(family, number_this_season - 1), joined(diary.family, diary.number_this_season)
    found = _lawn(latest_by(numbers, most, diary.lawn_line, counted), lawns)
    return where(number_this_season > 1, found, "")


@reads_every(wanted="nutrients")
def level_text(mix_products: Value) -> Value:
    """2 where something other than a number stands as a rate or a wanted nutrient; else 0."""
    return np.where(own_misplaced(mix_products) | mix_products.misplaced_wanted_every, 2.0, 0.0)


def level_rate(rate_from: Value, rate_mass: Value, rate_volume: Value) -> Value:
    """2 where two rates are given, or no rate comes out; else 0."""
    return np.where(is_word(rate_from, "two rates") | ~((rate_mass > 0) | (rate_volume > 0)), 2.0, 0.0)


def level_label(laid_mass: Value, laid_volume: Value, label_mass_high: Value, label_volume_high: Value) -> Value:
    """2 where a rate is over the label's high rate; else 0."""
    over = exceeds(laid_mass, label_mass_high) | exceeds(laid_volume, label_volume_high)
    return np.where(over, 2.0, 0.0)


def level_low(rate_mass: Value, rate_volume: Value, label_mass_low: Value, label_volume_low: Value) -> Value:
    """1 where a rate is under the label's low rate; else 0."""
    solid = (rate_mass > 0) & exceeds(label_mass_low, rate_mass)
    return np.where(solid | ((rate_volume > 0) & exceeds(label_volume_low, rate_volume)), 1.0, 0.0)


def level_carrier(product_line: Value, products: Value, mix: Value) -> Value:
    """1 where the spray has less water than the product's least carrier volume; else 0."""
    return np.where(exceeds(of_product(product_line, products.least_carrier), mix.carrier_volume), 1.0, 0.0)


def level_month(product_line: Value, products: Value, mix: Value) -> Value:
    """1 where the sign of the visit's month is a hyphen; else 0, also where the months are not stated."""
    month = int(np.nan_to_num(month_of(mix.visit_date)))
    signs = [str(text)[month - 1 : month] for text in of_product(product_line, products.months_suited)]
    return np.array([float(sign == "-") for sign in signs])


def level_interval(days_since: Value, product_line: Value, products: Value) -> Value:
    """1 where the family comes sooner than the least interval; else 0."""
    return (days_since < of_product(product_line, products.least_interval)).astype(float)


def level_number(number_this_season: Value, product_line: Value, products: Value) -> Value:
    """Where the visit is one more than the product's number a year: 2 if that is a limit, 1 if it is only usual."""
    most = of_product(product_line, products.most_a_year)
    binds = is_word(of_product(product_line, products.number_binds), "yes")
    return np.where((most > 0) & (number_this_season > most), np.where(binds, 2.0, 1.0), 0.0)


@reads_every(rule="trait_rules")
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
    level_text: Value,
    level_rate: Value,
    level_label: Value,
    level_low: Value,
    level_carrier: Value,
    level_month: Value,
    level_interval: Value,
    level_number: Value,
    level_tank: Value,
    level_small: Value,
    level_rounding: Value,
) -> Value:
    """The worst of a product's levels: 0 go, 1 ask first, 2 do not mix; 2 for one that is not in the catalogue."""
    one_way = (level_text, level_rate, level_label, level_number, level_small)
    worst = np.max(
        [*one_way, level_low, level_carrier, level_month, level_interval, level_tank, level_rounding], axis=0
    )
    return np.where(blank(product), np.nan, np.where(blank(product_line), 2.0, worst))


def product_verdict(level: Value) -> Value:
    """The verdict on a product, in words."""
    return where(blank(level), "", where(level > 1, "Do not mix", where(level > 0, "Ask first", "Go")))
