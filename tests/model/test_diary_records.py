"""Lines of the diary that are odd as records: a text for a number, half a line, a line twice, a line on a strip."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
import pytest

from support.small_diary import EMPTY, NO, UNITS, line, on, planner
from wbgen.model.inputs import TEXT

Value = Any

DAY: Final = on(4, 1)
TEXT_FOR_NUMBER: Final = "a text stands where a number belongs"
MISSING: Final = "date, lawn or product is missing: not counted"
TWICE: Final = "stands twice: delete it, or say in its note why"


def flags(*lines: list[Value], **more: Value) -> list[str]:
    return list(planner(list(lines), **more).column("diary", "flags"))


def found(check: str, *lines: list[Value]) -> float:
    return float(planner(list(lines)).column("checks", f"found_{check}"))


def test_a_line_counts_by_its_date_its_lawn_and_its_product() -> None:
    """An unknown lawn and an unknown product count; a text for a date does not."""
    lines = [
        line(DAY, "Front", "Urea"),
        line(DAY, "Nowhere", "Nothing"),
        line("1-4-2024", "Front", "Urea"),
        line(NO, "Front", "Urea"),
        line(DAY, "", "Urea"),
        line(DAY, "Front", ""),
        EMPTY,
    ]
    keys = planner(lines).column("diary", "line_key")
    assert np.flatnonzero(~np.isnan(keys)).tolist() == [0, 1]
    assert keys[0] % 1e5 == 1, "the number of the line"
    assert keys[0] // 1e10 == 2, "the line of the lawn, the heading being line 1"
    assert keys[1] == keys[0] % 1e10 + 1, "an unknown lawn is line 0"
    assert [place for place, said in enumerate(flags(*lines)) if MISSING in said] == [3, 4, 5]
    assert planner(lines).column("facts_now", "lines") == 2
    assert planner(lines).column("facts_now", "in_season") == 2
    assert planner(lines).column("facts_now", "out_of_season") == 0
    assert planner(lines).column("facts_now", "room") == 2


@pytest.mark.parametrize("key", [key for key, unit in UNITS.items() if unit != TEXT])
def test_a_text_is_said(key: str) -> None:
    given: dict[str, Any] = {
        "date": DAY, "lawn": "Front", "product": "Urea", "weighed": 100.0, "poured": 1.0, "water": 10.0,
        "left_over": 1.0, "planned_mass_rate": 0.9, "treated_area": 50.0,
    }  # fmt: skip
    text, blank = (line(**{**given, key: one}) for one in ("a handful", NO))
    assert TEXT_FOR_NUMBER in flags(text)[0]
    assert TEXT_FOR_NUMBER not in flags(blank)[0]
    assert (found("diary_texts", text, blank, text), found("diary_texts", blank)) == (2, 0)


def test_a_line_with_a_text_for_its_date_is_not_counted_and_says_so() -> None:
    bad = line("1-4-2024", "Front", "Urea", weighed=100.0)
    assert flags(bad) == [f"{TEXT_FOR_NUMBER}; not counted"]
    assert found("diary_texts", bad) == 1
    assert found("incomplete_lines", bad) == 0
    assert flags(line("1-4-2024", "", "Urea")) == [f"{TEXT_FOR_NUMBER}; not counted; {MISSING}"]
    assert flags(line(NO, "", "", "", weighed="a handful")) == [f"{TEXT_FOR_NUMBER}; not counted; {MISSING}"]
    assert flags(line(NO, "", "", "", water="a can")) == [f"{TEXT_FOR_NUMBER}; not counted"]
    assert found("incomplete_lines", line("1-4-2024", "", "Urea")) == 1
    assert found("incomplete_lines", line(NO, "", "", "", weighed="a handful")) == 1
    assert found("diary_full", *[bad] * 10) == 1


def test_no_line_takes_the_place_of_another_in_a_check() -> None:
    """A line that does not count has a lawn and a product that are known; the other one's are not."""
    lines = [line("1-4-2024", "Front", "Urea"), line(DAY, "Nowhere", "Nothing")]
    assert (found("lawn_names", *lines), found("product_names", *lines)) == (1, 1)
    assert (found("lawn_names", lines[0]), found("product_names", lines[0])) == (0, 0)


