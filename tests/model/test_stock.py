"""Stock, prices and costs of a small site, worked out by hand. Prices are invented."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_programme import AS_OF, MEASURED, PRICE, filled, line, on, shown, site
from support.small_visit import NAMES, close, found, visit
from support.tables import NO, bare, is_close
from wbgen.model.binding import Model

Value = Any

PRICES: dict[str, Any] = {
    **PRICE,
    "products__active_share": ("", [0.5, NO, 0.0, 0.1, 0.2]),
    "products__active_word": ("text", ["urea", "", "", "seaweed", "humic acid"]),
    "products__millilitre_mass": ("kg/L", [NO, NO, NO, 1.25, 1.1]),
}
SHELF = {"date": "date", "product": "text", "deed": "text", "packs": "", "mass": "kg", "volume": "L"}


def shop(
    *lines: dict[str, Any],
    shelf: list[tuple[Any, ...]] | None = None,
    diary: list[tuple[Any, ...]] | None = None,
    **more: Any,
) -> Model:
    return site(
        *lines, **PRICES, **filled("shelf", SHELF, shelf or []), **filled("diary", MEASURED, diary or []), **more
    )


def test_what_a_price_buys() -> None:
    """46 % N: 20 ÷ 0.46 a kilogram of N; 20 g N in a litre of the brew: 8 ÷ 0.02. Half of the urea is 40 a kilogram,
    and a litre of the brew has 0.125 kg of what is active in it."""
    season = shop()
    assert shown(season, "prices", "product") == ["Urea", "Iron salt", "Calcium nitrate", "Brew", "Humate"]
    assert is_close(shown(season, "prices", "by_mass", "currency/kg"), [20, NO, 2])
    assert is_close(shown(season, "prices", "by_volume", "currency/L"), [NO, NO, NO, 8])
    pure = shown(season, "prices", "pure_nitrogen", "currency/kg_N")
    assert is_close(pure, [20 / 0.46, NO, 2 / 0.155, 400])
    assert shown(season, "prices", "pure_iron", "currency/kg_Fe") == []
    assert shown(season, "prices", "pure_potash", "currency/kg_K2O") == []
    assert is_close(shown(season, "prices", "pure_active", "currency/kg"), [40, NO, NO, 64])
    assert shown(season, "prices", "active_word") == ["urea", "", "", "seaweed", "humic acid"]


def test_what_holds_none_of_a_nutrient_has_no_price_of_it() -> None:
    nothing = shop(products__mass_content_nitrogen=("g_N/kg", [0.0]))
    assert shown(nothing, "prices", "pure_nitrogen", "currency/kg_N") == [pytest.approx(NO, nan_ok=True)] * 3 + [400]


def test_a_pack_of_nothing_has_no_price() -> None:
    season = shop(products__pack_mass=("kg/pack", [0.0, NO, 25.0]))
    assert is_close(shown(season, "products", "price_by_mass", "currency/kg"), [NO, NO, 2])


def test_a_solid_is_priced_by_its_mass_alone() -> None:
    """A pack of both measures: the form of the product decides."""
    season = shop(products__pack_mass=("kg/pack", [1.0, NO, 25.0, 2.0]), products__pack_volume=("L/pack", [2.0] * 4))
    assert is_close(shown(season, "products", "price_by_mass", "currency/kg"), [3, NO, 2])
    assert is_close(shown(season, "products", "price_by_volume", "currency/L"), [NO, NO, NO, 2])


def test_prices_by_pound_and_gallon() -> None:
    us = shop(products__pack_mass=("lb/pack", [10.0]), products__pack_volume=("us_gallon/pack", [NO, NO, NO, 2.5]))
    assert is_close(shown(us, "prices", "by_mass", "currency/lb"), [0.3])
    assert is_close(shown(us, "prices", "by_volume", "currency/us_gallon"), [NO, NO, NO, 1.6])


def test_shelf_lines() -> None:
    """Packs of urea are of 0.15 kg, of the brew of half a litre; those of the iron salt are not known."""
    lines = [
        (on(5, 1), "urea", "Counted", 2.0, 0.05),
        (on(5, 1), "Brew", "bought", 3.0, NO, 0.25),
        (on(5, 1), "Iron salt", "bought", 2.0, 0.5),
        (NO, "Gypsum", "", 1.0),
        (on(5, 1), "Urea", "counted", NO, NO, 1.0),
        (on(5, 1), "Brew", "lost", NO, 1.0),
        (on(5, 1), "Urea", "counted"),
        (on(5, 1), "", "", 5.0),
    ]
    season = shop(shelf=lines)
    assert is_close(shown(season, "shelf", "product_line"), [2, 5, 3, NO, 2, 5, 2])
    assert is_close(shown(season, "shelf", "mass_in", "kg"), [0.35, NO, 0.5, NO, 0, NO, 0])
    assert is_close(shown(season, "shelf", "volume_in", "L"), [NO, 1.75, NO, NO, NO, 0])
    wrong = "weigh solids and pour liquids"
    assert shown(season, "shelf", "shelf_state") == [
        "", "", "", "unknown product; give the date; say counted or bought", wrong,
        f"say counted or bought; {wrong}", "nothing given",
    ]  # fmt: skip
    text = "a text stands where a number belongs"
    places = ("packs", "date@1", "mass@2", "volume@4", "packs@6")
    texts = shop(shelf=lines, misplaced=[f"shelf.{place}" for place in places])
    assert shown(texts, "shelf", "shelf_state")[:3] == [text, f"give the date; {text}", text]
    nothing = f"nothing given; {text}"
    assert shown(texts, "shelf", "shelf_state")[4:] == [nothing, f"say counted or bought; {wrong}", nothing]
    assert is_close(shown(texts, "shelf", "mass_in", "kg")[:3], [0.05, NO, 0])


COUNTS = [
    (on(4, 1), "Urea", "counted", 100.0),
    (on(5, 1), "Urea", "counted", 4.0),
    (on(5, 1), "UREA", "Counted", NO, 0.4),
    (on(5, 1), "Urea", "bought", 10.0),
    (on(5, 2), "Urea", "bought", 2.0),
    (on(5, 16), "Urea", "bought", 50.0),
    (on(5, 16), "Urea", "counted", 50.0),
    (on(5, 3), "Brew", "counted", NO, NO, 0.2),
]
"""Up to 15 May: 4 packs of 0.15 kg and 0.4 kg loose in another place on 1 May, and 2 packs on the day after."""
USED = [
    (on(4, 20), "Front", "Urea", 500.0),
    (on(5, 1), "Front", "Urea", 500.0),
    (on(5, 2), "Front", "urea", 100.0, NO, 10.0, 5.0),
    (on(5, 15), "Nowhere", "Urea", 60.0),
    (on(5, 16), "Front", "Urea", 500.0),
    (on(5, 8), "Front", "Brew", NO, 250.0),
]


def test_what_was_measured_out_without_a_lawn_has_left_the_shed() -> None:
    """40 g for no lawn that is named; the diary counts the line nowhere else. Without a date it cannot be counted."""
    lines = [*USED, (on(5, 9), "", "Urea", 40.0), (NO, "Front", "Urea", 70.0)]
    season = shop(shelf=COUNTS, diary=lines)
    assert is_close(shown(season, "stock", "used_mass", "kg"), [0.2, NO, NO, 0])


def test_what_is_on_hand() -> None:
    """A count is of the evening: 1 kg, 0.3 kg bought later, 0.16 kg used later. What was left in a tank is used."""
    lost = (on(5, 2), "Urea", "lost", 2.0)
    season = shop(shelf=[*COUNTS, lost], diary=USED)
    assert is_close(shown(season, "stock", "counted_on"), [on(5, 1), NO, NO, on(5, 3)])
    assert is_close(shown(season, "stock", "counted_mass", "kg"), [1, NO, NO, 0])
    assert is_close(shown(season, "stock", "bought_mass", "kg"), [0.3, NO, NO, 0])
    assert is_close(shown(season, "stock", "used_mass", "kg"), [0.16, NO, NO, 0])
    assert is_close(shown(season, "stock", "on_hand_mass", "kg"), [1.14])
    assert is_close(shown(season, "stock", "counted_volume", "L"), [0, NO, NO, 0.2])
    assert is_close(shown(season, "stock", "used_volume", "L"), [0, NO, NO, 0.25])
    assert is_close(shown(season, "stock", "on_hand_volume", "L"), [NO, NO, NO, -0.05])
    assert is_close(shown(season, "stock", "short_mass", "kg"), [0, 0, 0])
    assert shown(season, "stock", "stock_words") == ["enough", "", "", "less than nothing: count again"]


BOUGHT = [
    (on(5, 2), "Urea", "Bought", 4.0),
    (on(5, 9), "urea", "bought", 2.0, 0.05),
    (on(5, 16), "Urea", "bought", 50.0),
    (on(5, 8), "Brew", "bought", NO, NO, 0.2),
    (on(5, 16), "Humate", "bought", NO, NO, 9.0),
]
"""Never counted: packs of 0.15 kg of urea, from 2 May on; what is bought tomorrow is not there yet."""
NEVER = "never counted: what was bought counts"


def test_what_was_bought_counts_without_a_count() -> None:
    """0.6 kg and 0.35 kg, less 0.16 kg that was used from the first purchase's day on."""
    season = shop(shelf=BOUGHT, diary=USED)
    assert is_close(shown(season, "stock", "counted_on"), [])
    assert is_close(shown(season, "stock", "after"), [on(5, 1), NO, NO, on(5, 7)])
    assert shown(season, "stock", "counted_mass", "kg") == []
    assert is_close(shown(season, "stock", "bought_mass", "kg"), [0.95, NO, NO, 0])
    assert is_close(shown(season, "stock", "used_mass", "kg"), [0.16, NO, NO, 0])
    assert is_close(shown(season, "stock", "on_hand_mass", "kg"), [0.79])
    assert is_close(shown(season, "stock", "on_hand_volume", "L"), [NO, NO, NO, -0.05])
    assert shown(season, "stock", "stock_words") == [
        f"enough; {NEVER}", "", "", f"less than nothing: count again; {NEVER}",
    ]  # fmt: skip


