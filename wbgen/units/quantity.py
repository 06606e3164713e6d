"""Quantities and units: reading what people write, exact conversion, dimensions, and where a definition comes from.

Units are given as text, either as a person writes them ("oz/1000 ft²") or as pint reads them
("oz/thousand_square_feet"); both mean the same here. The units that exist stand in `units.txt`.

Two pint registries are built from that file on first use:

- the exact one computes in fractions: conversion factors come from it, made float once at the end.
- `FLOAT` computes in floats and numpy arrays: the model's quantities belong to it.

Quantities of the two registries cannot be mixed (pint refuses). Importing this module builds neither.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final

from wbgen.units.definitions import definition
from wbgen.units.kinds import KINDS, kind, kind_of, nutrient_of
from wbgen.units.names import NUTRIENT_ATOMS
from wbgen.units.registry import (
    Dimension,
    checked,
    convert,
    convert_exactly,
    dimension,
    dimension_text,
    factor,
    float_registry,
    parse_unit,
    same_dimension,
)
from wbgen.units.spelling import UnitError, UnitText, normalised, printed, read_unit

if TYPE_CHECKING:
    from pint import UnitRegistry

    FLOAT: UnitRegistry[Any]

__all__ = [
    "FLOAT", "KINDS", "Dimension", "Quantity", "UnitError", "convert", "convert_exactly",
    "definition", "dimension", "dimension_text", "factor", "kind", "label", "nutrient_of", "parse_quantity",
    "parse_unit", "same_dimension", "with_nutrient",
]  # fmt: skip

_NUMBER: Final = re.compile(r"[+-]?(?:[0-9]{1,3}(?: [0-9]{3})+|[0-9]+)?(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?")
_PURE: Final = ("", "percent", "dimensionless")
_MOST_DIGITS: Final = 20
_LARGEST_EXPONENT: Final = 15


_SLIPS: Final = {
    r",[0-9]": "write a decimal with a point, and thousands without a comma",
    r"/[0-9]": "write a fraction as a decimal, such as 0.5",
    r"(-|–|to )[0-9]": "write one number, not a range",
}


def __getattr__(name: str) -> object:
    if name == "FLOAT":
        return float_registry()
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number and its unit, as read from text.

    `magnitude` is `exact` as a float; `unit` is the text that pint reads; `kind` is one of `KINDS`; `printed` is the
    unit for a reader; `nutrient` is the symbol of the nutrient that the unit names, or None.
    """

    magnitude: float
    exact: Fraction
    unit: str
    kind: str
    printed: str
    nutrient: str | None = None

    def to(self, unit: str) -> float:
        """The number in another unit of the same dimension (UnitError otherwise).

        >>> round(parse_quantity("0.1 lb N/1000 ft²").to("g N/m²"), 6)
        0.488243
        """
        return convert(self.exact, self.unit, unit)

    def figure_in(self, unit: str) -> float:
        """The number in the unit of a column; a share or a plain number is itself there.

        A mass in a column of one nutrient is of that nutrient. Raises UnitError where the dimensions differ.

        >>> parse_quantity("5 %").figure_in(""), parse_quantity("2 g/m²").figure_in("g_N/m**2")
        (0.05, 2.0)
        """
        if self.unit in _PURE:
            return float(self.exact * (Fraction(1, 100) if self.unit == "percent" else 1))
        symbol = NUTRIENT_ATOMS.get(unit.partition("/")[0])
        own = with_nutrient(self.unit, symbol) if self.nutrient is None and symbol is not None else self.unit
        return convert(self.exact, own, unit or "dimensionless")


def parse_quantity(text: str, *kinds: str) -> Quantity:
    """Read a number and a unit; with `kinds` given, only a quantity of one of those kinds passes.

    >>> parse_quantity("25 kg/ha")
    Quantity(magnitude=25.0, exact=Fraction(25, 1), unit='kg/ha', kind='mass rate', printed='kg/ha', nutrient=None)
    >>> parse_quantity("30 mL in 10 L").kind, parse_quantity("0.5 g N/m²").nutrient
    ('dilution by volume', 'N')
    >>> parse_quantity("25 kg", "mass rate")
    Traceback (most recent call last):
    wbgen.units.spelling.UnitError: expected a mass rate such as 25 kg/ha, found '25 kg', which is a mass

    A decimal point, not a comma; thousands may be parted by a space. A number after the stroke is divided by:
    "100 g/50 m²" is 2 g/m². Raises UnitError for anything else, whatever the text.
    """
    wanted = _wanted(kinds)
    quantity = quantity_of(*number_and_unit(text, wanted))
    if kinds and quantity.kind not in kinds:
        raise UnitError(wanted, f"{text!r}, which is a {quantity.kind}")
    return quantity


