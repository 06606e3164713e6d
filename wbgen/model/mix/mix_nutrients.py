"""What this visit brings of each nutrient, on the treated area. All of it are scalars."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import or_zero

Value = Any


@of_family("nutrients")
def rate_each(mix_products: Value) -> Value:
    """The nutrient (g/m²) of all products together."""
    return or_zero(mix_products.delivered_each).sum()


@of_family("nutrients")
def hectare_each(rate_each: Value) -> Value:
    """The same, for a reader who thinks in large areas (kg/ha)."""
    return rate_each


@of_family("oxides")
def element_each(rate_each: Value, oxides: Value) -> Value:
    """The element (g/m²) that is in the oxide."""
    return rate_each * oxides.element_in_each


@of_family("nutrients")
def grams_each(rate_each: Value, mix: Value) -> Value:
    """The nutrient (g) on the whole treated area."""
    return rate_each * mix.treated_area
