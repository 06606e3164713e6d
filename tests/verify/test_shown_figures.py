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
    *"0#?0#", "0", "0.0", "0.00", "#,##0", "# ##0", "#\\ ##0", *",.%/8;;@ ", "E+00", "E+0", "General",
    '" m²"', '" kg"', '"5"', '"k"', '"-"', '" - "', "\\-", "\\ ", "\\5", "\\.", *"-−()+$€£", "_)", "_-", "* ", "*-",
    "*5", "[Red]", "[White]", "[Color 2]", "[$€-407]", "[$-409]", "[$-1070000]", "[$USD]", "[$EUR]", "[$m]", "[>5]",
    "[h]", "[DBNum1]", *"k~!", '"', "''", "y", "yy", "yyyy", "m", "mm", "mmm", "mmmm", "mmmmm", "d", "dd", "ddd",
    "dddd", "h", "hh", "ss", ":", ":mm", "AM/PM", '" de "', '"May"', '"日"', *"ebg", "yyyy-", "-dd", "/mm",
)  # fmt: skip
KNOWN: Final = (
    "0.000", "#,##0.00", '0.00" m²"', "0.00;[Red]-0.00", "#,##0.000_);(#,##0.000)", "0.00E+00", "# ?/8", "0.00%",
    '_-* #,##0.000_-;-* #,##0.000_-;_-* "-"??_-;_-@_-', "[$€-407] 0.000", "#,##0.000\\ [$€-407]", "General", "# ##0.00",
    "+0.00;-0.00;0.00", "yyyy\\-mm\\-dd;@", "dd/mm/yyyy", "d-mmm-yyyy", 'd" de "mmmm" de "yyyy', "yyyy/mm/dd\\ hh:mm",
    "dddd d. mmmm yyyy", "[$-409]d/m/yyyy h:mm AM/PM;@", "d\\ mmm", "#,###.00", "#.000", "#,##,##0.00",
)  # fmt: skip


def read(text: str, unit: str | None, currency: str) -> float | None:
    """The figure that a person reads; None where no figure, or more than one, can be read."""
    bare = unicodedata.normalize("NFKC", text).strip()
    below = re.search("[-−(]", re.sub("[Ee][-+]", "", bare)) is not None
    for word in (unicodedata.normalize("NFKC", unit or ""), currency, "€" if currency == "EUR" else ""):
        bare = re.sub(r"^[-−+(\s]+|[-−+)\s]+$", "", bare)
        bare = bare.removesuffix(word) if unit else bare.removeprefix(word).removesuffix(word)
    bare = re.sub(r"^[-−+(\s]+|[-−+)\s]+$", "", bare)
    if not bare:
        return 0.0 if re.search("[-−]", text) else None
    ratio = re.fullmatch(r"(?:(\d+) +)?(\d+)/ *(\d+)", bare)
    plain = re.fullmatch(r"(\d+(?:(?:[ ,]\d{2,3})*[ ,]\d{3})?|(?=\.))(\.\d*)?([Ee][-+]?\d+)?( ?%)?", bare)
    if ratio:
        size = float(ratio[1] or 0) + float(ratio[2]) / float(ratio[3])
    elif plain and plain[0] != ".":
        size = float(re.sub("[ ,%]", "", bare).rstrip(".") or 0) / (100 if plain[4] else 1)
    else:
        return None
    return -size if below else size


def same(text: str, value: float, planned: str, less: bool) -> bool:
    """Whether a person reads the figure, as exactly as under the planner's format unless `less` of it is said."""
    if "m" in planned:
        return same_day(text, value, planned, less)
    found = read(text, *PLANNED[planned])
    digits = 9 if planned == "General" else len(planned.strip("%").partition(".")[2]) + 2 * ("%" in planned)
    near = max(1.0, abs(value) / 2) if less else 0.5 * 10.0**-digits + 1e-9
    return found is not None and abs(found - value) <= near and ("%" not in text or "%" in planned)