def test_a_count_ends_what_was_bought_before_it() -> None:
    season = shop(shelf=[*BOUGHT, (on(5, 9), "Urea", "counted", 1.0)], diary=USED)
    assert is_close(shown(season, "stock", "after"), [on(5, 9), NO, NO, on(5, 7)])
    assert is_close(shown(season, "stock", "on_hand_mass", "kg"), [0.09])
    assert shown(season, "stock", "stock_words")[0] == "enough"


def test_what_was_bought_is_not_bought_again() -> None:
    """1.4 kg are needed and 0.79 kg there: 0.61 kg are five packs."""
    season = shop(once("Urea", own_rate_mass=7.0), shelf=BOUGHT, diary=USED)
    assert is_close(shown(season, "stock", "packs_to_buy"), [5, NO, 0, 0])
    assert shown(season, "stock", "stock_words")[0] == f"short; {NEVER}"


def once(product: str, lawn: str = "Back", **more: Any) -> dict[str, Any]:
    """A line of one visit to come, on 20 May."""
    return line(product, lawn=lawn, first=on(5, 20), last=on(5, 20), times=1.0, **more)


def test_what_is_to_be_bought() -> None:
    """On 200 m²: 2.03 kg of calcium nitrate are one pack of 25 kg; 600 mL of the brew, with less than none there,
    two of half a litre; 1.4 kg of urea less 1.14 kg are two of 0.15 kg; 100 g of the iron salt, in packs unknown."""
    lines = [
        once("Calcium nitrate", own_rate_mass=10.15), once("Brew"), once("Urea", own_rate_mass=7.0), once("Iron salt"),
    ]  # fmt: skip
    season = shop(*lines, shelf=COUNTS, diary=USED)
    assert is_close(shown(season, "stock", "needed_mass", "kg"), [1.4, 0.1, 2.03])
    assert is_close(shown(season, "stock", "needed_volume", "L"), [NO, NO, NO, 0.6, 0])
    assert is_close(shown(season, "stock", "short_mass", "kg"), [0.26, 0.1, 2.03])
    assert is_close(shown(season, "stock", "short_volume", "L"), [NO, NO, NO, 0.6, 0])
    assert is_close(shown(season, "stock", "short_packs"), [0.26 / 0.15, NO, 2.03 / 25, 1.2])
    assert is_close(shown(season, "stock", "packs_to_buy"), [2, NO, 1, 2])
    assert is_close(shown(season, "stock", "cost_to_buy", "currency"), [6, NO, 50, 8])
    words = ["short", "never counted", "never counted", "less than nothing: count again"]
    assert shown(season, "stock", "stock_words") == words
    assert is_close(bare(season.column("money", "buying_cost"), "currency"), 64)


