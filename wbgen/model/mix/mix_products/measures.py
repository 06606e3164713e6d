"""What is weighed and poured for a load, and how far that is from what is exact."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.mix.mix_products._catalogue import is_word, of_product
from wbgen.model.tools import measuring
from wbgen.model.tools.relations import as_number, blank, or_zero, ratio, where

Value = Any


def in_water_mass(rate_mass: Value, mix: Value) -> Value:
    """The concentration (g/L) of a solid in the spray: rate ÷ carrier volume; blank without a rate."""
    return measuring.concentration(rate_mass, mix.carrier_volume)


def in_water_volume(rate_volume: Value, mix: Value) -> Value:
    """The concentration (mL/L) of a liquid in the spray: rate ÷ carrier volume; blank without a rate."""
    return measuring.concentration(rate_volume, mix.carrier_volume)


@of_family("loads")
def exact_mass_each(in_water_mass: Value, mix: Value) -> Value:
    """The mass (g) of a solid in a load, before any rounding."""
    return in_water_mass * mix.volume_each


@of_family("loads")
def exact_volume_each(in_water_volume: Value, mix: Value) -> Value:
    """The volume (mL) of a liquid in a load, before any rounding."""
    return in_water_volume * mix.volume_each


@of_family("loads")
def scale_step_each(exact_mass_each: Value, scales: Value) -> Value:
    """The step (g) of the finest scale whose capacity suffices, else of the coarse one."""
    return measuring.step(exact_mass_each, scales.fine_scale_step, scales.coarse_scale_step, scales.fine_scale_capacity)


@of_family("loads")
def jug_step_each(exact_volume_each: Value, scales: Value) -> Value:
    """The step (mL) of the finest jug whose capacity suffices, else of the coarse one."""
    return measuring.step(exact_volume_each, scales.fine_jug_step, scales.coarse_jug_step, scales.fine_jug_capacity)


@of_family("loads")
def weigh_each(exact_mass_each: Value, scale_step_each: Value, label_mass_high: Value, mix: Value) -> Value:
    """What to weigh (g) for a load: the nearest step, or the one below where that exceeds the label's high rate."""
    return measuring.to_measure(exact_mass_each, scale_step_each, label_mass_high, mix.volume_each, mix)


@of_family("loads")
def pour_each(exact_volume_each: Value, jug_step_each: Value, label_volume_high: Value, mix: Value) -> Value:
    """What to pour (mL) for a load: the nearest step, or the one below where that exceeds the label's high rate."""
    return measuring.to_measure(exact_volume_each, jug_step_each, label_volume_high, mix.volume_each, mix)


def mass_total(weigh_full: Value, weigh_last: Value, mix: Value) -> Value:
    """What is weighed (g) for all loads, the part load counting nothing where there is none."""
    return weigh_full * mix.full_loads + or_zero(weigh_last)


def volume_total(pour_full: Value, pour_last: Value, mix: Value) -> Value:
    """What is poured (mL) for all loads, the part load counting nothing where there is none."""
    return pour_full * mix.full_loads + or_zero(pour_last)


def cost(mass_total: Value, volume_total: Value, measured_by: Value, product_line: Value, products: Value) -> Value:
    """What all loads together cost (currency); blank without a price of what the product is measured by."""
    solid = (mass_total * of_product(product_line, products.price_by_mass)).to("currency")
    liquid = (volume_total * of_product(product_line, products.price_by_volume)).to("currency")
    return where(is_word(measured_by, "mass"), solid, where(is_word(measured_by, "volume"), liquid, np.nan))


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
    return where(~blank(mass), as_number(mass), as_number(volume)) - 1