def same_day(text: str, value: float, planned: str, less: bool) -> bool:
    """Of a date: its day and month, in an order that is in use, its year, and its hour where the planner shows it."""
    day, minutes = date(1899, 12, 30) + timedelta(days=int(value)), round(value % 1 * 1440)
    figure = read(text, "", "")
    if less and figure is not None and abs(figure - value) <= 1.0:
        return True
    hour = rf"(?<!\d)(?:[AP]M)?0?({minutes // 60}|{minutes // 60 % 12 or 12})[:.]{minutes % 60:02}([:.]00(\.0+)?)?"
    rest = re.sub(hour, " ", text)
    named = {str(day.day): "d", str(day.month): "m", day.strftime("%b"): "m", day.strftime("%B"): "m",
             str(day.year): "y"} | ({f"{day:%y}": "y"} if less else {})  # fmt: skip
    quiet = {"de", "AM", "PM", *"APap", "日", day.strftime("%a"), day.strftime("%A")}
    words = re.findall(r"\d+|日|[^\W\d_日]+", rest)
    order = "".join(named.get(word, named.get(word.lstrip("0"), "?")) for word in words if word not in quiet)
    if "hh" in planned and rest == text:
        return False
    return order in ("ymd", "dmy", "mdy") or (order in ("dm", "md") and (less or "yyyy" not in planned))


def drawn(pick: random.Random) -> str:
    """A format of pieces in any order, or a known one with some pieces put in, taken out, or put for others."""
    if pick.random() < 0.3:
        return "".join(pick.choice(PIECES) for _ in range(pick.randint(1, 6)))
    pieces = re.findall(r'"[^"]*"|\\.|\[[^\]]*\]|_.|\*.|General|[ymdhs]+|.', pick.choice(KNOWN))
    for _ in range(pick.randint(0, 3)):
        at = pick.randrange(len(pieces) + 1)
        pieces[at : at + pick.randint(0, 1)] = [pick.choice(PIECES)] * pick.randint(0, 1)
    return "".join(pieces)


def let_be(codes: Sequence[str]) -> list[tuple[str, str, bool]]:
    """Of these formats those that verify lets be or says less of: each with a planner's format, and whether less."""
    judged = [(code, planned, shown(code, planned, *PLANNED[planned])) for code in codes for planned in PLANNED]
    return [(code, planned, found.less != "") for code, planned, found in judged if not found.wrong]


def figures_of(planned: str) -> tuple[float, ...]:
    return DAYS if "m" in planned else FIGURES


def iron(code: str, value: float) -> str:
    """What IronCalc shows. It counts the groups of ###,##0 from the left: they are let be, the digits are not."""
    style = MODEL.get_cell_style(0, 1, 1)
    MODEL.set_cell_style(0, 1, 1, style | {"num_fmt": code})
    MODEL.update_cell_with_number(0, 1, 1, value)
    text = str(MODEL.get_formatted_cell_value(0, 1, 1))
    return text.replace(",", "") if re.search("#{2,},", code) else text


MODEL: Final = ironcalc.create("shown", "en", "UTC", "en")


def office_shows(codes: Sequence[str], folder: Path) -> dict[tuple[str, float], str]:
    """What LibreOffice shows of each figure under each format: it writes a sheet as text, "as shown"."""
    book, values = openpyxl.Workbook(), (*FIGURES, *DAYS)
    for row, code in enumerate(codes, 1):
        for column, value in enumerate(values, 1):
            book.active.cell(row, column, value).number_format = code
    book.save(folder / "shown.xlsx")
    as_shown = "csv:Text - txt - csv (StarCalc):9,34,76,1,,0,false,true,true"
    made = office._convert(folder / "shown.xlsx", folder, "csv", as_shown, office.TIMEOUT)
    with made.open(encoding="utf-8", newline="") as lines:
        rows = list(csv.reader(lines, delimiter="\t"))
    return {(code, value): text for code, row in zip(codes, rows, strict=True)
            for value, text in zip(values, row, strict=True)}  # fmt: skip


