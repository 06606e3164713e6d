"""Whether a cell's number format lets it show another figure, or other words, than it holds.

A list of what is sound, not of what is known to deceive: a format that this does not understand is named.
Layout: ECMA-376 part 1, 18.8.31 (sections, placeholders, literals, brackets).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from wbgen.sheets.labels import unit_text
from wbgen.sheets.template import Column, System
from wbgen.verify.display.date_formats import has_year, is_date, misleading_date
from wbgen.verify.display.format_sections import DIGITS, GENERAL, SIGNS, WORDS, Section, around, sections

NOTHING: Final = "it shows nothing of some figures"
ANOTHER_MONEY: Final = "it shows another currency than the planner's"
_NUMBER: Final = re.compile(
    r"[#0?](?:[#0?,]*[#0?])?(?:\.(?P<decimals>[#0?]*))?(?:[Ee][-+]?[0#?]+)?(?: ?%)?|\.(?P<only>[#0?]+)(?: ?%)?"
)
_FRACTION: Final = re.compile(r"(?:[#0?]+ )?[#0?]+/([#0?]+|\d+)")
_SIGNED: Final = {
    "€": "EUR", "£": "GBP", "kr": "SEK NOK DKK ISK", "kr.": "DKK", "zł": "PLN", "Kč": "CZK", "Ft": "HUF", "R": "ZAR",
    "$": "USD CAD AUD NZD HKD SGD MXN CLP COP ARS", "US$": "USD", "R$": "BRL", "Fr": "CHF", "Fr.": "CHF", "SFr.": "CHF",
    "¥": "JPY CNY", "₹": "INR", "₺": "TRY", "₪": "ILS", "₽": "RUB", "₴": "UAH", "lei": "RON", "лв": "BGN",
}  # fmt: skip
"""Signs of money that programs write, and the ISO 4217 codes that they are written for (common practice, no source)."""


def misleading(code: str, column: Column, system: System = "metric", currency: str = "") -> str:
    """Why a number format shows something else than a cell of `column` holds; "" where it does not.

    `currency` is the planner's, an ISO 4217 code; "" where it is not known, and any will do.

    >>> from wbgen.sheets.template import Column
    >>> area = Column("area", "Area")
    >>> misleading('0.00', area), misleading('"120"', area), misleading("[$12]0.00", area), misleading("0.0,", area)
    ('', 'it has digits of its own', 'it has digits of its own', 'it shows thousandths')
    """
    if column.meaning.type == "text":
        return misleading_words(code)
    parts = sections(code)
    as_date = _dated(column) and is_date(parts[0])
    return (
        next(filter(None, map(around, parts)), "")
        or (_as_date(parts[0], column) if as_date else _as_number(parts, column, unit_text(column, system), currency))
        or misleading_words(code)
    )


@lru_cache(maxsize=1024)
def misleading_words(code: str) -> str:
    """Why a number format shows other words than a cell holds; "" where it does not.

    >>> misleading_words("@"), misleading_words('General;General;General;"Go"')
    ('', 'it has words of its own')
    """
    parts = sections(code)
    shown = parts[3:4] or [one for one in parts if "@" in one.pattern or GENERAL in one.pattern][-1:]
    return next(filter(None, (_words(one) or around(one) for one in shown)), "")


def fewer_digits(code: str, column: Column, system: System = "metric") -> bool:
    """Whether a format of numbers shows fewer decimals than the planner does, or one of dates no year.

    A share that is not shown in per cent needs two decimals more, and a power of ten two at least.

    >>> from wbgen.sheets.template import Column, Look
    >>> weigh = Column("weigh", "Weigh", look=Look(1))
    >>> fewer_digits("0", weigh), fewer_digits("0.00", weigh), fewer_digits("General", weigh)
    (True, False, False)
    """
    first = sections(code)[0]
    if _dated(column):
        return is_date(first) and not has_year(first) and column.look.show != "day"
    if column.meaning.type != "number":
        return False
    wanted = column.look.digits_in(system) or 0
    numbers = [section for section in sections(code)[:2] if "@" not in section.pattern]
    return any(_shows_fewer(section.bare, wanted, column.look.show == "share") for section in numbers)


def _shows_fewer(bare: str, wanted: int, share: bool) -> bool:
    if share and "%" not in bare:
        wanted += 2
    found = _NUMBER.fullmatch(bare)
    if found is None:
        return wanted > 0 and _FRACTION.fullmatch(bare) is not None
    if "E" in bare.upper():
        wanted = max(wanted, 2)
    return len(found["decimals"] or found["only"] or "") < wanted


def _dated(column: Column) -> bool:
    return column.meaning.type == "date" or column.look.show in ("date", "day")


def _as_date(section: Section, column: Column) -> str:
    """Of a moment the hour must be there too."""
    hidden = column.look.show == "moment" and "h" not in section.pattern.casefold()
    return misleading_date(section) or ("it does not show the hour" if hidden else "")


def _as_number(parts: Sequence[Section], column: Column, unit: str | None, currency: str) -> str:
    numbers = [section for place, section in enumerate(parts[:3]) if place == 0 or "@" not in section.pattern]
    for number, section in enumerate(numbers):
        why = _words_of_number(section, unit, currency) or _pattern(section, column, number)
        if why:
            return why
    if set("-−(") & set(numbers[0].signs):
        return "it shows figures as if they were below 0"
    return "it hides that a figure is below 0" if len(numbers) > 1 and not set("-−(") & set(numbers[1].signs) else ""


def _words(section: Section) -> str:
    """Of a section of words: it must be the words themselves, or what shows figures as they are."""
    plain = section.bare in ("@", GENERAL) and not section.words.strip() and not section.fill.strip()
    return "" if plain else WORDS


def _words_of_number(section: Section, unit: str | None, currency: str) -> str:
    """The words of a section of numbers: signs, the unit that is printed over the column, or its money."""
    bare = "".join(sign for sign in section.pattern if unicodedata.category(sign) == "Sc")
    words = unicodedata.normalize("NFKC", section.words + bare).strip(" -−+()")
    if not words or (unit and words == unicodedata.normalize("NFKC", unit)):
        return ""
    if any(sign.isnumeric() for sign in words):
        return DIGITS
    if unit is None and (words in _SIGNED or re.fullmatch("[A-Z]{3}", words)):
        return "" if currency in ("", words) or currency in _SIGNED.get(words, "").split() else ANOTHER_MONEY
    return WORDS if any(sign.isalnum() or sign in "%‰" for sign in words) else SIGNS


def _pattern(section: Section, column: Column, number: int) -> str:
    bare = section.bare
    if bare in (GENERAL, "@") or _FRACTION.fullmatch(bare):
        return ""
    if not re.search("[^#?,. %]", bare):  # a # shows nothing of 0
        dash = number == 2 and set("-−") & set(section.signs) and not bare.strip("?")
        return "" if dash else NOTHING
    if re.search("[1-9]", bare):
        return DIGITS
    if re.search("[ymdhs]", bare, re.IGNORECASE):
        return "it shows a date"
    if re.search(r"[0#?],+(?![0#?,])", bare):
        return "it shows thousandths"
    if "%" in bare and column.look.show != "share":
        return "it shows a hundred times as much"
    return "" if _NUMBER.fullmatch(bare) else "it shows figures in a way that a planner does not know"
