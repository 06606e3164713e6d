"""Units as people write them: reading "lb N/1000 ft²" or "30 mL in 10 L" into known units, and printing them back.

Only the spellings listed in `names` are read; nothing that a person writes reaches pint or an evaluator. What each
unit *is* stands in `units.txt`.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Final

from wbgen.trade.nutrients import FORMS
from wbgen.units.names import ATOMS, NUMBERED, SQUARES, TEN_LITRES, TWO_COUNTRIES, Atom

MAX_LENGTH: Final = 80
"""Longest text that is read as a quantity or a unit, in characters."""


class UnitError(ValueError):
    """Text that is not a quantity or unit, or units that do not fit together.

    `expected` says what would have been right, `found` what was there, `nearest` a known unit that looks like it
    (empty if none does), `advice` what to do (may be empty).
    """

    def __init__(self, expected: str, found: str, nearest: str = "", advice: str = "") -> None:
        self.expected, self.found, self.nearest, self.advice = expected, found, nearest, advice
        parts = [f"expected {expected}, found {found}"]
        if nearest:
            parts.append(f"nearest unit: {nearest}")
        if advice:
            parts.append(advice)
        super().__init__("; ".join(parts))


@dataclass(frozen=True, slots=True)
class UnitText:
    """A unit taken apart: `factors` (unit, power) in the order written, what it is `per` (a number, as 50 in g/50 m²),
    and whether it was written as one substance `in` another (a dilution)."""

    factors: tuple[tuple[Atom, int], ...]
    per: Fraction = Fraction(1)
    dilution: bool = False


_CHARACTERS: Final = str.maketrans(
    {"²": "^2", "³": "^3", "·": "*", "⋅": "*", "−": "-", "℃": "°C", "℉": "°F", "º": "°", "\u00a0": " ", "\u202f": " ",
     "\u2009": " ", "⁻": "-", "¹": "1",
     **{subscript: str(digit) for digit, subscript in enumerate("₀₁₂₃₄₅₆₇₈₉")}}
)  # fmt: skip
_POWER: Final = {1: "", 2: "²", 3: "³"}


def normalised(text: str) -> str:
    """The text with one spelling of signs and spaces. UnitError if too long.

    >>> normalised("m²"), normalised("kg per ha"), normalised("25 kg N ha⁻¹"), normalised("g m-2")
    ('m^2', 'kg/ha', '25 kg N/ha', 'g/m^2')
    >>> normalised("250 mg/L as CaCO3")
    '250 mg CaCO3/L'
    """
    if len(text) > MAX_LENGTH:
        raise UnitError(f"at most {MAX_LENGTH} characters", f"{len(text)} characters")
    text = " ".join(text.translate(_CHARACTERS).replace("**", "^").split())
    text = re.sub(r" ?\bper\b(?! cent) ?", "/", text)
    text = re.sub(r"\bmg ?/ ?(l|lit(?:er|re)) (?:as |of )?CaCO3$", r"mg CaCO3/\1", text, flags=re.IGNORECASE)
    text = re.sub(r"[ *]([A-Za-z]+)\^?-1\b", r"/\1", re.sub(r"[ *]([A-Za-z]+)\^?-([23])\b", r"/\1^\2", text))
    return re.sub(r" ?([/*^]) ?", r"\1", text)


def read_unit(text: str) -> UnitText:
    """Take apart the text of a unit, as a person writes it or as `units.txt` names it.

    >>> [(atom.name, power) for atom, power in read_unit("lb N/1000 ft²").factors]
    [('lb_N', 1), ('thousand_square_feet', -1)]
    >>> read_unit("kgg/m²")
    Traceback (most recent call last):
    wbgen.units.spelling.UnitError: expected a unit such as kg/ha, found 'kgg/m²'; nearest unit: kg/m²

    Raises UnitError with the nearest known unit.
    """
    written = normalised(text)
    left, found_in, right = written.partition(" in ")
    if found_in:
        return _read_dilution(left, right, text)
    sides = written.split("/")
    factors: list[tuple[Atom, int]] = []
    per = Fraction(1)
    for place, side in enumerate(sides):
        if place == 0 and side == "1" and len(sides) > 1:
            continue
        for part in side.split("*"):
            number, atom, power = _read_factor(part, text)
            if number != 1 and place == 0:
                raise _unknown(text, part, "a number may stand only after the stroke, as in g/50 m²")
            per *= number
            if atom.name != "dimensionless":
                factors.append((atom, power if place == 0 else -power))
    return UnitText(tuple(factors), per)


def _read_dilution(left: str, right: str, text: str) -> UnitText:
    above, below = _read_factor(left, text), _read_factor(right, text)
    if above[0] != 1 or above[2] != 1 or below[2] != 1:
        raise _unknown(text, left, "a dilution is written as mL in 10 L")
    return UnitText(((above[1], 1), (below[1], -1)), below[0], dilution=True)


def _read_factor(part: str, text: str) -> tuple[Fraction, Atom, int]:
    """A number (1 if none), a unit and its power, from a text such as "1000 ft^2"."""
    whole = _look_up(part)
    if whole:
        return Fraction(1), *whole
    match = re.fullmatch(
        r"([0-9]{1,6}(?:\.[0-9]{1,6})?|[0-9]{1,3}[ ,][0-9]{3})? ?([A-Za-z%°][^^]*?)\^?(-?[0-9])?", part, re.ASCII
    )
    if not match:
        raise _unknown(text, part)
    digits, name, exponent = match.groups()
    found = _look_up(name + (exponent or "")) or _look_up(name)
    number = Fraction(re.sub("[ ,]", "", digits)) if digits else Fraction(1)
    if not found or number == 0:
        raise _unknown(text, name)
    atom, power = found
    if exponent and _look_up(name + exponent) is None:
        power = int(exponent)
    if abs(power) not in _POWER:
        raise _unknown(text, part, "a power is 1, 2 or 3")
    numbered = NUMBERED.get((int(number), atom.name, power)) if number.denominator == 1 else None
    return (Fraction(1), numbered, 1) if numbered else (number, atom, power)


@cache
def _spellings() -> dict[str, tuple[Atom, int]]:
    table = {
        spelling: (atom, 1) for atom in ATOMS for spelling in (atom.name, normalised(atom.printed), *atom.spellings)
    }
    return {**table, **{spelling: (atom, 2) for spelling, atom in SQUARES.items()}}


@cache
def _spellings_any_case() -> dict[str, tuple[Atom, int]]:
    folded: dict[str, tuple[Atom, int]] = {}
    clashing = set()
    for spelling, meaning in _spellings().items():
        if folded.setdefault(spelling.casefold(), meaning) != meaning:
            clashing.add(spelling.casefold())
    return {spelling: meaning for spelling, meaning in folded.items() if spelling not in clashing}


def _look_up(name: str) -> tuple[Atom, int] | None:
    exact = _spellings().get(name)
    # ML is a megalitre and Mg a megagram: a capital M is never taken for milli. S alone is sulphur, never seconds.
    if exact or name.startswith("M") or len(name) == 1:
        return exact
    return _spellings_any_case().get(name.casefold())


def _unknown(text: str, part: str, advice: str = "") -> UnitError:
    if part in FORMS:
        advice = f"{part} is a nutrient: put a mass before it"
    if of_country := _of_two_countries(part):
        advice = f"write US {of_country} or imp {of_country}: an imperial one is a fifth larger"
        return UnitError("a unit such as kg/ha", repr(text), advice=advice)
    return UnitError("a unit such as kg/ha", repr(text), _nearest(text), advice)


def _of_two_countries(part: str) -> str:
    """What to write after the country, where a part may be a US or an imperial measure; else ""."""
    word = part.strip().strip(".").casefold()
    near = difflib.get_close_matches(word, TWO_COUNTRIES, n=1, cutoff=0.85) if word not in TWO_COUNTRIES else [word]
    return TWO_COUNTRIES[near[0]] if near else ""


def _nearest(text: str) -> str:
    """The text with every unknown part put right, as printed; empty where a part resembles nothing known."""
    known = {spelling: atom.printed for atom in ATOMS for spelling in (atom.printed, *atom.spellings)}
    sides = []
    for side in normalised(text).split("/"):
        near = difflib.get_close_matches(side.replace("^2", "²"), known, n=1, cutoff=0.6)
        if side in FORMS:
            sides.append(f"g {side}")
        elif _reads(side):
            sides.append(printed(read_unit(side)))
        elif side.startswith("M") and _reads("m" + side[1:]):
            sides.append("m" + side[1:])
        elif near:
            sides.append(known[near[0]])
        else:
            return ""
    return "/".join(sides)


def _reads(side: str) -> bool:
    """Whether one side of a unit, with no stroke in it, is a known unit."""
    found = _look_up(side) or _look_up(re.sub(r"\^?[23]$", "", side))
    return found is not None


def canonical(unit: UnitText) -> str:
    """The one text that pint reads for this unit, such as "lb_N/thousand_square_feet".

    >>> canonical(read_unit("fl oz per 1,000 sq ft"))
    'us_fluid_ounce/thousand_square_feet'
    """
    return _join(unit, lambda atom, power: atom.name if power == 1 else f"{atom.name}**{power}", "*") or "dimensionless"


def printed(unit: UnitText) -> str:
    """The unit for a reader: "oz/1000 ft²"; "mL in 10 L" for a dilution; "number" for a pure number.

    What it is per is not said: see `printed_per`.
    """
    if unit.dilution or (len(unit.factors) == 2 and unit.factors[1] == (TEN_LITRES, -1)):
        (above, _), (below, _) = unit.factors
        return f"{above.printed} in {'' if below is TEN_LITRES else '1 '}{below.printed}"
    return _join(unit, lambda atom, power: atom.printed + _POWER[power], "·") or "number"


def printed_per(unit: UnitText) -> str:
    """A unit with one stroke, or a dilution, as it was written, with the number that it is per.

    >>> printed_per(read_unit("pack per 450 m²")), printed_per(read_unit("g in 15 L")), printed_per(read_unit("g/m²"))
    ('pack/450 m²', 'g in 15 L', 'g/m²')
    """
    whole = printed(unit)
    if unit.per == 1:
        return whole
    parting = " in 1 " if unit.dilution else "/"
    above, found, below = whole.partition(parting)
    number = f"{float(unit.per):.12g}"
    return f"{above} in {number} {below}" if unit.dilution and found else f"{above}/{number} {below}"


def _join(unit: UnitText, write: Callable[[Atom, int], str], times: str) -> str:
    above = times.join(write(atom, power) for atom, power in unit.factors if power > 0)
    below = "".join("/" + write(atom, -power) for atom, power in unit.factors if power < 0)
    return (above or "1") + below if above or below else ""
