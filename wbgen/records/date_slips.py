"""What to do about a date that is written as people write dates."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from typing import Final

MONTHS: Final = ("january", "february", "march", "april", "may", "june", "july", "august", "september", "october",
                 "november", "december")  # fmt: skip


def month_of(word: str) -> int:
    """The number of a month, by its English name or the first letters of it; 0 where it is none.

    >>> month_of("April"), month_of("Sept"), month_of("ma")
    (4, 9, 0)
    """
    found = [n for n, name in enumerate(MONTHS, 1) if len(word) >= 3 and name.startswith(word.casefold())]
    return found[0] if len(found) == 1 else 0


def date_meant(text: str) -> str:
    """What to write for a date that a person wrote in another way.

    >>> date_meant("14/3/2026"), date_meant("01.03.2026")
    ('write 2026-03-14', 'write 2026-03-01')
    >>> date_meant("1/3/2026")
    'write 2026-03-01 for 1 March, 2026-01-03 for 3 January'
    """
    meant = list(dict.fromkeys(_days(text.strip())))
    if not meant:
        return "write year-month-day, such as 2026-03-01, without quotes"
    if len(meant) == 1:
        return f"write {meant[0]}" + (", without quotes" if text == str(meant[0]) else "")
    return "write " + ", ".join(f"{day} for {day.day} {MONTHS[day.month - 1].capitalize()}" for day in meant)


def _days(text: str) -> Iterator[date]:
    if match := re.fullmatch(r"([0-9]{4})[-/. ]?([0-9]{1,2})[-/. ]?([0-9]{1,2})", text):
        yield from _day(match[1], match[2], match[3])
    elif match := re.fullmatch(r"([0-9]{1,2})([-/.])([0-9]{1,2})\2([0-9]{4}|[0-9]{2})", text):
        yield from _day(match[4], match[3], match[1])
        if match[2] != ".":  # with points the day always comes first
            yield from _day(match[4], match[1], match[3])
    elif match := re.fullmatch(r"([0-9]{1,2})(?:st|nd|rd|th)?[ -]([A-Za-z]+)\.?,?[ -]([0-9]{4})", text):
        yield from _day(match[3], month_of(match[2]), match[1])
    elif match := re.fullmatch(r"([A-Za-z]+)\.? ([0-9]{1,2})(?:st|nd|rd|th)?,? ([0-9]{4})", text):
        yield from _day(match[3], month_of(match[1]), match[2])


def _day(year: str, month: str | int, day: str) -> Iterator[date]:
    try:
        yield date(int(year) + (2000 if len(year) == 2 else 0), int(month), int(day))
    except ValueError:
        return
