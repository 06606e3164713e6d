"""What speaks against each product, in words, with what was found and the limit."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import reads_every
from wbgen.model.mix.mix_products._catalogue import is_word, of_product
from wbgen.model.mix.mix_products._misplaced import own_misplaced
from wbgen.model.tools.relations import blank, where
from wbgen.model.tools.words import amount, counts, days, listed

Value = Any


def soon_words(
    level_interval: Value, last_lawn: Value, days_since: Value, product_line: Value, products: Value
) -> Value:
    """By how much a product comes too soon and on which lawn, in whole days or tenths."""
    least = of_product(product_line, products.least_interval)
    said = "; too soon on " + last_lawn + ": " + days(days_since) + " days, at least " + days(least)
    return where(level_interval > 0, said, "")


def often_words(
    level_number: Value,
    number_this_season: Value,
    number_lawn: Value,
    family: Value,
    product_line: Value,
    products: Value,
) -> Value:
    """Which visit of the family this would be and on which lawn, where that is more than the number of a year."""
    most = of_product(product_line, products.most_words)
    number = "; number " + counts(number_this_season) + " of the family " + family
    return where(level_number > 0, number + " on " + number_lawn + " this season, " + most, "")


@reads_every(wanted="nutrients")
def rate_words(rate_from: Value, level_rate: Value, mix_products: Value) -> Value:
    """What is wrong with the rate that was typed, if anything."""
    text = " is a text, not a number"
    none = where(level_rate > 0, "; no rate for this product", "")
    return (
        where(own_misplaced(mix_products), "; the own rate" + text, "")
        + where(mix_products.misplaced_wanted_every, "; the wanted nutrient" + text, "")
        + where(is_word(rate_from, "two rates"), "; two rates given", none)
    )


def _held(
    measured_by: Value, own: tuple[Value, Value], mass: tuple[Value, Value], volume: tuple[Value, Value], word: str
) -> Value:
    """A rate and the label's beside it, of a solid or of a liquid, in the units of own rates."""
    solid, liquid = (
        amount(found, unit.units, 2) + f", {word} " + amount(limit, unit.units, 2)
        for unit, (found, limit) in zip(own, (mass, volume), strict=True)
    )
    return where(is_word(measured_by, "mass"), solid, liquid)


def label_words(
    level_label: Value,
    measured_by: Value,
    laid_mass: Value,
    laid_volume: Value,
    label_mass_high: Value,
    label_volume_high: Value,
    own_rate_mass: Value,
    own_rate_volume: Value,
) -> Value:
    """By how much what comes on the grass is over the label."""
    mass, volume = (laid_mass, label_mass_high), (laid_volume, label_volume_high)
    held = _held(measured_by, (own_rate_mass, own_rate_volume), mass, volume, "at most")
    return where(level_label > 0, "; over the label rate: " + held, "")


def low_words(
    level_low: Value,
    measured_by: Value,
    rate_mass: Value,
    rate_volume: Value,
    label_mass_low: Value,
    label_volume_low: Value,
    own_rate_mass: Value,
    own_rate_volume: Value,
) -> Value:
    """By how much the rate is under the label."""
    mass, volume = (rate_mass, label_mass_low), (rate_volume, label_volume_low)
    held = _held(measured_by, (own_rate_mass, own_rate_volume), mass, volume, "at least")
    return where(level_low > 0, "; under the label rate: " + held, "")


def water_words(level_carrier: Value, product_line: Value, products: Value, mix: Value) -> Value:
    """How much water there is, and how much the sheet Products asks for at the least."""
    unit = mix.wanted_carrier.units
    least = amount(of_product(product_line, products.least_carrier), unit, 2)
    said = "; less water than the least of the sheet Products: " + amount(mix.carrier_volume, unit, 2)
    return where(level_carrier > 0, said + ", at least " + least, "")


def product_reason(
    product: Value,
    product_line: Value,
    rate_words: Value,
    label_words: Value,
    low_words: Value,
    water_words: Value,
    level_month: Value,
    soon_words: Value,
    often_words: Value,
    level_tank: Value,
    level_small: Value,
    level_rounding: Value,
) -> Value:
    """What speaks against a product, in words parted by semicolons."""
    tank = where(level_tank > 1, "; must not share this tank", "; jar test first")
    words = (
        rate_words
        + label_words
        + low_words
        + water_words
        + where(level_month > 0, "; out of its months", "")
        + soon_words
        + often_words
        + where(level_tank > 0, tank, "")
        + where(level_small > 0, "; too little to measure, make a stock solution", "")
        + where(level_rounding > 0, "; measuring is too coarse", "")
    )
    return listed(where(blank(product), "", where(blank(product_line), "; unknown product", words)))


def caution(product_line: Value, products: Value) -> Value:
    """What the catalogue warns of."""
    return of_product(product_line, products.cautions)


def caution_words(product: Value, caution: Value) -> Value:
    """The cautions behind the product's name, as the card says them."""
    return where(blank(caution), "", "•" + product + ": " + caution)


def product_words(product: Value, level: Value, product_reason: Value) -> Value:
    """What the verdict says of each product that is not to go in as it is."""
    texts = [
        f"; {name}, {reason}" if name and worst > 0 else ""
        for name, worst, reason in zip(product, level, product_reason, strict=True)
    ]
    return np.array(texts, dtype=object)
