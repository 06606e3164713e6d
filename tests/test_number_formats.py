"""Number formats that let a cell show another figure than it holds are named, and no others."""

from __future__ import annotations

from typing import Final

import pytest

from wbgen.number_formats import DIGITS, NOTHING, WORDS, fewer_digits, misleading, misleading_words
from wbgen.sheets.template import Column, Unit

AREA: Final = Column(key="area", heading="Area", unit=Unit(metric="m**2", us="ft**2"), digits=1)
DAY: Final = Column(key="day", heading="Day", type="date")
SHARE: Final = Column(key="share", heading="Share", unit=Unit(metric="g N/g", us="g N/g"), show="share")
PRICE: Final = Column(key="price", heading="Price", unit=Unit(metric="currency/kg", us="currency/lb"))
NAME: Final = Column(key="name", heading="Name", type="text")

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
    (NAME, "@"),
    (NAME, "General"),
    (NAME, "_-@_-"),
    (NAME, "0.00"),
]
ANOTHER_CALENDAR: Final = "it counts in another calendar or with other digits"
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
    (SHARE, '0.00" %"', WORDS),
    (PRICE, '0.00"5"', DIGITS),
    (DAY, "yyyy-dd-mm", "it puts the day before the month, after the year"),
    (DAY, "[$-1070000]yyyy-mm-dd", ANOTHER_CALENDAR),
    (DAY, "bbbb-mm-dd", ANOTHER_CALENDAR),
    (DAY, "mmm-yy", "it does not show the day"),
    (DAY, "h:mm", "it does not show the day"),
    (DAY, 'yyyy-mm-"01"', DIGITS),
    (DAY, 'yyyy-mm-dd;;;"2031"', WORDS),
    (DAY, "0.0,", "it shows thousandths"),
    (NAME, 'General;General;General;"Go"', WORDS),
    (NAME, '@" kg"', WORDS),
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


def test_words_are_shown_as_they_are() -> None:
    assert misleading_words("General") == misleading_words("0.00") == ""
    assert misleading_words('0;0;0;"kg"') == WORDS


@pytest.mark.parametrize(("code", "fewer"), [("0", True), ("0.0", False), ("# ?/8", True), ("General", False)])
def test_fewer_decimals_are_told_apart(code: str, fewer: bool) -> None:
    assert fewer_digits(code, AREA) is fewer
