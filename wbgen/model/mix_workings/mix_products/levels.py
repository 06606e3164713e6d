"""What speaks against each product, as levels: 0 go, 1 ask first, 2 do not mix."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import reads_every
from wbgen.model.tools.dates import month_of
from wbgen.model.tools.elementwise import blank, is_word, magnitude, only, or_zero, where, with_unit
from wbgen.model.tools.lines import FIRST, at
from wbgen.model.tools.methods import less_tolerance
from wbgen.model.tools.rates import over_high
from wbgen.model.tools.relations import joined, latest_by, pick
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import (
    Date,
    Each,
    Mask,
    Mass,
    MassPerArea,
    Number,
    Table,
    Text,
    Time,
    Volume,
    VolumePerArea,
    each,
)


def family(product_line: Each[Number], products: Table) -> Each[Text]:
    """The family of each product, by which limits on number and interval go."""
    return at(products.family, product_line)


def family_line(product_line: Each[Number], products: Table) -> Each[Number]:
    """The line of the family's first product in the catalogue, its heading row being line 1; blank without a family."""
    return at(products.family_line, product_line)


def _last(family_line: Each[Number], diary: Table, mix: Table) -> Each[Date]:
    return latest_by(diary.mix_family, family_line, diary.date, diary.date < mix.visit_date)


def sprayed_last(family_line: Each[Number], diary: Table, mix: Table) -> Each[Date]:
    """The latest earlier date on which the family was sprayed on any lawn of this visit, as a serial number."""
    return _last(family_line, diary, mix)


def spread_last(family_line: Each[Number], diary: Table, mix: Table, ones: Table) -> Each[Date]:
    """The same of what was spread dry."""
    return _last(family_line + only(ones.dry_step), diary, mix)


def last_date(sprayed_last: Each[Date], spread_last: Each[Date]) -> Each[Date]:
    """The latest earlier date of the family on any lawn of this visit, by either method."""
    return each(np.fmax(sprayed_last, spread_last))


def days_since(last_date: Each[Date], mix: Table) -> Each[Time]:
    """The time since the family was last on a lawn of this visit."""
    return with_unit(mix.visit_date - last_date, "day")


def last_lawn(family_line: Each[Number], last_date: Each[Date], diary: Table, lawns: Table, ones: Table) -> Each[Text]:
    """The lawn that the family was on last; of several on that day, the one that stands last on the sheet Lawns."""
    then = joined(diary.mix_family, diary.date)
    sprayed, spread = (
        latest_by(then, joined(family_line + step, last_date), diary.lawn_line) for step in (0.0, only(ones.dry_step))
    )
    return _lawn(each(np.fmax(sprayed, spread)), lawns)


def _lawn(line: Each[Number], lawns: Table) -> Each[Text]:
    """The name of the lawn on a line, the heading row being line 1."""
    return pick(lawns.name, line - FIRST)


def _of_this_season(diary: Table, mix: Table) -> Mask:
    return (diary.date >= mix.season_start) & (diary.date < mix.visit_date)


def number_this_season(family_line: Each[Number], diary: Table, mix: Table) -> Each[Number]:
    """The number of this visit in its family's season, on the lawn that has had most; what was spread dry is none."""
    most = latest_by(diary.mix_family, family_line, diary.number_this_season, _of_this_season(diary, mix))
    return 1 + or_zero(most)


def number_lawn(
    family_line: Each[Number], number_this_season: Each[Number], diary: Table, mix: Table, lawns: Table
) -> Each[Text]:
    """The lawn that has had most of the family, where one has had any; of several, the last on the sheet Lawns."""
    most = joined(family_line, number_this_season - 1)
    numbers = joined(diary.mix_family, diary.number_this_season)
    found = _lawn(latest_by(numbers, most, diary.lawn_line, _of_this_season(diary, mix)), lawns)
    return where(number_this_season > 1, found, "")


def level_text(own_text: Each[Number], wanted_text: Each[Number]) -> Each[Number]:
    """2 where something other than a number stands as a rate or a wanted nutrient; else 0."""
    return where(own_text + wanted_text > 0, 2.0, 0.0)


def level_rate(rate_from: Each[Text], rate_mass: Each[MassPerArea], rate_volume: Each[VolumePerArea]) -> Each[Number]:
    """2 where two rates are given, or no rate comes out; else 0."""
    return where(is_word(rate_from, "two rates") | ~((rate_mass > 0) | (rate_volume > 0)), 2.0, 0.0)


def level_label(
    laid_mass: Each[MassPerArea],
    laid_volume: Each[VolumePerArea],
    label_mass_high: Each[MassPerArea],
    label_volume_high: Each[VolumePerArea],
    product_line: Each[Number],
    products: Table,
    settings: Table,
) -> Each[Number]:
    """Where what is laid is over the label's highest, or over what is usual, as a level."""
    practice = at(products.spray_asks, product_line)
    return over_high(laid_mass, laid_volume, label_mass_high, label_volume_high, practice, settings)


