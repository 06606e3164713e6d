"""Whether a cell's number format shows the figure that the cell holds, as the planner's own format does.

What the planner came with is right, and what programs make of it when they save. Whatever else shows the same figure
is let be, what shows less of it is said, and what is not understood is taken for wrong.

What programs write for a planner's formats (a workbook with each of them was saved by each program):

    IronCalc 0.9, openpyxl 3.1           each as it is
    LibreOffice 7.4                      yyyy\\-mm\\-dd, yyyy\\-mm\\-dd\\ hh:mm, d\\ mmm
        where the country has a blank    0\\ %, 0.00\\ %, with a no-break space in some
        where it has strokes in dates    yyyy/mm/dd, yyyy/mm/dd\\ hh:mm
    Excel, not run (common practice)     yyyy\\-mm\\-dd;@, [$-409]d\\ mmm;@, and General where a style was lost
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from wbgen.verify.display.format_code import GAP, GENERAL, HALF, POWER, SAID, STRANGE, said, say, sections

MARK: Final = "it has a condition, a pale colour, or another mark that a planner has no use for"
WORDS: Final = "it has words, signs or digits of its own"
MONEY: Final = "it shows another currency than the planner's"
FIGURE: Final = "it does not show every figure as the number that it is"
NEGATIVE: Final = "it does not show by a minus whether a figure is below 0"
DAY: Final = "it does not show the day and its month, in an order that is in use"
HOUR: Final = "it does not show the hour"
FEWER: Final = "fewer decimals"
LESS: Final = "less of a date"

_SIGNS: Final = {
    "€": "EUR", "£": "GBP", "¥": "JPY CNY", "$": "USD CAD AUD NZD HKD SGD", "kr": "SEK NOK DKK ISK", "Fr.": "CHF",
}  # fmt: skip
"""Signs of money and the ISO 4217 codes that they are written for; a code needs no sign (common practice)."""
_NUMBER: Final = re.compile(
    rf"(?P<before>[ {GAP}{SAID}]*)(?:[{GENERAL}@]|(?P<ratio>(?:[#0?]+ )?[#0?]+/(?:[#0?]+|[1-9][0-9]*))"
    rf"|(?P<fixed>(?:#+(?: ###)* ##0|#+(?:,###?)*,##0|#+(?:,###)*(?=\.0)|#*\?*0+)(?:\.(?P<decimals>0*[#?]*))?)"
    rf"(?P<power>(?<!\?){POWER}0+)?(?: ?(?P<hundred>%))?|(?P<none>\?*))(?P<after>[ {GAP}{SAID}]*)"
)
"""A 0 is needed: # and ? show nothing of a figure that is 0. A comma at the end would show thousandths."""
_PART: Final = "(y{2,4}|m{1,4}|d{1,2})"
_BY: Final = f"[ /.,'{SAID}]+"
_COLON: Final = f"[:.{say(':.h時时시m分분')}]"
_HOUR: Final = rf"h{{1,2}}{_COLON}mm(?:{_COLON}ss(?:\.0+)?)?"
_DATE: Final = re.compile(
    f"[ {SAID}]*(?:d{{3,4}}{_BY})?{_PART}{_BY}{_PART}(?:{_BY}{_PART})?(?:{_BY}d{{3,4}})?"
    f"(?P<clock>{_BY}(?:{HALF} *{_HOUR}|{_HOUR}(?: *{HALF})?))?[ .{SAID}]*"
)
"""A day of the week may stand before or after, an hour with its minutes after."""
_ORDERS: Final = ("ymd", "dmy", "mdy", "dm", "md")
_SMALL_WORDS: Final = re.compile(
    r"\b(?:del?|de[nr]|of|the|l[ea]|d[ia]|il|[aàoeihstz]|at|um|kl|st|[nr]d|th|er|re|г|год|года|року|gada|år|min|uhr)\b"
    "|[年月日時分秒时년월일시분초]"
)
"""Words that formats of programs have between the parts of a date (common practice, no source)."""


@dataclass(frozen=True)
class Shown:
    """What a format does to a figure: why it is `wrong`, and what it shows `less`; "" where it does nothing so."""

    wrong: str = ""
    less: str = ""


