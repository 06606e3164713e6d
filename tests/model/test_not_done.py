"""What was skipped, put off or shifted, and when it is due then: worked out by hand, and day by day."""

from __future__ import annotations

import random
from dataclasses import dataclass
from typing import Any, Final

import pytest

from support.small_programme import line, on, shown, site
from support.tables import NO, is_close

AS_OF: Final = on(5, 15)
"""Of the small site."""
EVERY: Final = 7


def due(*diary: tuple[Any, ...], **more: Any) -> dict[str, Any]:
    """How a weekly spray of urea from 1 to 29 May stands on the Front."""
    season = site(line(lawn="Front", **more), diary=diary)
    blank = {"next_due": NO, "state": "", "due_words": ""}
    return {key: (shown(season, "due", key) or [none])[0] for key, none in blank.items()}


def stands(day: float, state: str, words: str = "") -> dict[str, Any]:
    return {"next_due": pytest.approx(day, nan_ok=True), "state": state, "due_words": words}


def test_without_a_line_it_is_overdue() -> None:
    assert due() == stands(on(5, 1), "overdue")


@pytest.mark.parametrize(("day", "then"), [(1, 8), (7, 8), (8, 15), (14, 15), (15, 22)])
def test_what_is_skipped_is_left_out_until_its_next_turn(day: int, then: int) -> None:
    """Its turns are 1, 8, 15, 22 and 29 May."""
    state = "overdue" if then < 15 else "due"
    assert due((on(5, day), "front", "", "Skipped", "sick lawn")) == stands(on(5, then), state, "skipped: sick lawn")


@pytest.mark.parametrize(("day", "then"), [(1, 2), (8, 9), (14, 15), (15, 16)])
def test_what_is_put_off_is_due_the_day_after(day: int, then: int) -> None:
    state = "overdue" if then < 15 else "due"
    assert due((on(5, day), "Front", "", "put off", "too windy")) == stands(on(5, then), state, "put off: too windy")


def test_what_is_not_done_says_so_without_a_reason_too() -> None:
    assert due((on(5, 3), "Front", "", "put off")) == stands(on(5, 4), "overdue", "put off")
    assert due((on(5, 3), "Front", "", "skipped")) == stands(on(5, 8), "overdue", "skipped")


@pytest.mark.parametrize("word", ["skipped", "put off"])
@pytest.mark.parametrize("day", [(4, 30), (5, 16)])
def test_a_day_before_it_was_due_or_after_the_as_of_date_changes_nothing(word: str, day: tuple[int, int]) -> None:
    assert due((on(*day), "Front", "", word, "wet")) == stands(on(5, 1), "overdue")


@pytest.mark.parametrize("word", ["skipped", "put off"])
def test_another_lawn_or_a_line_with_a_product_is_not_it(word: str) -> None:
    assert due((on(5, 3), "Back", "", word, "wet"), (on(5, 3), "", "", word)) == stands(on(5, 1), "overdue")
    assert due((on(5, 3), "Front", "Urea", word)) == stands(on(5, 10), "overdue")


def test_what_was_done_since_comes_first() -> None:
    done = (on(5, 10), "Front", "Urea", "spray")
    for word in ("skipped", "put off"):
        assert due((on(5, 3), "Front", "", word, "wet"), done) == stands(on(5, 17), "due")


def test_of_several_the_latest_counts_and_both_kinds_may_meet() -> None:
    skipped, again = (on(5, 2), "Front", "", "skipped", "sick"), (on(5, 9), "Front", "", "skipped", "wet")
    assert due(skipped, again) == stands(on(5, 15), "due", "skipped: wet")
    late = (on(5, 12), "Front", "", "put off", "windy")
    assert due(skipped, late) == stands(on(5, 13), "overdue", "put off: windy")
    early = (on(5, 3), "Front", "", "put off", "windy")
    assert due(skipped, early) == stands(on(5, 8), "overdue", "skipped: sick")


