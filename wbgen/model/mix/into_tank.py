"""What goes into the tank, in its order: acid for the water first, where there is any, then the products.

One record a thing that goes in: shape (into_tank,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, is_word, only, ratio, where
from wbgen.model.tools.relations import find, pick
from wbgen.model.types import Each, Mask, Mass, Number, PerArea, Quantity, T, Table, Text, Volume
from wbgen.units.quantity import label

BLANK_UNLESS = ("what",)


def what(line: Each[Number], mix_products: Table, mix_water: Table) -> Each[Text]:
    """The product that goes in at this line."""
    return where(
        _is_acid(line, mix_water), "Citric acid (water)", _of(line, mix_products.product, mix_products, mix_water)
    )


def rate(line: Each[Number], mix_products: Table, mix_water: Table, ones: Table) -> Each[PerArea]:
    """Its application rate, as a plain number an area."""
    return _plain(line, mix_products.rate_mass, mix_products.rate_volume, mix_products, mix_water, ones)


def measured_in(line: Each[Number], mix_products: Table, mix_water: Table, ones: Table) -> Each[Text]:
    """In what its rate is."""
    mass, volume = (label(str(one.units)) for one in (ones.one_mass, ones.one_volume))
    by = _of(line, mix_products.measured_by, mix_products, mix_water)
    return where(blank(by) | is_word(by, "mass"), mass, volume)


def rate_low(line: Each[Number], mix_products: Table, mix_water: Table, ones: Table) -> Each[PerArea]:
    """The least rate of its label."""
    return _plain(line, mix_products.label_mass_low, mix_products.label_volume_low, mix_products, mix_water, ones)


def rate_high(line: Each[Number], mix_products: Table, mix_water: Table, ones: Table) -> Each[PerArea]:
    """The highest rate of its label."""
    return _plain(line, mix_products.label_mass_high, mix_products.label_volume_high, mix_products, mix_water, ones)


@of_family("loads")
def weigh_each(line: Each[Number], mix_products: Table, mix_water: Table) -> Each[Mass]:
    """What is weighed of it."""
    weighed = _of(line, mix_products.weigh_each, mix_products, mix_water)
    return where(_is_acid(line, mix_water), mix_water.weigh_each, weighed)


@of_family("loads")
def pour_each(line: Each[Number], mix_products: Table, mix_water: Table) -> Each[Volume]:
    """What is poured of it."""
    return _of(line, mix_products.pour_each, mix_products, mix_water)


def _is_acid(line: Each[Number], mix_water: Table) -> Mask:
    return (line == 1) & (mix_water.steps_full == 1)


def _of(line: Each[Number], column: Each[T], mix_products: Table, mix_water: Table) -> Each[T]:
    places = find(line - mix_water.steps_full, mix_products.pouring_order)
    return pick(column, np.where(places >= 0, places, np.nan))


def _plain(
    line: Each[Number], mass: Each[Quantity], volume: Each[Quantity], mix_products: Table, mix_water: Table, ones: Table
) -> Each[PerArea]:
    solid = is_word(_of(line, mix_products.measured_by, mix_products, mix_water), "mass")
    solids, liquids = (_of(line, one, mix_products, mix_water) for one in (mass, volume))
    return where(solid, ratio(solids, only(ones.one_mass)), ratio(liquids, only(ones.one_volume)))
