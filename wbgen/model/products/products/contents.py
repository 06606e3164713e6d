"""What is in each product: nutrients by mass and by volume, and what they cost."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, folded, is_word, ratio, where, yes
from wbgen.model.tools.lines import match
from wbgen.model.tools.words import counts
from wbgen.model.types import (
    Each,
    ElementPerMass,
    ElementPerVolume,
    IronPerMass,
    ManganesePerMass,
    MassPerPack,
    MassPerVolume,
    MoneyPerMass,
    MoneyPerPack,
    MoneyPerVolume,
    NitrogenPerMass,
    Number,
    NutrientPerMass,
    NutrientPerVolume,
    Table,
    Text,
    VolumePerPack,
)


def measured_by(form: Each[Text]) -> Each[Text]:
    """Whether the product is poured or weighed: "volume" for a liquid and a brew, else "mass"."""
    poured = (folded(form) == "liquid") | (folded(form) == "brew")
    return where(poured, "volume", "mass")


def solids_counted(
    measured_by: Each[Text], dissolved_solids: Each[MassPerVolume], form: Each[Text], settings: Table
) -> Each[MassPerVolume]:
    """What a litre of a liquid adds to the salts (g): as stated, else nothing of a brew, and of others the setting's.

    A liquid of which nothing is known is no water. Common practice, no source.
    """
    unknown = where(folded(form) == "brew", 0.0 * settings.unknown_solids, settings.unknown_solids)
    counted = where(blank(dissolved_solids), unknown, dissolved_solids)
    return where(is_word(measured_by, "volume"), counted, np.nan)


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
