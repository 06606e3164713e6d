"""The nutrients that are counted, and the chemistry that ties an oxide to its element.

A label states phosphorus, potassium, calcium, magnesium and sulphur either as the oxide or as the element; nitrogen,
iron and manganese are stated as the element only. Everything is counted in the form that labels in Europe state:
oxides for the first five. The two forms differ by the share of the element's mass in the oxide:

>>> round(float(oxide_factor("P2O5")), 4)
0.4364
>>> counted_form("P").nutrient.key, counted_form("P").factor
('phosphate', Fraction(141943, 61948))
>>> round(float(5 * counted_form("P").factor), 2)  # what a label with 5 % P has of P2O5, in %
11.46
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

ATOMIC_WEIGHT_SOURCE: Final = (
    "Standard atomic weights 2021, abridged: IUPAC Commission on Isotopic Abundances and Atomic Weights, "
    "Prohaska et al., Pure and Applied Chemistry 94 (2022) 573, https://doi.org/10.1515/pac-2019-0603 "
    "(read in pages that quote its table)"
)

# Text, so that each is the exact decimal that the table prints.
ATOMIC_WEIGHT: Final[dict[str, Fraction]] = {
    symbol: Fraction(weight)
    for symbol, weight in {
        "H": "1.0080",
        "C": "12.011",
        "N": "14.007",
        "O": "15.999",
        "Mg": "24.305",
        "P": "30.974",
        "S": "32.06",
        "K": "39.098",
        "Ca": "40.078",
        "Mn": "54.938",
        "Fe": "55.845",
    }.items()
}
"""Relative atomic mass of each element that the planner needs (dimensionless). Source: `ATOMIC_WEIGHT_SOURCE`."""


@dataclass(frozen=True, slots=True)
class Nutrient:
    """One counted nutrient.

    `key` names its columns, `symbol` is the form it is counted in (as in the unit `g_P2O5`), `printed` is that symbol
    for a reader, `element` the symbol of the element, `oxide` the oxide's formula or None, `name` the English name.
    """

    key: str
    symbol: str
    printed: str
    element: str
    oxide: str | None
    name: str


NUTRIENTS: Final[tuple[Nutrient, ...]] = (
    Nutrient("nitrogen", "N", "N", "N", None, "nitrogen"),
    Nutrient("phosphate", "P2O5", "P₂O₅", "P", "P2O5", "phosphate"),
    Nutrient("potash", "K2O", "K₂O", "K", "K2O", "potash"),
    Nutrient("calcium_oxide", "CaO", "CaO", "Ca", "CaO", "calcium oxide"),
    Nutrient("magnesium_oxide", "MgO", "MgO", "Mg", "MgO", "magnesium oxide"),
    Nutrient("sulphur_trioxide", "SO3", "SO₃", "S", "SO3", "sulphur trioxide"),
    Nutrient("iron", "Fe", "Fe", "Fe", None, "iron"),
    Nutrient("manganese", "Mn", "Mn", "Mn", None, "manganese"),
)
"""The counted nutrients, in the order in which a label lists them."""

_BY_KEY: Final = {nutrient.key: nutrient for nutrient in NUTRIENTS}
_BY_FORM: Final = {form: nutrient for nutrient in NUTRIENTS for form in (nutrient.symbol, nutrient.element)}

FORMS: Final[tuple[str, ...]] = tuple(_BY_FORM)
"""Every symbol that a label may use: N, P2O5, P, K2O, K, ... (each is a dimension of its own in the units)."""


@dataclass(frozen=True, slots=True)
class CountedForm:
    """The nutrient that a label's symbol belongs to, and what to multiply by to count it.

    `factor` is mass of the counted form per mass of the stated one (1 where they are the same).
    """

    nutrient: Nutrient
    factor: Fraction


def nutrient(key: str) -> Nutrient:
    """The nutrient of a key such as "phosphate"; KeyError when there is none.

    >>> nutrient("potash").printed
    'K₂O'
    """
    return _BY_KEY[key]


def atoms(formula: str) -> dict[str, int]:
    """Number of atoms of each element in a simple formula (no brackets); ValueError when it is not one.

    >>> atoms("P2O5")
    {'P': 2, 'O': 5}
    """
    parts = re.findall(r"([A-Z][a-z]?)([0-9]*)", formula)
    if not parts or "".join(symbol + number for symbol, number in parts) != formula:
        raise ValueError(f"expected a formula such as P2O5, found {formula!r}")
    counts: dict[str, int] = {}
    for symbol, number in parts:
        counts[symbol] = counts.get(symbol, 0) + int(number or 1)
    return counts


def formula_weight(formula: str) -> Fraction:
    """Relative mass of a simple formula: the sum of its atoms (dimensionless).

    >>> float(formula_weight("K2O"))
    94.195

    Raises ValueError for text that is not a formula, KeyError for an element without a weight in `ATOMIC_WEIGHT`.
    """
    return sum((ATOMIC_WEIGHT[symbol] * number for symbol, number in atoms(formula).items()), Fraction(0))


def oxide_factor(symbol: str) -> Fraction:
    """Mass of the element per mass of its oxide, for a counted oxide such as "P2O5" (kg/kg).

    >>> round(float(oxide_factor("K2O")), 5)
    0.83015

    Raises ValueError for any other symbol: N, Fe and Mn are counted as elements and have no oxide here.
    """
    found = _oxide(symbol)
    return ATOMIC_WEIGHT[found.element] * atoms(symbol)[found.element] / formula_weight(symbol)


def oxide_factor_derivation(symbol: str) -> str:
    """How `oxide_factor` comes about, for a reader.

    >>> oxide_factor_derivation("SO3").partition(". ")[0]
    'S in SO₃ = 1 × 32.06 ÷ (1 × 32.06 + 3 × 15.999) = 32.06 ÷ 80.057 = 0.400465'
    """
    found = _oxide(symbol)
    counts = atoms(symbol)
    terms = " + ".join(f"{number} × {float(ATOMIC_WEIGHT[element])}" for element, number in counts.items())
    number, weight = counts[found.element], ATOMIC_WEIGHT[found.element]
    return (
        f"{found.element} in {found.printed} = {number} × {float(weight)} ÷ ({terms}) "
        f"= {float(weight * number)} ÷ {float(formula_weight(symbol))} = {float(oxide_factor(symbol)):.6f}. "
        f"{ATOMIC_WEIGHT_SOURCE}"
    )


def counted_form(symbol: str) -> CountedForm:
    """The counted nutrient for a symbol as a label states it, oxide or element.

    >>> counted_form("SO3").factor, round(float(counted_form("S").factor), 4)
    (Fraction(1, 1), 2.4971)

    Raises KeyError for a symbol that is not in `FORMS`.
    """
    found = _BY_FORM[symbol]
    return CountedForm(found, Fraction(1) if symbol == found.symbol else 1 / oxide_factor(found.symbol))


def _oxide(symbol: str) -> Nutrient:
    found = _BY_FORM.get(symbol)
    if found is None or found.oxide != symbol:
        oxides = ", ".join(n.oxide for n in NUTRIENTS if n.oxide)
        raise ValueError(f"expected one of the oxides {oxides}; found {symbol!r}")
    return found