def test_what_is_brewed_is_not_bought() -> None:
    """Of the brew 0.6 L are needed; with a count of more there is nothing to brew."""
    recipe = filled("recipes", {"product": "text"}, [("brew",)])
    season = shop(once("Brew"), once("Urea"), **recipe)
    assert shown(season, "stock", "brewed") == ["", "", "", "yes"]
    assert is_close(shown(season, "stock", "short_volume", "L"), [NO, NO, NO, 0.6, 0])
    assert is_close(shown(season, "stock", "packs_to_buy"), [3, NO, 0])
    assert is_close(shown(season, "stock", "cost_to_buy", "currency"), [9, NO, 0])
    assert shown(season, "stock", "stock_words") == ["never counted", "", "", "to brew"]
    there = shop(once("Brew"), shelf=[(on(5, 15), "Brew", "counted", NO, NO, 0.7)], **recipe)
    assert shown(there, "stock", "stock_words") == []


@pytest.mark.parametrize(("loose", "words", "packs"), [(0.0, "enough", 0), (-5e-11, "enough", 0), (-1e-8, "short", 1)])
def test_what_is_needed_exactly_is_enough(loose: float, words: str, packs: float) -> None:
    """Three visits of 2 g/m² on 50 m² take 0.3 kg: two packs, filled to the gram."""
    counted = [(on(5, 1), "Urea", "Counted", 2.0, loose)]
    season = shop(line(lawn="Side", first=AS_OF, times=3.0), shelf=counted)
    assert is_close(shown(season, "stock", "needed_mass", "kg")[0], 0.3)
    assert shown(season, "stock", "stock_words") == [words]
    assert shown(season, "stock", "packs_to_buy")[0] == packs
    none = shop(line(lawn="Side", first=AS_OF, times=3.0))
    assert shown(none, "stock", "packs_to_buy")[0] == 2


