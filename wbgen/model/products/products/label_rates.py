"""What the label rates of each product come to, in one unit for all.

The kinds of rate units are numbered: 1 mass, 2 volume, 3 packs, from 4 a nutrient each, 12 dilution by volume, 13
dilution by mass.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools.elementwise import as_number, blank, like, ratio, where, with_unit, yes
from wbgen.model.tools.lines import at, match
from wbgen.model.types import (
    Each,
    MassPerArea,
    MassPerPack,
    MassPerVolume,
    Number,
    NutrientPerMass,
    NutrientPerVolume,
    Quantity,
    Table,
    Text,
    VolumePerArea,
    VolumePerPack,
    VolumePerVolume,
    each,
)

_MASS, _VOLUME, _PACK, _FIRST_NUTRIENT, _VOLUME_DILUTED, _MASS_DILUTED = 1, 2, 3, 4, 12, 13


def spray_unit_line(spray_unit: Each[Text], rate_units: Table) -> Each[Number]:
    """Line of the spray rate's unit in the list of rate units; blank for an unknown unit."""
    return match(spray_unit, rate_units.rate_unit)


def dry_unit_line(dry_unit: Each[Text], rate_units: Table) -> Each[Number]:
    """Line of the dry rate's unit in the list of rate units; blank for an unknown unit."""
    return match(dry_unit, rate_units.rate_unit)


def spray_unit_kind(spray_unit_line: Each[Number], rate_units: Table) -> Each[Number]:
    """Number of the kind of the spray rate's unit."""
    return at(rate_units.kind_number, spray_unit_line)


def dry_unit_kind(dry_unit_line: Each[Number], rate_units: Table) -> Each[Number]:
    """Number of the kind of the dry rate's unit."""
    return at(rate_units.kind_number, dry_unit_line)


@reads_every(mass_content="nutrients", rate="nutrients")
def spray_one_mass(
    spray_unit_line: Each[Number],
    spray_unit_kind: Each[Number],
    measured_by: Each[Text],
    pack_mass: Each[MassPerPack],
    mass_content_every: list[Each[NutrientPerMass]],
    rate_units: Table,
) -> Each[MassPerArea]:
    """What one unit of the spray rate is in mass an area, for a solid; blank where it cannot be had."""
    found = _one_mass(spray_unit_line, spray_unit_kind, pack_mass, mass_content_every, rate_units)
    return where(measured_by == "mass", found, np.nan)


@reads_every(mass_content="nutrients", rate="nutrients")
def dry_one_mass(
    dry_unit_line: Each[Number],
    dry_unit_kind: Each[Number],
    measured_by: Each[Text],
    pack_mass: Each[MassPerPack],
    mass_content_every: list[Each[NutrientPerMass]],
    rate_units: Table,
) -> Each[MassPerArea]:
    """What one unit of the dry rate is in mass an area, for a solid; blank where it cannot be had."""
    found = _one_mass(dry_unit_line, dry_unit_kind, pack_mass, mass_content_every, rate_units)
    return where(measured_by == "mass", found, np.nan)


def _one_mass(
    line: Each[Number],
    kind: Each[Number],
    pack: Each[MassPerPack],
    contents: list[Each[NutrientPerMass]],
    rate_units: Table,
) -> Each[MassPerArea]:
    return _by_kind(
        kind,
        {
            _MASS: at(rate_units.mass_rate, line),
            _PACK: at(rate_units.pack_rate, line) * pack,
            **_by_nutrient(line, contents, rate_units),
        },
    )


@reads_every(volume_content="nutrients", rate="nutrients")
def spray_one_volume(
    spray_unit_line: Each[Number],
    spray_unit_kind: Each[Number],
    measured_by: Each[Text],
    density: Each[MassPerVolume],
    pack_volume: Each[VolumePerPack],
    volume_content_every: list[Each[NutrientPerVolume]],
    rate_units: Table,
) -> Each[VolumePerArea]:
    """What one unit of the spray rate is in volume an area, for a liquid; blank where it cannot be had.

    A rate by mass needs the density.
    """
    found = _by_kind(
        spray_unit_kind,
        {
            _MASS: ratio(at(rate_units.mass_rate, spray_unit_line), density),
            _VOLUME: at(rate_units.volume_rate, spray_unit_line),
            _PACK: at(rate_units.pack_rate, spray_unit_line) * pack_volume,
            **_by_nutrient(spray_unit_line, volume_content_every, rate_units),
        },
    )
    return where(measured_by == "volume", found, np.nan)


def spray_one_mass_diluted(
    spray_unit_line: Each[Number], spray_unit_kind: Each[Number], measured_by: Each[Text], rate_units: Table
) -> Each[MassPerVolume]:
    """What one unit of a dilution is in mass a volume of water, for a solid; blank for any other unit."""
    found = at(rate_units.mass_dilution, spray_unit_line)
    return where((measured_by == "mass") & (spray_unit_kind == _MASS_DILUTED), found, np.nan)


