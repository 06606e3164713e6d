"""What a planner accepts in its cells: days, texts and names, and which names a person takes for the same.

A spreadsheet looks a name up without regard to case, reads some texts as patterns, comparisons, numbers or dates,
and finds the heading of a column before its first record.
"""

from __future__ import annotations

import re
import unicodedata
from datetime import date
from typing import Final

FIRST_DAY, LAST_DAY = date(2000, 1, 1), date(2100, 12, 31)
"""The days that a cell of a planner, and a date of the input files, may have: whole years."""
LONGEST_TEXT: Final = 2000
"""The longest text that a cell of a planner, and a text of the input files, may have, in characters."""
NAMES: Final = ("name", "part", "group")
"""Columns whose text other cells look up: signs that spreadsheets read as patterns are refused there."""
LONGEST_NAME: Final = 60
"""Longest name, in characters."""
RESERVED: Final = frozenset({
    "all", "brew", "choose a lawn", "family", "group", "lawn", "lawn of the point", "lawn shown", "on the group",
    "on the lawn", "part", "part of the point", "product", "sprayer", "sprayer caught", "sprayer walked with",
    "untreated strip",
})  # fmt: skip
"""Headings of the columns that names stand in, and what a list of lawns calls all of them."""
_NUMBER: Final = re.compile(r"[0-9.,]+e[0-9]+|inf|nan", re.IGNORECASE)
_MONTH: Final = (
    "(jan(uary)?|feb(ruary)?|mar(ch)?|apr(il)?|may|june?|july?|aug(ust)?|sept?(ember)?|oct(ober)?|nov(ember)?"
    "|dec(ember)?)"
)
_DATE: Final = re.compile(
    rf"[0-9]+[ ./-]*{_MONTH}([ ./-]*[0-9]+)?|{_MONTH}[ ./-]*[0-9]+([ ,./-]+[0-9]+)?|[0-9:.]+ ?[ap]m?", re.IGNORECASE
)
_ERROR: Final = re.compile(r"#(n/a|getting_data|[a-z0-9/_]+[!?])|err:[0-9]+", re.IGNORECASE)
_SCRIPTS: Final = frozenset({"LATIN", "CYRILLIC", "GREEK", "ARMENIAN", "CHEROKEE"})
"""Scripts with letters that look the same: Unicode Technical Standard 39, section 4."""


def bad_name(text: str) -> str:
    """Why a text cannot be a name, or "" if it can.

    >>> bad_name("Iron*"), bad_name("=SUM"), bad_name("1e5"), bad_name("3 May"), bad_name("Ammonium sulphate")
    ('it contains *', 'it begins with =', 'it reads as a number', 'it reads as a date', '')
    """
    if not text or text != " ".join(text.split()):
        return "it is empty, or has spaces at an end or two together"
    if len(text) > LONGEST_NAME:
        return f"it has {len(text)} characters, at most {LONGEST_NAME} are allowed"
    if not text.isprintable():
        return "it contains a character that cannot be seen"
    for character in "*?~":
        if character in text:
            return f"it contains {character}"
    if text[0] in "=<>+-@'":
        return f"it begins with {text[0]}"
    if any(len(scripts) > 1 for scripts in map(_scripts, text.split())):
        return "one of its words mixes letters of two scripts, which may look the same"
    return _read_otherwise(text)


def _read_otherwise(text: str) -> str:
    """What a spreadsheet or a planner reads in a text instead of a name; "" for nothing."""
    if text.casefold() in ("true", "false"):
        return "a spreadsheet reads it as true or false"
    if _ERROR.fullmatch(text):
        return "a spreadsheet reads it as an error"
    if text.casefold() in RESERVED:
        return "a planner uses this word for itself"
    if not any(character.isalpha() for character in text) or _NUMBER.fullmatch(text):
        return "it reads as a number"
    return "it reads as a date" if _DATE.fullmatch(text) else ""


def as_read(name: str) -> str:
    """A name as a person reads it: names of which this is the same are taken for each other.

    >>> as_read("Back\\u00a0lawn ") == as_read("BACK lawn"), as_read("Bowl 1") == as_read("Bowl 2")
    (True, False)
    """
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())


def _scripts(word: str) -> set[str]:
    return {script for sign in word if (script := unicodedata.name(sign, "").partition(" ")[0]) in _SCRIPTS}
