"""Products: what is in each, and what its label rates come to.

Solids are measured by mass, liquids and brews by volume, and their figures stand in columns of their own. The kinds
of rate units are numbered: 1 mass, 2 volume, 3 packs, 4 nitrogen, 5 iron, 6 dilution by volume, 7 dilution by mass.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools.relations import as_number, blank, count_by, find, folded, lookup, ratio, where
from wbgen.model.tools.traits import yes
from wbgen.model.tools.words import counts, listed
from wbgen.units.quantity import FLOAT

Value = Any

BLANK_UNLESS = ("name",)


def measured_by(form: Value) -> Value:
    """Whether the product is poured or weighed: "volume" for a liquid and a brew, else "mass"."""
    poured = (folded(form) == "liquid") | (folded(form) == "brew")
    return where(poured, "volume", "mass")


def family_line(family: Value) -> Value:
    """The line of the first product of the same family, the heading being line 1; blank without one."""
    line = find(family, family)
    return np.where(line < 0, np.nan, line + 2.0)


def most_words(most_a_year: Value, number_binds: Value) -> Value:
    """How often a year at the most, and whether that is a limit or what is usual."""
    said = where(yes(number_binds), "at most ", "usually at most ") + counts(most_a_year)
    return where(blank(most_a_year), "", said)


@of_family("oxides")
def share_each(stated_each: Value, element_each: Value, oxides: Value) -> Value:
    """Share of the oxide: as stated, else the stated element over the element's share of the oxide."""
    return where(blank(stated_each), ratio(element_each, oxides.element_in_each), stated_each)


def share_nitrogen(stated_nitrogen: Value) -> Value:
    """Share of nitrogen, as stated."""
    return stated_nitrogen


def share_iron(stated_iron: Value) -> Value:
    """Share of iron, as stated."""
    return stated_iron


def share_manganese(stated_manganese: Value) -> Value:
    """Share of manganese, as stated."""
    return stated_manganese


def millilitre_mass(measured_by: Value, analysis_per: Value, density: Value, settings: Value) -> Value:
    """Mass by volume that a liquid's analysis is of: 1 kg/L by definition for w/v, else its density."""
    of_liquid = where(folded(analysis_per) == "w/v", settings.volume_basis, density)
    return where(measured_by == "volume", of_liquid, np.nan)


def price_by_mass(price: Value, pack_mass: Value, measured_by: Value) -> Value:
    """Price of a mass of what is weighed; blank without a price or a pack, and for what is poured."""
    return where(measured_by == "mass", ratio(price, pack_mass), np.nan)


def price_by_volume(price: Value, pack_volume: Value, measured_by: Value) -> Value:
    """Price of a volume of what is poured; blank without a price or a pack, and for what is weighed."""
    return where(measured_by == "volume", ratio(price, pack_volume), np.nan)


@of_family("nutrients")
def mass_content_each(share_each: Value, measured_by: Value) -> Value:
    """Nutrient in a mass of a solid; blank for liquids."""
    return where(measured_by == "mass", share_each, np.nan)


@of_family("nutrients")
def volume_content_each(share_each: Value, millilitre_mass: Value) -> Value:
    """Nutrient in a volume of a liquid; blank for solids."""
    return share_each * millilitre_mass


@of_family("oxides")
def mass_element_each(mass_content_each: Value, oxides: Value) -> Value:
    """Element in a mass of a solid."""
    return mass_content_each * oxides.element_in_each


@of_family("oxides")
def volume_element_each(volume_content_each: Value, oxides: Value) -> Value:
    """Element in a volume of a liquid."""
    return volume_content_each * oxides.element_in_each


def spray_unit_kind(spray_unit: Value, rate_units: Value) -> Value:
    """Number of the kind of the spray rate's unit; blank for an unknown unit."""
    return lookup(spray_unit, rate_units.rate_unit, rate_units.kind_number)


def dry_unit_kind(dry_unit: Value, rate_units: Value) -> Value:
    """Number of the kind of the dry rate's unit; blank for an unknown unit."""
    return lookup(dry_unit, rate_units.rate_unit, rate_units.kind_number)


def spray_one_mass(
    spray_unit: Value,
    spray_unit_kind: Value,
    measured_by: Value,
    pack_mass: Value,
    mass_content_nitrogen: Value,
    mass_content_iron: Value,
    rate_units: Value,
) -> Value:
    """What one unit of the spray rate is in mass an area, for a solid; blank where it cannot be had."""
    return _one_mass(
        spray_unit, spray_unit_kind, measured_by, pack_mass, mass_content_nitrogen, mass_content_iron, rate_units
    )


def dry_one_mass(
    dry_unit: Value,
    dry_unit_kind: Value,
    measured_by: Value,
    pack_mass: Value,
    mass_content_nitrogen: Value,
    mass_content_iron: Value,
    rate_units: Value,
) -> Value:
    """What one unit of the dry rate is in mass an area, for a solid; blank where it cannot be had."""
    return _one_mass(
        dry_unit, dry_unit_kind, measured_by, pack_mass, mass_content_nitrogen, mass_content_iron, rate_units
    )


def _one_mass(
    unit: Value, kind: Value, measured_by: Value, pack: Value, nitrogen: Value, iron: Value, rate_units: Value
) -> Value:
    found = _by_kind(
        kind,
        {
            1: _rate(unit, rate_units, rate_units.mass_rate),
            3: _rate(unit, rate_units, rate_units.pack_rate) * pack,
            4: ratio(_rate(unit, rate_units, rate_units.nitrogen_rate), nitrogen),
            5: ratio(_rate(unit, rate_units, rate_units.iron_rate), iron),
        },
    )
    return where(measured_by == "mass", found, np.nan)


