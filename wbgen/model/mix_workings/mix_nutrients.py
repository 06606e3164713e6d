"""What this visit brings of each nutrient, on the treated area.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import or_zero
from wbgen.model.types import ElementPerArea, NutrientMass, NutrientPerArea, Table


@of_family("nutrients")
def rate_each(mix_products: Table) -> NutrientPerArea:
    """The nutrient (g/m²) of all products together."""
    return or_zero(mix_products.delivered_each).sum()


@of_family("nutrients")
def hectare_each(rate_each: NutrientPerArea) -> NutrientPerArea:
    """The nutrient (kg/ha) on the treated area, for a reader who thinks in large areas."""
    return rate_each


@of_family("oxides")
def element_each(rate_each: NutrientPerArea, oxides: Table) -> ElementPerArea:
    """The element (g/m²) that is in the oxide."""
    return rate_each * oxides.element_in_each


@of_family("nutrients")
def grams_each(rate_each: NutrientPerArea, mix: Table) -> NutrientMass:
    """The nutrient (g) on the whole treated area."""
    return rate_each * mix.treated_area
