"""The same total of this season, added up four ways.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import like, magnitude, where
from wbgen.model.tools.relations import total
from wbgen.model.tools.rounding import half_up
from wbgen.model.types import NutrientMass, Table, Text


@of_family("nutrients")
def diary_each(diary: Table) -> NutrientMass:
    """Nutrient of all this season's lines."""
    return total(like(diary.load_each, where(diary.season_month > 0, magnitude(diary.load_each), 0.0)))


@of_family("nutrients")
def lawns_each(season_grams: Table) -> NutrientMass:
    """Nutrient of this season, added up by lawn."""
    return total(season_grams.load_each)


@of_family("nutrients")
def products_each(season_products: Table) -> NutrientMass:
    """Nutrient of this season, added up by product."""
    return total(season_products.load_each)


@of_family("nutrients")
def months_each(months_together: Table) -> NutrientMass:
    """Nutrient of this season, added up by calendar month."""
    return total(months_together.load_each)


@of_family("nutrients")
def agree_each(
    diary_each: NutrientMass, lawns_each: NutrientMass, products_each: NutrientMass, months_each: NutrientMass
) -> Text:
    """ "yes" where no total differs from the diary's, to six decimals of the diary's unit, else "no"."""
    differences = [(total - diary_each).to(diary_each.units) for total in (lawns_each, products_each, months_each)]
    return "yes" if all(magnitude(half_up(one, 6)) == 0 for one in differences) else "no"