def spray_one_volume(
    spray_unit: Value,
    spray_unit_kind: Value,
    measured_by: Value,
    density: Value,
    pack_volume: Value,
    volume_content_nitrogen: Value,
    volume_content_iron: Value,
    rate_units: Value,
) -> Value:
    """What one unit of the spray rate is in volume an area, for a liquid; blank where it cannot be had.

    A rate by mass needs the density.
    """
    found = _by_kind(
        spray_unit_kind,
        {
            1: ratio(_rate(spray_unit, rate_units, rate_units.mass_rate), density),
            2: _rate(spray_unit, rate_units, rate_units.volume_rate),
            3: _rate(spray_unit, rate_units, rate_units.pack_rate) * pack_volume,
            4: ratio(_rate(spray_unit, rate_units, rate_units.nitrogen_rate), volume_content_nitrogen),
            5: ratio(_rate(spray_unit, rate_units, rate_units.iron_rate), volume_content_iron),
        },
    )
    return where(measured_by == "volume", found, np.nan)


def spray_one_mass_diluted(spray_unit: Value, spray_unit_kind: Value, measured_by: Value, rate_units: Value) -> Value:
    """What one unit of a dilution is in mass a volume of water, for a solid; blank for any other unit."""
    found = _rate(spray_unit, rate_units, rate_units.mass_dilution)
    return where((measured_by == "mass") & (spray_unit_kind == 7), found, np.nan)


def spray_one_volume_diluted(
    spray_unit: Value, spray_unit_kind: Value, measured_by: Value, density: Value, rate_units: Value
) -> Value:
    """What one unit of a dilution is in volume a volume of water, for a liquid; blank for any other unit.

    A dilution by mass needs the density.
    """
    by_volume = as_number(_rate(spray_unit, rate_units, rate_units.volume_dilution))
    by_mass = as_number(ratio(_rate(spray_unit, rate_units, rate_units.mass_dilution), density))
    found = np.where(spray_unit_kind == 6, by_volume, np.where(spray_unit_kind == 7, by_mass, np.nan))
    poured = np.where(measured_by == "volume", found, np.nan)
    return FLOAT.Quantity(poured, "dimensionless").to("mL/L")


def _rate(unit: Value, rate_units: Value, values: Value) -> Value:
    """The value beside each unit in the list of rate units; blank for an unknown unit or another kind."""
    return lookup(unit, rate_units.rate_unit, values)


def _by_kind(kind: Value, values: dict[int, Value]) -> Value:
    """The value of each record's kind; blank for any other kind."""
    found: Value = np.nan
    for number, value in values.items():
        found = where(kind == number, value, found)
    return found


@of_family("levels")
def spray_mass_each(spray_each: Value, spray_one_mass: Value) -> Value:
    """Label rate of a solid to be sprayed, mass an area."""
    return spray_each * spray_one_mass


@of_family("levels")
def spray_volume_each(spray_each: Value, spray_one_volume: Value) -> Value:
    """Label rate of a liquid, volume an area."""
    return spray_each * spray_one_volume


@of_family("levels")
def diluted_mass_each(spray_each: Value, spray_one_mass_diluted: Value) -> Value:
    """Label dilution of a solid, mass a volume of water."""
    return spray_each * spray_one_mass_diluted


@of_family("levels")
def diluted_volume_each(spray_each: Value, spray_one_volume_diluted: Value) -> Value:
    """Label dilution of a liquid, volume a volume of water."""
    return spray_each * spray_one_volume_diluted


@of_family("levels")
def dry_mass_each(dry_each: Value, dry_one_mass: Value) -> Value:
    """Label rate of a solid to be spread dry, mass an area."""
    return dry_each * dry_one_mass


@reads_every(spray="levels", dry="levels", share="nutrients")
def product_state(
    name: Value,
    spray_every: Sequence[Value],
    spray_one_mass: Value,
    spray_one_volume: Value,
    spray_one_mass_diluted: Value,
    spray_one_volume_diluted: Value,
    dry_every: Sequence[Value],
    dry_one_mass: Value,
    measured_by: Value,
    analysis_per: Value,
    millilitre_mass: Value,
    share_every: Sequence[Value],
) -> Value:
    """What is to be mended in the product, all that holds.

    A rate is given where one of its levels is; an analysis, where the share of one nutrient is.
    """
    one = (spray_one_mass, spray_one_volume, spray_one_mass_diluted, spray_one_volume_diluted)
    liquid = measured_by == "volume"
    unweighed = liquid & blank(millilitre_mass) & _some(share_every)
    by_volume = ~liquid & (folded(analysis_per) == "w/v")
    return listed(
        where(_some(spray_every) & ~_some(one), "; the spray rate cannot be brought to one unit", "")
        + where(_some(dry_every) & blank(dry_one_mass), "; the dry rate cannot be brought to one unit", "")
        + where(unweighed, "; give the density, or an analysis by w/v", "")
        + where(by_volume, "; w/v is for liquids only", "")
        + where(count_by(name, name) > 1, "; this name stands twice", "")
    )


def _some(columns: Sequence[Value]) -> Any:
    """True where one of the columns at least has a figure."""
    return ~np.logical_and.reduce([blank(column) for column in columns])
