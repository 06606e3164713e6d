"""A number format taken apart: its sections, and in each the words, the marks in brackets, and the pattern.

Layout: ECMA-376 part 1, 18.8.31 (sections, placeholders, literals, brackets).
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Final

DIGITS: Final = "it has digits of its own"
WORDS: Final = "it has words of its own"
SIGNS: Final = "it has signs of its own"
PALE: Final = "its colour can hardly be seen"
OTHERWISE: Final = "it counts in another calendar or with other digits"
GENERAL: Final = "§"
LITERAL: Final = "\x00"
"""Stands in a pattern where something else than a placeholder or a blank stands in the format."""
HALF_OF_DAY: Final = "\x01"
_TOKEN: Final = re.compile(
    r'"(?P<said>[^"]*)"|\\(?P<sign>.)|(?P<gap>_.)|\*(?P<fill>.)|\[(?P<bracket>[^\]]*)\]'
    r"|(?P<general>General)|(?P<half>AM/PM|A/P)|(?P<bare>.)",
    re.IGNORECASE | re.DOTALL,
)
_COLOUR: Final = re.compile(r"black|blue|cyan|green|magenta|red|white|yellow|colou?r ?(?P<number>\d+)", re.IGNORECASE)
_SEEN: Final = frozenset(("1", "3", "4", "5", "7", "9", "10", "11", "12", "13", "14"))
"""Numbered colours that stand out from white paper: ECMA-376 part 1, 18.8.27 has the colours."""
_MONEY: Final = re.compile(r"\$(?P<symbol>[^-]*)(-(?P<locale>[0-9A-Fa-f]{1,8}))?")
_THOUSANDS: Final = re.compile(r"(?<=[#0?]) (?=[#0?]{3}(?![#0?]))")


@dataclass
class Section:
    """A section of a format: the words it adds, what it fills with, its brackets, and what is left as a pattern."""

    words: str = ""
    fill: str = ""
    brackets: list[str] = field(default_factory=list)
    pattern: str = ""

    @property
    def signs(self) -> str:
        return self.words + "".join(sign for sign in self.pattern if sign in "-+()")

    @cached_property
    def bare(self) -> str:
        """The pattern without what stands around it, and without the blanks that part thousands."""
        within = "".join(" " if unicodedata.category(sign) == "Zs" else sign for sign in self.pattern)
        first, last = 0, len(within)
        while first < last and _beside(within[first]):
            first += 1
        while first < last and _beside(within[last - 1]):
            last -= 1
        return _THOUSANDS.sub("", within[first:last])

    def take(self, token: re.Match[str]) -> None:
        """Add what one token of the format says."""
        if token["bracket"] is not None:
            money = _MONEY.fullmatch(token["bracket"])
            self.brackets.append(token["bracket"])
            self._say(money["symbol"] if money else "")
        elif token["fill"] is not None:
            self.fill += token["fill"]
            self.pattern += LITERAL
        elif token["gap"] is not None:
            self.pattern += LITERAL
        elif token["said"] is not None or token["sign"] is not None:
            self._say(token["said"] or token["sign"] or "")
        else:
            self.pattern += GENERAL if token["general"] else HALF_OF_DAY if token["half"] else token["bare"]

    def _say(self, words: str) -> None:
        self.words += words
        if words:
            self.pattern += LITERAL if words.strip() else words


@lru_cache(maxsize=1024)
def sections(code: str) -> tuple[Section, ...]:
    """The sections of a format: figures above 0, below 0, 0, and words.

    >>> [one.bare for one in sections('# ##0.0" m²";[Red]-0;@')]
    ['###0.0', '0', '@']
    """
    found = [Section()]
    for token in _TOKEN.finditer(code):
        if token["bare"] == ";":
            found.append(Section())
        else:
            found[-1].take(token)
    return tuple(found)


def around(section: Section) -> str:
    """What is wrong with the brackets of a section and with what fills it; "" where nothing is."""
    if section.fill.strip():
        return DIGITS if any(sign.isnumeric() for sign in section.fill) else WORDS
    return next(filter(None, map(_bracket, section.brackets)), "")


def _bracket(bracket: str) -> str:
    money, colour = _MONEY.fullmatch(bracket), _COLOUR.fullmatch(bracket)
    if money and int(money["locale"] or "0", 16) > 0xFFFF:
        return OTHERWISE
    if re.match("[<>=]", bracket):
        return "it shows figures by their size in different ways"
    if colour and (bracket.casefold() in ("white", "yellow") or colour["number"] not in (None, *_SEEN)):
        return PALE
    return "" if money or colour else f"[{bracket}] is none of the marks that a planner knows"


def _beside(sign: str) -> bool:
    """Whether a sign of a pattern may stand before or after the placeholders."""
    return sign in "-+() $" or sign == LITERAL or unicodedata.category(sign) == "Sc"
