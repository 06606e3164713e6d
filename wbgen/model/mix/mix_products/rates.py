"""Which rate each product goes on at: the label's, an own one, or one for a wanted nutrient."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.mix.mix_products._catalogue import HEADING_AND_ONE, is_word, of_product
from wbgen.model.tools import measuring
from wbgen.model.tools.relations import as_number, blank, find, or_zero, ratio, where

Value = Any


def product_line(product: Value, products: Value) -> Value:
    """The line of each product in the catalogue, the heading row being line 1; blank where it is not there."""
    places = find(product, products.name)
    return np.where(places < 0, np.nan, places + HEADING_AND_ONE)


def measured_by(product_line: Value, products: Value) -> Value:
    """Whether a product goes by "mass" or by "volume"; blank where it is unknown."""
    return of_product(product_line, products.measured_by)


@reads_every(wanted="nutrients")
def rates_given(own_rate_mass: Value, own_rate_volume: Value, wanted_every: list[Value]) -> Value:
    """How many of the own rates and wanted nutrients are filled; 0 is filled."""
    return sum((~blank(rate)).astype(float) for rate in (own_rate_mass, own_rate_volume, *wanted_every))


def rate_from(rates_given: Value, own_rate_mass: Value, own_rate_volume: Value) -> Value:
    """Which rate is taken: the label's usual one unless just one other is given."""
    single = where(~blank(own_rate_mass) | ~blank(own_rate_volume), "own", "wanted")
    return where(rates_given == 0, "usual", where(rates_given > 1, "two rates", single))


def usual_carrier(product_line: Value, products: Value) -> Value:
    """The carrier volume (L/ha) that each product usually has."""
    return of_product(product_line, products.usual_carrier)


@of_family("levels")
def label_mass_each(product_line: Value, products: Value, mix: Value) -> Value:
    """The label rate of a solid (g/m²); where the label gives a dilution, that times the carrier volume."""
    fixed = of_product(product_line, products.spray_mass_each)
    return where(~blank(fixed), fixed, of_product(product_line, products.diluted_mass_each) * mix.carrier_volume)


@of_family("levels")
def label_volume_each(product_line: Value, products: Value, mix: Value) -> Value:
    """The label rate of a liquid (mL/m²); where the label gives a dilution, that times the carrier volume."""
    fixed = of_product(product_line, products.spray_volume_each)
    return where(~blank(fixed), fixed, of_product(product_line, products.diluted_volume_each) * mix.carrier_volume)


@of_family("nutrients")
def wanted_mass_each(wanted_each: Value, product_line: Value, products: Value) -> Value:
    """The rate (g/m²) at which a solid alone brings the wanted nutrient; blank where it holds none."""
    return ratio(wanted_each, of_product(product_line, products.mass_content_each))


@of_family("nutrients")
def wanted_volume_each(wanted_each: Value, product_line: Value, products: Value) -> Value:
    """The rate (mL/m²) at which a liquid alone brings the wanted nutrient; blank where it holds none."""
    return ratio(wanted_each, of_product(product_line, products.volume_content_each))


@reads_every(wanted_mass="nutrients")
def rate_mass(
    measured_by: Value, rate_from: Value, own_rate_mass: Value, label_mass_usual: Value, wanted_mass_every: list[Value]
) -> Value:
    """The application rate of a solid, in the unit of own rates; blank for what is measured by volume."""
    rate = measuring.rate(rate_from, own_rate_mass, label_mass_usual, wanted_mass_every)
    return where(is_word(measured_by, "volume"), np.nan, rate)


@reads_every(wanted_volume="nutrients")
def rate_volume(
    measured_by: Value,
    rate_from: Value,
    own_rate_volume: Value,
    label_volume_usual: Value,
    wanted_volume_every: list[Value],
) -> Value:
    """The application rate of a liquid, in the unit of own rates; blank for what is measured by mass."""
    rate = measuring.rate(rate_from, own_rate_volume, label_volume_usual, wanted_volume_every)
    return where(is_word(measured_by, "mass"), np.nan, rate)


def laid_mass(rate_mass: Value, mix: Value) -> Value:
    """What comes on the grass (g/m²) of a solid where passes overlap; limits are held against it."""
    return rate_mass * (1 + or_zero(as_number(mix.overlap)))


def laid_volume(rate_volume: Value, mix: Value) -> Value:
    """What comes on the grass (mL/m²) of a liquid where passes overlap; limits are held against it."""
    return rate_volume * (1 + or_zero(as_number(mix.overlap)))
