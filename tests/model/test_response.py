"""What the grass answered, by product, mix, lawn, month, strip and week, worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_answers import FED, SCORED, answered
from support.small_programme import on, same, shown
from support.tables import NO

ANY: dict[str, Any] = {"settings__least_observations": ("", NO)}


def test_products_answered() -> None:
    """Urea on 10 April 1, on 26 April 2, on 1 April 2; the iron salt and the brew went out once."""
    model = answered()
    assert shown(model, "response_products", "product") == ["Urea", "Iron salt", "Calcium nitrate", "Brew", "Humate"]
    assert same(shown(model, "response_products", "number_quality"), [3, 1, 0, 1, 0])
    assert same(shown(model, "response_products", "alone_quality"), [2, 0, 0, 1, 0])
    assert same(shown(model, "response_products", "mean_quality"), [5 / 3])
    assert same(shown(model, "response_products", "number_clippings"), [2, 1, 0, 0, 0])
    assert same(shown(model, "response_products", "alone_clippings"), [1, 0, 0, 0, 0])
    assert same(shown(model, "response_products", "mean_clippings", "mL/m**2"), [5])
    assert same(shown(model, "response_products", "number_colour"), [1, 0, 0, 1, 0])
    assert same(shown(model, "response_products", "mean_moss"), [-0.05])


@pytest.mark.parametrize(
    ("least", "means"),
    [(NO, [5 / 3, 1, NO, 2]), (0.0, [5 / 3, 1, NO, 2]), (1.0, [5 / 3, 1, NO, 2]), (3.0, [5 / 3]), (4.0, [])],
)
def test_a_mean_is_of_so_many_at_least(least: float, means: list[float]) -> None:
    model = answered(settings__least_observations=("", least))
    assert same(shown(model, "response_products", "mean_quality"), means)


def test_products_have_a_number_of_their_own_in_a_mix() -> None:
    """It is there for every turn up to the 48th, whether a product stands there or not."""
    assert same(shown(answered(), "response_products", "bit"), [1, 2, 4, 8, 16, 32])
    far = answered(response_products__turn=("", [47.0, 48.0, 49.0, 50.0]), products__name=("text", ["Urea"] * 6))
    assert same(far.column("response_products", "bit")[:4], [2.0**46, 2.0**47, NO, NO])


def test_mixes_answered() -> None:
    model = answered()
    assert same(shown(model, "response_mixes", "mix_key"), [1, 3, 8])
    assert same(shown(model, "response_mixes", "line_a"), [2, 3, 5])
    assert same(shown(model, "response_mixes", "rest_a"), [0, 1, 0])
    assert same(shown(model, "response_mixes", "line_b"), [NO, 2])
    assert same(shown(model, "response_mixes", "rest_h"), [0, 0, 0])
    assert shown(model, "response_mixes", "words") == ["Urea", "Iron salt + Urea", "Brew"]
    assert same(shown(model, "response_mixes", "number_quality"), [2, 1, 1])
    assert same(shown(model, "response_mixes", "mean_quality"), [2])
    assert same(shown(model, "response_mixes", "number_clippings"), [1, 1, 0])
    assert same(shown(answered(**ANY), "response_mixes", "mean_clippings", "mL/m**2"), [2, 8])


def test_the_places_of_a_mix_are_taken_from_the_highest_down() -> None:
    """48 products are the greatest number that a mix can be; eight of them have a place."""
    model = answered(answers__mix_once=("", [2.0**48 - 1, 2.0**47, 2.0**6 + 1]))
    assert same(shown(model, "response_mixes", "mix_key"), [65, 2.0**47, 2.0**48 - 1])
    assert same(shown(model, "response_mixes", "line_a"), [8, 49, 49])
    assert same(shown(model, "response_mixes", "line_b"), [2, NO, 48])
    assert same(shown(model, "response_mixes", "line_h"), [NO, NO, 42])
    assert same(shown(model, "response_mixes", "rest_h"), [0, 0, 2.0**40 - 1])


def test_a_mix_of_more_than_its_places_says_so() -> None:
    keys = [2.0**8 - 1, 2.0**9 - 1]
    model = answered(answers__mix_once=("", keys))
    five = "Humate + Brew + Calcium nitrate + Iron salt + Urea"
    assert shown(model, "response_mixes", "words") == [five, "Humate + Brew + Calcium nitrate + Iron salt + more"]


def test_lawns_answered() -> None:
    model = answered()
    assert shown(model, "response_lawns", "lawn") == ["Front", "Back", "", "Side", "Strip"]
    assert same(shown(model, "response_lawns", "number_quality"), [2, 2, NO, 0, 0])
    assert same(shown(model, "response_lawns", "mean_quality"), [1.5, 2])
    assert same(shown(model, "response_lawns", "number_colour"), [0, 2, NO, 0, 0])
    assert same(shown(model, "response_lawns", "mean_colour"), [NO, -1])


def test_months_answered() -> None:
    """The visits of April: 1, 2, 2 and 2."""
    model = answered()
    assert same(shown(model, "response_months", "number_quality"), [0, 0, 0, 4, *[0] * 8])
    assert same(shown(model, "response_months", "mean_quality"), [NO, NO, NO, 1.75])
    assert same(shown(model, "response_months", "mean_clippings", "mL/m**2"), [NO, NO, NO, 5])


def test_strips_were_scored_beside_their_lawns() -> None:
    """2 and 3; the second record of one day counts for nothing."""
    model = answered()
    assert shown(model, "response_strips", "lawn") == ["Front", "Back", "", "Side", "Strip"]
    assert shown(model, "response_strips", "strip") == ["strip"]
    assert same(shown(model, "response_strips", "number_quality"), [2, 0, NO, 0, 0])
    assert same(shown(model, "response_strips", "mean_quality"), [2.5])
    assert same(shown(model, "response_strips", "number_clippings"), [1, 0, NO, 0, 0])
    assert shown(model, "response_strips", "mean_clippings", "mL/m**2") == []
    assert shown(answered(lawns__strip=("text", ["Nowhere"])), "response_strips", "strip") == []


@pytest.mark.parametrize(("day", "number"), [(on(2, 29), 0), (on(3, 1), 1), (on(5, 15), 1), (on(5, 16), 0)])
def test_strips_count_this_season(day: float, number: float) -> None:
    model = answered([(day, "Front", 6.0), (day, "Strip", 5.0)], **ANY)
    assert model.column("response_strips", "number_quality")[0] == number
    assert same(model.column("response_strips", "mean_quality")[0], 1 if number else NO)


def test_room_for_mixes() -> None:
    """Three mixes; the sheet has room for four."""
    rooms = [answered(), answered(response_mixes__turn=("", [1.0, 2.0]))]
    keys = ("mixes", "room", "beyond")
    assert [[model.column("response_room", key) for key in keys] for model in rooms] == [[3, 4, 0], [3, 2, 1]]


APRIL: dict[str, Any] = {"settings__season_start": ("date", on(4, 1))}


def test_weeks_of_the_lawn_shown() -> None:
    """From 1 April; the last week would begin on 20 May. The score of 16 May is to come."""
    model = answered(**APRIL)
    begins = [on(4, 1), on(4, 8), on(4, 15), on(4, 22), on(4, 29), on(5, 6), on(5, 13)]
    assert same(shown(model, "response_weeks", "begins"), begins)
    assert same(shown(model, "response_weeks", "quality"), [4, 6, 7])
    assert same(shown(model, "response_weeks", "colour"), [4, NO, 6])
    nitrogen = shown(model, "response_weeks", "nitrogen", "g_N/m**2")
    assert same(nitrogen, [0.46, 1.38, 1.84, 1.84, 1.84, 1.84, 1.84])


def test_a_week_ends_where_the_next_begins() -> None:
    scores = [(on(4, day), "Front", float(day)) for day in (7, 8, 14, 15)]
    lines = [(on(4, day), "Front", "Urea", 100.0) for day in (7, 8, 14, 15)]
    model = answered(scores, lines, **APRIL)
    assert same(shown(model, "response_weeks", "quality"), [7, 11, 15])
    assert same(shown(model, "response_weeks", "nitrogen", "g_N/m**2")[:3], [0.46, 1.38, 1.84])


def test_weeks_of_the_season_only() -> None:
    """Urea on 5 February is of the season before; the first week begins on the as-of date itself."""
    model = answered(settings__season_start=("date", on(5, 15)), scores__date=("date", [on(5, 15), on(5, 16)]))
    assert same(shown(model, "response_weeks", "begins"), [on(5, 15)])
    assert same(shown(model, "response_weeks", "quality"), [4])
    assert same(shown(model, "response_weeks", "nitrogen", "g_N/m**2"), [0])


def test_weeks_of_other_lawns_and_of_none() -> None:
    model = answered(**APRIL, season_view__lawn=("text", "BACK"))
    assert same(shown(model, "response_weeks", "quality"), [NO, 5, NO, NO, 7])
    assert same(shown(model, "response_weeks", "nitrogen", "g_N/m**2"), [0, 0, 0.04, *[0.96] * 4])
    bare_lawn = answered(**APRIL, season_view__lawn=("text", "Strip"))
    assert same(shown(bare_lawn, "response_weeks", "quality"), [NO, 4, 4])
    assert shown(bare_lawn, "response_weeks", "nitrogen", "g_N/m**2") == []


def test_a_week_of_no_days_has_no_scores() -> None:
    model = answered(**APRIL, settings__week=("day", NO))
    assert same(shown(model, "response_weeks", "begins"), [on(4, 1)] * 8)
    assert shown(model, "response_weeks", "quality") == []
    assert same(shown(model, "response_weeks", "nitrogen", "g_N/m**2"), [0] * 8)


def test_nothing_scored_or_nothing_fed_has_no_answers() -> None:
    for model in (answered([]), answered(diary=[])):
        for table in ("products", "mixes", "lawns", "months"):
            assert shown(model, f"response_{table}", "mean_quality") == []
        assert model.column("response_room", "mixes") == 0
    assert shown(answered(SCORED[:1], FED[:1]), "response_mixes", "words") == []
    assert shown(answered([]), "response_weeks", "quality") == []
