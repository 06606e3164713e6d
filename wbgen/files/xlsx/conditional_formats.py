"""Conditional formats: which cells look otherwise, when, and how.

Layout: ECMA-376 part 1, 18.3.1.10 and 18.3.1.18 (the rules of a sheet), 18.8.14 and 18.8.15 (their looks in the
styles), 18.8.3 and 18.8.27 (colours). Rules in an extension of a sheet have their looks with them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from wbgen.files.xlsx.attributes import whole

ELEMENTS: Final = frozenset({"formula", "f", "sqref"})
"""The elements of a rule whose text counts."""
_EIGHT: Final = ("000000", "FFFFFF", "FF0000", "00FF00", "0000FF", "FFFF00", "FF00FF", "00FFFF")
_NUMBERED: Final = {str(number): colour for number, colour in enumerate(2 * _EIGHT)} | {"65": "FFFFFF"}
"""By its number: the first eight, the same again, and the paper's."""
_THEME: Final = {"0": "FFFFFF", "1": "000000"}
"""The first two colours of a theme are the paper's and the ink's; the others are its own (common practice)."""


@dataclass(slots=True)
class Look:
    """What a rule changes; None where it leaves a thing as it is. Colours are six hexadecimal digits."""

    number_format: str | None = None
    font: str | None = None
    size: str | None = None
    """The height of the letters, in points, as the file has it."""
    fill: str | None = None
    inside: str = ""

    def take(self, element: str, attributes: Mapping[str, str]) -> None:
        """An element of a look begins."""
        if element in ("font", "fill", "border"):
            self.inside = element
        elif element == "numFmt":
            self.number_format = attributes.get("formatCode", "")
        elif element == "color" and self.inside == "font":
            self.font = _colour(attributes)
        elif element == "sz" and self.inside == "font":
            self.size = attributes.get("val", "")
        elif element == "bgColor" or (element == "fgColor" and self.fill is None):
            self.fill = _colour(attributes)


@dataclass(slots=True)
class Rule:
    """One rule of a sheet. `look` is its number among those of the styles, or the look itself."""

    cells: str
    kind: str
    look: int | Look | None
    formulas: list[str] = field(default_factory=list)
    hides: bool = False
    """Whether it shows a bar or a sign in the place of the figure."""


class RuleReader:
    """Takes the elements of a sheet that hold no cells, and keeps what they say of its conditional formats."""

    def __init__(self, part: str, rules: list[Rule]) -> None:
        self.part, self.rules = part, rules
        self.cells = ""
        self.begun = len(rules)
        self.rule: Rule | None = None

    def start(self, element: str, attributes: Mapping[str, str]) -> None:
        """An element begins."""
        if element == "conditionalFormatting":
            self.cells, self.begun = attributes.get("sqref", ""), len(self.rules)
        elif element == "cfRule":
            look = whole(attributes["dxfId"], self.part, "the look of a rule") if "dxfId" in attributes else None
            self.rule = Rule(self.cells, attributes.get("type", ""), look)
            self.rules.append(self.rule)
        elif element in ("dataValidations", "ext"):
            self.rule = None
        elif self.rule is None:
            return
        elif element == "dxf":
            self.rule.look = Look()
        elif element in ("dataBar", "iconSet"):
            self.rule.hides = attributes.get("showValue", "1") not in ("1", "true")
        elif isinstance(self.rule.look, Look):
            self.rule.look.take(element, attributes)

    def text(self, element: str, text: str) -> None:
        """The text of one of ELEMENTS."""
        if self.rule is None:
            return
        if element == "sqref":
            for rule in self.rules[self.begun :]:
                rule.cells = text
        else:
            self.rule.formulas.append(text)


def _colour(attributes: Mapping[str, str]) -> str | None:
    """A colour, as far as the part alone says it."""
    rgb = attributes.get("rgb", "")
    if re.fullmatch("[0-9A-Fa-f]{6,8}", rgb):
        return rgb[-6:].upper()
    if "indexed" in attributes:
        return _NUMBERED.get(attributes["indexed"])
    known = _THEME.get(attributes.get("theme", ""))
    return known if attributes.get("tint", "0") in ("0", "0.0") else None
