"""Number formats that let a cell show another figure than it holds are named, and no others."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import ironcalc
import openpyxl
import pytest

from support import office
from wbgen.files.xlsx.workbook import read
from wbgen.sheets.column import Column, Look, Meaning, System, Unit
from wbgen.sheets.labels import unit_text
from wbgen.sheets.number_format import number_format
from wbgen.verify.display.number_formats import DAY as NO_DAY
from wbgen.verify.display.number_formats import FIGURE, HOUR, MARK, MONEY, NEGATIVE, WORDS, Shown, shown

AREA: Final = Column("area", "Area", Meaning(unit=Unit("m**2", "ft**2")), look=Look(1))
DAY: Final = Column("day", "Day", Meaning("date"))
WEEK: Final = Column("week", "Week", Meaning("date"), look=Look(show="day"))
MOMENT: Final = Column("moment", "Moment", Meaning("date"), look=Look(show="moment"))
SHARE: Final = Column("share", "Share", Meaning(unit=Unit("g N/g", "g N/g")), look=Look(show="share"))
PRICE: Final = Column("price", "Price", Meaning(unit=Unit("currency/kg", "currency/lb")), look=Look(2))
COUNT: Final = Column("count", "Count", look=Look(0))
FACTOR: Final = Column("factor", "Factor")
NAME: Final = Column("name", "Name", Meaning("text"))
PLANNED: Final = ("General", "0", "0.0", "0.00", "0.0000", "0%", "0.0%", "0.00%", "yyyy-mm-dd", "yyyy-mm-dd hh:mm",
                  "d mmm", "@")  # fmt: skip


def judged(column: Column, code: str, system: System = "metric", currency: str = "") -> Shown:
    return shown(code, number_format(column, system), unit_text(column, system), currency)


SOUND: Final = [
    (AREA, "General"),
    (AREA, "0.0"),
    (AREA, "0.000"),
    (AREA, "#,##0.0"),
    (AREA, "#,###.00"),
    (AREA, "#,##,##0.00"),
    (AREA, "#.0"),
    (AREA, '0.00" m²"'),
    (AREA, '0.0 "m2"'),
    (AREA, "0.0;[Red]-0.0"),
    (AREA, "#,##0.00_);(#,##0.00)"),
    (AREA, '_-* #,##0.00_-;-* #,##0.00_-;_-* "-"??_-;_-@_-'),
    (AREA, "0.00E+00"),
    (AREA, "##0.0E+0"),
    (AREA, "# ?/8"),
    (AREA, "# ??/100"),
    (AREA, "@"),
    (AREA, "0.0;@"),
    (SHARE, "0.0%"),
    (SHARE, "0.00"),
    (PRICE, "[$€-407] 0.00"),
    (PRICE, "#,##0.00\\ [$€-1]"),
    (PRICE, '0.00 "EUR"'),
    (PRICE, "[$kr-41D]0.00"),
    (DAY, "yyyy-mm-dd"),
    (DAY, "yyyy\\-mm\\-dd;@"),
    (DAY, "dd/mm/yyyy"),
    (DAY, "d-mmm-yy"),
    (DAY, "[$-F800]dddd\\,\\ mmmm\\ dd\\,\\ yyyy"),
    (DAY, 'd" de "mmmm" de "yyyy'),
    (DAY, "[$-409]d/m/yy h:mm AM/PM;@"),
    (DAY, "General"),
    (DAY, "dddd d. mmmm yyyy"),
    (DAY, 'yyyy"年"m"月"d"日"'),
    (DAY, "dd\\.mm\\.yy\\ hh:mm:ss"),
    (DAY, "d\\ mmm"),
    (DAY, "d/m/yy h:mm:ss.000"),
    (AREA, "# ##0.0"),
    (AREA, "#\\ ###\\ ##0.00"),
    (AREA, "#,##0.0\u00a0;[Blue]\\-#,##0.0\u00a0"),
    (AREA, "[Color10]0.0;[RED]-0.0"),
    (AREA, '0.0;-0.0;"-"'),
    (AREA, "#\\ ?/?"),
    (AREA, "+0.0;-0.0;0.0"),
    (SHARE, "0.0\\ %"),
    (PRICE, '_-* #,##0.00\\ [$€-407]_-;\\-* #,##0.00\\ [$€-407]_-;_-* "-"??\\ [$€-407]_-;_-@_-'),
    (PRICE, "€ 0.00"),
    (NAME, "@"),
    (NAME, "General"),
    (NAME, "_-@_-"),
    (NAME, "[Red]@"),
    (NAME, "0.00"),
]
DECEIVING: Final = [
    (AREA, '"120"', FIGURE),
    (AREA, '0.00"⁰"', WORDS),
    (AREA, "[$12]0.00", WORDS),
    (AREA, "*10.0", MARK),
    (AREA, "0.01", FIGURE),
    (AREA, '0.00" kg"', WORDS),
    (AREA, '0.0" %"', WORDS),
    (AREA, '0.0;-0.0;0.0;"ready"', WORDS),
    (AREA, '0.0;@"12"', WORDS),
    (AREA, "0.00;0.00", NEGATIVE),
    (AREA, "-0.00", NEGATIVE),
    (AREA, '0" -"', NEGATIVE),
    (AREA, "0.0,", FIGURE),
    (AREA, "0%", FIGURE),
    (AREA, "d", FIGURE),
    (AREA, "[<0]General;0.0,", MARK),
    (AREA, "[$-4000000]0.0", MARK),
    (AREA, "[DBNum1]0.0", MARK),
    (AREA, "0.00 kg", FIGURE),
    (AREA, "0.0;-0.0;", FIGURE),
    (AREA, ";;;", FIGURE),
    (AREA, '0"."0', FIGURE),
    (AREA, '"."0', WORDS),
    (AREA, "[$.]0", WORDS),
    (AREA, "0\\,0", FIGURE),
    (AREA, '"–"0.0', WORDS),
    (AREA, '"<"0.0', WORDS),
    (AREA, "\\~0.0", WORDS),
    (AREA, "[$€]0.0", WORDS),
    (AREA, "0-0", FIGURE),
    (AREA, "0 0.0", FIGURE),
    (AREA, "0_.0", FIGURE),
    (AREA, "0* 0", FIGURE),
    (AREA, '0"+"0', FIGURE),
    (AREA, "0:0", FIGURE),
    (AREA, ",0", FIGURE),
    (AREA, "*.0.0", MARK),
    (AREA, "[s].00", MARK),
    (AREA, "[h]", MARK),
    (AREA, "[built-in 27]", MARK),
    (AREA, "[>5]0.0;0.0", MARK),
    (AREA, "[White]0.0", MARK),
    (AREA, "[Color 2]0.0", MARK),
    (AREA, "0.0;[color36]-0.0", MARK),
    (AREA, "#", FIGURE),
    (AREA, "#,###.##", FIGURE),
    (AREA, "?", FIGURE),
    (AREA, "0.0;-#", FIGURE),
    (AREA, "0.0;-0.0;#", FIGURE),
    (AREA, '0.0;-0.0;""', FIGURE),
    (AREA, '""', FIGURE),
    (SHARE, '0.00" %"', WORDS),
    (SHARE, "0%%", FIGURE),
    (COUNT, '0" kg"', WORDS),
    (PRICE, '0.00" k"', WORDS),
    (PRICE, '0.00" Mio"', WORDS),
    (PRICE, '0.00"5"', WORDS),
    (DAY, "yyyy-dd-mm", NO_DAY),
    (DAY, "[$-1070000]yyyy-mm-dd", MARK),
    (DAY, "bbbb-mm-dd", NO_DAY),
    (DAY, "mmm-yy", NO_DAY),
    (DAY, "h:mm", NO_DAY),
    (DAY, "dd hh:mm", NO_DAY),
    (DAY, "yyyy-dd mm:ss", NO_DAY),
    (DAY, "d AM/PM", NO_DAY),
    (DAY, "dddd m yyyy", NO_DAY),
    (DAY, "d mmmmm yyyy", NO_DAY),
    (DAY, "dd.dd.mm", NO_DAY),
    (DAY, "mm/mm/d", NO_DAY),
    (DAY, "mm-yy-dd", NO_DAY),
    (DAY, 'd" May "m yyyy', WORDS),
    (DAY, "[h] d/m/yyyy", MARK),
    (DAY, 'yyyy-mm-"01"', WORDS),
    (DAY, 'yyyy-mm-dd;;;"2031"', NO_DAY),
    (DAY, "0.0,", FIGURE),
    (NAME, 'General;General;General;"Go"', WORDS),
    (NAME, '@" kg"', WORDS),
    (NAME, "[White]@", WORDS),
    (NAME, ";;;", WORDS),
    (AREA, ".0", FIGURE),
    (AREA, "0.00# ##0", FIGURE),
    (AREA, "0.0.0", FIGURE),
    (AREA, '"m²"0.0', WORDS),
    (AREA, "0.0[$-409]", MARK),
    (AREA, "0.0[Red]", MARK),
    (AREA, "#,##000", FIGURE),
    (AREA, "0;0;0;@;@", MARK),
    (AREA, "\ue000", MARK),
    (DAY, "yyyymmdd", NO_DAY),
    (DAY, "d-mmm-h", NO_DAY),
    (DAY, "ddddd m yyyy", NO_DAY),
    (DAY, "0.0E+0", FIGURE),
    (DAY, "yyyy-mm-dd;d-m", NO_DAY),
    (MOMENT, "yyyy-mm-dd", HOUR),
]


@pytest.mark.parametrize(("column", "code"), SOUND)
def test_formats_that_programs_offer_are_sound(column: Column, code: str) -> None:
    assert judged(column, code).wrong == ""


@pytest.mark.parametrize(("column", "code", "why"), DECEIVING)
def test_formats_that_deceive_are_named(column: Column, code: str, why: str) -> None:
    assert judged(column, code).wrong == why


def test_a_unit_is_that_of_the_units_in_use() -> None:
    assert judged(AREA, '0.0" ft²"', "us") == Shown()
    assert judged(AREA, '0.0" ft²"', "metric").wrong == WORDS


@pytest.mark.parametrize(
    ("code", "currency", "why"),
    [
        ("[$€-407] 0.00", "EUR", ""),
        ("[$€-407] 0.00", "USD", MONEY),
        ("$0.00", "CAD", ""),
        ("$0.00", "EUR", MONEY),
        ('0.00" EUR"', "EUR", ""),
        ('0.00" USD"', "EUR", MONEY),
        ('0.00" PLN"', "PLN", ""),
        ("[$zł-415] 0.00", "PLN", WORDS),
        ("EUR 0.00", "EUR", FIGURE),
        ("0.00", "EUR", ""),
    ],
)
def test_a_currency_is_that_of_the_planner(code: str, currency: str, why: str) -> None:
    assert judged(PRICE, code, "metric", currency) == Shown(why)


def test_words_are_shown_as_they_are() -> None:
    assert shown("General", "@") == shown("0.00", "@") == Shown()
    assert shown('0;0;0;"kg"', "@").wrong == WORDS


@pytest.mark.parametrize(
    ("column", "code", "less"),
    [
        (AREA, "0", True),
        (AREA, "0.0", False),
        (AREA, "# ?/8", True),
        (AREA, "General", False),
        (AREA, "0.00E+0", True),
        (AREA, "0.0;-0", True),
        (AREA, "0.0;-0.0;0", False),
        (AREA, "0.0;@", False),
        (COUNT, "0", False),
        (COUNT, "0.00E+0", True),
        (FACTOR, "General", False),
        (FACTOR, "0.00", True),
        (SHARE, "0", True),
        (SHARE, "0.00", True),
        (SHARE, "0.000", False),
        (SHARE, "0%", True),
        (SHARE, "General", False),
        (SHARE, "# ?/2", True),
        (DAY, "d-mmm", True),
        (DAY, "d/m/yy", True),
        (DAY, "yyyy-mm-dd", False),
        (DAY, "d.m.yyyy hh:mm", False),
        (DAY, "General", True),
        (DAY, "0", True),
        (WEEK, "d-mmm", False),
        (WEEK, "d/m/yyyy", False),
        (WEEK, "yy-mm-dd", True),
        (MOMENT, "d/m/yyyy h:mm AM/PM", False),
    ],
)
def test_what_shows_less_is_told_apart(column: Column, code: str, less: bool) -> None:
    found = judged(column, code)
    assert (found.wrong, found.less != "") == ("", less)


@pytest.mark.parametrize(
    ("planned", "saved"),
    [
        ("yyyy-mm-dd", "yyyy\\-mm\\-dd"),
        ("yyyy-mm-dd", "yyyy/mm/dd"),
        ("yyyy-mm-dd", "yyyy\\-mm\\-dd;@"),
        ("yyyy-mm-dd", "[$-809]yyyy\\-mm\\-dd;@"),
        ("yyyy-mm-dd hh:mm", "yyyy\\-mm\\-dd\\ hh:mm"),
        ("yyyy-mm-dd hh:mm", "yyyy/mm/dd\\ hh:mm"),
        ("d mmm", "d\\ mmm"),
        ("d mmm", "[$-409]d\\ mmm;@"),
        ("0%", "0\\ %"),
        ("0.00%", "0.00\\\u00a0%"),
        *((planned, "General") for planned in ("0", "0.00", "@")),
    ],
)
def test_what_programs_make_of_a_planners_formats_is_right(planned: str, saved: str) -> None:
    assert shown(saved, planned) == Shown()


@pytest.fixture(scope="module")
def one_of_each(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A workbook with a cell of each of a planner's formats, one below the other."""
    book = openpyxl.Workbook()
    for row, planned in enumerate(PLANNED, 1):
        book.active.cell(row, 1, "word" if planned == "@" else 46_000.5).number_format = planned
    path = tmp_path_factory.mktemp("each") / "each.xlsx"
    book.save(path)
    return path


