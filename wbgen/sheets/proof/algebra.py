"""Products, quotients and conversions of units, as pint text."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from wbgen.sheets.formula_tree import FormulaError
from wbgen.units.registry import exact_registry

SCALES = frozenset({"degC", "degF"})


@dataclass(frozen=True)
class Conversion:
    """A factor that a formula multiplies by, from one unit into another of the same dimension."""

    key: str
    source: str
    target: str
    factor: Fraction


@cache
def _unit(text: str) -> Any:
    return exact_registry().Unit(text)


@cache
def combine(left: str, operator: str, right: str) -> str:
    """The unit of a product or a quotient, as pint text."""
    one, other = _unit(left), _unit(right)
    return _plain(one * other if operator == "*" else one / other)


@cache
def power(unit: str, exponent: float) -> str:
    return _plain(_unit(unit) ** Fraction(exponent).limit_denominator(12))


def _plain(unit: Any) -> str:
    """Pint text of a unit, with whole powers (pint itself cannot print powers that are fractions)."""
    named = (
        (str(name).replace("kilog_", "kg_").replace("millig_", "mg_"), exponent)
        for name, exponent in unit._units.items()
    )
    powers = sorted((name, Fraction(exponent)) for name, exponent in named)

    def factors(sign: int) -> list[str]:
        return [
            name if sign * exponent == 1 else f"{name}**{float(sign * exponent):g}"
            for name, exponent in powers
            if sign * exponent > 0
        ]

    upper, lower = "*".join(factors(1)), "/".join(factors(-1))
    return f"{upper or '1'}/{lower}" if lower else upper


@cache
def conversion(source: str, target: str) -> Conversion | None:
    """What turns a figure in `source` into one in `target`; None where the figure stays as it is.

    What both units share cancels first, so that kg·m²/ha into g and kg N·m²/ha into g N are each one
    row of the Units sheet. Raises FormulaError where the dimensions differ.

    >>> conversion("kg/ha*m**2", "g").factor
    Fraction(1, 10)
    """
    if source == target:
        return None
    registry = exact_registry()
    one, other = _unit(source), _unit(target)
    if one.dimensionality != other.dimensionality:
        raise FormulaError(
            f"{source or 'a plain number'} is {_dimensions(one)}, and {target or 'a plain number'} is "
            f"{_dimensions(other)}: these cannot be one figure"
        )
    if {source, target} & SCALES:
        raise FormulaError(f"turns {source} into {target} by a factor, and temperatures have no common zero")
    ratio = one / other
    factor = Fraction(registry.Quantity(Fraction(1), ratio).to_base_units().magnitude)
    if factor == 1:
        return None
    over = {name: exponent for name, exponent in ratio._units.items() if exponent > 0}
    under = {name: -exponent for name, exponent in ratio._units.items() if exponent < 0}
    upper, lower = (_plain(registry.Unit(registry.UnitsContainer(part))) for part in (over, under))
    key = _key(upper or "one") + "_to_" + _key(lower or "one")
    return Conversion(key, upper, lower, factor)


def _dimensions(unit: Any) -> str:
    """The dimensions of a unit as text (pint itself cannot print powers that are fractions)."""
    powers = sorted((str(name), float(exponent)) for name, exponent in unit.dimensionality.items())
    return (
        " ".join(name if exponent == 1 else f"{name}^{exponent:g}" for name, exponent in powers) or "without dimension"
    )


def _key(unit: str) -> str:
    words = unit.replace("**", " power ").replace("*", " ").replace("/", " per ").split()
    digits = {"2": "squared", "3": "cubed"}
    return "_".join(digits.get(word, word) for word in words).replace("_power_", "_")