def test_a_visit_that_was_the_only_one_or_the_last_is_skipped_for_good() -> None:
    once = (on(5, 1), "Front", "", "skipped", "sick")
    assert due(once, times=1.0) == stands(NO, "skipped", "skipped: sick")
    assert due(once, last=on(5, 15), every=20.0) == stands(NO, "skipped", "skipped: sick")
    assert due((on(5, 15), "Front", "", "put off"), last=on(5, 15), every=20.0)["state"] == "missed"


def test_a_shift_moves_what_is_still_to_come_and_the_end_with_it() -> None:
    assert due(shift=7.0) == stands(on(5, 8), "overdue")
    done = (on(5, 1), "Front", "Urea", "spray")
    assert due(done, shift=7.0) == stands(on(5, 15), "due")
    assert due(done, (on(5, 15), "Front", "Urea", "spray"), shift=7.0) == stands(on(5, 22), "due")
    assert due(last=on(5, 10))["state"] == "missed"
    assert due(last=on(5, 10), shift=7.0) == stands(on(5, 8), "overdue")


def test_a_text_for_a_shift_moves_nothing_and_is_said() -> None:
    season = site(line(lawn="Front"), misplaced=["programme.shift"])
    assert shown(season, "programme", "line_state") == ["a text stands where the number of days belongs"]
    assert is_close(shown(season, "due", "next_due"), [on(5, 1)])


def test_a_shift_moves_the_dates_that_none_of_the_lawns_has_had() -> None:
    """Of the group the Front has had one visit, the Side none."""
    done = (on(5, 1), "Front", "Urea", "spray")
    season = site(line(group="Greens", shift=3.0), diary=[done])
    assert is_close(shown(season, "applications", "date"), [on(5, 1), *(on(5, day) for day in (11, 18, 25, 32))])
    assert is_close(shown(season, "applications", "after", "day"), [0, 7, 14, 21, 28])
    assert is_close(shown(season, "programme", "ends"), [on(5, 32)])


def test_the_lines_of_the_programme_say_why() -> None:
    """The Back is due first, on the day after it was put off; the Front was skipped."""
    diary = [(on(5, 14), "Front", "", "skipped", "sick"), (on(5, 13), "Back", "", "put off", "too windy")]
    season = site(line(), diary=diary)
    assert shown(season, "due", "due_words") == ["skipped: sick", "put off: too windy"]
    assert shown(season, "due_lines", "why") == []
    season = site(line(group="Greens"), line(lawn="Back"), diary=diary)
    assert shown(season, "due_lines", "why") == ["", "put off: too windy"]
    assert shown(season, "fortnight", "words") == ["overdue, 14 days", "overdue, 1 day, put off: too windy"]


@dataclass
class Year:
    """A line of the programme on one lawn, lived through day by day."""

    first: int
    had: int = 0
    late: int = 0

    def __post_init__(self) -> None:
        self.due = self.first

    def live(self, day: int, deeds: list[str]) -> None:
        if "skipped" in deeds:
            while self.due <= day:
                self.due += EVERY
        if "put off" in deeds:
            self.late = day
        if "spray" in deeds:
            self.had += 1
            self.due = day + EVERY

    @property
    def next(self) -> int:
        return self.late + 1 if self.late >= self.due else self.due


@pytest.mark.parametrize("seed", range(24))
def test_any_diary_comes_to_what_it_does_day_by_day(seed: int) -> None:
    draw = random.Random(seed)  # noqa: S311
    days = range(int(on(4, 29)), int(AS_OF) + 1)
    busy = draw.sample(days, 6)
    deeds = {
        day: draw.sample(["skipped", "put off", "spray"], draw.choice([1, 2])) if day in busy else [] for day in days
    }
    year = Year(int(on(5, 1)))
    for day in days:
        year.live(day, deeds[day])
    lines = [(float(day), "Front", "Urea" if deed == "spray" else "", deed, "x") for day in days for deed in deeds[day]]
    assert due(*lines, first=on(5, 1), last=on(12, 1))["next_due"] == year.next
