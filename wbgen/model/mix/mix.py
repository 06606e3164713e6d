"""This visit: from the lawns, the sprayer and the products to litres and loads."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.dates import or_first, season_start_of
from wbgen.model.tools.jar import dilution_of
from wbgen.model.tools.relations import as_number, blank, folded, like, lookup, magnitude, only, or_zero, ratio, where
from wbgen.model.tools.rounding import half_up, up

Value = Any


def visit_date(date: Value, start: Value) -> Value:
    """Serial date of the visit: the one typed, else the as-of date."""
    return where(blank(date), only(start.as_of), date)


def season_start(visit_date: Value, settings: Value) -> Value:
    """Serial date of the start of the season that the visit is in."""
    return season_start_of(visit_date, or_first(settings.season_month), or_first(settings.season_day))


def delivered_carrier(sprayer: Value, sprayers: Value) -> Value:
    """Carrier volume that the sprayer delivers; blank for an unknown sprayer or one never calibrated."""
    return lookup(sprayer, sprayers.name, sprayers.carrier_volume)


def sprayer_carrier(sprayer: Value, sprayers: Value) -> Value:
    """Carrier volume wanted of this sprayer, whatever the mix."""
    return lookup(sprayer, sprayers.name, sprayers.wanted_carrier)


def carrier_aim(wanted_carrier: Value, sprayer_carrier: Value, mix_products: Value) -> Value:
    """Carrier volume aimed at: the one wanted of the visit, of the sprayer, or the most usual of its products."""
    usual = mix_products.usual_carrier
    known = magnitude(usual)[magnitude(usual) > 0]
    most = like(usual, known.max() if len(known) else np.nan)
    of_sprayer = where(blank(sprayer_carrier), most, sprayer_carrier)
    return where(blank(wanted_carrier), of_sprayer, wanted_carrier)


def carrier_volume(delivered_carrier: Value, carrier_aim: Value) -> Value:
    """Carrier volume that the mix is worked out with: the one delivered, else the one aimed at."""
    return where(blank(delivered_carrier), carrier_aim, delivered_carrier)


def calibration(sprayer: Value, sprayers: Value) -> Value:
    """How the sprayer was calibrated, in words."""
    return lookup(sprayer, sprayers.name, sprayers.calibration)


def capacity(sprayer: Value, sprayers: Value) -> Value:
    """Spray from one tank."""
    return lookup(sprayer, sprayers.name, sprayers.spray_capacity)


def dilution(sprayer: Value, sprayers: Value) -> Value:
    """Litres of spray from a litre in the tank: 1 but for a hose-end sprayer."""
    return lookup(sprayer, sprayers.name, dilution_of(sprayers.kind, sprayers.jar_dilution))


def treated_area(mix_lawns: Value) -> Value:
    """Area treated on all lawns of the visit."""
    return _total(mix_lawns.treated_area)


def remainder(sprayer: Value, sprayers: Value) -> Value:
    """What stays in the tank of the sprayer; 0 where it is not stated."""
    found = or_zero(lookup(sprayer, sprayers.name, sprayers.remainder))
    return where(blank(sprayer), np.nan, found)


def spray_volume(sprayer: Value, carrier_volume: Value, treated_area: Value, overlap: Value, remainder: Value) -> Value:
    """Spray to make: area × carrier volume × (1 + overlap) + what stays in the tank; blank where nothing is treated.

    A blank overlap or remainder counts as 0.
    """
    spray = treated_area * carrier_volume * (1 + or_zero(as_number(overlap))) + or_zero(remainder)
    return where((magnitude(treated_area) > 0) & ~blank(sprayer), spray, np.nan)


def loads(spray_volume: Value, capacity: Value) -> Value:
    """How many tank loads the spray takes, rounded up from nine decimals; blank where there is nothing to make.

    >>> from wbgen.units.quantity import FLOAT
    >>> float(loads(FLOAT("42.000000000001 L"), FLOAT("14 L"))), float(loads(FLOAT("42.1 L"), FLOAT("14 L")))
    (3.0, 4.0)
    """
    number = up(half_up(as_number(ratio(spray_volume, capacity)), 9))
    return where(number > 0, number, np.nan)


def part_load(loads: Value, loads_style: Value) -> Value:
    """ "yes" where full loads are followed by a part load: only if so chosen, and with more than one load."""
    part = (folded(loads_style)[0] == "full and part") & (loads > 1)
    return where(blank(loads), "", where(part, "yes", "no"))


def full_loads(loads: Value, part_load: Value) -> Value:
    """How many loads are alike: all of them, or all but the part load."""
    return loads - where(part_load == "yes", 1.0, 0.0)


def volume_full(loads: Value, part_load: Value, spray_volume: Value, capacity: Value) -> Value:
    """Spray of each of the loads that are alike: the capacity before a part load, else an equal share."""
    return where(part_load == "yes", capacity, ratio(spray_volume, loads))


def volume_last(full_loads: Value, part_load: Value, spray_volume: Value, capacity: Value) -> Value:
    """Spray of the part load, what the full ones leave; blank where there is none."""
    return where(part_load == "yes", spray_volume - full_loads * capacity, np.nan)


@of_family("loads")
def fill_each(volume_each: Value, dilution: Value) -> Value:
    """Volume to fill the tank to."""
    return ratio(volume_each, dilution)


@of_family("loads")
def liquids_each(volume_each: Value, mix_products: Value) -> Value:
    """Volume of all liquid products in the load."""
    return where(blank(volume_each), np.nan, _total(mix_products.pour_each))


@of_family("loads")
def clean_water_each(fill_each: Value, liquids_each: Value) -> Value:
    """Clean water in the load; less than nothing where the liquids alone overfill it. Solids take no room."""
    return fill_each - liquids_each


@of_family("loads")
def first_fill_each(fill_each: Value, liquids_each: Value, mix_products: Value) -> Value:
    """Water to begin with: half the tank, or what the liquids and the buckets of dissolved solids leave room for."""
    room = fill_each - liquids_each - _total(mix_products.bucket_each)
    return where(magnitude(room.to(fill_each.units)) < magnitude(fill_each) / 2, room, fill_each / 2)


def least_carrier(dilution: Value, mix_products: Value) -> Value:
    """Carrier volume at which the liquids alone would fill the tank, at the rates of the mix."""
    return _total(mix_products.rate_volume) * or_zero(dilution)


def salts(mix_products: Value) -> Value:
    """Dissolved salts of all products in the spray, mass a volume."""
    return _total(mix_products.salts)


def salts_share(salts: Value, settings: Value) -> Value:
    """Dissolved salts as a share, w/v."""
    return as_number(ratio(salts, settings.volume_basis))


def water_used(water_temperature: Value, settings: Value) -> Value:
    """Temperature of the water: the one given, else the one of the settings."""
    return where(blank(water_temperature), settings.water_temperature, water_temperature)


def solubility_share(mix_products: Value) -> Value:
    """Share of solubility used by all products together."""
    return as_number(_total(mix_products.solubility_share))


def salt_load(mix_products: Value) -> Value:
    """Salt load of all products on the treated area, as mass of the reference salt an area."""
    return _total(mix_products.salt_load)


def soluble_nitrogen(mix_products: Value) -> Value:
    """Soluble nitrogen of all products on the treated area."""
    return _total(mix_products.soluble_nitrogen)


def limit_factor(watered_in: Value, settings: Value) -> Value:
    """What the limits of salt load and of nitrogen are multiplied by: more than 1 where the spray is watered in.

    An empty setting widens nothing.
    """
    factor = as_number(settings.watered_in_factor)
    return where((folded(watered_in)[0] == "yes") & ~blank(factor), factor, 1.0)


def _total(values: Value) -> Value:
    """Sum of a column as a scalar; a blank counts as nothing."""
    return like(values, np.sum(magnitude(or_zero(values))))
