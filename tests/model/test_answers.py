"""Scores and what each line of the diary changed, worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_answers import FED, SCORED, answered
from support.small_programme import on, same, shown
from support.tables import NO, bare
from wbgen.model.response.response_room import answers_beyond

KEYS = [200091, 200100, 600100, 200110, 200110, 600110, 300102, 300120, 200136, NO, NO, 200040, 500122]
"""Front is line 2, Back 3, Side 5 and Strip 6; 10 April is the hundredth day after 1 January 2024."""


def test_a_score_has_the_key_of_its_lawn_and_day() -> None:
    model = answered()
    assert same(shown(model, "scores", "lawn_line"), [2, 2, 6, 2, 2, 6, 3, 3, 2, 2, NO, 2, 5])
    assert same(shown(model, "scores", "lawn_day_key"), KEYS)
    assert same(shown(model, "scores", "once_key"), [*KEYS[:4], NO, *KEYS[5:]])


def test_a_lawn_is_held_against_its_strip_of_the_day() -> None:
    model = answered()
    assert same(shown(model, "scores", "strip_line"), [NO, 4, NO, 7])
    assert same(shown(model, "scores", "against_quality"), [NO, 2, NO, 3])
    assert same(shown(model, "scores", "against_clippings", "mL/m**2"), [NO, 4])
    assert shown(model, "scores", "against_colour") == []
    itself = answered(lawns__strip=("text", ["Front"]))
    assert same(shown(itself, "scores", "against_quality"), [0, 0, NO, 0, NO, NO, NO, NO, 0, NO, NO, 0])


def test_what_is_to_be_mended_in_a_score() -> None:
    assert shown(answered(), "scores", "score_state") == [
        *[""] * 4, "this lawn and day stand twice", *[""] * 4, "give the date", "unknown lawn", "", "nothing scored",
    ]  # fmt: skip
    both = answered([(NO, "Nowhere"), (NO, "", 5.0)])
    assert shown(both, "scores", "score_state") == ["unknown lawn; give the date; nothing scored"]
    text = "a text stands where a number belongs"
    for key in ("quality", "colour", "clippings", "moss"):
        one = answered([(on(4, 1), "Front", 5.0, 5.0, 5.0, 0.5)], misplaced=[f"scores.{key}"])
        assert shown(one, "scores", "score_state") == [text]
    undated = answered([(on(4, 1), "Front", 5.0)], misplaced=["scores.date", "scores.quality"])
    assert shown(undated, "scores", "score_state") == [f"give the date; nothing scored; {text}"]


@pytest.mark.parametrize("place", range(2, 6))
def test_any_one_figure_is_a_score(place: int) -> None:
    record = [on(4, 1), "Front", NO, NO, NO, NO]
    record[place] = 0.5
    assert shown(answered([tuple(record)]), "scores", "score_state") == []


@pytest.mark.parametrize(("least", "days"), [(NO, 1), (0.0, 1), (1.0, 1), (3.0, 3)])
def test_an_answer_is_of_a_later_day(least: float, days: float) -> None:
    model = answered(settings__after_least=("day", least))
    assert bare(model.column("settings", "after_days"), "day") == days


def test_lines_that_were_scored_before_and_after_are_listed_from_the_last_up() -> None:
    """Lines 1, 2, 5, 6 and 12; the third is the first over again, and the eleventh's product is unknown."""
    model = answered()
    assert same(shown(model, "diary", "answered"), [1, 2, NO, NO, 5, 6, *[NO] * 5, 12])
    assert same(shown(model, "answers", "line"), [12, 6, 5, 2, 1])
    assert same(shown(model, "answers", "scored_before"), [2, 8, 8, 3, 3])
    assert same(shown(model, "answers", "scored_after"), [3, 9, 9, 5, 5])
    assert same(shown(model, "answers", "lawn_line"), [2, 3, 3, 2, 2])
    assert same(shown(model, "answers", "product_line"), [2, 2, 5, 3, 2])
    assert same(shown(model, "answers", "month"), [4] * 5)
    assert shown(model, "answers", "in_season") == ["yes"] * 5
    assert same(shown(model, "answers", "lawn_day_key"), [200091, 300116, 300105, 200100, 200100])
    assert same(shown(model, "answers", "visit_first"), [1, 1, 1, 1])


