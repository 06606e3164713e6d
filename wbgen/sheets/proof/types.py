"""The types of the parts of a formula: quantities with their unit, dates, texts and truths; and where they clash."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from wbgen.sheets.formula_tree import FormulaError
from wbgen.sheets.proof.algebra import SCALES, conversion


class Type(NamedTuple):
    """`kind` is quantity, date, text, truth or any (the empty text, and zero, which go with everything)."""

    kind: str
    unit: str = ""

    def __str__(self) -> str:
        return (self.unit or "a plain number") if self.kind == "quantity" else self.kind

    @property
    def is_temperature(self) -> bool:
        """True for a temperature, which has no common zero; a difference of two is a quantity like others."""
        return self.unit in SCALES

    @property
    def is_plain(self) -> bool:
        """True for a pure number, a count included."""
        return self.kind == "quantity" and same_figure(self.unit, "")


TEXT, DATE, TRUTH, ANY = Type("text"), Type("date"), Type("truth"), Type("any")
PLAIN = Type("quantity", "")


@cache
def same_figure(source: str, target: str) -> bool:
    """Whether a figure in one unit is the same figure in the other."""
    try:
        return conversion(source, target) is None
    except FormulaError:
        return False


def is_plain_but_for_a_factor(unit: str) -> bool:
    """Whether a unit stands for a pure number times a factor.

    >>> is_plain_but_for_a_factor("g/kg"), is_plain_but_for_a_factor("kg/kg"), is_plain_but_for_a_factor("kg")
    (True, False, False)
    """
    try:
        return conversion(unit, "") is not None
    except FormulaError:
        return False


class ClashError(FormulaError):
    """Types that do not go together. `words` say what the formula does with `types`, whose places {0}, {1} stand in it.

    Where there are two, {0} is the one that was found and {1} the one that it was to be.
    """

    def __init__(self, words: str, *types: Type, because: str = "") -> None:
        super().__init__(
            words.format(*types) + (f": {because}" if because else ""),
            code="unit-clash" if any(one.unit for one in types) else "type-clash",
            expected=str(types[1]) if len(types) > 1 else "",
            found=str(types[0]),
        )
        self.words = words
        self.types = types
