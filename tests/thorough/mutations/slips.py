"""Slips of the trade in a formula of a quantity, and what people put round a formula to be rid of a nuisance."""

from __future__ import annotations

from random import Random
from typing import Final

from thorough.mutations.operators import Operator, Parts, draw, of_kind
from thorough.mutations.tokens import OPERANDS, joined, put, reference

GALLONS: Final = "1.20095"
"""US gallons in an imperial gallon: 4.54609 L / 3.785411784 L, both exact by definition."""
PHOSPHATE: Final = "2.2913"
"""P2O5 for P: 141.943 / (2 x 30.974), from standard atomic weights."""
POTASH: Final = "1.2046"
"""K2O for K: 94.195 / (2 x 39.098), from standard atomic weights."""
DENSITY: Final = "1.25"
"""kg in a litre of a liquid feed; invented."""


def _by(factor: str) -> Operator:
    """The whole formula, or one of its references, multiplied or divided."""

    def operator(parts: Parts, random: Random) -> str | None:
        sign = random.choice("*/")
        place = draw(random, [one for one in of_kind(parts, "Range") if _single(parts[one].text)])
        if place is None or random.random() < 0.5:
            return f"({joined(parts)}){sign}{factor}"
        return put(parts, place, f"({parts[place].text}{sign}{factor})")

    return operator


def _single(text: str) -> bool:
    known = reference(text)
    return known is not None and len(known.ends) == 1


def factor_left_out(parts: Parts, random: Random) -> str | None:
    """A factor or a divisor is gone: a conversion, a density, a share."""
    places = [
        one for one in of_kind(parts, "OpInfix") if parts[one].text in "*/" and parts[one + 1].kind in OPERANDS
    ]  # fmt: skip
    place = draw(random, places)
    return None if place is None else put(parts, place, "", 2)


def another_conversion(parts: Parts, random: Random) -> str | None:
    """Another line of the sheet with the conversions."""
    places = [one for one in of_kind(parts, "Range") if parts[one].text.startswith("Units!")]
    place = draw(random, places)
    known = reference(parts[place].text) if place is not None else None
    if place is None or known is None:
        return None
    return put(parts, place, str(known.moved(random.choice((-2, -1, 1, 2)), 0)))


def _round_it(pattern: str) -> Operator:
    return lambda parts, _: pattern.format(joined(parts))


SLIPS: Final[dict[str, Operator]] = {
    "slip: ten times (kg/ha for g/m²)": _by("10"),
    "slip: US for imperial gallon": _by(GALLONS),
    "slip: P for P₂O₅": _by(PHOSPHATE),
    "slip: K for K₂O": _by(POTASH),
    "slip: w/w for w/v, density put in": _by(DENSITY),
    "slip: factor left out": factor_left_out,
    "slip: another conversion": another_conversion,
    "slip: a little added": _round_it("{}+0.01"),
}
"""For quantities only."""

COVERS: Final[dict[str, Operator]] = {
    "cover: nothing added": _round_it("({})+0"),
    "cover: rounded": _round_it("ROUND({},2)"),
    "cover: error hidden": _round_it('IFERROR({},"")'),
    "cover: in brackets": _round_it("({})"),
    "cover: text put behind": _round_it('{}&""'),
}
"""For every formula: most of them change no value, or none that shows."""