@pytest.mark.parametrize(
    ("before", "after", "found"),
    [
        (on(4, 1), on(4, 18), True),
        (on(3, 31), on(5, 6), False),
        (on(4, 1), on(5, 6), True),
        (on(4, 15), on(4, 17), False),
        (on(4, 16), on(5, 6), False),
        (on(4, 15), on(5, 7), False),
    ],
)
def test_scores_count_up_to_the_settings_own_days(before: float, after: float, found: bool) -> None:
    """The line is of 15 April: 14 days before, and from 3 to 21 days after. Another lawn's scores are none."""
    line = [(on(4, 15), "Front", "Urea", 1.0)]
    model = answered([(before, "Front", 5.0), (after, "Front", 6.0)], line)
    assert same(shown(model, "answers", "change_quality"), [1] if found else [])
    for one, other in (("Front", "Back"), ("Back", "Front"), ("Back", "Back")):
        assert shown(answered([(before, one, 5.0), (after, other, 6.0)], line), "answers", "line") == []


def test_blank_settings_leave_the_day_itself_and_nothing_after() -> None:
    blank: dict[str, Any] = {f"settings__{key}": ("day", NO) for key in ("before_time", "after_least", "after_time")}
    scores = [(on(4, 15), "Front", 5.0), (on(4, 16), "Front", 6.0), (on(4, 18), "Back", 6.0)]
    lines = [(on(4, 15), "Front", "Urea", 1.0), (on(4, 16), "Back", "Urea", 1.0)]
    assert shown(answered(scores, lines, **blank), "diary", "answered") == []
    blank["settings__after_time"] = ("day", 1.0)
    assert same(shown(answered(scores, lines, **blank), "answers", "line"), [1])


def test_without_scores_nothing_is_found() -> None:
    model = answered([])
    assert shown(model, "diary", "answered") == []
    for key in ("line", "scored_before", "scored_after", "change_quality", "mix_key"):
        assert shown(model, "answers", key) == []


def test_what_each_line_changed() -> None:
    """The Front was not scored for colour on 10 April, nor the Back for clippings or moss."""
    model = answered()
    assert same(shown(model, "answers", "change_quality"), [2, 2, 2, 1, 1])
    assert same(shown(model, "answers", "change_colour"), [NO, -1, -1])
    assert same(shown(model, "answers", "change_clippings", "mL/m**2"), [2, NO, NO, 8, 8])
    assert same(shown(model, "answers", "change_moss"), [0.05, NO, NO, -0.15, -0.15])


def test_products_of_a_visit_are_one_number() -> None:
    """Urea 1, iron salt 2, brew 8; the urea that stands twice on a day counts once."""
    model = answered()
    assert same(shown(model, "answers", "bit"), [1, 1, 8, 2, 1])
    assert same(shown(model, "answers", "alone"), [1, 1, 1])
    assert same(shown(model, "answers", "mix_key"), [1, 1, 8, 3])
    assert same(shown(model, "answers", "mix_once"), [1, NO, 8, 3])
    lost = answered(diary=[(on(4, 10), "Front", "Gypsum", 1.0)])
    assert shown(lost, "answers", "line") == []


@pytest.mark.parametrize(("line", "bit"), [(49.0, 2.0**47), (50.0, NO)])
def test_the_first_48_products_have_a_number(line: float, bit: float) -> None:
    model = answered(diary=FED[:1], diary__product_line=("", [line]))
    assert same(model.column("answers", "bit")[0], bit)
    assert same(model.column("answers", "mix_key")[0], bit)


def test_pairs_are_of_this_season_and_stand_once() -> None:
    assert same(shown(answered(), "diary", "pair_once"), [200002, 200003, NO, NO, 300005, 300002, NO, 300003])


def test_lines_that_there_is_no_room_for_are_the_oldest_and_are_counted() -> None:
    model = answered()
    room = {key: float(model.column("response_room", key)) for key in ("answered", "answers_room", "answers_beyond")}
    assert room == {"answered": 6 - 1, "answers_room": 12, "answers_beyond": 0}
    assert answers_beyond(5.0, 2.0) == 3
    assert same(shown(answered(answers__turn=("", [4.0] * 12)), "answers", "line"), [2] * 12)


def test_scores_in_another_order_say_the_same() -> None:
    turned = answered(SCORED[::-1])
    assert same(shown(turned, "answers", "scored_before"), [14, 8, 8, 13, 13])
    # Now the score that was one too many is the first of its day.
    assert same(shown(turned, "answers", "change_quality"), [2, 2, 2, -5, -5])