def spray_one_volume_diluted(
    spray_unit_line: Each[Number],
    spray_unit_kind: Each[Number],
    measured_by: Each[Text],
    density: Each[MassPerVolume],
    rate_units: Table,
) -> Each[VolumePerVolume]:
    """What one unit of a dilution is in volume a volume of water, for a liquid; blank for any other unit.

    A dilution by mass needs the density.
    """
    by_volume = as_number(at(rate_units.volume_dilution, spray_unit_line))
    by_mass = as_number(ratio(at(rate_units.mass_dilution, spray_unit_line), density))
    of_mass = where(spray_unit_kind == _MASS_DILUTED, by_mass, np.nan)
    poured = where(measured_by == "volume", where(spray_unit_kind == _VOLUME_DILUTED, by_volume, of_mass), np.nan)
    return with_unit(poured, "dimensionless").to("mL/L")


def _by_nutrient(line: Each[Number], contents: list[Each[Any]], rate_units: Table) -> dict[int, Each[Any]]:
    """By the number of its kind: a rate of each nutrient over what the product has of it."""
    rates = zip(rate_units.rate_every, contents, strict=True)
    return {kind: ratio(at(rate, line), content) for kind, (rate, content) in enumerate(rates, _FIRST_NUTRIENT)}


def _by_kind(kind: Each[Number], values: dict[int, Each[Quantity]]) -> Each[Quantity]:
    """The value of each record's kind; blank for any other kind."""
    found = like(next(iter(values.values())), np.full(len(kind), np.nan))
    for number, value in values.items():
        found = where(kind == number, value, found)
    return found


def spray_highest(spray_low: Each[Number], spray_usual: Each[Number], spray_high: Each[Number]) -> Each[Number]:
    """The highest rate that is stated for spraying, in the label's unit: a single one is the most that it allows.

    >>> one, none = np.array([3.0, 3.0]), np.array([np.nan, np.nan])
    >>> spray_highest(one, one + 1, np.array([9.0, np.nan])), spray_highest(none, none, none)
    (array([9., 4.]), array([nan, nan]))
    """
    return _highest(spray_low, spray_usual, spray_high)


def dry_highest(dry_low: Each[Number], dry_usual: Each[Number], dry_high: Each[Number]) -> Each[Number]:
    """The same of what is spread dry."""
    return _highest(dry_low, dry_usual, dry_high)


def _highest(low: Each[Number], usual: Each[Number], high: Each[Number]) -> Each[Number]:
    return where(blank(high), each(np.fmax(low, usual)), high)


def spray_asks(spray_practice: Each[Text], spray_high: Each[Number]) -> Each[Text]:
    """ "yes" where more than that asks first: it is practice only, or stated as usual and not as the highest."""
    return where(yes(spray_practice) | blank(spray_high), "yes", "")


def dry_asks(dry_practice: Each[Text], dry_high: Each[Number]) -> Each[Text]:
    """The same of what is spread dry."""
    return where(yes(dry_practice) | blank(dry_high), "yes", "")


@of_family("levels")
def spray_mass_each(spray_each_stated: Each[Number], spray_one_mass: Each[MassPerArea]) -> Each[MassPerArea]:
    """Label rate of a solid to be sprayed (g/m²): the number on the label × what one of its units is (g/m²).

    >>> from wbgen.units.quantity import FLOAT
    >>> spray_mass_each(np.array([40.0]), FLOAT.Quantity(np.array([0.1]), "g/m**2")).magnitude
    array([4.])
    """
    return spray_each_stated * spray_one_mass


@of_family("levels")
def spray_volume_each(spray_each_stated: Each[Number], spray_one_volume: Each[VolumePerArea]) -> Each[VolumePerArea]:
    """Label rate of a liquid, volume an area."""
    return spray_each_stated * spray_one_volume


@of_family("levels")
def diluted_mass_each(
    spray_each_stated: Each[Number], spray_one_mass_diluted: Each[MassPerVolume]
) -> Each[MassPerVolume]:
    """Label dilution of a solid, mass a volume of water."""
    return spray_each_stated * spray_one_mass_diluted


@of_family("levels")
def diluted_volume_each(
    spray_each_stated: Each[Number], spray_one_volume_diluted: Each[VolumePerVolume]
) -> Each[VolumePerVolume]:
    """Label dilution of a liquid, volume a volume of water."""
    return spray_each_stated * spray_one_volume_diluted


@of_family("levels")
def dry_mass_each(dry_each_stated: Each[Number], dry_one_mass: Each[MassPerArea]) -> Each[MassPerArea]:
    """Label rate of a solid to be spread dry (g/m²): the number × what one unit is (g/m²); it is never a spray's limit.

    >>> from wbgen.units.quantity import FLOAT
    >>> dry_mass_each(np.array([35.0]), FLOAT.Quantity(np.array([1.0]), "g/m**2")).magnitude
    array([35.])
    """
    return dry_each_stated * dry_one_mass
