"""What was put on by each line of the diary: its mass or volume, by area, against the plan and the label."""

from __future__ import annotations

from wbgen.model.tools.elementwise import as_number, blank, folded, ratio, where
from wbgen.model.tools.lines import at, match
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


def family(product_line: Each[Number], products: Table) -> Each[Text]:
    """Family of the product: text, blank for an unknown product or one without a family."""
    return at(products.family, product_line)


def area_of_lawn(lawn_line: Each[Number], lawns: Table) -> Each[Area]:
    """Area of the whole lawn as it is today."""
    return at(lawns.area, lawn_line)


def area_counted(treated_area: Each[Area], area_of_lawn: Each[Area]) -> Each[Area]:
    """Area that the rate is worked out on: the treated area, or the lawn's where none was noted."""
    return where(blank(treated_area), area_of_lawn, treated_area)


def share_used(water: Each[Volume], left_over: Each[Volume]) -> Each[Number]:
    """Share of the spray that left the tank: 1 − left over ÷ spray made; 1 where either is blank or 0.

    Common practice, no source.

    >>> import numpy as np
    >>> share_used(np.array([10.0, 10.0, np.nan]), np.array([2.0, np.nan, 2.0]))
    array([0.8, 1. , 1. ])
    """
    return where(blank(ratio(left_over, water)), 1.0, 1 - as_number(ratio(left_over, water)))


def applied_mass(weighed: Each[Mass], share_used: Each[Number]) -> Each[Mass]:
    """Mass of solid product that reached the lawn: what was weighed (g) × the share used. Common practice, no source.

    >>> import numpy as np
    >>> from wbgen.units.quantity import FLOAT
    >>> applied_mass(FLOAT.Quantity(np.array([50.0]), "g"), np.array([0.8])).magnitude
    array([40.])
    """
    return weighed * share_used


def applied_volume(poured: Each[Volume], share_used: Each[Number]) -> Each[Volume]:
    """Volume of liquid product that reached the lawn."""
    return poured * share_used


def rate_mass(applied_mass: Each[Mass], area_counted: Each[Area]) -> Each[MassPerArea]:
    """Application rate achieved of a solid (g/m²): mass on the lawn (g) ÷ the area treated (m²).

    >>> import numpy as np
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

    >>> import numpy as np
    >>> against_plan(np.array([3.0, np.nan]), np.array([9.0, 1.0]), np.array([2.0, np.nan]), np.array([4.0, 2.0]))
    array([ 0.5, -0.5])
    """
    solid, liquid = as_number(ratio(rate_mass, planned_mass_rate)), as_number(ratio(rate_volume, planned_volume_rate))
    return where(blank(solid), liquid, solid) - 1


def label_high_mass(product_line: Each[Number], method: Each[Text], products: Table) -> Each[MassPerArea]:
    """Highest label rate of a solid by the line's method; a label that gives a dilution has none here."""
    return where(
        folded(method) == "dry",
        at(products.dry_mass_high, product_line),
        at(products.spray_mass_high, product_line),
    )


def label_high_volume(product_line: Each[Number], products: Table) -> Each[VolumePerArea]:
    """Highest label rate of a liquid, by any method: liquids have none for spreading dry."""
    return at(products.spray_volume_high, product_line)
