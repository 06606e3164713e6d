"""What is typed for each product on the sheet Mix, in the unit that it goes by."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, is_word, only, where
from wbgen.model.types import Each, MassPerArea, NitrogenPerArea, Number, NutrientPerArea, Table, Text, VolumePerArea


def product(chosen_products: Table) -> Each[Text]:
    """The product."""
    return chosen_products.product


def own_rate_mass(measured_by: Each[Text], chosen_products: Table, ones: Table) -> Each[MassPerArea]:
    """The rate that is typed of a product that goes by mass: so many of the planner's mass an area.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> typed = SimpleNamespace(own_rate=FLOAT.Quantity(np.array([2.0, 3.0]), "1/m**2"))
    >>> by = np.array(["mass", "volume"], dtype=object)
    >>> own_rate_mass(by, typed, SimpleNamespace(one_mass=FLOAT("1 g"))).to("g/m**2").magnitude
    array([ 2., nan])
    """
    return where(is_word(measured_by, "volume"), np.nan, chosen_products.own_rate * only(ones.one_mass))


def own_rate_volume(measured_by: Each[Text], chosen_products: Table, ones: Table) -> Each[VolumePerArea]:
    """The rate that is typed of a product that goes by volume: so many of the planner's volume an area."""
    return where(is_word(measured_by, "volume"), chosen_products.own_rate * only(ones.one_volume), np.nan)


def own_text(chosen_products: Table) -> Each[Number]:
    """1 where something other than a number stands as a rate; else 0."""
    return where(chosen_products.misplaced_own_rate, 1.0, 0.0)


def wanted_nitrogen(chosen_products: Table) -> Each[NitrogenPerArea]:
    """The nitrogen that is wanted."""
    return chosen_products.wanted_nitrogen


@of_family("other_nutrients")
def wanted_each(chosen_targets: Table) -> Each[NutrientPerArea]:
    """Another nutrient that is wanted."""
    return chosen_targets.wanted_each


def wanted_text(chosen_products: Table, chosen_targets: Table) -> Each[Number]:
    """1 where something other than a number stands as a nutrient that is wanted; else 0."""
    return where(chosen_products.misplaced_wanted_nitrogen | ~blank(chosen_targets.fix), 1.0, 0.0)