def level_diluted(
    rate_from: Each[Text],
    usual_carrier: Each[VolumePerArea],
    product_line: Each[Number],
    products: Table,
    mix: Table,
    settings: Table,
) -> Each[Number]:
    """1 where a rate is taken from a label's dilution, in more water than the settings' times the usual; else 0.

    Common practice, no source: such a label has its usual water in mind.
    """
    diluted = (at(products.diluted_mass_usual, product_line) > 0) | (
        at(products.diluted_volume_usual, product_line) > 0
    )
    much = exceeds(mix.carrier_volume, usual_carrier * settings.diluted_span) & (usual_carrier > 0)
    return where(is_word(rate_from, "usual") & diluted & much, 1.0, 0.0)


def least_carrier(product_line: Each[Number], products: Table) -> Each[VolumePerArea]:
    """The least carrier volume of each product."""
    return at(products.least_carrier, product_line)


def level_carrier(least_carrier: Each[VolumePerArea], mix: Table, settings: Table) -> Each[Number]:
    """1 where the spray has less water than the product's least, by more than the tolerance (a share); else 0."""
    return where(exceeds(less_tolerance(least_carrier, settings), mix.carrier_volume), 1.0, 0.0)


def level_month(product_line: Each[Number], products: Table, mix: Table) -> Each[Number]:
    """1 where the sign of the visit's month is a hyphen; else 0, also where the months are not stated."""
    month = int(np.nan_to_num(month_of(mix.visit_date)))
    signs = [str(text)[month - 1 : month] for text in at(products.months_suited, product_line)]
    return each(np.array([float(sign == "-") for sign in signs]))


def least_interval(product_line: Each[Number], products: Table) -> Each[Time]:
    """The least interval of each product."""
    return at(products.least_interval, product_line)


def soonest(product_line: Each[Number], products: Table) -> Each[Time]:
    """The interval (days) below which each product comes too soon."""
    return at(products.soonest, product_line)


def level_interval(days_since: Each[Time], soonest: Each[Time]) -> Each[Number]:
    """1 where the family comes sooner than the least interval, by more than the tolerance; else 0."""
    return where(exceeds(soonest, days_since), 1.0, 0.0)


def level_number(number_this_season: Each[Number], product_line: Each[Number], products: Table) -> Each[Number]:
    """Where the visit is one more than the product's number a year: 2 if that is a limit, 1 if it is only usual."""
    most = at(products.most_a_year, product_line)
    binds = is_word(at(products.number_binds, product_line), "yes")
    return where((most > 0) & (number_this_season > most), where(binds, 2.0, 1.0), 0.0)


def level_unknown(
    unknown_solubility: Each[Text], unknown_side: Each[Text], unknown_life: Each[Text], mix_water: Table
) -> Each[Number]:
    """1 where something that matters here is not known of the product; else 0.

    Its solubility matters where a solid is to be dissolved, even alone. On which side of neutral it is, and whether
    it is live, matter as soon as another product, or acid for the water, is in the tank: two unknown ones may meet.
    """
    met = (mix_water.partners > 1) & (~blank(unknown_side) | ~blank(unknown_life))
    return where(~blank(unknown_solubility) | met, 1.0, 0.0)


@reads_every(rule="trait_rules")
def level_tank(rule_every: list[Each[Number]]) -> Each[Number]:
    """The worst rule that the product breaks by sharing this tank."""
    return np.max([or_zero(rule) for rule in rule_every], axis=0)


def level_small(
    exact_mass_full: Each[Mass],
    exact_mass_last: Each[Mass],
    exact_volume_full: Each[Volume],
    exact_volume_last: Each[Volume],
    weigh_full: Each[Mass],
    weigh_last: Each[Mass],
    pour_full: Each[Volume],
    pour_last: Each[Volume],
) -> Each[Number]:
    """2 where nothing is weighed or poured of what a load should have; else 0."""
    exact = (exact_mass_full, exact_mass_last, exact_volume_full, exact_volume_last)
    measured = (weigh_full, weigh_last, pour_full, pour_last)
    missing = [~blank(one) & (magnitude(or_zero(got)) == 0) for one, got in zip(exact, measured, strict=True)]
    return where(np.any(missing, axis=0), 2.0, 0.0)


def level_rounding(rounding_error: Each[Number], settings: Table) -> Each[Number]:
    """1 where the error of measuring is over the tolerance; else 0."""
    return where(exceeds(abs(rounding_error), settings.rounding_tolerance), 1.0, 0.0)


def level(
    product: Each[Text],
    product_line: Each[Number],
    level_text: Each[Number],
    level_rate: Each[Number],
    level_label: Each[Number],
    level_diluted: Each[Number],
    level_carrier: Each[Number],
    level_month: Each[Number],
    level_interval: Each[Number],
    level_number: Each[Number],
    level_tank: Each[Number],
    level_small: Each[Number],
    level_rounding: Each[Number],
    level_unknown: Each[Number],
) -> Each[Number]:
    """The worst of a product's levels: 0 go, 1 ask first, 2 do not mix; 2 for one that is not in the catalogue."""
    one_way = (level_text, level_rate, level_label, level_number, level_small)
    graded = (level_diluted, level_carrier, level_month, level_interval, level_tank, level_rounding, level_unknown)
    worst: Each[Number] = np.max([*one_way, *graded], axis=0)
    return where(blank(product), np.nan, where(blank(product_line), 2.0, worst))


def product_verdict(level: Each[Number]) -> Each[Text]:
    """The verdict on a product, in words."""
    return where(blank(level), "", where(level > 1, "Do not mix", where(level > 0, "Ask first", "Go")))
