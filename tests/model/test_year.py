"""The season summed up for the next one, worked out by hand. Front has 100 m², Back 200 m²."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_answers import FED, answered
from support.small_programme import on, same, shown
from support.tables import NO, bare

TARGET: dict[str, Any] = {"lawns__target_nitrogen": ("g_N/m**2", [1.5, 2.0])}


def test_season_in_a_few_figures() -> None:
    """0.97 kg of urea at 20 less what went in the season before, 0.4 L of the brew at 8."""
    model = answered()
    assert [model.column("year", key) for key in ("visits", "unpriced", "pairs")] == [7, 2, 5]
    assert same(bare(model.column("year", "spent"), "currency"), 0.81 * 20 + 0.4 * 8)


PAIRS = (
    "product_line", "product", "days", "mass", "volume", "nitrogen", "cost", "number", "mean"
)  # fmt: skip
UNITS = {"mass": "kg", "volume": "L", "nitrogen": "g_N/m**2", "cost": "currency"}


@pytest.mark.parametrize(
    ("chosen", "expected"),
    [
        ("", [[2, 3], ["Urea", "Iron salt"], [3, 1], [0.4, 0.05], [], [1.84, 0], [8], [2, 1], [1.5]]),
        (
            "BACK",
            [[2, 3, 5], ["Urea", "Iron salt", "Brew"], [2, 1, 1], [0.4, 0.02], [NO, NO, 0.4], [0.92, 0, 0.04],
             [8, NO, 3.2], [1, 0, 1], []],
        ),
        ("Strip", [[]] * 9),
        ("Nobody's", [[]] * 9),
    ],
)  # fmt: skip
def test_products_of_the_lawn_shown(chosen: str, expected: list[list[Any]]) -> None:
    """Urea went twice on the Front on 10 April: one day. The gypsum and what went nowhere are not among them."""
    model = answered(year_choice__lawn=("text", chosen))
    for key, figures in zip(PAIRS, expected, strict=True):
        found = shown(model, "year_pairs", key, UNITS.get(key, ""))
        assert found == figures if key == "product" else same(found, figures), key


SHOWN = (("year_choice", "shown"), ("year_lawn", "lawn_line"), ("year_choice", "products"), ("year_lawn", "up_to"))


def test_the_lawn_shown_is_the_one_chosen_or_the_first() -> None:
    """Two products on the Front, three on the Back below it."""
    for chosen, *figures in (("", "Front", 2, 2, 0), ("back", "back", 3, 3, 2), ("Strip", "Strip", 6, 0, 5)):
        model = answered(year_choice__lawn=("text", chosen))
        assert [model.column(*at) for at in SHOWN] == figures
    model = answered(year_choice__lawn=("text", "Nobody's"))
    assert model.column("year_choice", "shown") == "no such lawn"
    assert same([model.column(*at) for at in SHOWN[1:]], [NO] * 3)


def test_few_observations_have_a_mean_where_one_is_enough() -> None:
    one: dict[str, Any] = {"settings__least_observations": ("", 1.0)}
    assert same(shown(answered(**one), "year_pairs", "mean"), [1.5, 1])
    assert same(shown(answered(**one, year_choice__lawn=("text", "Back")), "year_pairs", "mean"), [2, NO, 2])


def test_a_pair_on_a_lawn_without_an_area_has_no_nitrogen_by_area() -> None:
    lines = [(on(4, 10), "Strip", "Urea", 100.0), (on(4, 10), "Front", "Gypsum", 1.0)]
    model = answered(diary=lines, year_choice__lawn=("text", "Strip"))
    assert shown(model, "year_pairs", "product") == ["Urea"]
    assert shown(model, "year_pairs", "nitrogen", "g_N/m**2") == []
    assert same(shown(model, "year_pairs", "mass", "kg"), [0.1])


def test_cost_of_a_pair_so_far_as_it_is_known() -> None:
    """The urea that was poured has no cost; the rest has."""
    half = answered(diary=[(on(4, 10), "Front", "Urea", 100.0), (on(4, 11), "Front", "Urea", NO, 5.0)])
    assert same(shown(half, "year_pairs", "cost", "currency"), [2])
    assert same(shown(half, "year_products", "cost", "currency"), [2])
    none = answered(diary=[(on(4, 11), "Front", "Urea", NO, 5.0)])
    assert shown(none, "year_pairs", "cost", "currency") == []
    assert shown(none, "year_products", "cost", "currency") == []


def test_what_was_left_in_the_tank_was_paid_for_and_not_applied() -> None:
    model = answered(diary=[(on(4, 10), "Front", "Urea", 100.0, NO, 10.0, 2.0)])
    for table in ("year_pairs", "year_products"):
        assert same(shown(model, table, "mass", "kg")[0], 0.08)
        assert same(shown(model, table, "cost", "currency"), [2])


def test_products_of_the_season() -> None:
    """What went on an unknown lawn counts for the product; what went in February does not."""
    model = answered()
    assert shown(model, "year_products", "product") == ["Urea", "Iron salt", "Calcium nitrate", "Brew", "Humate"]
    assert same(shown(model, "year_products", "lines"), [7, 2, 0, 1, 0])
    assert same(shown(model, "year_products", "lawns"), [2, 2, 0, 1, 0])
    assert same(shown(model, "year_products", "days"), [5, 2, 0, 1, 0])
    assert same(shown(model, "year_products", "mass", "kg"), [0.81, 0.07, 0])
    assert same(shown(model, "year_products", "volume", "L"), [NO, NO, NO, 0.4, 0])
    assert same(shown(model, "year_products", "nitrogen", "g_N"), [372.6, 0, 0, 8, 0])
    assert same(shown(model, "year_products", "cost", "currency"), [16.2, NO, NO, 3.2])
    assert same(shown(model, "year_products", "number"), [3, 1, 0, 1, 0])
    assert same(shown(model, "year_products", "mean"), [5 / 3])
    assert same(shown(model, "year_products", "number_colour"), [1, 0, 0, 1, 0])
    assert shown(model, "year_products", "mean_colour") == []
    one = answered(settings__least_observations=("", 1.0))
    assert same(shown(one, "year_products", "mean_colour"), [-1, NO, NO, -1])


EARLY = [(on(2, 1), "Front", 3.0, 3.0), (on(2, 10), "Front", 8.0, 9.0)]


def test_the_season_before_is_over() -> None:
    """Urea on 2 February changed the grass, and not in this season."""
    model = answered(EARLY, [(on(2, 2), "Front", "Urea", 10.0)], settings__least_observations=("", 1.0))
    assert same(shown(model, "answers", "change_quality"), [5])
    for table, keys in {
        "year_products": ("number", "number_colour", "lines", "days", "lawns"),
        "year_lawns": ("number",),
    }.items():
        for key in keys:
            assert model.column(table, key)[0] == 0, key
    for table, key in (("year_products", "mean"), ("year_products", "mean_colour"), ("year_lawns", "mean")):
        assert shown(model, table, key) == []
    assert shown(model, "year_products", "cost", "currency") == []
    assert shown(model, "year_pairs", "product_line") == []


def test_lawns_of_the_season() -> None:
    model = answered(**TARGET)
    assert shown(model, "year_lawns", "lawn") == ["Front", "Back", "", "Side", "Strip"]
    assert same(shown(model, "year_lawns", "visits"), [3, 4, NO, 0, 0])
    assert same(shown(model, "year_lawns", "nitrogen", "g_N/m**2"), [1.84, 0.96, NO, 0])
    assert same(shown(model, "year_lawns", "target", "g_N/m**2"), [1.5, 2])
    assert same(shown(model, "year_lawns", "over", "g_N/m**2"), [0.34, -1.04])
    assert same(shown(model, "year_lawns", "cost", "currency"), [8, 11.2, NO, 0, 0])
    assert same(shown(model, "year_lawns", "number"), [2, 2, NO, 0, 0])
    assert same(shown(model, "year_lawns", "mean"), [1.5, 2])
    assert same(shown(model, "year_lawns", "against"), [2.5])


def test_quality_from_the_first_score_of_the_season_to_the_last() -> None:
    """Of two scores of 20 April the first counts; those of February and of 16 May lie outside."""
    model = answered()
    assert same(shown(model, "year_lawns", "first_day"), [on(4, 1), on(4, 12), NO, NO, on(4, 10)])
    assert same(shown(model, "year_lawns", "last_day"), [on(4, 20), on(4, 30), NO, NO, on(4, 20)])
    assert same(shown(model, "year_lawns", "first_score"), [4, 5, NO, NO, 4])
    assert same(shown(model, "year_lawns", "last_score"), [7, 7, NO, NO, 4])
    assert same(shown(model, "year_lawns", "gain"), [3, 2, NO, NO, 0])


@pytest.mark.parametrize(
    ("days", "gain"),
    [
        ((on(3, 1), on(5, 15)), 2),
        ((on(2, 29), on(5, 15)), 0),
        ((on(3, 1), on(5, 16)), 0),
        ((on(2, 29), on(5, 16)), NO),
    ],
)
def test_scores_at_the_edges_of_the_season(days: tuple[float, float], gain: float) -> None:
    model = answered([(days[1], "Front", 7.0), (days[0], "Front", 5.0)])
    assert same(model.column("year_lawns", "gain")[0], gain)


def test_a_score_without_a_quality_is_neither_first_nor_last() -> None:
    """Colour alone on 1 April and on 20 April; on 10 April the quality stands in a record that is one too many."""
    scores = [
        (on(4, 1), "Front", NO, 5.0), (on(4, 10), "Front", NO, 5.0), (on(4, 10), "Front", 6.0),
        (on(4, 12), "Front", 8.0), (on(4, 20), "Front", NO, 5.0),
    ]  # fmt: skip
    model = answered(scores, FED[:1])
    assert same(shown(model, "year_lawns", "first_score"), [8])
    assert same(shown(model, "year_lawns", "last_score"), [8])
