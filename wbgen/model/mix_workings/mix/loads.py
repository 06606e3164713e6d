"""This visit: from the lawns, the sprayer and the products to litres and loads.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.dates import or_first, season_start_of
from wbgen.model.tools.elementwise import as_number, blank, folded, like, magnitude, or_zero, ratio, where
from wbgen.model.tools.jar import dilution_of
from wbgen.model.tools.relations import lookup, total
from wbgen.model.tools.rounding import half_up, up
from wbgen.model.types import (
    Area,
    Date,
    MassPerArea,
    MassPerVolume,
    NitrogenPerArea,
    Number,
    PotashPerVolume,
    Quantity,
    SulphatePerVolume,
    Table,
    Temperature,
    Text,
    Volume,
    VolumePerArea,
)


def visit_date(date: Date, date_else: Date) -> Date:
    """Serial date of the visit: the one typed, else that of the tank or the as-of date."""
    return where(blank(date), date_else, date)


def season_start(visit_date: Date, settings: Table) -> Date:
    """Serial date of the start of the season that the visit is in."""
    return season_start_of(visit_date, or_first(settings.season_month), or_first(settings.season_day))


def delivered_carrier(sprayer: Text, sprayers: Table) -> VolumePerArea:
    """Carrier volume that the sprayer delivers; blank for an unknown sprayer or one never calibrated."""
    return lookup(sprayer, sprayers.name, sprayers.carrier_volume)


def sprayer_carrier(sprayer: Text, sprayers: Table) -> VolumePerArea:
    """Carrier volume wanted of this sprayer, whatever the mix."""
    return lookup(sprayer, sprayers.name, sprayers.wanted_carrier)


def carrier_aim(wanted_carrier: VolumePerArea, sprayer_carrier: VolumePerArea, mix_products: Table) -> VolumePerArea:
    """Carrier volume aimed at: the one wanted of the visit, of the sprayer, or the most usual of its products."""
    usual = mix_products.usual_carrier
    known = magnitude(usual)[magnitude(usual) > 0]
    most = like(usual, known.max() if len(known) else np.nan)
    of_sprayer = where(blank(sprayer_carrier), most, sprayer_carrier)
    return where(blank(wanted_carrier), of_sprayer, wanted_carrier)


def carrier_volume(delivered_carrier: VolumePerArea, carrier_aim: VolumePerArea) -> VolumePerArea:
    """Carrier volume that the mix is worked out with: the one delivered, else the one aimed at."""
    return where(blank(delivered_carrier), carrier_aim, delivered_carrier)


def calibration(sprayer: Text, sprayers: Table) -> Text:
    """How the sprayer was calibrated, in words."""
    return lookup(sprayer, sprayers.name, sprayers.calibration)


def capacity(sprayer: Text, sprayers: Table) -> Volume:
    """Spray from one tank."""
    return lookup(sprayer, sprayers.name, sprayers.spray_capacity)


def dilution(sprayer: Text, sprayers: Table) -> Number:
    """Litres of spray from a litre in the tank: 1 but for a hose-end sprayer."""
    return lookup(sprayer, sprayers.name, dilution_of(sprayers.kind, sprayers.jar_dilution))


def treated_area(mix_lawns: Table) -> Area:
    """Area treated on all lawns of the visit."""
    return total(mix_lawns.treated_area)


def remainder(sprayer: Text, sprayers: Table) -> Volume:
    """What stays in the tank of the sprayer; 0 where it is not stated."""
    found = or_zero(lookup(sprayer, sprayers.name, sprayers.remainder))
    return where(blank(sprayer), np.nan, found)


def spray_volume(
    sprayer: Text, carrier_volume: VolumePerArea, treated_area: Area, overlap: Number, remainder: Volume
) -> Volume:
    """Spray to make: treated area (m²) × carrier volume (L/ha) × (1 + overlap) + what stays in the tank (L).

    Blank where nothing is treated; a blank overlap (a share) or remainder counts as 0. Area times rate is exact; the
    overlap and the remainder are common practice, no source.

    >>> from wbgen.units.quantity import FLOAT
    >>> made = spray_volume("knapsack", FLOAT("500 L/ha"), FLOAT("80 m**2"), 0.25, FLOAT("1 L"))
    >>> round(float(made.to("L").magnitude), 9)
    6.0
    """
    spray = treated_area * carrier_volume * (1 + or_zero(as_number(overlap))) + or_zero(remainder)
    return where((magnitude(treated_area) > 0) & ~blank(sprayer), spray, np.nan)


def loads(spray_volume: Volume, capacity: Volume) -> Number:
    """How many tank loads the spray takes: spray (L) ÷ capacity (L), rounded up from nine decimals.

    Blank where there is nothing to make. Common practice, no source.

    >>> from wbgen.units.quantity import FLOAT
    >>> float(loads(FLOAT("42.000000000001 L"), FLOAT("14 L"))), float(loads(FLOAT("42.1 L"), FLOAT("14 L")))
    (3.0, 4.0)
    """
    number = up(half_up(as_number(ratio(spray_volume, capacity)), 9))
    return where(number > 0, number, np.nan)


def part_load(loads: Number, loads_style: Text) -> Text:
    """ "yes" where full loads are followed by a part load: only if so chosen, and with more than one load."""
    part = (folded(loads_style)[0] == "full and part") & (loads > 1)
    return where(blank(loads), "", where(part, "yes", "no"))


def full_loads(loads: Number, part_load: Text) -> Number:
    """How many loads are alike: all of them, or all but the part load."""
    return loads - where(part_load == "yes", 1.0, 0.0)


def volume_full(loads: Number, part_load: Text, spray_volume: Volume, capacity: Volume) -> Volume:
    """Spray of each of the loads that are alike: the capacity (L) before a part load, else spray (L) ÷ loads.

    Common practice, no source.

    >>> from wbgen.units.quantity import FLOAT
    >>> [float(volume_full(3.0, part, FLOAT("36 L"), FLOAT("14 L")).magnitude) for part in ("no", "yes")]
    [12.0, 14.0]
    """
    return where(part_load == "yes", capacity, ratio(spray_volume, loads))


def volume_last(full_loads: Number, part_load: Text, spray_volume: Volume, capacity: Volume) -> Volume:
    """Spray of the part load: spray (L) − full loads × capacity (L); blank where there is none.

    Common practice, no source.

    >>> from wbgen.units.quantity import FLOAT
    >>> float(volume_last(2.0, "yes", FLOAT("36 L"), FLOAT("14 L")).magnitude)
    8.0
    """
    return where(part_load == "yes", spray_volume - full_loads * capacity, np.nan)


@of_family("loads")
def fill_each(volume_each: Volume, dilution: Number) -> Volume:
    """Volume to fill the tank to."""
    return ratio(volume_each, dilution)


@of_family("loads")
def liquids_each(volume_each: Volume, mix_products: Table) -> Volume:
    """Volume of all liquid products in the load."""
    return where(blank(volume_each), np.nan, total(mix_products.pour_each))


@of_family("loads")
def clean_water_each(fill_each: Volume, liquids_each: Volume) -> Volume:
    """Clean water in the load: what the tank is filled to (L) − all liquids (L); below 0 where these alone overfill it.

    Solids take no room, since the tank is topped up to the mark. Common practice, no source.

    >>> from wbgen.units.quantity import FLOAT
    >>> float(clean_water_each(FLOAT("14 L"), FLOAT("0.5 L")).magnitude)
    13.5
    """
    return fill_each - liquids_each


@of_family("loads")
def first_fill_each(fill_each: Volume, liquids_each: Volume, mix_products: Table, settings: Table) -> Volume:
    """Water to begin with: a share of the tank, or what liquids and buckets of dissolved solids leave; at least 0."""
    room = fill_each - liquids_each - total(mix_products.bucket_each)
    wanted = fill_each * where(blank(settings.first_fill), 1.0, settings.first_fill)
    begun = where(magnitude(room.to(wanted.units)) < magnitude(wanted), room, wanted)
    return where(magnitude(begun) > 0, begun, 0.0 * begun)


def full_steps(card: Table, mix_checks: Table, mix_water: Table) -> Number:
    """How many steps a full tank takes: water first and last, acid for the water, and the products."""
    return 0.0 if blank(card.fill_mark) else mix_checks.found_products + 2 + mix_water.steps_full


def least_carrier(dilution: Number, mix_products: Table) -> VolumePerArea:
    """Carrier volume at which the liquids alone would fill the tank: Σ their rates (mL/m²) × the jar's dilution.

    Common practice, no source.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> products = SimpleNamespace(rate_volume=FLOAT.Quantity(np.array([2.0, np.nan, 3.0]), "mL/m**2"))
    >>> round(float(least_carrier(1.0, products).to("L/ha").magnitude), 9)
    50.0
    """
    return total(mix_products.rate_volume) * or_zero(dilution)


def salts(mix_products: Table) -> MassPerVolume:
    """Dissolved salts of all products in the spray, mass a volume."""
    return total(mix_products.salts)


def salts_share(salts: MassPerVolume, settings: Table) -> Number:
    """Dissolved salts (g/L) as a share, w/v: 10 g/L are 1 %, by the settings' 1 kg/L.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> float(salts_share(FLOAT("10 g/L"), SimpleNamespace(volume_basis=FLOAT("1 kg/L"))))
    0.01
    """
    return as_number(ratio(salts, settings.volume_basis))


def water_used(water_temperature: Temperature, settings: Table) -> Temperature:
    """Temperature of the water: the one given, else the one of the settings."""
    return where(blank(water_temperature), settings.water_temperature, water_temperature)


def solubility_share(mix_products: Table) -> Number:
    """Share of solubility used by all solids of which it is known; blank where there are solids and it is of none."""
    nothing_known = np.any(~blank(mix_products.in_water_mass)) and np.all(blank(mix_products.solubility_share))
    return np.nan if nothing_known else as_number(total(mix_products.solubility_share))


def potash_in_water(
    carrier_volume: VolumePerArea, dilution: Number, overlap: Number, mix_nutrients: Table
) -> PotashPerVolume:
    """Potassium in the tank (g K2O/L): what the passes lay (g/m²), less their overlap, ÷ carrier volume × dilution."""
    return _in_tank(mix_nutrients.rate_potash, carrier_volume, dilution, overlap)


def sulphate_in_water(
    carrier_volume: VolumePerArea, dilution: Number, overlap: Number, mix_nutrients: Table
) -> SulphatePerVolume:
    """Sulphate in the tank (g SO3/L), in the same way."""
    return _in_tank(mix_nutrients.rate_sulphur_trioxide, carrier_volume, dilution, overlap)


def _in_tank(laid: Quantity, carrier_volume: VolumePerArea, dilution: Number, overlap: Number) -> Quantity:
    """
    >>> from wbgen.units.quantity import FLOAT
    >>> found = _in_tank(FLOAT("1.2 g_K2O/m**2"), FLOAT("500 L/ha"), 1.0, 0.2)
    >>> round(float(found.to("g_K2O/L").magnitude), 9)
    20.0
    """
    return ratio(laid / (1 + or_zero(as_number(overlap))), carrier_volume) * dilution


def salt_load(mix_products: Table) -> MassPerArea:
    """Salt load of all products on the treated area, as mass of the reference salt an area."""
    return total(mix_products.salt_load)


def soluble_nitrogen(mix_products: Table) -> NitrogenPerArea:
    """Soluble nitrogen of all products on the treated area."""
    return total(mix_products.soluble_nitrogen)


def limit_factor(watered_in: Text, settings: Table) -> Number:
    """What the limits of salt load and of nitrogen are multiplied by: more than 1 where the spray is watered in.

    An empty setting widens nothing.
    """
    factor = as_number(settings.watered_in_factor)
    return where((folded(watered_in)[0] == "yes") & ~blank(factor), factor, 1.0)
