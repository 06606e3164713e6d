"""Whether a cell's number format lets it show another figure, or other words, than it holds.

A list of what is sound, not of what is known to deceive: a format that this does not understand is named.
Layout: ECMA-376 part 1, 18.8.31 (sections, placeholders, literals, brackets).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

from wbgen.sheets.labels import unit_text
from wbgen.sheets.template import Column, Digits, System

DIGITS: Final = "it has digits of its own"
WORDS: Final = "it has words of its own"
_GENERAL: Final = "§"
NOTHING: Final = "it shows nothing of some figures"
_TOKEN: Final = re.compile(
    r'"(?P<said>[^"]*)"|\\(?P<sign>.)|_(?P<gap>.)|\*(?P<fill>.)|\[(?P<bracket>[^\]]*)\]'
    r"|(?P<general>General)|(?P<bare>AM/PM|A/P|.)",
    re.IGNORECASE | re.DOTALL,
)
_COLOUR: Final = re.compile(r"black|blue|cyan|green|magenta|red|white|yellow|colou?r ?\d+", re.IGNORECASE)
_MONEY: Final = re.compile(r"\$(?P<symbol>[^-]*)(-(?P<locale>[0-9A-Fa-f]{1,8}))?")
_ELAPSED: Final = re.compile(r"[hms]+", re.IGNORECASE)
_NUMBER: Final = re.compile(r"[#0?,]*[#0?](?:\.(?P<decimals>[#0?]*))?(?:[Ee][0#?]+)?%?|\.(?P<only>[#0?]+)%?")
_FRACTION: Final = re.compile(r"[#0?]+/([#0?]+|\d+)")


@dataclass
class _Section:
    """A section of a format: the words it adds, what it fills with, its brackets, and what is left as a pattern."""

    words: str = ""
    fill: str = ""
    brackets: list[str] = field(default_factory=list)
    pattern: str = ""

    @property
    def signs(self) -> str:
        return self.words + "".join(sign for sign in self.pattern if sign in "-+()")

    @property
    def bare(self) -> str:
        """The pattern without signs, blanks and currency."""
        return "".join(s for s in self.pattern if s not in "-+() $:" and unicodedata.category(s) not in ("Sc", "Zs"))


def misleading(code: str, column: Column, system: System = "metric") -> str:
    """Why a number format shows something else than a cell of `column` holds; "" where it does not.

    >>> from wbgen.sheets.template import Column
    >>> area = Column(key="area", heading="Area")
    >>> misleading('0.00', area), misleading('"120"', area), misleading("[$12]0.00", area), misleading("0.0,", area)
    ('', 'it has digits of its own', 'it has digits of its own', 'it shows thousandths')
    """
    if column.type == "text":
        return misleading_words(code)
    sections = list(_sections(code))
    dated = column.type == "date" or column.show == "date"
    as_date = dated and re.search("[ymdhsebg]", sections[0].bare, re.IGNORECASE)
    return (
        next(filter(None, map(_around, sections)), "")
        or (_as_date(sections[0], column) if as_date else _as_number(sections, column, unit_text(column, system)))
        or misleading_words(code)
    )


def misleading_words(code: str) -> str:
    """Why a number format shows other words than a cell holds; "" where it does not.

    >>> misleading_words("@"), misleading_words('General;General;General;"Go"')
    ('', 'it has words of its own')
    """
    sections = list(_sections(code))
    shown = sections[3:4] or [one for one in sections if "@" in one.pattern]
    return next(filter(None, map(_words, shown)), "")


def fewer_digits(code: str, column: Column, system: System = "metric") -> bool:
    """Whether a format of numbers shows fewer decimals than the planner does.

    >>> from wbgen.sheets.template import Column
    >>> weigh = Column(key="weigh", heading="Weigh", digits=1)
    >>> fewer_digits("0", weigh), fewer_digits("0.00", weigh), fewer_digits("General", weigh)
    (True, False, False)
    """
    wanted = getattr(column.digits, system) if isinstance(column.digits, Digits) else column.digits
    first = next(_sections(code), _Section()).bare
    if not wanted or column.type != "number" or column.show == "date":
        return False
    found = _NUMBER.fullmatch(first)
    return bool(_FRACTION.fullmatch(first)) or (
        found is not None and len(found["decimals"] or found["only"] or "") < wanted
    )


def _sections(code: str) -> Iterator[_Section]:
    section = _Section()
    for token in _TOKEN.finditer(code):
        if token["bare"] == ";":
            yield section
            section = _Section()
        elif token["bracket"] is not None:
            money = _MONEY.fullmatch(token["bracket"])
            section.words += money["symbol"] if money else ""
            section.brackets.append(token["bracket"])
        elif token["fill"] is not None:
            section.fill += token["fill"]
        elif token["gap"] is None:
            section.words += token["said"] or token["sign"] or ""
            section.pattern += _GENERAL if token["general"] else token["bare"] or ""
    yield section


def _around(section: _Section) -> str:
    """What is wrong with the brackets of a section and with what fills it."""
    if any(sign.isalnum() or sign in "-−(" for sign in section.fill):
        return DIGITS if any(sign.isnumeric() for sign in section.fill) else WORDS
    for bracket in section.brackets:
        money = _MONEY.fullmatch(bracket)
        if money and int(money["locale"] or "0", 16) > 0xFFFF:
            return "it counts in another calendar or with other digits"
        if re.match("[<>=]", bracket):
            return "it shows figures by their size in different ways"
        if not (money or _COLOUR.fullmatch(bracket) or _ELAPSED.fullmatch(bracket)):
            return f"[{bracket}] is none of the marks that a planner knows"
    return ""


def _as_date(section: _Section, column: Column) -> str:
    """Of a date: the day must be there, in an order that cannot be taken for another; of a moment the hour too."""
    letters = section.bare.casefold()
    order = "".join(dict.fromkeys(sign for sign in letters if sign in "ymd"))
    if any(sign.isnumeric() for sign in section.words):
        return DIGITS
    if re.search("[^ymdhs/.,@amp]", letters):
        return "it counts in another calendar or with other digits"
    if "d" not in order or "m" not in order:
        return "it does not show the day"
    if column.show == "moment" and "h" not in letters:
        return "it does not show the hour"
    return "it puts the day before the month, after the year" if order == "ydm" else ""


def _as_number(sections: Sequence[_Section], column: Column, unit: str | None) -> str:
    numbers = [section for place, section in enumerate(sections[:3]) if place == 0 or "@" not in section.pattern]
    for number, section in enumerate(numbers):
        why = _words_of_number(section, unit) or _pattern(section, column, number)
        if why:
            return why
    if set("-−(") & set(sections[0].signs):
        return "it shows figures as if they were below 0"
    return "it hides that a figure is below 0" if len(numbers) > 1 and not set("-−(") & set(numbers[1].signs) else ""


def _words(section: _Section) -> str:
    """Of a section of words: it must be the words themselves."""
    plain = (
        section.pattern.replace(" ", "") in ("@", _GENERAL) and not section.words.strip() and not section.fill.strip()
    )
    return "" if plain else WORDS


def _words_of_number(section: _Section, unit: str | None) -> str:
    """The words of a section of numbers: signs, or the unit that is printed over the column."""
    words = unicodedata.normalize("NFKC", section.words).strip(" -−()")
    if not any(sign.isalnum() or sign in "%‰" for sign in words):
        return ""
    if unit is None and words.isalpha():  # a currency
        return ""
    if unit and words == unicodedata.normalize("NFKC", unit):
        return ""
    return DIGITS if any(sign.isnumeric() for sign in words) else WORDS


def _pattern(section: _Section, column: Column, number: int) -> str:
    bare = section.bare
    if not bare:
        dash = number == 2 and set("-−") & set(section.signs)
        return "" if dash else NOTHING
    if bare in (_GENERAL, "@") or _FRACTION.fullmatch(bare):
        return ""
    if re.search("[1-9]", bare):
        return DIGITS
    if re.search("[ymdhs]", bare, re.IGNORECASE):
        return "it shows a date"
    if re.search(r"[0#?],+(?![0#?,])", bare):
        return "it shows thousandths"
    if "%" in bare and column.show != "share":
        return "it shows a hundred times as much"
    return "" if _NUMBER.fullmatch(bare) else "it shows figures in a way that a planner does not know"