FIRST: Final = line(DAY, "Front", "Urea", weighed=100.0)
OTHERS: Final = {
    "the same again": (line(DAY, "FRONT", "urea", "Spray", weighed=100.0), True),
    "with another water": (line(DAY, "Front", "Urea", weighed=100.0, water=5.0), True),
    "a hair heavier": (line(DAY, "Front", "Urea", weighed=100.0 + 1e-10), True),
    "nothing poured, in a figure": (line(DAY, "Front", "Urea", weighed=100.0, poured=0.0), True),
    "with a note": (line(DAY, "Front", "Urea", weighed=100.0, note="a second load"), False),
    "another load": (line(DAY, "Front", "Urea", weighed=80.0), False),
    "another way": (line(DAY, "Front", "Urea", "dry", weighed=100.0), False),
    "poured too": (line(DAY, "Front", "Urea", weighed=100.0, poured=1.0), False),
    "another day": (line(on(4, 2), "Front", "Urea", weighed=100.0), False),
    "another lawn": (line(DAY, "Back", "Urea", weighed=100.0), False),
    "another product": (line(DAY, "Front", "Iron salt", weighed=100.0), False),
    "a lawn that nobody has": (line(DAY, "Nowhere", "Urea", weighed=100.0), False),
}


@pytest.mark.parametrize("other", OTHERS)
def test_a_line_that_stands_twice_is_said(other: str) -> None:
    second, again = OTHERS[other]
    assert found("diary_duplicates", FIRST, second) == again
    assert (TWICE in flags(FIRST, second)[1]) == again
    assert TWICE not in flags(FIRST, second)[0]


def test_each_line_is_held_against_the_first_of_its_key() -> None:
    load = line(DAY, "Front", "Urea", weighed=80.0)
    said = flags(FIRST, load, FIRST, load, FIRST)
    assert [TWICE in one for one in said] == [False, False, True, False, True]
    nowhere = line(DAY, "Nowhere", "Urea", weighed=1.0)
    assert flags(nowhere, nowhere) == ["unknown lawn"] * 2


def test_feeding_an_untreated_strip_is_said() -> None:
    """The Back is the Front's strip."""
    strips: dict[str, Value] = {"lawns__strip_for": np.array(["", "Front", ""], dtype=object)}
    lines = [line(DAY, lawn, "Urea", weighed=10.0) for lawn in ("Front", "back", "Nowhere")]
    assert flags(*lines, **strips) == ["", "an untreated strip of Front", "unknown lawn"]
    assert flags(*lines) == ["", "", "unknown lawn"]


def test_the_last_lines_with_a_flag_are_listed() -> None:
    """The first and the fourth line have none; of the four others the last three are shown."""
    lines = [
        FIRST,
        line(DAY, "Nowhere", "Urea", weighed=1.0),
        line("1-4-2024", "Front", "Urea", weighed=1.0),
        line(DAY, "Back", "Urea", weighed=1.0),
        line(DAY, "", "Urea"),
        line(on(7, 1), "Back", "Iron salt", weighed=1.0),
        EMPTY,
    ]
    model = planner(lines)
    assert np.array_equal(model.column("diary", "flag_line"), [-1, 2, 3, -4, 5, 6, NO], equal_nan=True)
    assert model.column("facts_now", "flagged") == 4
    shown = {key: list(model.column("flagged_lines", key)) for key in ("line", "where_words", "flags")}
    assert shown == {
        "line": [6, 5, 3],
        "where_words": ["Back: Iron salt", "Urea", "Front: Urea"],
        "flags": ["after the as-of date", MISSING, f"{TEXT_FOR_NUMBER}; not counted"],
    }
    assert np.array_equal(model.column("flagged_lines", "date"), [on(7, 1), DAY, NO], equal_nan=True)
    few = planner(lines[:2])
    assert np.array_equal(few.column("flagged_lines", "line"), [2, NO, NO], equal_nan=True)
    assert list(few.column("flagged_lines", "flags")) == ["unknown lawn", "", ""]


def test_a_flagged_line_is_named_by_what_it_has() -> None:
    """Neither a colon nor a blank stands at the end: a program that drops it would make the cell look changed."""
    model = planner([line(DAY, "Front", ""), line(DAY, "", "Urea"), line(DAY, "", "", weighed=1.0)])
    assert list(model.column("flagged_lines", "where_words")) == ["", "Urea", "Front"]