def formats(path: Path) -> list[str]:
    file = read(path)
    return [file.index.format_of(file.sheets[0].content.style(row, 0)) for row in range(len(PLANNED))]


@pytest.mark.parametrize(("country", "percent"), [("en-GB", "0%"), ("de-DE", "0\\\u00a0%"), ("sv-SE", "0\\ %")])
def test_libreoffice_saves_formats_that_are_right(
    one_of_each: Path, country: str, percent: str, tmp_path: Path
) -> None:
    profile = office.UNTOUCHED.replace(
        "/>",
        '><item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse">'
        f"<value>{country}</value></prop></item></oor:items>",
    )
    target = "xlsx:Calc MS Excel 2007 XML"
    saved = formats(office._convert(one_of_each, tmp_path, "xlsx", target, office.TIMEOUT, profile))
    assert saved[PLANNED.index("0%")] == percent
    assert [shown(code, planned) for code, planned in zip(saved, PLANNED, strict=True)] == [Shown()] * len(PLANNED)


def test_ironcalc_and_openpyxl_save_them_as_they_are(one_of_each: Path, tmp_path: Path) -> None:
    iron = tmp_path / "iron.xlsx"
    iron.write_bytes(ironcalc.load_from_xlsx(str(one_of_each), "en", "UTC", "en").to_xlsx())
    assert formats(iron) == formats(one_of_each) == list(PLANNED)
