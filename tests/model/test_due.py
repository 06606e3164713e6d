"""What is due, against a diary of a few lines, worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_programme import line, on, shown, site
from support.tables import NO, is_close

Value = Any

DIARY = [
    (on(5, 1), "Front", "Urea"),
    (on(5, 8), "front", "UREA"),
    (on(5, 8), "Front", "Brew"),
    (on(5, 16), "Front", "Urea"),
    (on(4, 27), "Back", "Urea"),
    (on(4, 28), "Back", "Urea"),
    *((on(5, day), "Strip", "Urea") for day in (1, 3, 5, 7, 9, 9)),
]
"""From 28 April on, three days before the first of May, it counts; what comes after 15 May does not yet."""

LINES = [
    line(),
    line("Brew", lawn="front", first=on(5, 20), last=on(5, 20), times=1.0),
    line("Humate", lawn="Side", last=on(5, 10), times=2.0),
    line("Iron salt", group="Greens", first=on(5, 30), last=on(6, 30), every=10.0),
]


def test_pairs_are_dealt_out_line_after_line() -> None:
    season = site(*LINES)
    assert is_close(shown(season, "due", "programme_line"), [2, 2, 2, 2, 3, 4, 5, 5])
    assert is_close(shown(season, "due", "lawn_line"), [2, 3, 5, 6, 2, 5, 2, 5])
    assert shown(season, "due", "lawn") == ["Front", "Back", "Side", "Strip", "Front", "Side", "Front", "Side"]
    assert shown(season, "due", "product") == ["Urea"] * 4 + ["Brew", "Humate", "Iron salt", "Iron salt"]
    assert is_close(shown(season, "due", "area", "m**2"), [100, 200, 50, NO, 100, 50, 100, 50])
    assert is_close(shown(season, "due", "times_planned"), [5, 5, 5, 5, 1, 2, 4, 4])
    assert is_close(shown(season, "due", "planned_to_date"), [3, 3, 3, 3, 0, 2, 0, 0])


def test_a_line_that_plans_nothing_is_due_nowhere() -> None:
    season = site(line(last=on(4, 1)), line("Brew", lawn="Back"), line(lawn="Lost"))
    assert shown(season, "due", "product") == ["Brew"]
    assert is_close(shown(season, "due", "programme_line"), [3])


def test_keys_are_those_of_the_diary() -> None:
    """Front is line 2 and Urea line 2; 1 May is the 121st day after 1 January 2024."""
    season = site(*LINES, diary=DIARY)
    assert is_close(shown(season, "due", "product_key")[:2], [20000200000, 30000200000])
    keys = shown(season, "diary", "product_day_key")
    assert is_close(keys[:3], [20000200121, 20000200128, 20000500128])
    assert len(keys) == len(set(keys)) == len(DIARY) - 1


def test_a_family_is_counted_over_all_lines_of_a_lawn() -> None:
    """Five weekly sprays on all lawns, and three more of the same family on the Front."""
    family = ("text", ["nitrogen", "iron", "Nitrogen", "brew", ""])
    season = site(line(), line("Calcium nitrate", lawn="Front", times=3.0), line("Humate"), products__family=family)
    assert is_close(shown(season, "due", "method_key")[:5], [200002, 300002, 500002, 600002, 200002])
    assert is_close(shown(season, "due", "family_times"), [8, 5, 5, 5, 8])


def test_what_is_done_and_what_is_next() -> None:
    season = site(*LINES, diary=DIARY)
    assert is_close(shown(season, "due", "done"), [2, 1, 0, 5, 0, 0, 0, 0])
    assert is_close(shown(season, "due", "last_done"), [on(5, 8), on(4, 28), NO, on(5, 9)])
    days = [on(5, 15), on(5, 5), on(5, 1), NO, on(5, 20), NO, on(5, 30), on(5, 30)]
    assert is_close(shown(season, "due", "next_due"), days)
    states = ["due", "overdue", "overdue", "done", "due", "missed", "later", "later"]
    assert shown(season, "due", "state") == states
    assert is_close(shown(season, "due", "days_late", "day"), [NO, 10, 14])


def test_what_is_to_come() -> None:
    """From 15 to 29 May there are three weekly sprays; of 2 g/m² on 100 m², 600 g. The Strip has no area."""
    season = site(*LINES, diary=DIARY)
    assert is_close(shown(season, "due", "to_come"), [3, 3, 3, 0, 1, 0, 4, 4])
    assert is_close(shown(season, "due", "mass_to_come", "g"), [600, 1200, 300, NO, NO, NO, 200, 100])
    assert is_close(shown(season, "due", "volume_to_come", "mL"), [NO, NO, NO, NO, 300, 0])


@pytest.mark.parametrize(
    ("more", "done", "state", "due", "to_come"),
    [
        ({}, [], "overdue", on(5, 1), 3),
        ({}, [on(5, 14)], "due", on(5, 21), 2),
        ({}, [on(5, day) for day in (1, 8, 14)], "due", on(5, 21), 2),
        ({}, [on(5, day) for day in (1, 3, 5, 13)], "due", on(5, 20), 1),
        ({"last": on(5, 15)}, [], "overdue", on(5, 1), 1),
        ({"last": on(5, 14)}, [], "missed", NO, 0),
        ({"last": on(5, 14)}, [on(5, 1), on(5, 8)], "done", NO, 0),
        ({"last": on(5, 14), "times": 2.0}, [on(5, 10)], "missed", NO, 0),
        ({"last": on(5, 20), "times": 2.0}, [on(5, 1)], "due", on(5, 20), 1),
        ({"last": on(5, 20), "times": 2.0}, [on(5, 2)], "missed", NO, 0),
        ({"last": on(5, 18), "times": 3.0}, [on(5, 1)], "overdue", on(5, 10), 1),
        ({"times": 4.0}, [on(5, 3)], "overdue", on(5, 12), 2),
        ({"first": on(5, 29), "times": 1.0}, [], "due", on(5, 29), 1),
        ({"first": on(5, 30), "last": on(5, 30), "times": 1.0}, [], "later", on(5, 30), 1),
        ({"first": on(5, 20), "last": on(5, 20), "times": 3.0}, [], "due", on(5, 20), 1),
        ({"first": on(5, 18)}, [on(5, 15)], "due", on(5, 22), 1),
        ({"first": on(5, 19)}, [on(5, 15)], "due", on(5, 19), 2),
    ],
)
def test_next_day_at_its_edges(more: dict[str, Any], done: list[float], state: str, due: float, to_come: float) -> None:
    """Missed visits never stack; a day counts from three days before the line begins."""
    season = site(line(lawn="Back", **more), diary=[(day, "Back", "Urea") for day in done])
    assert shown(season, "due", "state") == [state]
    assert is_close(season.column("due", "next_due")[0], due)
    assert is_close(season.column("due", "to_come")[0], to_come)


@pytest.mark.parametrize(("day", "done"), [(8, 1), (13, 1), (14, 0)])
def test_a_day_counts_until_the_margin_is_over(day: int, done: float) -> None:
    season = site(line(lawn="Back", last=on(5, 10)), diary=[(on(5, day), "Back", "Urea")])
    assert shown(season, "due", "done") == [done]


def test_settings_that_are_empty_are_no_days() -> None:
    empty: dict[str, Any] = {"settings__line_margin": ("day", NO), "settings__due_time": ("day", NO)}
    days = [on(4, 30), on(5, 1)]
    season = site(line(lawn="Back"), line("Brew", lawn="Back", first=on(5, 15)), line(lawn="Side", first=on(5, 16)),
                  diary=[(day, "Back", "Urea") for day in days], **empty)  # fmt: skip
    assert is_close(shown(season, "due", "done"), [1, 0, 0])
    assert shown(season, "due", "state") == ["overdue", "due", "later"]
    assert shown(season, "fortnight", "product") == ["Urea", "Brew"]


def test_an_unknown_product_is_never_done() -> None:
    season = site(line("Gypsum", lawn="Back"), diary=[(on(5, 1), "Back", "Gypsum")])
    assert shown(season, "due", "done") == [0]
    assert shown(season, "due", "state") == ["overdue"]
    assert shown(season, "due", "method_key") == []


def test_due_lines_count_their_lawns() -> None:
    season = site(*LINES, diary=DIARY)
    assert shown(season, "due_lines", "product") == ["Urea", "Brew", "Humate", "Iron salt"]
    assert shown(season, "due_lines", "where_words") == ["all lawns", "front", "Side", "Greens"]
    assert is_close(shown(season, "due_lines", "soonest"), [on(5, 1), on(5, 20), NO, on(5, 30)])
    assert is_close(shown(season, "due_lines", "overdue_lawns"), [2, 0, 0, 0])
    assert is_close(shown(season, "due_lines", "due_lawns"), [1, 1, 0, 0])
    assert is_close(shown(season, "due_lines", "done_lawns"), [1, 0, 0, 0])
    assert is_close(shown(season, "due_lines", "missed_lawns"), [0, 0, 1, 0])
    assert is_close(shown(season, "due_lines", "fortnight_key"), [12100001, 14000002])


def test_the_fortnight_stands_in_the_order_of_its_days() -> None:
    """20 May, 1 May, 15 May, 16 May and the last day that is looked ahead to, 29 May."""
    days = (on(5, 20), on(5, 1), on(5, 15), on(5, 16), on(5, 29))
    season = site(*(line(lawn="Front", first=day, last=on(5, 29)) for day in days))
    assert is_close(shown(season, "fortnight", "spot"), [3, 4, 5, 2, 6])
    assert is_close(shown(season, "fortnight", "soonest"), sorted(days))
    assert shown(season, "fortnight", "words") == ["overdue, 14 days", "today", "in 1 day", "in 5 days", "in 14 days"]
    assert shown(season, "fortnight", "lawns_due") == [1] * 5
    several = site(*LINES, diary=DIARY)
    assert shown(several, "fortnight", "product") == ["Urea", "Brew"]
    assert shown(several, "fortnight", "where_words") == ["all lawns", "front"]
    assert shown(several, "fortnight", "lawns_due") == [3, 1]
