"""Label rates: what a label prints, and the unit that it is.

A label rate is a number beside a unit; a sheet looks the unit up. Four kinds are per area: mass, volume, packs and a
nutrient's mass. Two are dilutions, which become a rate only with the carrier volume. The units that every planner
offers stand here; whatever else can be read is offered in the planners of those who use it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Final

from wbgen.units.quantity import Quantity, number_and_unit, quantity_of
from wbgen.units.registry import convert
from wbgen.units.spelling import UnitError, UnitText, canonical, normalised, printed_per, read_unit

RATE_KINDS: Final = (
    "mass rate", "volume rate", "pack rate", "nutrient rate", "dilution by mass", "dilution by volume",
)  # fmt: skip
"""The kinds of an application rate as a label prints it."""


@dataclass(frozen=True, slots=True)
class RateUnit:
    """One unit for a label rate.

    `printed` is what a person reads and chooses, `kind` one of `RATE_KINDS`, `unit` the text that pint reads; one of
    these is `1/per` of that: a pack/450 m². `nutrient` is the symbol of the nutrient that a nutrient rate is of.
    """

    printed: str
    kind: str
    unit: str
    nutrient: str | None = None
    per: Fraction = Fraction(1)

    def of(self, rate: Quantity) -> float:
        """The number that a rate of the same kind has in this unit. UnitError where the kinds differ.

        >>> rate_unit("pack/450 m²").of(read_label_rate("2 packs per 900 m²").quantity)
        1.0
        """
        return convert(rate.exact * self.per, rate.unit, self.unit)

    def one_in(self, unit: str, times: Fraction = Fraction(1)) -> float:
        """What one of this unit is in another one of its dimension, taken so many times."""
        return convert(times / self.per, self.unit, unit)


@dataclass(frozen=True, slots=True)
class LabelRate:
    """A rate as a label has it: the quantity, and the unit that stands beside its number on a sheet."""

    quantity: Quantity
    unit: RateUnit


_OFFERED: Final[dict[str, tuple[str, ...]]] = {
    "mass rate": (
        "kg/ha", "g/m²", "mg/m²", "g/100 m²", "g/ha", "lb/acre", "lb/1000 ft²", "oz/1000 ft²", "oz/acre", "oz/yd²",
        "kg/acre",
    ),
    "volume rate": (
        "L/ha", "mL/m²", "L/100 m²", "mL/100 m²", "mL/ha", "fl oz/1000 ft²", "fl oz/acre", "US pt/acre", "US qt/acre",
        "US qt/1000 ft²", "US gal/acre", "US gal/1000 ft²", "imp fl oz/1000 ft²", "imp fl oz/acre", "imp pt/acre",
        "imp gal/acre", "L/acre",
    ),
    "pack rate": ("pack/ha", "pack/100 m²", "pack/acre", "pack/1000 ft²"),
    "nutrient rate": (
        "kg N/ha", "g N/m²", "lb N/acre", "lb N/1000 ft²", "kg Fe/ha", "g Fe/m²", "lb Fe/acre", "lb Fe/1000 ft²",
        "kg P₂O₅/ha", "lb P₂O₅/1000 ft²", "kg K₂O/ha", "lb K₂O/1000 ft²",
    ),
    "dilution by volume": ("mL in 10 L", "mL in 1 L", "fl oz in 1 US gal"),
    "dilution by mass": ("g in 10 L", "g in 1 L", "oz in 1 US gal"),
}  # fmt: skip
_DILUTED: Final = {"mass per volume": "dilution by mass", "dilution by volume": "dilution by volume"}
"""What a rate is that is written with a stroke, such as 2 g/L, by its kind as a quantity."""

_PARTS: Final = re.compile(r"([0-9]{1,4}(?:\.[0-9]{1,4})?) ?(?::|in|to|parts? (?:in|to)) ?([0-9]{1,6})(?: parts)?")
_PERCENT: Final = re.compile(r"([0-9.]{1,8}) ?(?:%|per cent) ?(w/v|v/v|)")
WANTED: Final = "a label rate such as 25 kg/ha, 1 pack per 450 m², 30 mL in 10 L, 1:100 or 2 g/L"


@cache
def offered_units() -> tuple[RateUnit, ...]:
    """The units that every planner offers for a label rate, grouped by kind, metric first.

    >>> offered_units()[0].printed, offered_units()[0].kind
    ('kg/ha', 'mass rate')
    >>> [rate.unit for rate in offered_units() if rate.printed == "lb N/1000 ft²"]
    ['lb_N/thousand_square_feet']
    """
    return tuple(rate_unit(text) for texts in _OFFERED.values() for text in texts)


@cache
def rate_unit(text: str) -> RateUnit:
    """The unit of a label rate by its text.

    >>> rate_unit("sachets per 250 m2").printed, rate_unit("g in 15 L").printed, rate_unit("mL/L").printed
    ('pack/250 m²', 'g in 15 L', 'mL in 1 L')

    Raises UnitError for a text that is none.
    """
    unit = read_unit(text)
    return _rate_unit(unit, quantity_of(Fraction(1), unit), text)


def read_label_rate(text: str) -> LabelRate:
    """Read a rate as labels print them: per any area, or a dilution of any size.

    One in a hundred (1:100, 1 % v/v) is a volume in a volume of spray, so 10 mL in 1 L; 1 % w/v is 10 g in 1 L.

    >>> for text in ("25 kg ha-1", "1 sachet per 450 m²", "35 g per 15 L", "1 in 100", "0.5 % w/v", "2 g/L"):
    ...     rate = read_label_rate(text)
    ...     print(rate.unit.of(rate.quantity), rate.unit.printed, rate.unit.kind, sep="; ")
    25.0; kg/ha; mass rate
    1.0; pack/450 m²; pack rate
    35.0; g in 15 L; dilution by mass
    10.0; mL in 1 L; dilution by volume
    5.0; g in 1 L; dilution by mass
    2.0; g in 1 L; dilution by mass

    Raises UnitError, which says what would be one.
    """
    written = normalised(text)
    if parts := _PARTS.fullmatch(written):
        return _parts(Fraction(parts[1]), Fraction(parts[2]), text)
    if share := _PERCENT.fullmatch(written):
        return _percent(share[1], share[2], text)
    number, unit = number_and_unit(text, WANTED)
    quantity = quantity_of(number, unit)
    return LabelRate(quantity, _rate_unit(unit, quantity, text))


def _rate_unit(unit: UnitText, quantity: Quantity, text: str) -> RateUnit:
    """The unit beside which the number of a label stands. A mass or a volume in a volume is a dilution."""
    kind = _DILUTED.get(quantity.kind, quantity.kind)
    if kind not in RATE_KINDS or [power for _, power in unit.factors] not in ([1, -1], [1, -2]):
        raise UnitError(WANTED, f"{text!r}, which is a {quantity.kind}",
                        advice="write so much per area, or so much in an amount of water")  # fmt: skip
    if kind in _DILUTED.values():
        unit = UnitText(unit.factors, unit.per, dilution=True)
    return RateUnit(printed_per(unit), kind, canonical(unit), quantity.nutrient, unit.per)


def _parts(part: Fraction, whole: Fraction, text: str) -> LabelRate:
    if not 0 < part < whole:
        raise UnitError("so many parts in more parts, such as 1 in 100", repr(text), advice="write the smaller first")
    return _in_one_litre(1000 * part / whole, "mL")


def _percent(number: str, by: str, text: str) -> LabelRate:
    try:
        share = Fraction(number)
    except ValueError:
        raise UnitError(WANTED, repr(text)) from None
    if not by:
        raise UnitError("a share that says of what, such as 1 % v/v or 1 % w/v", repr(text),
                        advice="write v/v for 10 mL in 1 L, w/v for 10 g in 1 L, as the label means")  # fmt: skip
    if not 0 <= share < 100:
        raise UnitError("a share under 100 %", repr(text))
    return _in_one_litre(10 * share, "mL" if by == "v/v" else "g")


def _in_one_litre(amount: Fraction, measure: str) -> LabelRate:
    unit = rate_unit(f"{measure} in 1 L")
    kind = "dilution by volume" if measure == "mL" else "dilution by mass"
    return LabelRate(Quantity(float(amount), amount, unit.unit, kind, unit.printed), unit)
