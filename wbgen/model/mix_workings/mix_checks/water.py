"""What of its water speaks against a mix: with iron, with a humate, with what hard water throws down."""

from __future__ import annotations

import numpy as np

from wbgen.model.mix_workings.mix_checks._levels import level_of, said
from wbgen.model.tools.elementwise import blank, or_zero, where
from wbgen.model.tools.rounding import exceeds, half_up
from wbgen.model.tools.traits import any_has, meets_hardness
from wbgen.model.tools.words import counts
from wbgen.model.types import Alkalinity, Hardness, Number, Table, Text


def found_hardness(mix_water: Table, mix_products: Table) -> Hardness:
    """The hardness of the water, blank unless it may throw down a product of the mix.

    For iron it stands in the place of an alkalinity that is not known.
    """
    iron = any_has(mix_products.trait_ferrous) and bool(blank(mix_water.alkalinity))
    return where(meets_hardness(mix_products) or iron, mix_water.hardness, np.nan)


def found_iron_ph(mix_water: Table, mix_products: Table) -> Number:
    """The pH of the water in the tank, blank unless a product has ferrous iron."""
    return mix_water.ph_in_tank if any_has(mix_products.trait_ferrous) else np.nan


def found_alkalinity(mix_water: Table, mix_products: Table) -> Alkalinity:
    """The alkalinity of the water in the tank, blank unless a product has ferrous iron or calcium."""
    iron, calcium = any_has(mix_products.trait_ferrous), any_has(mix_products.trait_calcium)
    return where(iron or calcium, mix_water.alkalinity_left, np.nan)


def level_acid(mix_water: Table) -> Number:
    """1 where acid goes into the water that a product of the mix may not bear."""
    return mix_water.meets if mix_water.adds == "yes" else 0.0


def words_acid(mix_water: Table) -> Text:
    """What the acid of the water meets, with what may come of it."""
    return mix_water.meets_words


def level_own_acid(mix_water: Table) -> Number:
    """1 where the products bring far more acid than the water takes."""
    return mix_water.over_taken


def words_own_acid(mix_water: Table) -> Text:
    """How much of it, and how much the water takes."""
    return mix_water.over_words


def level_low_ph(mix_water: Table, settings: Table) -> Number:
    """1 where the water in the tank is so acid that its figure, or its acid, is to be looked at again."""
    return level_of(exceeds(settings.lowest_ph, mix_water.ph_in_tank), 1.0)


def words_low_ph(level_low_ph: Number, mix_water: Table, settings: Table) -> Text:
    """The pH of very acid water and the limit, to one decimal; else empty."""
    found, limit = (counts(half_up(or_zero(one), 1)) for one in (mix_water.ph_in_tank, settings.lowest_ph))
    return said(level_low_ph, f"; very acid water, pH {found}, ask first below {limit}")


def level_high_ph(mix_water: Table, settings: Table) -> Number:
    """1 where the water in the tank is so alkaline that ammonium, manganese or a chelate may not bear it."""
    return level_of(exceeds(mix_water.ph_in_tank, settings.highest_ph), 1.0)


def words_high_ph(level_high_ph: Number, mix_water: Table, settings: Table) -> Text:
    """The pH of very alkaline water and the limit, to one decimal; else empty."""
    found, limit = (counts(half_up(or_zero(one), 1)) for one in (mix_water.ph_in_tank, settings.highest_ph))
    return said(level_high_ph, f"; very alkaline water, pH {found}, ask first above {limit}")


def level_humate(mix_water: Table, mix_products: Table, settings: Table) -> Number:
    """1 where a humate meets water so acid that it may fall out."""
    humate = any_has(mix_products.trait_alkaline_humate)
    return level_of(humate & exceeds(settings.humate_ph, mix_water.ph_in_tank), 1.0)


def words_humate(level_humate: Number) -> Text:
    """What is said of a humate in acid water; else empty."""
    return said(level_humate, "; a humate may fall out of such acid water")
