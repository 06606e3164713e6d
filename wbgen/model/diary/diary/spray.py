"""The sprays of a lawn and day as one tank: how strong it was, how much of it went on, and what it brought.

Lines that were spread dry have no part in it; they are one dressing, which brought nitrogen and iron too. What a spot
of the lawn had is at most the sum of what each line brought to what it treated. Each line is asked with those above,
so that the one that crosses a limit says so.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, is_word, like, magnitude, only, or_zero, ratio, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.order import is_first
from wbgen.model.tools.relations import find, joined, pick
from wbgen.model.tools.so_far import sum_so_far
from wbgen.model.types import (
    Area,
    Each,
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


def _salt(product_line: Each[Number], solid: Each[Quantity], liquid: Each[Quantity], products: Table) -> Each[Quantity]:
    """The salt in a solid, which is all of it, or in a liquid: × the solids counted of it (g/L)."""
    dissolved = liquid * or_zero(at(products.solids_counted, product_line))
    weighed = is_word(at(products.measured_by, product_line), "mass")
    return where(weighed, or_zero(solid), or_zero(dissolved))


def _concentration(
    product_line: Each[Number],
    weighed: Each[Mass],
    poured: Each[Volume],
    tank_water: Each[Volume],
    products: Table,
) -> Each[MassPerVolume]:
    """The salt (g) that was measured out, by the spray (L) that it was in."""
    return where(blank(product_line), np.nan, ratio(_salt(product_line, weighed, poured, products), tank_water))


def own_salts(
    way_key: Each[Number],
    product_line: Each[Number],
    weighed: Each[Mass],
    poured: Each[Volume],
    tank_water: Each[Volume],
    products: Table,
) -> Each[MassPerVolume]:
    """What the line adds to the salts (g/L) of its tank, on the first load of its product; blank on further ones.

    Loads are not mixed with one another. Common practice, no source.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> catalogue = SimpleNamespace(measured_by=np.array(["mass"], dtype=object),
    ...                             solids_counted=FLOAT.Quantity(np.array([np.nan]), "g/L"))
    >>> weighed, water = FLOAT.Quantity(np.array([300.0, 100.0]), "g"), FLOAT.Quantity(np.array([10.0, 10.0]), "L")
    >>> poured = FLOAT.Quantity(np.array([np.nan, np.nan]), "mL")
    >>> own_salts(np.array([7.0, 7.0]), np.array([2.0, 2.0]), weighed, poured, water, catalogue).magnitude
    array([30., nan])
    """
    first = is_first(joined(way_key, product_line))
    return where(first, _concentration(product_line, weighed, poured, tank_water, products), np.nan)


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


def visit_salts(
    way_key: Each[Number],
    product_line: Each[Number],
    weighed: Each[Mass],
    poured: Each[Volume],
    tank_water: Each[Volume],
    own_salts: Each[MassPerVolume],
    products: Table,
) -> Each[MassPerVolume]:
    """The salts (g/L) of what was sprayed on the lawn and day up to this line, as if it shared one tank.

    Of several loads of a product it is the line's own, and the first of the other products. Blank where the spray made
    is not known.
    """
    together = sum_so_far(way_key, own_salts)
    own = _concentration(product_line, weighed, poured, tank_water, products)
    instead = own - sum_so_far(joined(way_key, product_line), own_salts)
    found = where(blank(own_salts), together + instead, together)
    return where(blank(tank_water) | blank(product_line), np.nan, found)


def visit_salt_load(
    way_key: Each[Number], method: Each[Text], area_counted: Each[Area], own_salt_load: Each[MassPerArea]
) -> Each[MassPerArea]:
    """The salt load (g/m²) of what was sprayed on the lawn and day up to this line; a dressing has none here."""
    there = (magnitude(area_counted) > 0) & ~is_dry(method)
    return where(there, sum_so_far(way_key, own_salt_load), np.nan)


def visit_nitrogen(way_key: Each[Number], soluble_nitrogen: Each[NitrogenPerArea]) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) that was sprayed on the lawn and day, or spread dry, up to this line."""
    return sum_so_far(way_key, soluble_nitrogen)


def visit_iron(way_key: Each[Number], own_iron: Each[IronPerArea]) -> Each[IronPerArea]:
    """The iron (g Fe/m²) likewise."""
    return sum_so_far(way_key, own_iron)
