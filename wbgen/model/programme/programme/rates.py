"""At what rate each line of the programme goes on, and what that comes to."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, folded, or_zero, where
from wbgen.model.tools.lines import at, match
from wbgen.model.types import (
    Area,
    Each,
    Mask,
    Mass,
    MassPerArea,
    Number,
    NutrientPerArea,
    Quantity,
    Table,
    Text,
    Volume,
    VolumePerArea,
)
from wbgen.trade.families import Member


def product_line(product: Each[Text], products: Table) -> Each[Number]:
    """The line of each product in the catalogue, the heading row being line 1; blank for an unknown one."""
    return match(product, products.name)


def _dry(method: Each[Text]) -> Mask:
    """True where a line is spread dry; a line that does not say how counts as sprayed."""
    return folded(method) == "dry"


def carrier_volume(
    method: Each[Text], own_carrier: Each[VolumePerArea], product_line: Each[Number], products: Table
) -> Each[VolumePerArea]:
    """The carrier volume (L/ha): the line's own, else the product's usual one; blank for what is spread dry."""
    taken = where(blank(own_carrier), at(products.usual_carrier, product_line), own_carrier)
    return where(_dry(method) | blank(product_line), np.nan, taken)


def usual_mass(
    method: Each[Text], carrier_volume: Each[VolumePerArea], product_line: Each[Number], products: Table
) -> Each[MassPerArea]:
    """The label's usual application rate (g/m²) by the line's method.

    A label that gives a dilution means that times the carrier volume.
    """
    sprayed = _else(
        at(products.spray_mass_usual, product_line), at(products.diluted_mass_usual, product_line) * carrier_volume
    )
    usual = where(_dry(method), at(products.dry_mass_usual, product_line), sprayed)
    return where(blank(product_line), np.nan, usual)


def usual_volume(
    method: Each[Text], carrier_volume: Each[VolumePerArea], product_line: Each[Number], products: Table
) -> Each[VolumePerArea]:
    """The label's usual application rate (mL/m²), which is for spraying.

    A label that gives a dilution means that times the carrier volume.
    """
    sprayed = _else(
        at(products.spray_volume_usual, product_line), at(products.diluted_volume_usual, product_line) * carrier_volume
    )
    return where(blank(product_line) | _dry(method), np.nan, sprayed)


def rate_mass(
    own_rate_mass: Each[MassPerArea], usual_mass: Each[MassPerArea], product_line: Each[Number], products: Table
) -> Each[MassPerArea]:
    """The application rate of a solid (g/m²): the line's own, else the usual one. Blank for what goes by volume."""
    solid = ~blank(product_line) & (folded(at(products.measured_by, product_line)) != "volume")
    return where(solid, _else(own_rate_mass, usual_mass), np.nan)


def rate_volume(
    own_rate_volume: Each[VolumePerArea],
    usual_volume: Each[VolumePerArea],
    product_line: Each[Number],
    products: Table,
) -> Each[VolumePerArea]:
    """The application rate of a liquid (mL/m²): the line's own, else the usual one. Blank for what goes by mass."""
    liquid = ~blank(product_line) & (folded(at(products.measured_by, product_line)) != "mass")
    return where(liquid, _else(own_rate_volume, usual_volume), np.nan)


def _else(first: Each[Quantity], second: Each[Quantity]) -> Each[Quantity]:
    """`first`, or where it is blank `second`, in the unit of the first."""
    return where(blank(first), second.to(first.units), first)


@of_family("nutrients")
def by_area_each(
    each: Member,
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    product_line: Each[Number],
    products: Table,
) -> Each[NutrientPerArea]:
    """The nutrient (g/m²) that one visit brings: rate times what is in the product, a blank counting as nothing."""
    unit = f"g_{each.says['symbol']}/m**2"
    solid = or_zero(rate_mass) * or_zero(at(products.mass_content_each, product_line))
    liquid = or_zero(rate_volume) * or_zero(at(products.volume_content_each, product_line))
    return where(blank(product_line), np.nan, solid.to(unit) + liquid.to(unit))


@of_family("nutrients")
def year_each(by_area_each: Each[NutrientPerArea], times_planned: Each[Number]) -> Each[NutrientPerArea]:
    """The nutrient (g/m²) that all of the line's visits bring: that of one, times their number."""
    return by_area_each * times_planned


def mass_all(rate_mass: Each[MassPerArea], area_counted: Each[Area], times_planned: Each[Number]) -> Each[Mass]:
    """The mass (g) of a solid for all visits to all of the line's lawns."""
    return (rate_mass * area_counted * times_planned).to("g")


def volume_all(rate_volume: Each[VolumePerArea], area_counted: Each[Area], times_planned: Each[Number]) -> Each[Volume]:
    """The volume (mL) of a liquid for all visits to all of the line's lawns."""
    return (rate_volume * area_counted * times_planned).to("mL")


def water_each_time(carrier_volume: Each[VolumePerArea], area_counted: Each[Area]) -> Each[Volume]:
    """The spray (L) for one visit to all of the line's lawns."""
    return (carrier_volume * area_counted).to("L")