def number_and_unit(text: str, wanted: str) -> tuple[Fraction, UnitText]:
    """A quantity taken apart; raises UnitError with what is `wanted`."""
    written = normalised(text)
    match = _NUMBER.match(written)
    digits = match.group() if match else ""
    return _number(digits, wanted, text), _unit(written[len(digits) :].strip(), wanted, text)


def quantity_of(value: Fraction, unit: UnitText) -> Quantity:
    """So many of a unit."""
    name, kind, shown, nutrient = _meaning(unit)
    exact = value / unit.per
    return Quantity(float(exact), exact, name, kind, shown, nutrient)


@lru_cache(1000)
def _meaning(unit: UnitText) -> tuple[str, str, str, str | None]:
    """What pint calls a unit, its kind, how it is printed, and the nutrient that it names."""
    return checked(unit), kind_of(unit), printed(unit), nutrient_of(unit)


_read_unit = lru_cache(1000)(read_unit)  # a diary says the same few units again and again


def _unit(rest: str, wanted: str, text: str) -> UnitText:
    """The unit that follows the number, with errors that show the whole text."""
    try:
        return _read_unit(rest or "dimensionless")
    except UnitError as error:
        advice = next((advice for start, advice in _SLIPS.items() if re.match(start, rest)), error.advice)
        raise UnitError(wanted, repr(text), "" if advice != error.advice else error.nearest, advice) from error


def _wanted(kinds: tuple[str, ...]) -> str:
    return " or ".join(f"a {kind} such as {KINDS[kind]}" for kind in kinds) or "a quantity such as 25 kg/ha"


def _number(digits: str, wanted: str, text: str) -> Fraction:
    mantissa, _, exponent = digits.replace(" ", "").lower().partition("e")
    count = sum(character.isdigit() for character in mantissa)
    if not count:
        raise UnitError(wanted, repr(text), advice="write a number, then the unit")
    if count > _MOST_DIGITS or abs(int(exponent or 0)) > _LARGEST_EXPONENT:
        raise UnitError(wanted, repr(text), advice="the number is too long, or its exponent too large")
    return Fraction(mantissa) * Fraction(10) ** int(exponent or 0)


@lru_cache(maxsize=4096)
def label(unit: str, currency: str = "currency") -> str:
    """The unit as a sheet prints it; `currency` is what to print for the unit of money, such as "EUR".

    >>> label("g_N/m**2"), label("oz/thousand_square_feet"), label("us_gallon"), label("degC"), label("percent")
    ('g N/m²', 'oz/1000 ft²', 'US gal', '°C', '%')
    >>> label("mL/ten_litres"), label("currency/kg", "EUR"), label("dimensionless")
    ('mL in 10 L', 'EUR/kg', 'number')
    >>> label("1/m²")
    'per m²'

    Raises UnitError for an unknown unit.
    """
    text = re.sub(r"\bcurrency\b", lambda _: currency, printed(read_unit(unit)))
    return f"per {text[2:]}" if text.startswith("1/") else text


def with_nutrient(unit: str, symbol: str) -> str:
    """The unit with its mass made that nutrient's, where the nutrient is known from elsewhere.

    >>> with_nutrient("g/m²", "K2O"), with_nutrient("lb N/1000 ft²", "N")
    ('g_K2O/m**2', 'lb_N/thousand_square_feet')

    Raises UnitError where the unit has no mass to name, or names another nutrient.
    """
    name = parse_unit(unit)
    first, stroke, rest = name.partition("/")
    if NUTRIENT_ATOMS.get(first) == symbol:
        return name
    named = f"{first}_{symbol}"
    if named not in NUTRIENT_ATOMS:
        raise UnitError(f"a mass of {symbol}, such as g/m² or g {symbol}/m²", label(unit))
    return named + stroke + rest