@lru_cache(maxsize=4096)
def shown(code: str, wanted: str, unit: str | None = "", currency: str = "") -> Shown:
    """What a number format does to the figures of cells for which the planner came with the format `wanted`.

    `unit` is printed over the cells; "" for none, None for money. `currency` is the planner's, an ISO 4217 code; ""
    where it is not known, and any will do.

    >>> shown("#,##0.00", "0.0"), shown("0", "0.0"), shown('"120"', "0.0").wrong == FIGURE
    (Shown(wrong='', less=''), Shown(wrong='', less='fewer decimals'), True)
    """
    parts, planned = sections(code), sections(wanted)[0]
    if wanted == "@":
        return Shown(_words(parts))
    if len(parts) > 4 or any(STRANGE in one for one in parts):
        return Shown(MARK)
    if _is_date(planned) and _is_date(parts[0]):
        found = _date(parts[0], planned) if set(parts[1:]) <= {"", "@"} else Shown(DAY)
    else:
        found = _number(parts, planned, unit, currency)
    return found if found.wrong else Shown(_words(parts), found.less)


def _words(parts: Sequence[str]) -> str:
    """Why words are not shown as they are; "" where they are."""
    shows = parts[3:4] or [one for one in parts if "@" in one or GENERAL in one][-1:]
    return "" if all(re.fullmatch(f"[ {GAP}]*[@{GENERAL}][ {GAP}]*", one) for one in shows) else WORDS


def _is_date(pattern: str) -> bool:
    return re.search(f"[ymdhsebg{HALF}]", pattern) is not None


def _date(pattern: str, planned: str) -> Shown:
    own = _SMALL_WORDS.sub(" ", said(re.sub(f"[^{SAID}]", " ", pattern)).casefold())
    if any(sign.isalnum() or unicodedata.category(sign) == "Sc" for sign in own):
        return Shown(WORDS)
    found, wanted = _DATE.fullmatch(pattern), _DATE.fullmatch(planned)
    parts = [part for part in found.groups()[:3] if part] if found else []
    if found is None or "".join(part[0] for part in parts) not in _ORDERS:
        return Shown(DAY)
    if wanted and wanted["clock"] and not found["clock"]:
        return Shown(HOUR)
    short = "yy" in parts or ("yyyy" in planned and not any("y" in part for part in parts))
    return Shown("", LESS if short else "")


def _number(parts: Sequence[str], planned: str, unit: str | None, currency: str) -> Shown:
    worded = 1 < len(parts) < 4 and "@" in parts[-1]
    less = ""
    for place, pattern in enumerate(parts[:-1] if worded else parts[:3]):
        found = _NUMBER.fullmatch(pattern)
        before, after = (said(found[side]) if found else "" for side in ("before", "after"))
        dash = place == 2 and bool(set("-−") & set(before + after))  # for a figure that is 0
        if found is None or (found["none"] is not None and not dash):
            return Shown(FIGURE)
        if (found["ratio"] or found["power"]) and before + after not in ("", "-"):
            return Shown(FIGURE)
        why = _around(before, after, place, unit, currency)
        if why or (found["hundred"] and "%" not in planned) or (found["power"] and _is_date(planned)):
            return Shown(why or FIGURE)
        if place < 2:
            less = less or _less(found, planned)
    return Shown("", less)


def _around(before: str, after: str, place: int, unit: str | None, currency: str) -> str:
    """What is wrong with what stands before and after the placeholders: signs, the unit, money."""
    if place < 2 and bool(set("-−(") & set(before + after)) != (place == 1):
        return NEGATIVE
    left = unicodedata.normalize("NFKC", before).strip(" -−+(")
    right = unicodedata.normalize("NFKC", after).strip(" -−+)")
    if not left + right or (unit and not left and right == unicodedata.normalize("NFKC", unit)):
        return ""
    codes = _SIGNS.get(left or right, left or right).split()
    if unit is not None or (left and right) or not all(re.fullmatch("[A-Z]{3}", one) for one in codes):
        return WORDS
    return "" if currency in ("", *codes) else MONEY


def _less(found: re.Match[str], planned: str) -> str:
    """What a format of numbers leaves out, beside the planner's: a power and a ratio have few digits."""
    if _is_date(planned):
        return LESS
    if found["fixed"] is None and found["ratio"] is None:
        return ""
    if planned == GENERAL or found["ratio"] or found["power"]:
        return FEWER
    wanted = len(planned.partition(".")[2].strip("%")) + 2 * ("%" in planned and not found["hundred"])
    return FEWER if len(found["decimals"] or "") < wanted else ""
