"""Kinds of quantity: what a person would call a number with this unit."""

from __future__ import annotations

from typing import Final

from wbgen.units.names import NUTRIENT_ATOMS
from wbgen.units.registry import Dimension, checked, dimension
from wbgen.units.spelling import UnitText, canonical, read_unit

KINDS: Final[dict[str, str]] = {
    "number": "6",
    "share": "21 %",
    "mass": "25 kg",
    "length": "3 m",
    "area": "240 m²",
    "volume": "14 L",
    "time": "28 day",
    "temperature": "18 °C",
    "temperature difference": "5 delta_degC",
    "mass rate": "25 kg/ha",
    "volume rate": "600 L/ha",
    "pack rate": "1 pack/ha",
    "nutrient rate": "0.5 g N/m²",
    "dilution by mass": "20 g in 10 L",
    "dilution by volume": "30 mL in 10 L",
    "mass per volume": "1.25 kg/L",
    "equivalents per volume": "5 meq/L",
    "speed": "12 km/h",
    "flow": "1.2 L/min",
    "work rate": "0.08 ha/min",
    "pressure": "2 bar",
    "pack": "1 pack",
    "nutrient mass": "5 kg N",
    "nutrient content": "210 g N/kg",
    "nutrient per volume": "50 g N/L",
    "money": "24 currency",
    "turf quality": "6 turf_quality",
    "other": "3 kg/day",
}
"""Every kind, with an example of it. A density and a concentration are both "mass per volume"."""

_MASS, _AREA, _VOLUME = ("mass", 1), ("length", 2), ("length", 3)
_BY_DIMENSION: Final[dict[Dimension, str]] = {
    (): "number",
    (_MASS,): "mass",
    (("length", 1),): "length",
    (_AREA,): "area",
    (_VOLUME,): "volume",
    (("time", 1),): "time",
    (("temperature point", 1),): "temperature",
    (("temperature", 1),): "temperature difference",
    (("length", -2), _MASS): "mass rate",
    (("length", -3), _MASS): "mass per volume",
    (("equivalents", 1), ("length", -3)): "equivalents per volume",
    (("length", 1), ("time", -1)): "speed",
    (_VOLUME, ("time", -1)): "flow",
    (_AREA, ("time", -1)): "work rate",
    (("length", -1), _MASS, ("time", -2)): "pressure",
    (("length", -2), ("packs", 1)): "pack rate",
    (("packs", 1),): "pack",
    (("currency", 1),): "money",
    (("turf_quality", 1),): "turf quality",
}
_NUTRIENT_KINDS: Final[dict[Dimension, str]] = {
    (): "nutrient mass",
    (("length", -2),): "nutrient rate",
    (("mass", -1),): "nutrient content",
    (("length", -3),): "nutrient per volume",
}


def kind(unit: str) -> str:
    """What a number with this unit is called: one of `KINDS`.

    >>> kind("kg/ha"), kind("L/ha"), kind("mm"), kind("lb N/acre"), kind("g in 10 L"), kind("g/L")
    ('mass rate', 'volume rate', 'length', 'nutrient rate', 'dilution by mass', 'mass per volume')

    Raises UnitError for an unknown unit.
    """
    return kind_of(read_unit(unit))


def kind_of(unit: UnitText) -> str:
    """`kind` of a unit already taken apart. Litres per area and a depth share a dimension: the units written decide."""
    checked(unit)
    parts = [dimension(atom.name) for atom, _ in unit.factors]
    if parts == [(_VOLUME,), (_VOLUME,)]:
        return "dilution by volume"
    if (unit.dilution or canonical(unit).endswith("/ten_litres")) and parts[0] == (_MASS,):
        return "dilution by mass"
    powers = dimension(canonical(unit))
    if not powers and parts:
        return "number" if parts == [()] and canonical(unit) != "percent" else "share"
    if powers == (("length", 1),) and (_VOLUME,) in parts:
        return "volume rate"
    if nutrient_of(unit) is not None:
        return _NUTRIENT_KINDS.get(_without_nutrient(unit), "other")
    return _BY_DIMENSION.get(powers, "other")


def nutrient_of(unit: UnitText) -> str | None:
    """Symbol of the one nutrient that a unit is a mass of, None where it names none or several.

    >>> nutrient_of(read_unit("g P2O5/m²")), nutrient_of(read_unit("g/m²"))
    ('P2O5', None)
    """
    named = [NUTRIENT_ATOMS[atom.name] for atom, _ in unit.factors if atom.name in NUTRIENT_ATOMS]
    return named[0] if len(named) == 1 else None


def _without_nutrient(unit: UnitText) -> Dimension:
    rest = tuple((atom, power) for atom, power in unit.factors if atom.name not in NUTRIENT_ATOMS)
    ((_, power),) = [(atom, power) for atom, power in unit.factors if atom.name in NUTRIENT_ATOMS]
    return dimension(canonical(UnitText(rest))) if power == 1 else (("nutrient", power),)
