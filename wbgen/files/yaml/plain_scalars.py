"""What an unquoted word of a YAML file is, and which of them are traps.

YAML 1.1 reads `no` as false, `12:30` as 750 and `010` as 8; YAML 1.2 and other readers read them otherwise. Where a
word is not read everywhere as it looks, it is refused, and the writer says with quotes what is meant.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Final

Value = str | int | float | bool | date | None

MOST_DIGITS: Final = 15
"""Digits of a number that a spreadsheet keeps."""


@dataclass(frozen=True, slots=True)
class Trap:
    """An unquoted word that is not read everywhere as it looks: what it might be taken for, and what to write."""

    taken_for: str
    remedy: str


_NULLS: Final = {"", "null", "Null", "NULL"}
_TRUTHS: Final = {"true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False}
_WHOLE: Final = re.compile(r"[-+]?(0|[1-9][0-9]*)")
_DECIMAL: Final = re.compile(r"[-+]?((0|[1-9][0-9]*)\.[0-9]*|\.[0-9]+)")
_DATE: Final = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_QUOTE: Final = 'write "{}", with the quotes, if it is a word'
_DAY: Final = "a date or a time"
_TRAPS: Final = (
    (re.compile(r"yes|no|on|off", re.IGNORECASE), "true or false", 'write "{}", with the quotes'),
    (re.compile(r"~"), "nothing", "leave the value out, or put it in quotes"),
    (re.compile(r"<<|="), "a command of YAML", "put it in quotes"),
    (re.compile(r"[-+]?[0-9]+(:[0-9]+)+(\.[0-9]*)?"), "another number, to the base of 60",
     'write "{}", with the quotes'),
    (re.compile(r"[-+]?0[0-9_]+"), "another number, to the base of 8",
     'write "{}", with the quotes, if it is a size or a code; leave the first 0 out if it is a number'),
    (re.compile(r"[-+]?0[0-9_]+\.[0-9_]*"), "another number, to the base of 8", f"leave the first 0 out, or {_QUOTE}"),
    (re.compile(r"[-+]?0[xob][0-9a-f_]+", re.IGNORECASE), "a number to another base", "write it to the base of 10"),
    (re.compile(r"[-+]?\.?[0-9][0-9_.]*_[0-9_.]*"), "a number with strokes", f"leave the strokes out, or {_QUOTE}"),
    (re.compile(r"[-+]?([0-9]+\.?[0-9]*|\.[0-9]+)e[-+]?[0-9]+", re.IGNORECASE), "a number with an exponent",
     f"write the number out, or {_QUOTE}"),
    (re.compile(r"[-+]?\.inf|\.nan", re.IGNORECASE), "no finite number", f"write a number, or {_QUOTE}"),
    (re.compile(r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}([Tt \t].*)?"), _DAY,
     "write a date as year-month-day with two digits each, such as 2026-03-01"),
)  # fmt: skip


def read_plain(text: str) -> Value | Trap:
    """The value of an unquoted word: a number, a date, true or false, nothing, or else the text itself.

    >>> read_plain("12"), read_plain("0.25"), read_plain("21 %"), read_plain("2026-03-01")
    (12, 0.25, '21 %', datetime.date(2026, 3, 1))
    >>> read_plain("12:30").taken_for, read_plain("010").taken_for
    ('another number, to the base of 60', 'another number, to the base of 8')
    """
    if text in _NULLS:
        return None
    if text in _TRUTHS:
        return _TRUTHS[text]
    if _WHOLE.fullmatch(text) or _DECIMAL.fullmatch(text):
        return _number(text)
    if _DATE.fullmatch(text):
        try:
            return date.fromisoformat(text)
        except ValueError:
            return Trap("a date that is not in the calendar", "write a date of the calendar, as year-month-day")
    for pattern, taken_for, remedy in _TRAPS:
        if pattern.fullmatch(text):
            return Trap(taken_for, remedy.format(text) if taken_for != _DAY else _day(text) or remedy)
    return text


def _day(text: str) -> str:
    """What to write for a date without its noughts, or ""."""
    try:
        year, month, day = map(int, text.split("-"))
        return f"write {date(year, month, day)}"
    except ValueError:
        return ""


def _number(text: str) -> int | float | Trap:
    if sum(character.isdigit() for character in text) > MOST_DIGITS:
        return Trap(f"a number of more than {MOST_DIGITS} digits", f"write fewer digits, or {_QUOTE}".format(text))
    return int(text) if _WHOLE.fullmatch(text) else float(text)
