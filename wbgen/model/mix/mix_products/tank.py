"""What each product does in the tank and on the grass: order, solubility, salts, nutrients, traits."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.mix.mix_products._catalogue import is_word, of_product
from wbgen.model.tools import measuring
from wbgen.model.tools.relations import as_number, blank, or_zero, ratio
from wbgen.model.tools.rounding import half_up, up

Value = Any


def mixing_place(product_line: Value, products: Value) -> Value:
    """The place of each product in the mixing order; one that has none goes after all of the catalogue."""
    own = of_product(product_line, products.mixing_place)
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
    return measuring.solubility_at(
        mix.water_used,
        settings.cold_water,
        settings.mild_water,
        of_product(product_line, products.solubility_cold),
        of_product(product_line, products.solubility_mild),
    )


@of_family("loads")
def bucket_each(weigh_each: Value, solubility: Value, settings: Value, mix: Value) -> Value:
    """The water that dissolves a load's solid first, at the share of its solubility that the settings allow.

    Rounded up to a tenth of the unit that tanks are in.
    """
    exact = ratio(weigh_each, settings.dissolve_share * solubility).to(mix.fill_full.units)
    return up(half_up(exact, 9), 1)


def solubility_share(in_water_mass: Value, solubility: Value, mix: Value) -> Value:
    """The share of its solubility that a solid takes in the tank, where a hose-end jar holds the concentrate."""
    return as_number(ratio(in_water_mass * mix.dilution, solubility))


def _dissolved(product_line: Value, products: Value) -> Value:
    """What a litre of each liquid adds to the salts; what is not known adds nothing."""
    return or_zero(of_product(product_line, products.dissolved_solids))


def salts(in_water_mass: Value, in_water_volume: Value, product_line: Value, products: Value) -> Value:
    """The salts (g/L) in the spray, solids as sold and the dissolved solids of liquids."""
    return or_zero(in_water_mass) + or_zero(in_water_volume) * _dissolved(product_line, products)


def salt_index(product_line: Value, products: Value, settings: Value) -> Value:
    """The salt index of each product, that of the settings where none is known (Rader et al. 1943)."""
    own = of_product(product_line, products.salt_index)
    return np.where(blank(own), settings.unknown_salt_index, own)


def salt_load(
    laid_mass: Value, laid_volume: Value, salt_index: Value, product_line: Value, products: Value, settings: Value
) -> Value:
    """The salt load (g/m²): salt times its index over the reference salt's; common practice, no source."""
    salt = or_zero(laid_mass) + or_zero(laid_volume) * _dissolved(product_line, products)
    return ratio(salt * salt_index, settings.salt_index_reference)


@of_family("nutrients")
def delivered_each(laid_mass: Value, laid_volume: Value, product_line: Value, products: Value) -> Value:
    """The nutrient (g/m²) that a product delivers; what is not stated delivers nothing."""
    solid = or_zero(laid_mass) * or_zero(of_product(product_line, products.mass_content_each))
    return solid + or_zero(laid_volume) * or_zero(of_product(product_line, products.volume_content_each))


def soluble_nitrogen(delivered_nitrogen: Value, product_line: Value, products: Value) -> Value:
    """The nitrogen (g N/m²) that is not of slow release; 0 where the product holds none."""
    slow = or_zero(of_product(product_line, products.slow_nitrogen))
    total = of_product(product_line, products.share_nitrogen)
    return delivered_nitrogen * or_zero(1 - as_number(ratio(slow, total)))


@of_family("traits")
def trait_each(product_line: Value, products: Value) -> Value:
    """1 where the product has the trait, else 0."""
    return is_word(of_product(product_line, products.trait_each), "yes").astype(float)


@of_family("trait_rules")
def rule_each(trait_each_first: Value, trait_each_second: Value, rules: Value) -> Value:
    """The rule's level where a product has one trait and another product the other, else 0."""
    first, second = or_zero(trait_each_first), or_zero(trait_each_second)
    with_second, with_first = second.sum() - second, first.sum() - first
    met = ((first > 0) & (with_second > 0)) | ((second > 0) & (with_first > 0))
    return np.where(met, or_zero(rules.level_each), 0.0)
