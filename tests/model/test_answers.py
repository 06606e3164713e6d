"""Scores and what each line of the diary changed, worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_answers import FED, SCORED, answered
from support.small_programme import on, same, shown
from support.tables import NO, bare

KEYS = [200091, 200100, 600100, 200110, 200110, 600110, 300102, 300120, 200136, NO, NO, 200040, 500122]
"""Front is line 2, Back 3, Side 5 and Strip 6; 10 April is the hundredth day after 1 January 2024."""


def test_a_score_has_the_key_of_its_lawn_and_day() -> None:
    model = answered()
    assert same(shown(model, "scores", "lawn_line"), [2, 2, 6, 2, 2, 6, 3, 3, 2, 2, NO, 2, 5])
    assert same(shown(model, "scores", "lawn_day_key"), KEYS)
    assert same(shown(model, "scores", "once_key"), [*KEYS[:4], NO, *KEYS[5:]])


def test_keys_that_stand_once_are_ranked() -> None:
    model = answered()
    assert same(shown(model, "scores", "keys_below"), [1, 2, 8, 3, NO, 9, 5, 6, 4, NO, NO, 0, 7])
    assert same(shown(model, "scores", "keys_up_to"), [2, 3, 9, 4, NO, 10, 6, 7, 5, NO, NO, 1, 8])


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


def test_lines_find_the_scores_about_them() -> None:
    model = answered()
    assert same(shown(model, "diary", "last_scored"), [3, 3, 3, 3, 8, 8, 8, 10, NO, NO, 8, 2])
    assert same(shown(model, "diary", "next_scored"), [5, 5, 5, 10, 9, 9, 9, 8, NO, 13, 9, 3])
    assert same(shown(model, "diary", "scored_before"), [3, 3, 3, 3, 8, 8, NO, NO, NO, NO, 8, 2])
    assert same(shown(model, "diary", "scored_after"), [5, 5, 5, NO, 9, 9, 9, 8, NO, 13, 9, 3])


@pytest.mark.parametrize(
    ("before", "after", "found"),
    [
        (on(4, 1), on(4, 18), (2, 3)),
        (on(3, 31), on(5, 6), (NO, 3)),
        (on(4, 15), on(4, 17), (2, NO)),
        (on(4, 16), on(5, 7), (NO, NO)),
    ],
)
def test_scores_count_up_to_the_settings_own_days(before: float, after: float, found: tuple[float, float]) -> None:
    """The line is of 15 April: 14 days before, and from 3 to 21 days after."""
    model = answered([(before, "Front", 5.0), (after, "Front", 6.0)], [(on(4, 15), "Front", "Urea", 1.0)])
    lines = [model.column("diary", key)[0] for key in ("scored_before", "scored_after")]
    assert same(lines, found)


def test_blank_settings_leave_the_day_itself_and_nothing_after() -> None:
    blank: dict[str, Any] = {f"settings__{key}": ("day", NO) for key in ("before_time", "after_least", "after_time")}
    scores = [(on(4, 15), "Front", 5.0), (on(4, 16), "Front", 6.0), (on(4, 18), "Back", 6.0)]
    lines = [(on(4, 15), "Front", "Urea", 1.0), (on(4, 16), "Back", "Urea", 1.0)]
    model = answered(scores, lines, **blank)
    assert same(shown(model, "diary", "scored_before"), [2])
    assert shown(model, "diary", "scored_after") == []
    assert same(shown(model, "diary", "next_scored"), [3, 4])


def test_without_scores_nothing_is_found() -> None:
    model = answered([])
    for key in ("last_scored", "next_scored", "scored_before", "scored_after", "change_quality", "visit_mix"):
        assert shown(model, "diary", key) == []


def test_what_each_line_changed() -> None:
    """The Front was not scored for colour on 10 April, nor the Back for clippings or moss."""
    model = answered()
    assert same(shown(model, "diary", "change_quality"), [1, 1, 1, NO, 2, 2, NO, NO, NO, NO, 2, 2])
    assert same(shown(model, "diary", "change_colour"), [NO, NO, NO, NO, -1, -1, NO, NO, NO, NO, -1])
    assert same(shown(model, "diary", "change_clippings", "mL/m**2"), [8, 8, 8, *[NO] * 8, 2])
    assert same(shown(model, "diary", "change_moss"), [-0.15, -0.15, -0.15, *[NO] * 8, 0.05])


def test_products_of_a_visit_are_one_number() -> None:
    """Urea 1, iron salt 2, brew 8; the urea that stands twice on a day counts once."""
    model = answered()
    assert same(shown(model, "diary", "mix_bit"), [1, 2, NO, 1, 8, 1, 1, 2, NO, 1, NO, 1])
    assert same(shown(model, "diary", "mix_key"), [3, NO, NO, NO, 8, 1, NO, NO, NO, NO, NO, 1])
    assert same(shown(model, "diary", "alone"), [NO, NO, NO, 1, 1, 1, 1, 1, NO, 1, NO, 1])
    lost = answered(diary=[(on(4, 10), "Front", "Gypsum", 1.0)])
    assert same(shown(lost, "diary", "mix_key"), [0])
    assert shown(lost, "diary", "visit_mix") == []


@pytest.mark.parametrize(("line", "bit"), [(49.0, 2.0**47), (50.0, NO)])
def test_the_first_48_products_have_a_number(line: float, bit: float) -> None:
    model = answered(diary=FED[:1], diary__product_line=("", [line]))
    assert same(model.column("diary", "mix_bit")[0], bit)
    assert same(model.column("diary", "mix_key")[0], 0 if bit != bit else bit)


def test_a_mix_is_that_of_a_visit_scored_before_and_after() -> None:
    model = answered()
    assert same(shown(model, "diary", "visit_mix"), [3, NO, NO, NO, 8, 1, NO, NO, NO, NO, NO, 1])
    assert same(shown(model, "diary", "mix_once"), [3, NO, NO, NO, 8, 1])


def test_pairs_are_of_this_season_and_stand_once() -> None:
    model = answered()
    pairs = [200002, 200003, 200002, 200002, 300005, 300002, 300002, 300003, NO, NO, NO, 200002]
    assert same(shown(model, "diary", "pair_key"), pairs)
    assert same(shown(model, "diary", "pair_once"), [200002, 200003, NO, NO, 300005, 300002, NO, 300003])


def test_scores_in_another_order_say_the_same() -> None:
    turned = answered(SCORED[::-1])
    assert same(shown(turned, "diary", "scored_before"), [13, 13, 13, 13, 8, 8, NO, NO, NO, NO, 8, 14])
    # Now the score that was one too many is the first of its day.
    assert same(shown(turned, "diary", "change_quality"), [-5, -5, -5, NO, 2, 2, NO, NO, NO, NO, 2, 2])
