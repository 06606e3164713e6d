"""Whether a format of dates shows the day that a cell holds, and so that it cannot be taken for another.

Layout: ECMA-376 part 1, 18.8.31: how many letters of a kind show what, and which m is a minute.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from typing import Final

from wbgen.verify.display.format_sections import DIGITS, HALF_OF_DAY, LITERAL, OTHERWISE, WORDS, Section

TWICE: Final = "it shows a part of the date twice"
NO_DAY: Final = "it does not show the day"
_ORDERS: Final = ("ymd", "dmy", "mdy", "dm", "md")
_RUN: Final = re.compile("y+|m+|d+|h+|s+")
_BETWEEN: Final = set("-+() $:/.,@'" + LITERAL + HALF_OF_DAY)
_SMALL_WORDS: Final = frozenset((
    "de", "del", "of", "den", "der", "the", "le", "la", "di", "il", "da", "a", "à", "o", "e", "i", "at", "um",
    "kl", "st", "nd", "rd", "th", "er", "re", "г", "года", "год", "року", "gada", "år", "h", "min", "s", "t", "z",
    "uhr", *"年月日時分秒时년월일시분초",
))  # fmt: skip
"""Words that formats of programs have between the parts of a date (common practice, no source)."""


def is_date(section: Section) -> bool:
    """Whether a section shows a date."""
    return bool(re.search(f"[ymdhsebg{HALF_OF_DAY}]", section.pattern, re.IGNORECASE))


def has_year(section: Section) -> bool:
    """Whether a section of a date shows the year."""
    return "y" in section.pattern.casefold()


def misleading_date(section: Section) -> str:
    """Why a section shows another day, or none; "" where it shows the day that a cell holds."""
    if any(sign.isnumeric() for sign in section.words):
        return DIGITS
    letters = re.sub(r"(?<=s)\.0+", "", section.pattern.casefold())
    if any(sign not in _BETWEEN and unicodedata.category(sign) != "Zs" for sign in _RUN.sub("", letters)):
        return OTHERWISE
    return _parts(_RUN.findall(letters)) or _words(section.words)


def _parts(runs: Sequence[str]) -> str:
    """What is wrong with the parts of a date and their order."""
    shown = [run for place, run in enumerate(runs) if run[0] in "ymd" and not _minutes(runs, place)]
    shown = [run for run in shown if run[0] != "d" or len(run) < 3]  # ddd and dddd are days of the week
    order = "".join(run[0] for run in shown)
    if len(set(order)) < len(order):
        return TWICE
    if "d" not in order or "m" not in order or "mmmmm" in shown:  # five of them are one letter: J may be June
        return NO_DAY
    if order == "ydm":
        return "it puts the day before the month, after the year"
    return "" if order in _ORDERS else "it puts the year between the day and the month"


def _minutes(runs: Sequence[str], place: int) -> bool:
    beside = runs[place - 1][0] == "h" if place else False
    before = runs[place + 1][0] == "s" if place + 1 < len(runs) else False
    return runs[place][0] == "m" and len(runs[place]) < 3 and (beside or before)


def _words(words: str) -> str:
    """Words that are none of the small ones could be taken for the name of a month."""
    found = re.findall(r"[年月日時分秒时년월일시분초]|[^\W\d_]+", words.casefold())
    return WORDS if set(found) - _SMALL_WORDS else ""
