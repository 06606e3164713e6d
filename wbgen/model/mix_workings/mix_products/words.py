"""What speaks against each product, in words, with what was found and the limit."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, is_word, where, yes
from wbgen.model.tools.lines import at
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.words import amount, counts, days, listed
from wbgen.model.types import Each, MassPerArea, Number, Quantity, Table, Text, Time, VolumePerArea, each


def soon_words(
    level_interval: Each[Number],
    last_lawn: Each[Text],
    days_since: Each[Time],
    least_interval: Each[Time],
) -> Each[Text]:
    """By how much a product comes too soon and on which lawn, in whole days or tenths."""
    said = "; too soon on " + last_lawn + ": " + days(days_since) + " days, at least " + days(least_interval)
    return where(level_interval > 0, said, "")


def early_words(
    product: Each[Text],
    level_interval: Each[Number],
    last_lawn: Each[Text],
    days_since: Each[Time],
    least_interval: Each[Time],
) -> Each[Text]:
    """By how little a product comes too soon, where nobody is asked about it."""
    early = exceeds(least_interval, days_since) & ~(level_interval > 0)
    said = "; " + product + " a little early on " + last_lawn + ": " + days(days_since)
    return where(early, said + " days, at least " + days(least_interval), "")


def often_words(
    level_number: Each[Number],
    number_this_season: Each[Number],
    number_lawn: Each[Text],
    family: Each[Text],
    product_line: Each[Number],
    products: Table,
) -> Each[Text]:
    """Which visit of the family this would be and on which lawn, where that is more than the number of a year."""
    most = at(products.most_words, product_line)
    number = "; number " + counts(number_this_season) + " of the family " + family
    return where(level_number > 0, number + " on " + number_lawn + " this season, " + most, "")


def rate_words(
    own_text: Each[Number], wanted_text: Each[Number], rate_from: Each[Text], level_rate: Each[Number]
) -> Each[Text]:
    """What is wrong with the rate that was typed, if anything."""
    text = " is a text, not a number"
    none = where(level_rate > 0, "; no rate for this product", "")
    return (
        where(own_text > 0, "; the own rate" + text, "")
        + where(wanted_text > 0, "; the wanted nutrient" + text, "")
        + where(is_word(rate_from, "two rates"), "; two rates given", none)
    )


def _held(
    measured_by: Each[Text],
    own: tuple[Each[Quantity], Each[Quantity]],
    mass: tuple[Each[Quantity], Each[Quantity]],
    volume: tuple[Each[Quantity], Each[Quantity]],
    word: str,
) -> Each[Text]:
    """A rate and the label's beside it, of a solid or of a liquid, in the units of own rates."""
    solid, liquid = (
        amount(found, unit.units, 2) + f", {word} " + amount(limit, unit.units, 2)
        for unit, (found, limit) in zip(own, (mass, volume), strict=True)
    )
    return where(is_word(measured_by, "mass"), solid, liquid)


def label_words(
    level_label: Each[Number],
    measured_by: Each[Text],
    laid_mass: Each[MassPerArea],
    laid_volume: Each[VolumePerArea],
    label_mass_high: Each[MassPerArea],
    label_volume_high: Each[VolumePerArea],
    own_rate_mass: Each[MassPerArea],
    own_rate_volume: Each[VolumePerArea],
    product_line: Each[Number],
    products: Table,
) -> Each[Text]:
    """By how much what comes on the grass is over the label, or over what is usual."""
    mass, volume = (laid_mass, label_mass_high), (laid_volume, label_volume_high)
    held = _held(measured_by, (own_rate_mass, own_rate_volume), mass, volume, "at most")
    usual = where(level_label == 2, "; far over the usual range: ", "; over the usual range: ")
    over = where(yes(at(products.spray_practice, product_line)), usual, "; over the label rate: ")
    return where(level_label > 0, over + held, "")


def diluted_words(
    level_diluted: Each[Number],
    measured_by: Each[Text],
    usual_carrier: Each[VolumePerArea],
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    own_rate_mass: Each[MassPerArea],
    own_rate_volume: Each[VolumePerArea],
    mix: Table,
) -> Each[Text]:
    """For how much water a dilution is meant, and what rate it comes to in that of the mix."""
    meant = "; its dilution is meant for about " + amount(usual_carrier, mix.wanted_carrier.units, 2)
    solid, liquid = amount(rate_mass, own_rate_mass.units, 2), amount(rate_volume, own_rate_volume.units, 2)
    comes = where(is_word(measured_by, "mass"), solid, liquid)
    return where(level_diluted > 0, meant + ", and comes to " + comes, "")


def low_words(
    product: Each[Text],
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    label_mass_low: Each[MassPerArea],
    label_volume_low: Each[VolumePerArea],
    own_rate_mass: Each[MassPerArea],
    own_rate_volume: Each[VolumePerArea],
) -> Each[Text]:
    """By how much the rate is under the label: it may do too little, and nobody is asked about it."""
    solid = (rate_mass > 0) & exceeds(label_mass_low, rate_mass)
    liquid = (rate_volume > 0) & exceeds(label_volume_low, rate_volume)
    held = _held(where(solid, "mass", "volume"), (own_rate_mass, own_rate_volume), (rate_mass, label_mass_low),
                 (rate_volume, label_volume_low), "at least")  # fmt: skip
    return where(solid | liquid, "; " + product + " under the label rate: " + held, "")


def _water(least_carrier: Each[VolumePerArea], mix: Table) -> Each[Text]:
    unit = mix.wanted_carrier.units
    return ": " + amount(mix.carrier_volume, unit, 2) + ", at least " + amount(least_carrier, unit, 2)


