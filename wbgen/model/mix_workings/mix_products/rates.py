"""Which rate each product goes on at: the label's, an own one, or one for a wanted nutrient."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools import measuring
from wbgen.model.tools.elementwise import as_number, blank, is_word, or_zero, ratio, where
from wbgen.model.tools.lines import at, match
from wbgen.model.types import Each, MassPerArea, Number, NutrientPerArea, Table, Text, VolumePerArea, each


def product_line(product: Each[Text], products: Table) -> Each[Number]:
    """The line of each product in the catalogue, the heading row being line 1; blank where it is not there."""
    return match(product, products.name)


def measured_by(product_line: Each[Number], products: Table) -> Each[Text]:
    """Whether a product goes by "mass" or by "volume"; blank where it is unknown."""
    return at(products.measured_by, product_line)


@reads_every(wanted="nutrients")
def rates_given(
    own_rate_mass: Each[MassPerArea], own_rate_volume: Each[VolumePerArea], wanted_every: list[Each[NutrientPerArea]]
) -> Each[Number]:
    """How many of the own rates and wanted nutrients are filled; 0 is filled."""
    return each(np.sum([~blank(rate) for rate in (own_rate_mass, own_rate_volume, *wanted_every)], axis=0, dtype=float))


def rate_from(
    rates_given: Each[Number], own_rate_mass: Each[MassPerArea], own_rate_volume: Each[VolumePerArea]
) -> Each[Text]:
    """Which rate is taken: the label's usual one unless just one other is given."""
    single = where(~blank(own_rate_mass) | ~blank(own_rate_volume), "own", "wanted")
    return where(rates_given == 0, "usual", where(rates_given > 1, "two rates", single))


def usual_carrier(product_line: Each[Number], products: Table) -> Each[VolumePerArea]:
    """The carrier volume (L/ha) that each product usually has."""
    return at(products.usual_carrier, product_line)


@of_family("levels")
def label_mass_each(product_line: Each[Number], products: Table, mix: Table) -> Each[MassPerArea]:
    """The label rate of a solid (g/m²); of a label that gives a dilution (g/L), that times the carrier volume (L/ha).

    So a dilution moves with the carrier volume. Common practice, no source.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> fixed, diluted = FLOAT.Quantity(np.array([np.nan]), "g/m**2"), FLOAT.Quantity(np.array([3.0]), "g/L")
    >>> products = SimpleNamespace(spray_mass_each=fixed, diluted_mass_each=diluted)
    >>> mix = SimpleNamespace(carrier_volume=FLOAT("1000 L/ha"))
    >>> label_mass_each(np.array([2.0]), products, mix).to("g/m**2").magnitude.round(9)
    array([0.3])
    """
    fixed = at(products.spray_mass_each, product_line)
    return where(~blank(fixed), fixed, at(products.diluted_mass_each, product_line) * mix.carrier_volume)


@of_family("levels")
def label_volume_each(product_line: Each[Number], products: Table, mix: Table) -> Each[VolumePerArea]:
    """The label rate of a liquid (mL/m²); where the label gives a dilution, that times the carrier volume."""
    fixed = at(products.spray_volume_each, product_line)
    return where(~blank(fixed), fixed, at(products.diluted_volume_each, product_line) * mix.carrier_volume)


@of_family("nutrients")
def wanted_mass_each(
    wanted_each: Each[NutrientPerArea], product_line: Each[Number], products: Table
) -> Each[MassPerArea]:
    """The rate (g/m²) at which a solid alone brings the nutrient wanted (g/m²): that ÷ content (g/g).

    Blank where it holds none. C. Waltz, University of Georgia, Fertilizer Calculations for Attractive, Healthy
    Lawns: a pound of nitrogen needs ten pounds of a product of 10 %.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> wanted = FLOAT.Quantity(np.array([1.0]), "lb_N/thousand_square_feet")
    >>> products = SimpleNamespace(mass_content_each=FLOAT.Quantity(np.array([0.1]), "g_N/g"))
    >>> wanted_mass_each(wanted, np.array([2.0]), products).to("lb/thousand_square_feet").magnitude.round(9)
    array([10.])
    """
    return ratio(wanted_each, at(products.mass_content_each, product_line))


@of_family("nutrients")
def wanted_volume_each(
    wanted_each: Each[NutrientPerArea], product_line: Each[Number], products: Table
) -> Each[VolumePerArea]:
    """The rate (mL/m²) at which a liquid alone brings the wanted nutrient; blank where it holds none."""
    return ratio(wanted_each, at(products.volume_content_each, product_line))


@reads_every(wanted_mass="nutrients")
def rate_mass(
    measured_by: Each[Text],
    rate_from: Each[Text],
    own_rate_mass: Each[MassPerArea],
    label_mass_usual: Each[MassPerArea],
    wanted_mass_every: list[Each[MassPerArea]],
) -> Each[MassPerArea]:
    """The application rate of a solid, in the unit of own rates; blank for what is measured by volume."""
    rate = measuring.rate(rate_from, own_rate_mass, label_mass_usual, wanted_mass_every)
    return where(is_word(measured_by, "volume"), np.nan, rate)


@reads_every(wanted_volume="nutrients")
def rate_volume(
    measured_by: Each[Text],
    rate_from: Each[Text],
    own_rate_volume: Each[VolumePerArea],
    label_volume_usual: Each[VolumePerArea],
    wanted_volume_every: list[Each[VolumePerArea]],
) -> Each[VolumePerArea]:
    """The application rate of a liquid, in the unit of own rates; blank for what is measured by mass."""
    rate = measuring.rate(rate_from, own_rate_volume, label_volume_usual, wanted_volume_every)
    return where(is_word(measured_by, "mass"), np.nan, rate)


def laid_mass(rate_mass: Each[MassPerArea], mix: Table) -> Each[MassPerArea]:
    """What comes on the grass (g/m²) of a solid: rate (g/m²) × (1 + overlap); limits are held against it.

    Common practice, no source.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> laid_mass(FLOAT.Quantity(np.array([4.0]), "g/m**2"), SimpleNamespace(overlap=0.25)).magnitude
    array([5.])
    """
    return rate_mass * (1 + or_zero(as_number(mix.overlap)))


def laid_volume(rate_volume: Each[VolumePerArea], mix: Table) -> Each[VolumePerArea]:
    """What comes on the grass (mL/m²) of a liquid where passes overlap; limits are held against it."""
    return rate_volume * (1 + or_zero(as_number(mix.overlap)))
