"""Where a conversion comes from: the chain of definitions behind it, read from `units.txt` itself."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from decimal import Decimal, localcontext
from fractions import Fraction
from functools import cache
from typing import Final

from wbgen.trade.nutrients import FORMS
from wbgen.units.names import ATOMS
from wbgen.units.registry import DEFINITIONS, convert_exactly, dimension, exact_registry, factor, parse_unit
from wbgen.units.spelling import printed, read_unit

_SHOWN: Final = {name: atom.printed for atom in ATOMS for name in (atom.name, *atom.spellings)}
_LINE: Final = re.compile(
    r"(?P<name>\w+) = (?P<definition>[^\[\]=#;]+?)(?P<offset>; offset: [^=#]*?)?(?: = [^#]*?)?(?: {2}# (?P<source>.+))?"
)
_WORD: Final = re.compile(r"[A-Za-z][A-Za-z_0-9]*")
_LONGEST: Final = 12
_ROUNDED: Final = 10
_UNGROUPED: Final = 4


@dataclass(frozen=True, slots=True)
class Origin:
    """One definition: `text` for a reader ("1 ft = 0.3048 m (source)"; empty where it says nothing new), and the units
    that it `rests_on`."""

    text: str
    rests_on: tuple[str, ...]


def definition(from_unit: str, to_unit: str) -> str:
    """One sentence: the factor, then every definition that it rests on, each with its source.

    >>> definition("lb", "kg")
    '1 lb = 0.453 592 37 kg exactly (international yard and pound agreement, 1959)'
    >>> definition("mL/m²", "L/m²")
    '1 mL/m² = 0.001 L/m² exactly; by the metric prefixes'

    Raises UnitError as `factor` does.
    """
    if dimension(from_unit) == (("temperature point", 1),) and parse_unit(from_unit) != parse_unit(to_unit):
        return _between_scales(from_unit, to_unit)
    value = factor(from_unit, to_unit)
    shown = f"{number(value)} {printed(read_unit(to_unit))}"
    head = f"1 {printed(read_unit(from_unit))} = {shown} {'exactly' if _ends(value) else '(rounded)'}"
    steps = [origin.text for origin in _chain(_net_names(from_unit, to_unit)) if origin.text]
    if parse_unit(from_unit) == parse_unit(to_unit):
        return f"{head}: the same unit"
    restated = head.removesuffix(" exactly")
    if len(steps) == 1 and steps[0].startswith(f"{restated} ("):
        return head + steps[0].removeprefix(restated)
    return "; ".join([head, *(steps or ["by the metric prefixes"])])


def number(value: Fraction) -> str:
    """A number for a reader, digits in groups of three: every decimal when they end within 12, else 10 digits.

    >>> number(Fraction("0.45359237")), number(Fraction(1, 3)), number(Fraction(43560)), number(Fraction(5280))
    ('0.453 592 37', '0.333 333 333 3', '43 560', '5280')
    >>> number(Fraction(1, 1600))
    '0.000 625'
    """
    with localcontext(prec=28 if _ends(value) else _ROUNDED):
        text = f"{(Decimal(value.numerator) / Decimal(value.denominator)):f}"
    whole, _, decimals = text.partition(".")
    decimals = decimals.rstrip("0")
    if len(whole) > _UNGROUPED:
        whole = re.sub(r"(?<=[0-9])(?=(?:[0-9]{3})+$)", " ", whole)
    if len(decimals) > _UNGROUPED:
        decimals = re.sub(r"([0-9]{3})(?=[0-9])", r"\1 ", decimals)
    return f"{whole}.{decimals}" if decimals else whole


def _between_scales(from_unit: str, to_unit: str) -> str:
    """How one temperature scale follows from the other: "°F = °C × 1.8 + 32; ..."."""
    zero, one = (convert_exactly(Fraction(value), from_unit, to_unit) for value in (0, 1))
    head = f"{printed(read_unit(to_unit))} = {printed(read_unit(from_unit))} × {number(one - zero)}"
    sign = "+" if zero > 0 else "−"
    steps = [origin.text for origin in _chain([parse_unit(from_unit), parse_unit(to_unit)])]
    return "; ".join([f"{head} {sign} {number(abs(zero))}", *steps])


def _ends(value: Fraction) -> bool:
    return (value * 10**_LONGEST).denominator == 1


def _net_names(from_unit: str, to_unit: str) -> list[str]:
    """Units of `units.txt` that do not cancel between the two, a nutrient's pound being a pound."""
    counts: Counter[str] = Counter()
    for sign, unit in ((1, from_unit), (-1, to_unit)):
        for atom, power in read_unit(unit).factors:
            counts[_root(atom.name)] += sign * power
    return [name for name, count in counts.items() if count]


def _root(name: str) -> str:
    """The name on its line of `units.txt`, without prefix, delta or nutrient: "kg_N" is "gram", "mL" is "litre"."""
    mass, _, nutrient = name.partition("_")
    ((_, root, _), *_) = exact_registry().parse_unit_name(mass if nutrient in FORMS else name)
    return root.removeprefix("delta_")


def _chain(names: list[str]) -> list[Origin]:
    """Every definition that the names rest on, each once, in the order of need."""
    found: dict[str, Origin] = {}
    waiting = list(names)
    while waiting:
        name = waiting.pop(0)
        if name in _origins() and name not in found:
            found[name] = _origins()[name]
            waiting = [*found[name].rests_on, *waiting]
    return list(found.values())


@cache
def _origins() -> dict[str, Origin]:
    """Each line of `units.txt` that defines a unit by others and says where that comes from."""
    lines = (_LINE.fullmatch(line) for line in DEFINITIONS.read_text(encoding="utf-8").splitlines())
    return {line["name"]: _origin(line) for line in lines if line}


def _origin(line: re.Match[str]) -> Origin:
    rests_on = tuple(_root(word) for word in _WORD.findall(line["definition"]))
    if not line["source"]:
        return Origin("", rests_on)
    if line["offset"]:
        return Origin(line["source"], rests_on)
    return Origin(f"1 {_shown(line['name'])} = {_readable(line['definition'])} ({line['source']})", rests_on)


def _readable(definition_text: str) -> str:
    """A definition as a reader writes it: "231 * inch ** 3" is "231 in³", "foot / 12" is "1/12 ft"."""
    text = re.sub(r"^(\w+) / ([0-9]+)$", r"1/\2 * \1", definition_text)
    text = text if text[0].isdigit() else f"1 * {text}"
    text = re.sub(r"(?<![A-Za-z_0-9.])[0-9.]+", lambda match: number(Fraction(match[0])), text)
    text = _WORD.sub(lambda match: _shown(match[0]), text)
    text = re.sub(r" \*\* ([23])", lambda match: {"2": "²", "3": "³"}[match[1]], text)
    text = re.sub(r"(?<=[0-9]) \* ", " ", text)
    return text.replace(" * ", "·").replace(" / ", "/")


def _shown(name: str) -> str:
    return _SHOWN.get(name, name.replace("_", " "))
