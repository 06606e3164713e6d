"""The units offered for a label rate: what a label prints, and the unit that it is.

A label rate is a number beside one of these; a sheet looks the unit up here. Four kinds are per area: mass, volume,
packs and a nutrient's mass. Two are dilutions, which become a rate only with the carrier volume.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

from wbgen.units.names import NUTRIENT_ATOMS
from wbgen.units.spelling import canonical, printed, read_unit


@dataclass(frozen=True, slots=True)
class RateUnit:
    """One unit for a label rate.

    `printed` is what a person reads and chooses, `kind` one of the six kinds below, `unit` the text that pint reads,
    `nutrient` the symbol of the nutrient that a nutrient rate is of, else None.
    """

    printed: str
    kind: str
    unit: str
    nutrient: str | None = None


_OFFERED: Final[dict[str, tuple[str, ...]]] = {
    "mass rate": ("kg/ha", "g/m²", "mg/m²", "g/100 m²", "lb/acre", "lb/1000 ft²", "oz/1000 ft²", "oz/yd²"),
    "volume rate": (
        "L/ha", "mL/m²", "L/100 m²", "mL/100 m²", "fl oz/1000 ft²", "fl oz/acre", "US qt/acre", "US gal/acre",
        "US gal/1000 ft²", "imp fl oz/1000 ft²", "imp fl oz/acre", "imp gal/acre",
    ),
    "pack rate": ("pack/ha", "pack/100 m²", "pack/acre", "pack/1000 ft²"),
    "nutrient rate": (
        "kg N/ha", "g N/m²", "lb N/acre", "lb N/1000 ft²", "kg Fe/ha", "g Fe/m²", "lb Fe/acre", "lb Fe/1000 ft²",
    ),
    "dilution by volume": ("mL in 10 L", "mL in 1 L", "fl oz in 1 US gal"),
    "dilution by mass": ("g in 10 L", "g in 1 L", "oz in 1 US gal"),
}  # fmt: skip


@cache
def rate_units() -> tuple[RateUnit, ...]:
    """Every unit offered for a label rate, grouped by kind, metric first.

    >>> rate_units()[0]
    RateUnit(printed='kg/ha', kind='mass rate', unit='kg/ha', nutrient=None)
    >>> [rate.unit for rate in rate_units() if rate.printed == "lb N/1000 ft²"]
    ['lb_N/thousand_square_feet']
    """
    return tuple(_rate_unit(text, kind) for kind, texts in _OFFERED.items() for text in texts)


def _rate_unit(text: str, kind: str) -> RateUnit:
    unit = read_unit(text)
    nutrients = [NUTRIENT_ATOMS[atom.name] for atom, _ in unit.factors if atom.name in NUTRIENT_ATOMS]
    return RateUnit(printed(unit), kind, canonical(unit), nutrients[0] if nutrients else None)