def test_whole_packs_stay_whole() -> None:
    """0.7 kg from packs of 0.1 kg are seven, though floats make it a little more."""
    season = shop(once("Urea", own_rate_mass=3.5), products__pack_mass=("kg/pack", [0.1]))
    assert shown(season, "stock", "packs_to_buy")[0] == 7


def test_empty_shelf() -> None:
    season = shop()
    assert shown(season, "stock", "stock_words") == []
    assert is_close(shown(season, "stock", "needed_mass", "kg"), [0, 0, 0])
    assert shown(season, "stock", "on_hand_mass", "kg") == []


FED = [
    (on(5, 1), "Front", "Urea", 200.0),
    (on(5, 1), "front", "Brew", NO, 500.0, 10.0, 5.0),
    (on(5, 8), "Front", "Iron salt", 50.0),
    (on(5, 8), "Back", "Urea", 100.0),
    (on(5, 9), "Back", "Gypsum", 10.0),
    (on(5, 9), "Nowhere", "Urea", 50.0),
    (on(2, 1), "Front", "Urea", 300.0),
    (on(5, 16), "Front", "Urea", 300.0),
    (on(5, 10), "Front", "Urea", NO, 40.0),
    (on(5, 16), "Front", "Iron salt", 300.0),
]
"""What was left of the brew was paid for too. The season began on 1 March, and it is 15 May."""


