"""What was put on by each line of the diary: its mass or volume, by area, against the plan and the label."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import as_number, blank, ratio, where
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.methods import by_method
from wbgen.model.tools.rates import share_used
from wbgen.model.types import (
    Area,
    Each,
    Mass,
    MassPerArea,
    Number,
    Table,
    Text,
    Volume,
    VolumePerArea,
)


def product_line(product: Each[Text], products: Table) -> Each[Number]:
    """Line of each product in the catalogue, its heading row being line 1; blank for an unknown one."""
    return match(product, products.name)


def lawn_line(lawn: Each[Text], lawns: Table) -> Each[Number]:
    """Line of each lawn among the lawns, their heading row being line 1; blank for an unknown one."""
    return match(lawn, lawns.name)


def area_counted(treated_area: Each[Area], lawn_line: Each[Number], lawns: Table) -> Each[Area]:
    """Area that the rate is worked out on: the treated area, or the lawn's of today where none was noted."""
    return where(blank(treated_area), at(lawns.area, lawn_line), treated_area)


def applied_mass(weighed: Each[Mass], water: Each[Volume], left_over: Each[Volume]) -> Each[Mass]:
    """Mass of solid product that reached the lawn: what was weighed (g) × the share used. Common practice, no source.

    >>> from wbgen.units.quantity import FLOAT
    >>> made, left = (FLOAT.Quantity(np.array([volume]), "L") for volume in (10.0, 2.0))
    >>> applied_mass(FLOAT.Quantity(np.array([50.0]), "g"), made, left).magnitude
    array([40.])
    """
    return weighed * share_used(water, left_over)


def applied_volume(poured: Each[Volume], water: Each[Volume], left_over: Each[Volume]) -> Each[Volume]:
    """Volume of liquid product that reached the lawn."""
    return poured * share_used(water, left_over)


def rate_mass(applied_mass: Each[Mass], area_counted: Each[Area]) -> Each[MassPerArea]:
    """Application rate achieved of a solid (g/m²): mass on the lawn (g) ÷ the area treated (m²).

    >>> from wbgen.units.quantity import FLOAT
    >>> rate_mass(FLOAT.Quantity(np.array([340.0]), "g"), FLOAT.Quantity(np.array([85.0]), "m**2")).magnitude
    array([4.])
    """
    return ratio(applied_mass, area_counted)


def rate_volume(applied_volume: Each[Volume], area_counted: Each[Area]) -> Each[VolumePerArea]:
    """Application rate achieved of a liquid, volume an area."""
    return ratio(applied_volume, area_counted)


def against_plan(
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    planned_mass_rate: Each[MassPerArea],
    planned_volume_rate: Each[VolumePerArea],
) -> Each[Number]:
    """Rate achieved over the planned one, less 1: of the solid where both are there, else of the liquid.

    >>> against_plan(np.array([3.0, np.nan]), np.array([9.0, 1.0]), np.array([2.0, np.nan]), np.array([4.0, 2.0]))
    array([ 0.5, -0.5])
    """
    solid, liquid = as_number(ratio(rate_mass, planned_mass_rate)), as_number(ratio(rate_volume, planned_volume_rate))
    return where(blank(solid), liquid, solid) - 1


def of_highest(
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    method: Each[Text],
    product_line: Each[Number],
    products: Table,
) -> Each[Number]:
    """The rate achieved over the highest that the product states for the line's method; blank where it states none.

    A label that gives a dilution has no highest rate here, and liquids have none for spreading dry but that to spray.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> highest = {key: FLOAT.Quantity(np.array([2.0]), "g/m**2") for key in ("spray_mass_high", "dry_mass_high")}
    >>> catalogue = SimpleNamespace(**highest, spray_volume_high=FLOAT.Quantity(np.array([np.nan]), "mL/m**2"))
    >>> rate, none = FLOAT.Quantity(np.array([3.0]), "g/m**2"), FLOAT.Quantity(np.array([np.nan]), "mL/m**2")
    >>> of_highest(rate, none, np.array(["spray"], dtype=object), np.array([2.0]), catalogue)
    array([1.5])
    """
    solid = by_method(method, product_line, products.spray_mass_high, products.dry_mass_high)
    liquid = at(products.spray_volume_high, product_line)
    of_solid = as_number(ratio(rate_mass, where(solid > 0, solid, np.nan)))
    of_liquid = as_number(ratio(rate_volume, where(liquid > 0, liquid, np.nan)))
    return where(blank(of_solid), of_liquid, of_solid)
