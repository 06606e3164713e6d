"""The sprays of a lawn and day as one tank: how strong it was, how much of it went on, and what it brought.

Lines that were spread dry have no part in it; they are one dressing, which brought nitrogen and iron too. What a spot
of the lawn had is at most the sum of what each line brought to what it treated.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, is_word, like, magnitude, only, or_zero, ratio, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.order import is_first
from wbgen.model.tools.relations import count_by, find, pick, sum_by
from wbgen.model.types import (
    Area,
    Each,
    IronMass,
    IronPerArea,
    Mass,
    MassPerArea,
    MassPerVolume,
    NitrogenPerArea,
    Number,
    Quantity,
    Table,
    Text,
    Volume,
    VolumePerArea,
)


def way_key(lawn_day_key: Each[Number], method: Each[Text], ones: Table) -> Each[Number]:
    """The key of lawn, day and method: the sprays of a lawn and day have one, its dressings another."""
    return lawn_day_key + where(is_dry(method), ones.dry_step, 0.0)


def way_first(way_key: Each[Number]) -> Each[Number]:
    """1 on the first line of a lawn, day and method, blank on all others."""
    return where(is_first(way_key) & ~blank(way_key), 1.0, np.nan)


def tank_water(way_key: Each[Number], method: Each[Text], water: Each[Volume]) -> Each[Volume]:
    """The spray (L) that the line was in: its own, or where none was noted that of the first line of its tank.

    What was spread dry was in none.

    >>> from wbgen.units.quantity import FLOAT
    >>> water = FLOAT.Quantity(np.array([10.0, np.nan, 12.0, np.nan]), "L")
    >>> tank_water(np.array([7.0, 7.0, 7.0, 8.0]), np.array(["spray"] * 4, dtype=object), water).magnitude
    array([10., 10., 12., nan])
    """
    noted = where(water > 0, water, np.nan)
    own = where(blank(noted), pick(noted, find(way_key, way_key)), noted)
    return where(blank(way_key) | is_dry(method), np.nan, own)


def carrier_volume(tank_water: Each[Volume], share_used: Each[Number], area_counted: Each[Area]) -> Each[VolumePerArea]:
    """What left the tank (L) by the area treated (m²); nothing where more was left over than made."""
    sprayed = tank_water * where(share_used > 0, share_used, 0.0)
    return where(area_counted > 0, ratio(sprayed, area_counted), np.nan)


def loads_key(tank_water: Each[Volume], product_key: Each[Number]) -> Each[Number]:
    """The key of lawn, product and day of a spray whose water is known: its lines are loads of one product."""
    return where(blank(tank_water), np.nan, product_key)


def _salt(product_line: Each[Number], solid: Each[Quantity], liquid: Each[Quantity], products: Table) -> Each[Quantity]:
    """The salt in a solid, which is all of it, or in a liquid: × the solids counted of it (g/L)."""
    dissolved = liquid * or_zero(at(products.solids_counted, product_line))
    weighed = is_word(at(products.measured_by, product_line), "mass")
    return where(weighed, or_zero(solid), or_zero(dissolved))


def own_salts(
    loads_key: Each[Number],
    product_line: Each[Number],
    weighed: Each[Mass],
    poured: Each[Volume],
    tank_water: Each[Volume],
    products: Table,
) -> Each[MassPerVolume]:
    """What the line adds to the salts (g/L) of its tank: salt measured (g) ÷ spray (L) ÷ loads of its product.

    Loads are not mixed with one another: of several, their mean counts. Common practice, no source.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> catalogue = SimpleNamespace(measured_by=np.array(["mass"], dtype=object),
    ...                             solids_counted=FLOAT.Quantity(np.array([np.nan]), "g/L"))
    >>> weighed, water = FLOAT.Quantity(np.array([300.0, 100.0]), "g"), FLOAT.Quantity(np.array([10.0, 10.0]), "L")
    >>> poured = FLOAT.Quantity(np.array([np.nan, np.nan]), "mL")
    >>> own_salts(np.array([7.0, 7.0]), np.array([2.0, 2.0]), weighed, poured, water, catalogue).magnitude
    array([15.,  5.])
    """
    loads = count_by(loads_key, loads_key)
    share = ratio(ratio(_salt(product_line, weighed, poured, products), tank_water), loads)
    return where(blank(loads_key), np.nan, share)


def own_salt_load(
    way_key: Each[Number],
    method: Each[Text],
    product_line: Each[Number],
    area_counted: Each[Area],
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    products: Table,
    settings: Table,
) -> Each[MassPerArea]:
    """The salt load (g/m²) of the line: salt on the grass (g/m²) × its salt index ÷ that of sodium nitrate.

    As the sheet Mix has it (salt index after Rader et al. 1943, from memory); of less than nothing it is nothing.
    """
    index = at(products.salt_index, product_line)
    counted = where(blank(index), or_zero(settings.unknown_salt_index), index)
    salt = _salt(product_line, rate_mass, rate_volume, products)
    reference = only(settings.salt_index_reference)
    load = ratio(like(salt, np.fmax(magnitude(salt), 0.0)) * counted, reference if reference > 0 else np.nan)
    known = ~blank(way_key) & ~is_dry(method) & ~blank(product_line) & (area_counted > 0)
    return where(known, load, np.nan)


def own_iron(load_iron: Each[IronMass], area_counted: Each[Area]) -> Each[IronPerArea]:
    """The iron (g Fe/m²) that the line put on what it treated; of less than nothing it is nothing."""
    brought = where(load_iron > 0, load_iron, load_iron * 0)
    return where(area_counted > 0, ratio(brought, area_counted), np.nan)


def _visit(first: Each[Number], key: Each[Number], known: Each[Quantity], own: Each[Quantity]) -> Each[Quantity]:
    """The sum of all lines of one key, on the first of them; blank where what it takes is not known there."""
    there = (first == 1) & (magnitude(known) > 0)
    return where(there, sum_by(key, key, own), np.nan)


def visit_salts(
    way_first: Each[Number], way_key: Each[Number], tank_water: Each[Volume], own_salts: Each[MassPerVolume]
) -> Each[MassPerVolume]:
    """The salts (g/L) in the spray of the lawn and day, as if all of it were one tank."""
    return _visit(way_first, way_key, tank_water, own_salts)


def visit_salt_load(
    way_first: Each[Number],
    way_key: Each[Number],
    method: Each[Text],
    area_counted: Each[Area],
    own_salt_load: Each[MassPerArea],
) -> Each[MassPerArea]:
    """The salt load (g/m²) of the sprays of the lawn and day; a dressing has none here."""
    return where(is_dry(method), np.nan, _visit(way_first, way_key, area_counted, own_salt_load))


def visit_nitrogen(
    way_first: Each[Number], way_key: Each[Number], soluble_nitrogen: Each[NitrogenPerArea]
) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) of the sprays of the lawn and day, or of its dressings."""
    return where(way_first == 1, sum_by(way_key, way_key, soluble_nitrogen), np.nan)


def visit_iron(way_first: Each[Number], way_key: Each[Number], own_iron: Each[IronPerArea]) -> Each[IronPerArea]:
    """The iron (g Fe/m²) likewise."""
    return where(way_first == 1, sum_by(way_key, way_key, own_iron), np.nan)
