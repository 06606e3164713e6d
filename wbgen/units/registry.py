"""What the units are: two pint registries built from `units.txt`, and exact conversion and dimensions from them.

Units are given as text, either as a person writes them ("oz/1000 ft²") or as pint reads them
("oz/thousand_square_feet").
"""

from __future__ import annotations

import math
from fractions import Fraction
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, cast

from wbgen.units.spelling import UnitError, UnitText, canonical, printed, read_unit

if TYPE_CHECKING:
    from pint import Unit, UnitRegistry

DEFINITIONS: Final = Path(__file__).with_name("units.txt")

Dimension = tuple[tuple[str, int], ...]
"""Base dimensions with their powers, sorted by name: (("length", -2), ("mass", 1)). Empty for a pure number."""

_SCALES: Final = {"degC": "delta_degC", "degF": "delta_degF"}


@cache
def exact_registry() -> UnitRegistry[Any]:
    """The registry that computes in fractions (built once, on first use)."""
    return _registry(Fraction)


@cache
def float_registry() -> UnitRegistry[Any]:
    """The registry that computes in floats and numpy arrays of them (built once, on first use)."""
    return _registry(float)


@lru_cache(maxsize=4096)
def float_unit(unit: str) -> Unit:
    """A unit of the registry of floats, by the text that pint reads."""
    return float_registry().Unit(unit)


def _registry(number: type) -> UnitRegistry[Any]:
    import pint  # here, so that a command that needs no units does not wait for it

    return pint.UnitRegistry(str(DEFINITIONS), non_int_type=number, on_redefinition="raise", cache_folder=None)


@lru_cache(maxsize=4096)
def parse_unit(text: str) -> str:
    """The text that pint reads for a unit, however it was written.

    >>> parse_unit("fl oz/1000 ft²"), parse_unit("g N per m2"), parse_unit("°C")
    ('us_fluid_ounce/thousand_square_feet', 'g_N/m**2', 'degC')

    Raises UnitError for an unknown unit, for a number that belongs to the quantity (g/50 m²), and for a temperature
    inside a compound unit.
    """
    unit = read_unit(text)
    if unit.per != 1:
        advice = "only 100 m², 1000 ft² and 10 L are units; divide the quantity itself by the number"
        raise UnitError("a unit without a number", repr(text), advice=advice)
    return checked(unit)


def checked(unit: UnitText) -> str:
    """`canonical` of a unit that makes sense: UnitError for a temperature inside a compound unit, and for a dilution
    in anything but a volume."""
    if len(unit.factors) > 1 or any(power != 1 for _, power in unit.factors):
        for atom, _ in unit.factors:
            if atom.name in _SCALES:
                advice = f"a step of temperature is written {_SCALES[atom.name]}"
                raise UnitError("no temperature inside a compound unit", repr(printed(unit)), advice=advice)
    if unit.dilution and dimension(unit.factors[1][0].name) != (("length", 3),):
        raise UnitError("a dilution in a volume, such as 30 mL in 10 L", repr(printed(unit)))
    return canonical(unit)


@lru_cache(maxsize=4096)
def dimension(unit: str) -> Dimension:
    """The dimension of a unit, hashable; equal dimensions convert into each other.

    >>> dimension("lb N/acre")
    (('length', -2), ('nitrogen', 1))
    >>> dimension("%"), dimension("load")
    ((), ())

    A temperature has a dimension of its own, "temperature point", apart from a step of temperature, "temperature":
    the difference of two temperatures is a step. A depth of water and litres per area are one dimension (mm = L/m²).
    Raises UnitError for an unknown unit.
    """
    name = parse_unit(unit)
    if name in _SCALES:
        return (("temperature point", 1),)
    powers = exact_registry().parse_units(name).dimensionality
    return tuple(sorted((base.strip("[]"), int(cast(float, power))) for base, power in powers.items()))


def dimension_text(unit: str) -> str:
    """The dimension for a message.

    >>> dimension_text("g N/m²"), dimension_text("%")
    ('nitrogen/length²', 'number')
    """
    signs = {1: "", 2: "²", 3: "³"}
    powers = dimension(unit)
    above = "·".join(base + signs.get(power, f"^{power}") for base, power in powers if power > 0)
    below = "".join("/" + base + signs.get(-power, f"^{-power}") for base, power in powers if power < 0)
    return (above or "1") + below if powers else "number"


def same_dimension(a: str, b: str) -> bool:
    """Whether two units convert into each other.

    >>> same_dimension("oz/1000 ft²", "kg/ha"), same_dimension("g N", "g P2O5")
    (True, False)
    """
    return dimension(a) == dimension(b)


@lru_cache(maxsize=4096)
def factor(from_unit: str, to_unit: str) -> Fraction:
    """What to multiply a number of `from_unit` by to get a number of `to_unit`, exactly.

    >>> factor("lb", "kg")
    Fraction(45359237, 100000000)
    >>> float(factor("kg/ha", "g/m²"))
    0.1

    Raises UnitError for an unknown unit, for other dimensions (both are named), and between temperature scales, which
    differ by more than a factor: `convert` does those.
    """
    source, target = parse_unit(from_unit), parse_unit(to_unit)
    _require_same(source, target)
    if source != target and source in _SCALES:
        advice = f"between scales use convert; between steps of temperature {_SCALES[source]} and {_SCALES[target]}"
        raise UnitError("units that differ by a factor", f"{source} and {target}", advice=advice)
    return Fraction(exact_registry().Quantity(Fraction(1), source).to(target).magnitude)


def convert_exactly(value: Fraction, from_unit: str, to_unit: str) -> Fraction:
    """`value`, a number of `from_unit`, as an exact number of `to_unit`; temperature scales too.

    >>> convert_exactly(Fraction(1, 2), "kg", "g"), convert_exactly(Fraction(0), "°C", "°F")
    (Fraction(500, 1), Fraction(32, 1))

    Raises UnitError for an unknown unit and for other dimensions (both are named).
    """
    source, target = parse_unit(from_unit), parse_unit(to_unit)
    if source in _SCALES and target in _SCALES:
        return Fraction(exact_registry().Quantity(value, source).to(target).magnitude)
    return value * factor(source, target)


def convert(value: float | Fraction, from_unit: str, to_unit: str) -> float:
    """`convert_exactly`, made float once.

    >>> convert(1, "US gal", "L"), convert(68, "°F", "°C")
    (3.785411784, 20.0)

    NaN and infinity stay what they are. Raises UnitError as `convert_exactly` does.
    """
    if not math.isfinite(value):
        _require_same(parse_unit(from_unit), parse_unit(to_unit))
        return float(value)
    return float(convert_exactly(Fraction(value), from_unit, to_unit))


def _require_same(source: str, target: str) -> None:
    if not same_dimension(source, target):
        expected = f"a unit of {dimension_text(target)}, as {target} is"
        raise UnitError(expected, f"{source}, which is {dimension_text(source)}")