def water_words(level_carrier: Each[Number], least_carrier: Each[VolumePerArea], mix: Table) -> Each[Text]:
    """How much water there is, and how much the sheet Products asks for at the least."""
    said = "; less water than the least of the sheet Products" + _water(least_carrier, mix)
    return where(level_carrier > 0, said, "")


def short_words(
    product: Each[Text], level_carrier: Each[Number], least_carrier: Each[VolumePerArea], mix: Table
) -> Each[Text]:
    """By how little the water is less than the least, where nobody is asked about it."""
    short = exceeds(least_carrier, mix.carrier_volume) & ~(level_carrier > 0)
    return where(short, "; " + product + " in a little less water than the least" + _water(least_carrier, mix), "")


def unknown_words(
    level_unknown: Each[Number],
    unknown_solubility: Each[Text],
    unknown_side: Each[Text],
    unknown_life: Each[Text],
    mix_water: Table,
) -> Each[Text]:
    """What is not known of the product and matters in this mix."""
    beside = where(mix_water.partners > 1, unknown_side + unknown_life, "")
    named = each(np.array([text.removeprefix(", ") for text in unknown_solubility + beside], dtype=object))
    return where(level_unknown > 0, "; not known: " + named, "")


def note_words(
    product: Each[Text],
    product_line: Each[Number],
    early_words: Each[Text],
    short_words: Each[Text],
    low_words: Each[Text],
    unknown_side: Each[Text],
    unknown_life: Each[Text],
    least_interval: Each[Time],
    rate_volume: Each[VolumePerArea],
    products: Table,
    mix_water: Table,
) -> Each[Text]:
    """What is to be known of the product and does not matter in this mix: no verdict hangs on it."""
    side = where(~blank(unknown_side), "; not known: pH of " + product, "")
    life = where(~blank(unknown_life), "; not known: whether " + product + " is live", "")
    alone = where(mix_water.partners > 1, "", side + life)
    poured = (rate_volume > 0) & blank(at(products.dissolved_solids, product_line))
    unstated = where(~blank(product_line) & blank(least_interval), "; not stated: the interval of " + product, "")
    solids = "; not known: dissolved solids of " + product + _counted(product_line, products)
    return early_words + short_words + low_words + unstated + alone + where(poured, solids, "")


def _counted(product_line: Each[Number], products: Table) -> Each[Text]:
    """What is counted of the solids of a liquid of which none are known, to a tenth."""
    counted = at(products.solids_counted, product_line)
    return where(counted > 0, ", counted as " + amount(counted, products.solids_counted.units, 1), "")


def product_reason(
    product: Each[Text],
    product_line: Each[Number],
    rate_words: Each[Text],
    label_words: Each[Text],
    diluted_words: Each[Text],
    water_words: Each[Text],
    level_month: Each[Number],
    soon_words: Each[Text],
    often_words: Each[Text],
    level_tank: Each[Number],
    level_small: Each[Number],
    level_rounding: Each[Number],
    unknown_words: Each[Text],
) -> Each[Text]:
    """What speaks against a product, in words parted by semicolons."""
    tank = where(level_tank > 1, "; must not share this tank", "; jar test first")
    words = (
        rate_words
        + label_words
        + diluted_words
        + water_words
        + where(level_month > 0, "; out of its months", "")
        + soon_words
        + often_words
        + where(level_tank > 0, tank, "")
        + where(level_small > 0, "; too little to measure, make a stock solution", "")
        + where(level_rounding > 0, "; measuring is too coarse", "")
        + unknown_words
    )
    return listed(where(blank(product), "", where(blank(product_line), "; unknown product", words)))


def hazard(product_line: Each[Number], products: Table) -> Each[Text]:
    """What the catalogue says can hurt a person."""
    return at(products.hazards, product_line)


def caution(product_line: Each[Number], products: Table) -> Each[Text]:
    """What else the catalogue warns of."""
    return at(products.cautions, product_line)


def hazard_words(product: Each[Text], hazard: Each[Text]) -> Each[Text]:
    """The hazards behind the product's name, as the card says them."""
    return where(blank(hazard), "", "•" + product + ": " + hazard)


def caution_words(product: Each[Text], hazard: Each[Text], caution: Each[Text]) -> Each[Text]:
    """The other cautions; behind the product's name where its hazards have not named it."""
    name = where(blank(hazard), product + ": ", "")
    return where(blank(caution), "", "•" + name + caution)


def product_words(product: Each[Text], level: Each[Number], product_reason: Each[Text]) -> Each[Text]:
    """What the verdict says of each product that is not to go in as it is."""
    texts = [
        f"; {name}, {reason}" if name and worst > 0 else ""
        for name, worst, reason in zip(product, level, product_reason, strict=True)
    ]
    return each(np.array(texts, dtype=object))


def stop_words(product: Each[Text], level: Each[Number], product_reason: Each[Text]) -> Each[Text]:
    """The product and what forbids it, all in one."""
    return _at_level(product, level, product_reason, 2)


def ask_words(product: Each[Text], level: Each[Number], product_reason: Each[Text]) -> Each[Text]:
    """The product and what asks of it, all in one."""
    return _at_level(product, level, product_reason, 1)


def _at_level(product: Each[Text], level: Each[Number], product_reason: Each[Text], asked: float) -> Each[Text]:
    reasons = each(np.array([text.replace("; ", ", ") for text in product_reason], dtype=object))
    return where(~blank(product) & (level == asked), "; " + product + ": " + reasons, "")
