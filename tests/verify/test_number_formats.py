"""Number formats that let a cell show another figure than it holds are named, and no others."""

from __future__ import annotations

from typing import Final

import pytest

from wbgen.sheets.template import Column, Look, Meaning, Unit
from wbgen.verify.display.date_formats import TWICE
from wbgen.verify.display.format_sections import DIGITS, PALE, SIGNS, WORDS
from wbgen.verify.display.number_formats import ANOTHER_MONEY, NOTHING, fewer_digits, misleading, misleading_words

AREA: Final = Column("area", "Area", Meaning(unit=Unit("m**2", "ft**2")), look=Look(1))
DAY: Final = Column("day", "Day", Meaning("date"))
SHARE: Final = Column("share", "Share", Meaning(unit=Unit("g N/g", "g N/g")), look=Look(show="share"))
PRICE: Final = Column("price", "Price", Meaning(unit=Unit("currency/kg", "currency/lb")))
COUNT: Final = Column("count", "Count")
NAME: Final = Column("name", "Name", Meaning("text"))

SOUND: Final = [
    (AREA, "General"),
    (AREA, "0.0"),
    (AREA, "0.000"),
    (AREA, "#,##0.0"),
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
ANOTHER_CALENDAR: Final = "it counts in another calendar or with other digits"
UNKNOWN: Final = "it shows figures in a way that a planner does not know"
DECEIVING: Final = [
    (AREA, '"120"', DIGITS),
    (AREA, '0.00"⁰"', DIGITS),
    (AREA, "[$12]0.00", DIGITS),
    (AREA, "*10.0", DIGITS),
    (AREA, "0.01", DIGITS),
    (AREA, '0.00" kg"', WORDS),
    (AREA, '0.0" %"', WORDS),
    (AREA, '0.0;-0.0;0.0;"ready"', WORDS),
    (AREA, '0.0;@"12"', WORDS),
    (AREA, "0.00;0.00", "it hides that a figure is below 0"),
    (AREA, "-0.00", "it shows figures as if they were below 0"),
    (AREA, '0" -"', "it shows figures as if they were below 0"),
    (AREA, "0.0,", "it shows thousandths"),
    (AREA, "0%", "it shows a hundred times as much"),
    (AREA, "d", "it shows a date"),
    (AREA, "[<0]General;0.0,", "it shows figures by their size in different ways"),
    (AREA, "[$-4000000]0.0", ANOTHER_CALENDAR),
    (AREA, "[DBNum1]0.0", "[DBNum1] is none of the marks that a planner knows"),
    (AREA, "0.00 kg", "it shows figures in a way that a planner does not know"),
    (AREA, "0.0;-0.0;", NOTHING),
    (AREA, ";;;", NOTHING),
    (AREA, '0"."0', SIGNS),
    (AREA, '"."0', SIGNS),
    (AREA, "[$.]0", SIGNS),
    (AREA, "0\\,0", SIGNS),
    (AREA, '"–"0.0', SIGNS),
    (AREA, '"<"0.0', SIGNS),
    (AREA, "\\~0.0", SIGNS),
    (AREA, "[$€]0.0", SIGNS),
    (AREA, "0-0", UNKNOWN),
    (AREA, "0 0.0", UNKNOWN),
    (AREA, "0_.0", UNKNOWN),
    (AREA, "0* 0", UNKNOWN),
    (AREA, '0"+"0', UNKNOWN),
    (AREA, "0:0", UNKNOWN),
    (AREA, ",0", UNKNOWN),
    (AREA, "*.0.0", WORDS),
    (AREA, "[s].00", "[s] is none of the marks that a planner knows"),
    (AREA, "[h]", "[h] is none of the marks that a planner knows"),
    (AREA, "[built-in 27]", "[built-in 27] is none of the marks that a planner knows"),
    (AREA, "[>5]0.0;0.0", "it shows figures by their size in different ways"),
    (AREA, "[White]0.0", PALE),
    (AREA, "[Color 2]0.0", PALE),
    (AREA, "0.0;[color36]-0.0", PALE),
    (AREA, "#", NOTHING),
    (AREA, "#,###.##", NOTHING),
    (AREA, "?", NOTHING),
    (AREA, "0.0;-#", NOTHING),
    (AREA, "0.0;-0.0;#", NOTHING),
    (AREA, '0.0;-0.0;""', NOTHING),
    (AREA, '""', NOTHING),
    (SHARE, '0.00" %"', WORDS),
    (SHARE, "0%%", UNKNOWN),
    (COUNT, '0" kg"', WORDS),
    (PRICE, '0.00" k"', WORDS),
    (PRICE, '0.00" Mio"', WORDS),
    (PRICE, '0.00"5"', DIGITS),
    (DAY, "yyyy-dd-mm", "it puts the day before the month, after the year"),
    (DAY, "[$-1070000]yyyy-mm-dd", ANOTHER_CALENDAR),
    (DAY, "bbbb-mm-dd", ANOTHER_CALENDAR),
    (DAY, "mmm-yy", "it does not show the day"),
    (DAY, "h:mm", "it does not show the day"),
    (DAY, "dd hh:mm", "it does not show the day"),
    (DAY, "yyyy-dd mm:ss", "it does not show the day"),
    (DAY, "d AM/PM", "it does not show the day"),
    (DAY, "dddd m yyyy", "it does not show the day"),
    (DAY, "d mmmmm yyyy", "it does not show the day"),
    (DAY, "dd.dd.mm", TWICE),
    (DAY, "mm/mm/d", TWICE),
    (DAY, "mm-yy-dd", "it puts the year between the day and the month"),
    (DAY, 'd" May "m yyyy', WORDS),
    (DAY, "[h] d/m/yyyy", "[h] is none of the marks that a planner knows"),
    (DAY, 'yyyy-mm-"01"', DIGITS),
    (DAY, 'yyyy-mm-dd;;;"2031"', WORDS),
    (DAY, "0.0,", "it shows thousandths"),
    (NAME, 'General;General;General;"Go"', WORDS),
    (NAME, '@" kg"', WORDS),
    (NAME, "[White]@", PALE),
    (NAME, ";;;", WORDS),
]


@pytest.mark.parametrize(("column", "code"), SOUND)
def test_formats_that_programs_offer_are_sound(column: Column, code: str) -> None:
    assert misleading(code, column) == ""


@pytest.mark.parametrize(("column", "code", "why"), DECEIVING)
def test_formats_that_deceive_are_named(column: Column, code: str, why: str) -> None:
    assert misleading(code, column) == why


def test_a_unit_is_that_of_the_units_in_use() -> None:
    assert misleading('0.0" ft²"', AREA, "us") == ""
    assert misleading('0.0" ft²"', AREA, "metric") == DIGITS


@pytest.mark.parametrize(
    ("code", "currency", "why"),
    [
        ("[$€-407] 0.00", "EUR", ""),
        ("[$€-407] 0.00", "USD", ANOTHER_MONEY),
        ("$0.00", "CAD", ""),
        ("$0.00", "EUR", ANOTHER_MONEY),
        ('0.00" EUR"', "EUR", ""),
        ('0.00" USD"', "EUR", ANOTHER_MONEY),
        ("0.00", "EUR", ""),
    ],
)
def test_a_currency_is_that_of_the_planner(code: str, currency: str, why: str) -> None:
    assert misleading(code, PRICE, "metric", currency) == why


@pytest.mark.parametrize(("code", "fewer"), [("d-mmm", True), ("yyyy-mm-dd", False), ("General", False)])
def test_a_date_without_its_year_is_told(code: str, fewer: bool) -> None:
    assert fewer_digits(code, DAY) is fewer
    assert not fewer_digits(code, Column("week", "Week", Meaning("date"), look=Look(show="day")))


def test_words_are_shown_as_they_are() -> None:
    assert misleading_words("General") == misleading_words("0.00") == ""
    assert misleading_words('0;0;0;"kg"') == WORDS


@pytest.mark.parametrize(
    ("column", "code", "fewer"),
    [
        (AREA, "0", True),
        (AREA, "0.0", False),
        (AREA, "# ?/8", True),
        (AREA, "General", False),
        (AREA, "0.0E+0", True),
        (COUNT, "0E+0", True),
        (COUNT, "0.00E+0", False),
        (COUNT, "0", False),
        (SHARE, "0", True),
        (SHARE, "0.0", True),
        (SHARE, "0.00", False),
        (SHARE, "0%", False),
        (SHARE, "General", False),
        (SHARE, "# ?/2", True),
        (AREA, "0.0;-0", True),
        (AREA, "0.0;-0.0;0", False),
        (AREA, "0.0;@", False),
    ],
)
def test_fewer_decimals_are_told_apart(column: Column, code: str, fewer: bool) -> None:
    assert fewer_digits(code, column) is fewer