def test_lines_of_the_diary_have_their_cost_and_their_visit() -> None:
    season = shop(diary=FED)
    assert is_close(shown(season, "diary", "cost", "currency"), [4, 4, NO, 2, NO, 1, 6, 6])
    assert is_close(shown(season, "diary", "visit_first"), [1, NO, 1, 1, 1, NO, 1, 1, 1])


def test_money_of_the_season() -> None:
    """4 + 4 + 2 + 1 in five visits. Without a price are the iron salt and the urea that was poured."""
    season = shop(line(lawn="Front"), once("Brew"), once("Iron salt"), diary=FED, mix_products__cost=("currency", []))
    figures = {key: season.column("money", key) for key in ("season_visits", "unpriced_lines")}
    assert figures == {"season_visits": 5, "unpriced_lines": 2}
    assert is_close(bare(season.column("money", "season_cost"), "currency"), 11)
    assert is_close(bare(season.column("money", "visit_cost"), "currency"), 2.2)
    # Urea of 200 g on the Front: fed on 10 May, it is due on 17 May and 24 May.
    assert is_close(shown(season, "due", "to_come"), [2, 1, 1])
    assert is_close(shown(season, "due", "cost_to_come", "currency"), [8, 4.8])
    assert is_close(bare(season.column("money", "coming_cost"), "currency"), 12.8)
    assert is_close(bare(season.column("money", "whole_cost"), "currency"), 23.8)


def test_money_by_lawn() -> None:
    season = shop(line(lawn="Front"), once("Brew"), diary=FED)
    assert shown(season, "lawn_costs", "lawn") == ["Front", "Back", "", "Side", "Strip"]
    assert is_close(shown(season, "lawn_costs", "visits"), [3, 2, NO, 0, 0])
    assert is_close(shown(season, "lawn_costs", "cost", "currency"), [8, 2, NO, 0, 0])
    assert is_close(shown(season, "lawn_costs", "cost_by_area", "currency/m**2"), [0.08, 0.01, NO, 0])
    assert is_close(shown(season, "lawn_costs", "coming", "currency"), [8, 4.8, NO, 0, 0])
    assert is_close(shown(season, "lawn_costs", "whole", "currency"), [16, 6.8, NO, 0, 0])


def test_money_of_nothing() -> None:
    season = shop()
    assert season.column("money", "season_visits") == 0
    assert is_close(bare(season.column("money", "visit_cost"), "currency"), NO)
    assert is_close(bare(season.column("money", "whole_cost"), "currency"), 0)


@pytest.mark.parametrize(
    ("more", "cost"),
    [({}, 4.0), ({"lawn": "Strip"}, NO), ({"product": "Iron salt"}, NO), ({"last": on(5, 14)}, 0.0)],
)
def test_cost_to_come_at_its_edges(more: dict[str, Any], cost: float) -> None:
    """No area or no price, no cost; nothing to come costs nothing."""
    season = shop(line(**{"lawn": "Front", "first": on(5, 14), "last": on(5, 20), "times": 1.0, **more}))
    assert is_close(bare(season.column("due", "cost_to_come"), "currency")[0], cost)


def test_what_a_mix_costs() -> None:
    """1233 g at 2 a kilogram, 148 mL at 8 a litre; the slow urea has no price."""
    prices = {"price_by_mass": ("currency/kg", [2.0, NO, NO]), "price_by_volume": ("currency/L", [NO, 8.0, NO])}
    model = visit(NAMES, products=prices)
    assert found(model, "cost", "currency") == close([2.466, 1.184, NO, NO, NO])
    whole = visit(NAMES, products=prices, money={})
    assert bare(whole.column("money", "mix_cost"), "currency") == close(3.65)