def understood(code: str) -> bool:
    """Whether IronCalc shows a format as others do: it knows no ratio, rounds under an @, and misplaces ",##,"."""
    return "/" not in re.sub(r"AM/PM|[ymd]/|/[ymd]", "", code) and "@" not in code and ",##," not in code


PLANTED: Final = [
    ("0", '"120"'), ("0", '0"5"'), ("0", "0,"), ("0", "0%"), ("0", ";;;"), ("0", "0;0"), ("0", "-0"), ("0", '0"."0'),
    ("0", "0\\,0"), ("0", "0-0"), ("0", "0 0.0"), ("0", "#"), ("0", "0;-0;#"), ("0", '0" kg"'), ("0", "yyyy-mm-dd"),
    ("0", "\\10"), ("0", "[>5]0;1"), ("0", '"m²"0'), ("0.00", ".00E+00"), ("0.00", "0.00# ##0"), ("0.0%", '0.00" %"'),
    ("0.0%", "0%%"), ("0.000", "$0.000"), ("0.000", "0.000k"), ("General", "0"), ("General", "# ?/8"),
    ("yyyy-mm-dd", "yyyy-dd-mm"), ("yyyy-mm-dd", "mmm-yyyy"), ("yyyy-mm-dd", "mm-yyyy-dd"), ("yyyy-mm-dd", "d mmm"),
    ("yyyy-mm-dd", "yyyy-mm-\\1d"), ("yyyy-mm-dd", "yyyymmdd"), ("yyyy-mm-dd", "d/m/yyss"), ("yyyy-mm-dd", "0"),
    ("d mmm", "mmm d yy"), ("d mmm", "mmm yyyy"), ("yyyy-mm-dd hh:mm", "yyyy-mm-dd"),
]  # fmt: skip
"""Formats of planners, and others that show another figure, or less."""


def test_the_reader_is_not_taken_in(tmp_path: Path) -> None:
    """Of each planted format verify says something, and a reader of what either program shows sees it too."""
    texts = office_shows([code for _, code in PLANTED], tmp_path)
    for planned, code in PLANTED:
        found, figures = shown(code, planned, *PLANNED[planned]), figures_of(planned)
        assert found.wrong or found.less, (planned, code)
        assert not all(same(texts[code, value], value, planned, less=False) for value in figures), (planned, code)
        assert not all(same(iron(code, value), value, planned, less=False) for value in figures), (planned, code)
    for planned in PLANNED:
        assert all(same(iron(planned, value), value, planned, less=False) for value in figures_of(planned)), planned


@given(st.randoms(use_true_random=False))
@settings(max_examples=1500)
def test_what_is_let_be_is_read_as_the_same_figure(pick: random.Random) -> None:
    for code, planned, less in let_be([drawn(pick)]):
        texts = {value: iron(code, value) for value in figures_of(planned)} if understood(code) else {}
        wrong = [text for value, text in texts.items() if text != "#VALUE!" and not same(text, value, planned, less)]
        assert wrong == [], (code, planned)


@pytest.mark.parametrize("seed", [1])
def test_libreoffice_shows_the_same_figure_under_what_is_let_be(tmp_path: Path, seed: int) -> None:
    pick = random.Random(seed)  # noqa: S311
    kept = let_be(list(dict.fromkeys(drawn(pick) for _ in range(20_000))))
    codes = list(dict.fromkeys(code for code, *_ in kept))
    assert len(codes) > 300
    texts = office_shows(codes, tmp_path)
    assert [
        (code, planned, value, texts[code, value])
        for code, planned, less in kept
        for value in figures_of(planned)
        if not same(texts[code, value], value, planned, less)
    ] == []
