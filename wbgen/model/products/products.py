"""Products: what is in each, and what its label rates come to.

One record a product of the catalogue: shape (products,). Solids are measured by mass, liquids and brews by volume, and
their figures stand in columns of their own. The kinds of rate units are numbered: 1 mass, 2 volume, 3 packs, from 4 a
nutrient each, 12 dilution by volume, 13 dilution by mass.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools.elementwise import as_number, blank, folded, like, magnitude, ratio, where, with_unit
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.relations import count_by
from wbgen.model.tools.traits import yes
from wbgen.model.tools.words import counts, listed
from wbgen.model.types import (
    Each,
    ElementPerMass,
    ElementPerVolume,
    IronPerMass,
    ManganesePerMass,
    Mask,
    MassPerArea,
    MassPerPack,
    MassPerVolume,
    MoneyPerMass,
    MoneyPerPack,
    MoneyPerVolume,
    NitrogenPerMass,
    Number,
    NutrientPerMass,
    NutrientPerVolume,
    Quantity,
    Table,
    Text,
    VolumePerArea,
    VolumePerPack,
    VolumePerVolume,
)
from wbgen.trade.families import Member
from wbgen.trade.tank_rules import FROM_ANALYSIS

BLANK_UNLESS = ("name",)

_MASS, _VOLUME, _PACK, _FIRST_NUTRIENT, _VOLUME_DILUTED, _MASS_DILUTED = 1, 2, 3, 4, 12, 13


def measured_by(form: Each[Text]) -> Each[Text]:
    """Whether the product is poured or weighed: "volume" for a liquid and a brew, else "mass"."""
    poured = (folded(form) == "liquid") | (folded(form) == "brew")
    return where(poured, "volume", "mass")


def family_line(family: Each[Text]) -> Each[Number]:
    """The line of the first product of the same family, the heading being line 1; blank without one."""
    return match(family, family)


def most_words(most_a_year: Each[Number], number_binds: Each[Text]) -> Each[Text]:
    """How often a year at the most, and whether that is a limit or what is usual."""
    said = where(yes(number_binds), "at most ", "usually at most ") + counts(most_a_year)
    return where(blank(most_a_year), "", said)


def dry_most_words(dry_most_a_year: Each[Number], dry_number_binds: Each[Text]) -> Each[Text]:
    """How often a year at the most it is spread dry, and whether that is a limit or what is usual."""
    return most_words(dry_most_a_year, dry_number_binds)


@of_family("oxides")
def share_each(
    stated_each: Each[NutrientPerMass], element_each: Each[ElementPerMass], oxides: Table
) -> Each[NutrientPerMass]:
    """Share of the oxide (g/g): as stated, else the stated element (g/g) ÷ the element's share of the oxide (g/g).

    The element's share follows from atomic masses; Mattilsynet, Hva er forskjell på P og P2O5?, prints 0.830 for K.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> none, element = FLOAT.Quantity(np.array([np.nan]), "g_K2O/g"), FLOAT.Quantity(np.array([0.083]), "g_K/g")
    >>> oxides = SimpleNamespace(element_in_each=FLOAT.Quantity(0.83, "g_K/g_K2O"))
    >>> share_each(none, element, oxides).to("g_K2O/g").magnitude.round(9)
    array([0.1])
    """
    return where(blank(stated_each), ratio(element_each, oxides.element_in_each), stated_each)


def share_nitrogen(stated_nitrogen: Each[NitrogenPerMass]) -> Each[NitrogenPerMass]:
    """Share of nitrogen, as stated."""
    return stated_nitrogen


def share_iron(stated_iron: Each[IronPerMass]) -> Each[IronPerMass]:
    """Share of iron, as stated."""
    return stated_iron


def share_manganese(stated_manganese: Each[ManganesePerMass]) -> Each[ManganesePerMass]:
    """Share of manganese, as stated."""
    return stated_manganese


@of_family("traits")
def property_each(trait_each: Each[Text], products: Table, each: Member) -> Each[Text]:
    """ "yes" where a product has the tank-mix property: stated, or shown by what the label says is in it.

    Stating adds to what the analysis shows and takes nothing away, but that iron stated to be chelated is not ferrous.

    >>> from types import SimpleNamespace
    >>> from wbgen.trade.families import family
    >>> from wbgen.units.quantity import FLOAT
    >>> products = SimpleNamespace(share_phosphate=FLOAT.Quantity(np.array([0.61, np.nan]), "g_P2O5/g"))
    >>> phosphate = next(one for one in family("traits") if one.key == "phosphate")
    >>> property_each(np.array(["", ""], dtype=object), products, phosphate)
    array(['yes', ''], dtype=object)
    """
    return where(yes(trait_each) | _shown(products, each.key), "yes", "")


def _shown(products: Table, trait: str) -> Mask | bool:
    """Whether the form, the forms of nitrogen or the analysis show a property."""
    if trait == "live_brew":
        return folded(products.form) == "brew"
    if trait == "ammonium":
        return magnitude(products.ammonium_nitrogen) > 0
    if trait not in FROM_ANALYSIS:
        return False
    there: Mask = magnitude(getattr(products, f"share_{FROM_ANALYSIS[trait]}")) > 0
    return there & ~yes(products.trait_chelated_iron) if trait == "ferrous" else there


@reads_every(trait="traits")
def properties_stated(trait_every: list[Each[Text]]) -> Each[Text]:
    """ "yes" where a property at least is stated: then somebody has looked through the list of them."""
    return where(_some(trait_every), "yes", "")


def millilitre_mass(
    measured_by: Each[Text], analysis_per: Each[Text], density: Each[MassPerVolume], settings: Table
) -> Each[MassPerVolume]:
    """Mass by volume (g/mL) that a liquid's analysis is of: 1 kg/L by definition for w/v, else its density (kg/L).

    So 1 % w/v is 10 g/L. Blank for a solid, and for a w/w liquid without a density.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> measured_by, per = np.array(["volume"] * 2, dtype=object), np.array(["w/v", "w/w"], dtype=object)
    >>> settings = SimpleNamespace(volume_basis=FLOAT("1 kg/L"))
    >>> millilitre_mass(measured_by, per, FLOAT.Quantity(np.array([1.25, 1.25]), "kg/L"), settings).magnitude
    array([1.  , 1.25])
    """
    of_liquid = where(folded(analysis_per) == "w/v", settings.volume_basis, density)
    return where(measured_by == "volume", of_liquid, np.nan)


def price_by_mass(
    price: Each[MoneyPerPack], pack_mass: Each[MassPerPack], measured_by: Each[Text]
) -> Each[MoneyPerMass]:
    """Price of a mass of what is weighed; blank without a price or a pack, and for what is poured."""
    return where(measured_by == "mass", ratio(price, pack_mass), np.nan)


def price_by_volume(
    price: Each[MoneyPerPack], pack_volume: Each[VolumePerPack], measured_by: Each[Text]
) -> Each[MoneyPerVolume]:
    """Price of a volume of what is poured; blank without a price or a pack, and for what is weighed."""
    return where(measured_by == "volume", ratio(price, pack_volume), np.nan)


@of_family("nutrients")
def mass_content_each(share_each: Each[NutrientPerMass], measured_by: Each[Text]) -> Each[NutrientPerMass]:
    """Nutrient in a mass of a solid; blank for liquids."""
    return where(measured_by == "mass", share_each, np.nan)


@of_family("nutrients")
def volume_content_each(
    share_each: Each[NutrientPerMass], millilitre_mass: Each[MassPerVolume]
) -> Each[NutrientPerVolume]:
    """Nutrient in a volume of a liquid (g/L): share (g/g) × mass by volume (kg/L); blank for solids.

    An identity: mL × density × % ÷ 100.

    >>> from wbgen.units.quantity import FLOAT
    >>> share, mass = FLOAT.Quantity(np.array([0.2]), "g_N/g"), FLOAT.Quantity(np.array([1.25]), "kg/L")
    >>> volume_content_each(share, mass).to("g_N/L").magnitude.round(9)
    array([250.])
    """
    return share_each * millilitre_mass


@of_family("oxides")
def mass_element_each(mass_content_each: Each[NutrientPerMass], oxides: Table) -> Each[ElementPerMass]:
    """Element in a mass of a solid (g/g): the oxide's share (g/g) × the element's share of the oxide (g/g).

    Mattilsynet, Hva er forskjell på P og P2O5?: 4 % P₂O₅ are 1.7 % P.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> oxides = SimpleNamespace(element_in_each=FLOAT.Quantity(0.436, "g_P/g_P2O5"))
    >>> mass_element_each(FLOAT.Quantity(np.array([0.04]), "g_P2O5/g"), oxides).to("g_P/g").magnitude.round(3)
    array([0.017])
    """
    return mass_content_each * oxides.element_in_each


@of_family("oxides")
def volume_element_each(volume_content_each: Each[NutrientPerVolume], oxides: Table) -> Each[ElementPerVolume]:
    """Element in a volume of a liquid."""
    return volume_content_each * oxides.element_in_each


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


@of_family("levels")
def spray_mass_each(spray_each: Each[Number], spray_one_mass: Each[MassPerArea]) -> Each[MassPerArea]:
    """Label rate of a solid to be sprayed (g/m²): the number on the label × what one of its units is (g/m²).

    >>> from wbgen.units.quantity import FLOAT
    >>> spray_mass_each(np.array([40.0]), FLOAT.Quantity(np.array([0.1]), "g/m**2")).magnitude
    array([4.])
    """
    return spray_each * spray_one_mass


@of_family("levels")
def spray_volume_each(spray_each: Each[Number], spray_one_volume: Each[VolumePerArea]) -> Each[VolumePerArea]:
    """Label rate of a liquid, volume an area."""
    return spray_each * spray_one_volume


@of_family("levels")
def diluted_mass_each(spray_each: Each[Number], spray_one_mass_diluted: Each[MassPerVolume]) -> Each[MassPerVolume]:
    """Label dilution of a solid, mass a volume of water."""
    return spray_each * spray_one_mass_diluted


@of_family("levels")
def diluted_volume_each(
    spray_each: Each[Number], spray_one_volume_diluted: Each[VolumePerVolume]
) -> Each[VolumePerVolume]:
    """Label dilution of a liquid, volume a volume of water."""
    return spray_each * spray_one_volume_diluted


@of_family("levels")
def dry_mass_each(dry_each: Each[Number], dry_one_mass: Each[MassPerArea]) -> Each[MassPerArea]:
    """Label rate of a solid to be spread dry (g/m²): the number × what one unit is (g/m²); it is never a spray's limit.

    >>> from wbgen.units.quantity import FLOAT
    >>> dry_mass_each(np.array([35.0]), FLOAT.Quantity(np.array([1.0]), "g/m**2")).magnitude
    array([35.])
    """
    return dry_each * dry_one_mass


@reads_every(spray="levels", dry="levels", share="nutrients")
def product_state(
    name: Each[Text],
    spray_every: list[Each[Number]],
    spray_one_mass: Each[MassPerArea],
    spray_one_volume: Each[VolumePerArea],
    spray_one_mass_diluted: Each[MassPerVolume],
    spray_one_volume_diluted: Each[VolumePerVolume],
    dry_every: list[Each[Number]],
    dry_one_mass: Each[MassPerArea],
    measured_by: Each[Text],
    analysis_per: Each[Text],
    millilitre_mass: Each[MassPerVolume],
    share_every: list[Each[NutrientPerMass]],
) -> Each[Text]:
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


def _some(columns: Sequence[Each[Any]]) -> Mask:
    """True where one of the columns at least has a figure."""
    return ~np.logical_and.reduce([blank(column) for column in columns])
