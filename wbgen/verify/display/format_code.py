"""A number format taken apart: sections in which what a format says itself cannot be taken for a placeholder.

Layout: ECMA-376 part 1, 18.8.30 and 18.8.31 (sections, placeholders, literals, brackets).
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from typing import Final

GENERAL: Final = "\ue000"
HALF: Final = "\ue001"
"""AM or PM."""
POWER: Final = "\ue002"
STRANGE: Final = "\uffff"
"""A mark that a planner has no use for: conditions, other calendars and digits, colours hardly seen, fillings."""
SAID: Final = "\U000f0021-\U000fffff"
"""The range of what a format says itself, each sign so many places above its own. Blanks stay blanks."""
GAP: Final = "\U000f0020"
"""A blank that parts no thousands."""
_UP: Final = 0xF0000
_BLANKS: Final = " \u00a0\u2002\u2003\u2007\u2008\u2009\u200a\u202f\u3000"
_TOKEN: Final = re.compile(
    r'"(?P<said>[^"]*)"|\\(?P<sign>.)|_(?P<gap>.)|\*(?P<fill>.)|\[(?P<mark>[^\]]*)\]'
    r"|(?P<general>General)|(?P<half>AM/PM|A/P)|(?P<power>E[-+])|(?P<bare>.)",
    re.IGNORECASE | re.DOTALL,
)
_SIMPLE: Final = {"general": GENERAL, "half": HALF, "power": POWER}
_MONEY: Final = re.compile(r"\$([^-]*)(?:-([0-9A-Fa-f]{1,8}))?")
_COLOUR: Final = re.compile(r"black|blue|cyan|green|magenta|red|colou?r ?(?:[134579]|1[0-4])", re.IGNORECASE)
"""The colours that stand out from white paper: ECMA-376 part 1, 18.8.27."""
_LAST_LOCALE: Final = 0xFFFF
"""Above it stand calendars and digits of a country's own."""


@lru_cache(maxsize=1024)
def sections(code: str) -> tuple[str, ...]:
    """The sections of a format: figures above 0, below 0, 0, and words.

    >>> [said(one) for one in sections('[$-809]# ##0.0" m²";[Red]\\\\-0;;@')]
    ['# ##0.0 m²', '-0', '', '@']
    """
    return tuple(_TOKEN.sub(_plain, code).split(";"))


def said(pattern: str) -> str:
    """A part of a section as it is read, with the signs that a format says itself in their own places."""
    return re.sub(f"[{GAP}{SAID}]", lambda found: chr(ord(found[0]) - _UP), pattern)


def say(text: str) -> str:
    """A text as it stands in a section that says it; the opposite of `said`."""
    return "".join(
        " " if sign in _BLANKS else chr(_UP + ord(sign)) if ord(sign) <= 0xFFFF else STRANGE for sign in text
    )


def _plain(token: re.Match[str]) -> str:
    kind = token.lastgroup or ""
    text = token[kind]
    if kind in ("said", "sign"):
        return say(text)
    if kind == "gap" or (kind == "fill" and text in _BLANKS):
        return GAP
    if kind == "mark":
        return _mark(text, token.string[: token.start()])
    if kind != "bare":
        return _SIMPLE.get(kind, STRANGE)
    if text in f"-+(){_BLANKS}" or unicodedata.category(text) == "Sc":
        return say(text)
    return text.lower() if text < GENERAL else STRANGE


def _mark(text: str, before: str) -> str:
    """What stands in brackets: money is said; a colour and a locale, first in their section, change no figure."""
    money, first = _MONEY.fullmatch(text), before.rpartition(";")[2]
    if money is None:
        return "" if _COLOUR.fullmatch(text) and not first else STRANGE
    if int(money[2] or "0", 16) > _LAST_LOCALE or not (money[1] or re.fullmatch(r"(\[[^\]$]*\])?", first)):
        return STRANGE
    return say(money[1])
