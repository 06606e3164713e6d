"""What is weighed and poured for a load, and how far that is from what is exact."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import measuring
from wbgen.model.tools.elementwise import as_number, blank, is_word, or_zero, ratio, where
from wbgen.model.tools.lines import at
from wbgen.model.types import (
    Each,
    Mass,
    MassPerArea,
    MassPerVolume,
    Money,
    Number,
    Table,
    Text,
    Volume,
    VolumePerArea,
    VolumePerVolume,
)


def in_water_mass(rate_mass: Each[MassPerArea], mix: Table) -> Each[MassPerVolume]:
    """The concentration (g/L) of a solid in the spray: rate (g/m²) ÷ carrier volume (L/ha); blank without a rate.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> mix = SimpleNamespace(carrier_volume=FLOAT("500 L/ha"))
    >>> in_water_mass(FLOAT.Quantity(np.array([4.0, 0.0]), "g/m**2"), mix).to("g/L").magnitude.round(9)
    array([80., nan])
    """
    return measuring.concentration(rate_mass, mix.carrier_volume)


def in_water_volume(rate_volume: Each[VolumePerArea], mix: Table) -> Each[VolumePerVolume]:
    """The concentration (mL/L) of a liquid in the spray: rate ÷ carrier volume; blank without a rate."""
    return measuring.concentration(rate_volume, mix.carrier_volume)


@of_family("loads")
def exact_mass_each(in_water_mass: Each[MassPerVolume], mix: Table) -> Each[Mass]:
    """The mass (g) of a solid in a load, before any rounding: concentration (g/L) × spray of the load (L).

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> load = SimpleNamespace(volume_each=FLOAT("4.25 L"))
    >>> exact_mass_each(FLOAT.Quantity(np.array([80.0]), "g/L"), load).to("g").magnitude
    array([340.])
    """
    return in_water_mass * mix.volume_each


@of_family("loads")
def exact_volume_each(in_water_volume: Each[VolumePerVolume], mix: Table) -> Each[Volume]:
    """The volume (mL) of a liquid in a load, before any rounding."""
    return in_water_volume * mix.volume_each


@of_family("loads")
def scale_step_each(exact_mass_each: Each[Mass], scales: Table) -> Each[Mass]:
    """The step (g) of the finest scale whose capacity suffices, else of the coarse one."""
    return measuring.step(exact_mass_each, scales.fine_scale_step, scales.coarse_scale_step, scales.fine_scale_capacity)


@of_family("loads")
def jug_step_each(exact_volume_each: Each[Volume], scales: Table) -> Each[Volume]:
    """The step (mL) of the finest jug whose capacity suffices, else of the coarse one."""
    return measuring.step(exact_volume_each, scales.fine_jug_step, scales.coarse_jug_step, scales.fine_jug_capacity)


@of_family("loads")
def weigh_each(
    exact_mass_each: Each[Mass], scale_step_each: Each[Mass], label_mass_high: Each[MassPerArea], mix: Table
) -> Each[Mass]:
    """What to weigh (g) for a load: the nearest step (g), or the one below where that exceeds the label's high rate.

    The label's rate is in g/m². Common practice, no source. Measured to the nearest gram, 340.6 g would be 341 g; at
    most 4 g/m² on 85 m² leaves 340 g.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> load = SimpleNamespace(volume_each=FLOAT("4.25 L"), carrier_volume=FLOAT("500 L/ha"), overlap=np.nan)
    >>> exact, step = FLOAT.Quantity(np.array([340.6, 340.6]), "g"), FLOAT.Quantity(np.array([1.0, 1.0]), "g")
    >>> weigh_each(exact, step, FLOAT.Quantity(np.array([5.0, 4.0]), "g/m**2"), load).magnitude
    array([341., 340.])
    """
    return measuring.to_measure(exact_mass_each, scale_step_each, label_mass_high, mix.volume_each, mix)


@of_family("loads")
def pour_each(
    exact_volume_each: Each[Volume], jug_step_each: Each[Volume], label_volume_high: Each[VolumePerArea], mix: Table
) -> Each[Volume]:
    """What to pour (mL) for a load: the nearest step, or the one below where that exceeds the label's high rate."""
    return measuring.to_measure(exact_volume_each, jug_step_each, label_volume_high, mix.volume_each, mix)


def mass_total(weigh_full: Each[Mass], weigh_last: Each[Mass], mix: Table) -> Each[Mass]:
    """What is weighed (g) for all loads, the part load counting nothing where there is none."""
    return weigh_full * mix.full_loads + or_zero(weigh_last)


def volume_total(pour_full: Each[Volume], pour_last: Each[Volume], mix: Table) -> Each[Volume]:
    """What is poured (mL) for all loads, the part load counting nothing where there is none."""
    return pour_full * mix.full_loads + or_zero(pour_last)


def cost(
    mass_total: Each[Mass],
    volume_total: Each[Volume],
    measured_by: Each[Text],
    product_line: Each[Number],
    products: Table,
) -> Each[Money]:
    """What all loads together cost (currency); blank without a price of what the product is measured by."""
    solid = (mass_total * at(products.price_by_mass, product_line)).to("currency")
    liquid = (volume_total * at(products.price_by_volume, product_line)).to("currency")
    return where(is_word(measured_by, "mass"), solid, where(is_word(measured_by, "volume"), liquid, np.nan))


def rounding_error(
    mass_total: Each[Mass],
    volume_total: Each[Volume],
    exact_mass_full: Each[Mass],
    exact_mass_last: Each[Mass],
    exact_volume_full: Each[Volume],
    exact_volume_last: Each[Volume],
    mix: Table,
) -> Each[Number]:
    """What is measured of all loads ÷ what is exact, less 1: a share, of masses (g) or of volumes (mL).

    Common practice, no source.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> grams = lambda number: FLOAT.Quantity(np.array([number]), "g")
    >>> none, loads = FLOAT.Quantity(np.array([np.nan]), "mL"), SimpleNamespace(full_loads=2.0)
    >>> rounding_error(grams(100.0), none, grams(40.0), grams(np.nan), none, none, loads)
    array([0.25])
    """
    mass = ratio(mass_total, exact_mass_full * mix.full_loads + or_zero(exact_mass_last))
    volume = ratio(volume_total, exact_volume_full * mix.full_loads + or_zero(exact_volume_last))
    return where(~blank(mass), as_number(mass), as_number(volume)) - 1


def jar_mass(in_water_mass: Each[MassPerVolume], mix: Table, settings: Table) -> Each[Mass]:
    """The mass (g) of a solid in a jar test: concentration in the tank (g/L) × water in the jar (L).

    The proportions of the jar are those of the tank: Grains Research and Development Corporation, Spray application
    manual 7.5.
    """
    return in_water_mass * mix.dilution * settings.jar_volume


def jar_liquid(in_water_volume: Each[VolumePerVolume], mix: Table, settings: Table) -> Each[Volume]:
    """The volume (mL) of a liquid in a jar test: concentration in the tank (mL/L) × water in the jar (L).

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> mix, jar = SimpleNamespace(dilution=1.0), SimpleNamespace(jar_volume=FLOAT("0.7 L"))
    >>> rates = FLOAT.Quantity(np.array([2000.0, 800.0]), "mL/ha")
    >>> jar_liquid(rates / FLOAT("70 L/ha"), mix, jar).to("mL").magnitude.round(9)
    array([20.,  8.])
    """
    return in_water_volume * mix.dilution * settings.jar_volume
