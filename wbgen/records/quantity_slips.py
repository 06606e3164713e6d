"""What to do about a quantity that is not read: what was meant, where that can be told, in a person's words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Final

from wbgen.files.yaml.look_alikes import without_comma
from wbgen.records.meant import mended_unit
from wbgen.units.quantity import KINDS, UnitError, parse_quantity

_UNITS: Final = {
    "area": ("m²", "ft²"), "length": ("m", "ft"), "mass": ("kg", "lb"), "volume": ("L", "US gal"),
    "time": ("days",), "temperature": ("°C", "°F"), "speed": ("km/h", "mph"), "pressure": ("bar", "psi"),
    "mass rate": ("kg/ha", "g/m²"), "volume rate": ("L/ha",), "mass per volume": ("kg/L", "g/L"), "share": ("%",),
    "equivalents per volume": ("meq/L", "mg CaCO3/L"),
}  # fmt: skip
"""Units that are offered where a number has none."""
_MOST_KINDS: Final = 3
"""How many kinds are named at most; more are only ever those of rates."""
_FRACTIONS: Final = {"½": "0.5", "¼": "0.25", "¾": "0.75"}
_WORDS: Final = (
    (r"\bsq\.? ?(?:m|met(?:er|re)s?)\b\.?|\bsquare met(?:er|re)\b", "m²"),
    (r"\bsq\.? ?(?:ft|feet|foot)\b\.?|\bsquare foot\b", "ft²"),
    (r"\bgms?\b", "g"), (r" ?\bha ?-1\b| ha⁻¹", "/ha"), (r" ?\bm ?-2\b| m⁻²", "/m²"),
    (r"\bdegrees?\b ?(?=[CF]\b)", "°"),
)  # fmt: skip
"""Spellings of units that are not read, and how they are."""


def what_to_do(text: str, kinds: tuple[str, ...], error: UnitError, read: Callable[[str], object]) -> str:
    """What to do about a text that is no quantity of these kinds, as `read` says with `error`."""
    if number := _alone(text):
        units = [f"{number} {unit}" for kind in kinds for unit in _UNITS.get(kind, ())][:3]
        if units == [f"{number} %"]:
            if not 0 < float(number) < 1:
                return f"write {number} %"
            whole = f"{100 * float(number):g} %"
            return f"write {whole} for that part of the whole, or {number} % for so many in a hundred"
        return f"write the unit behind the number: {' or '.join(units)}" if units else _example(kinds)
    if "equivalents per volume" in kinds and (number := _of_what(text)):
        return f"write {number} mg CaCO3/L if it is counted as calcium carbonate; 61 mg/L of bicarbonate are 1 meq/L"
    if set(kinds) & {"mass rate", "volume rate"} and _reads(text, lambda one: parse_quantity(one, "mass", "volume")):
        return f"say on how much ground, such as {text}/ha"
    if re.match(r"[0-9]+,[0-9]", text) and _reads(re.sub(r",(?=[0-9])", ".", text, count=1), read):
        return without_comma(text)
    for other in _otherwise(text):
        if other != text and _reads(other, read):
            return f"write {other}"
    near = mended_unit(text, error.nearest) if error.nearest else ""
    if near:
        return f"did you mean {near}?"
    return _example(kinds) if error.advice in ("", "write a number, then the unit") else error.advice


def kinds_wanted(kinds: tuple[str, ...]) -> str:
    """The kinds with an example each: "an area such as 240 m²"; of many kinds of rates only the examples."""
    if len(kinds) > _MOST_KINDS:
        return f"a rate such as {', '.join(KINDS[kind] for kind in kinds)}"
    return " or ".join(f"{'an' if kind[0] in 'aeiou' else 'a'} {kind} such as {KINDS[kind]}" for kind in kinds)


def _example(kinds: tuple[str, ...]) -> str:
    return f"write a number and a unit, such as {KINDS[kinds[0]]}"


def _of_what(text: str) -> str:
    """The number, where a text is so many milligrams a litre of nobody knows what."""
    match = re.fullmatch(r"([0-9]+(?:\.[0-9]+)?) ?(?:mg ?/ ?l|ppm)", text.strip(), re.IGNORECASE)
    return match[1] if match else ""


def _alone(text: str) -> str:
    """The number, where a text is that and no more but a sign of degrees; a decimal comma made a point."""
    match = re.fullmatch(r"(-?[0-9]+)(?:[.,]([0-9]+))? ?(?:°|º|deg\.?|degrees)?", text.strip())
    return "" if match is None else f"{match[1]}.{match[2]}" if match[2] else match[1]


def _otherwise(text: str) -> Iterator[str]:
    """The text as it may have been meant, one slip after the other mended."""
    text = re.sub(r"^(?:approx\.?|about|around|ca\.?|circa|~|≈) *", "", text.strip(), flags=re.IGNORECASE)
    text = re.sub(r" of (?:the )?(?:lawn|grass|turf|ground)$", "", text.rstrip(".,;"))
    yield text
    for sign, decimal in _FRACTIONS.items():
        text = re.sub(rf"^([0-9]+) ?{sign}", rf"\1{decimal[1:]}", text).replace(sign, decimal)
    yield text
    yield re.sub(r" ?/ ?M$", "/1000 ft²", text)  # as the trade in America writes a thousand square feet
    for pattern, unit in _WORDS:
        text = re.sub(pattern, unit, text, flags=re.IGNORECASE)
    yield " ".join(text.split())
    if feet := re.fullmatch(r"([0-9]+) ?(?:ft|feet|') ?([0-9]+) ?(?:in|inches|\"|'')", text):
        yield f"{int(feet[1]) + int(feet[2]) / 12:.4g} ft"


def _reads(text: str, read: Callable[[str], object]) -> bool:
    try:
        read(text)
    except UnitError:
        return False
    return True
