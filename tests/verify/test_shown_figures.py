"""What two programs show of figures under formats that verify lets be: a person reads the same figure.

The formats are drawn from more than verify knows: pieces of formats in any order, and known formats with pieces put
in, taken out and put for others. IronCalc shows each of them (but for ratios and words, which it cannot), LibreOffice
a sheet of them. Both are apart from verify, which shows nothing itself.
"""

from __future__ import annotations

import csv
import random
import re
import unicodedata
from collections.abc import Sequence
from datetime import date, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

import ironcalc
import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from support import office
from wbgen.verify.display.number_formats import shown

UNIT: Final = "m²"
CURRENCY: Final = "EUR"
PLANNED: Final = {"0": (UNIT, ""), "0.00": (UNIT, ""), "0.0%": ("", ""), "General": ("", ""), "0.000": (None, CURRENCY),
                  "yyyy-mm-dd": ("", ""), "d mmm": ("", ""), "yyyy-mm-dd hh:mm": ("", "")}  # fmt: skip
"""Formats of planners, each with the unit and the currency of its column."""
FIGURES: Final = (0.0, 5.0, -3.75, 0.0625, -12.0, 1234.5, 2345678.125)
DAYS: Final = (46_350.25, 37_256.0, 50_374.8125)
"""24 November 2026 at 6, 31 December 2001, 30 November 2037 at 19:30."""
PIECES: Final = (
    *"0#?00##", "0", "0.0", "0.00", "#,##0", "# ##0", "#\\ ##0", ",", ".", "%", "E+00", "E+0", "/", "8", ";", ";", "@", " ",
    "General", '" m²"', '" kg"', '"5"', '"k"', '"-"', '" - "', "\\-", "\\ ", "\\5", "\\.", "-", "−", "(", ")", "+", "$", "€",
    "£", "_)", "_-", "* ", "*-", "*5", "[Red]", "[White]", "[Color 2]", "[$€-407]", "[$-409]", "[$-1070000]", "[$USD]",
    "[$EUR]", "[$m]", "[>5]", "[h]", "[DBNum1]", "k", "~", "!", '"', "''",
    "y", "yy", "yyyy", "m", "mm", "mmm", "mmmm", "mmmmm", "d", "dd", "ddd", "dddd", "h", "hh", "ss", ":", ":mm", "AM/PM",
    '" de "', '"May"', '"日"', "e", "b", "g", "yyyy-", "-dd", "/mm",
)  # fmt: skip
KNOWN: Final = (
    "0.000", "#,##0.00", '0.00" m²"', "0.00;[Red]-0.00", "#,##0.000_);(#,##0.000)", "0.00E+00", "# ?/8", "0.00%",
    '_-* #,##0.000_-;-* #,##0.000_-;_-* "-"??_-;_-@_-', "[$€-407] 0.000", "#,##0.000\\ [$€-407]", "General", "# ##0.00",
    "+0.00;-0.00;0.00", "yyyy\\-mm\\-dd;@", "dd/mm/yyyy", "d-mmm-yyyy", 'd" de "mmmm" de "yyyy', "yyyy/mm/dd\\ hh:mm",
    "dddd d. mmmm yyyy", "[$-409]d/m/yyyy h:mm AM/PM;@", "d\\ mmm",
)  # fmt: skip


def read(text: str, unit: str | None, currency: str) -> float | None:
    """The figure that a person reads; None where no figure, or more than one, can be read."""
    bare = unicodedata.normalize("NFKC", text).strip()
    below = re.search("[-−(]", re.sub(r"E[-+]", "", bare)) is not None
    for word in (unicodedata.normalize("NFKC", unit or ""), currency, "€" if currency == "EUR" else ""):
        bare = re.sub(r"^[-−+(\s]+|[-−+)\s]+$", "", bare)
        bare = bare.removesuffix(word) if unit else bare.removeprefix(word).removesuffix(word)
    bare = re.sub(r"^[-−+(\s]+|[-−+)\s]+$", "", bare)
    if not bare:
        return 0.0 if re.search("[-−]", text) else None
    ratio = re.fullmatch(r"(?:(\d+) +)?(\d+)/ *(\d+)", bare)
    plain = re.fullmatch(r"(\d+(?:[ ,]\d{3})*|(?=\.))(\.\d*)?(E[-+]\d+)?( ?%)?", bare)
    if ratio:
        size = float(ratio[1] or 0) + float(ratio[2]) / float(ratio[3])
    elif plain and plain[0] != ".":
        size = float(re.sub("[ ,%]", "", bare).rstrip(".") or 0) / (100 if plain[4] else 1)
    else:
        return None
    return -size if below else size


def same(text: str, value: float, planned: str, less: bool) -> bool:
    """Whether a person reads the figure, as exactly as under the planner's format unless `less` of it is said."""
    unit, currency = PLANNED[planned]
    if "m" in planned:
        return same_day(text, value, planned, less)
    found = read(text, unit, currency)
    digits = 9 if planned == "General" else len(planned.strip("%").partition(".")[2]) + 2 * ("%" in planned)
    return found is not None and abs(found - value) <= (
        max(1.0, abs(value) / 2) if less else 0.5 * 10.0**-digits + 1e-9
    )


def same_day(text: str, value: float, planned: str, less: bool) -> bool:
    """Of a date: its day and month, in an order that is in use, and its year unless `less` is said."""
    day = date(1899, 12, 30) + timedelta(days=int(value))
    figure = read(text, "", "")
    if less and figure is not None and abs(figure - value) <= 1.0:
        return True
    hour, minute = divmod(round(value % 1 * 1440), 60)
    text = re.sub(rf"(?<!\d)0?({hour}|{hour % 12 or 12})[:.]{minute:02}([:.]00(\.0+)?)?( *[AP]M)?", " ", text)
    words = re.findall(r"\d+|[A-Za-z]+", text)
    order = "".join(
        "m" if word[:3] == day.strftime("%b") or word.isdecimal() and int(word) == day.month
        else "d" if word.isdecimal() and int(word) == day.day
        else "y" if word == str(day.year) or (less and word == f"{day:%y}")
        else "" if word in ("de", day.strftime("%a"), day.strftime("%A"))
        else "?"
        for word in words
    )  # fmt: skip
    wanted = ("ymd", "dmy", "mdy") if "yyyy" in planned and not less else ("ymd", "dmy", "mdy", "dm", "md")
    return order in wanted
