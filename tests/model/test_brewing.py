"""Brews of a round: how much, in what batches, when to begin, and what goes in; worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_programme import filled, on, same, shown, site
from support.tables import NO
from wbgen.model.binding import Model

RECIPES = {"product": "text", "batch": "L", "brewing_time": "h", "use_within": "h", "extra": ""}
INGREDIENTS = {"product": "text", "ingredient": "text", "mass": "g", "volume": "mL"}
BREWS = [
    ("brew", 0.25, 24.0, 6.0, 0.1),
    ("Urea",),
    ("Humate", 2.0),
    ("Gypsum", 0.0, 12.0, 4.0),
    ("BREW", 1.0, NO, 6.0),
    ("", 1.0, 24.0),
]
"""On lines 2 to 7. Of the brew the round needs 600 mL, of the humate a litre."""
INTO = [
    ("Brew", "Meal", 50.0),
    ("Brew", "Molasses", NO, 30.0),
    ("Humate", "", 10.0),
    ("Tea", "Leaves", 1.0),
    ("Urea", "Water"),
    ("", "Water", 5.0),
]


def taken(brew: float, humate: float = NO, unit: str = "mL") -> dict[str, Any]:
    """What the round takes of both, the brew on two lawns; a line that must not go on takes nothing."""
    products = ["Brew", "Humate", "brew", "Urea", "Brew"]
    volumes = [brew / 4, humate, brew * 3 / 4, NO, NO]
    days = [on(5, 20), on(5, 20), on(5, 20), on(5, 19), on(5, 21)]
    return {
        "round_lines__product": ("text", products),
        "round_lines__volume": (unit, volumes),
        "round_lines__day": ("date", days),
    }


PAST = "the start is past, unless it brews already: begun now, it is ready on"
MONTHS: dict[str, Any] = {"months__month": ("text", ["January", "February", "March", "April", "May", "June", "July"])}


def brewed(recipes: list[tuple[Any, ...]], into: list[tuple[Any, ...]] | None = None, **more: Any) -> Model:
    """The site with these recipes, on a round that puts both on on 20 May, used from 7 o'clock."""
    round_of: dict[str, Any] = {
        **taken(600.0, 1000.0),
        "settings__use_time": ("h", 7.0),
        "settings__brew_life": ("h", 8.0),
    }
    told = filled("recipes", RECIPES, recipes) | filled("ingredients", INGREDIENTS, into or [])
    return site(**{**round_of, **told, **more})


def test_how_much_to_brew() -> None:
    """0.66 L are three batches of at most a quarter, each of 0.22 L."""
    model = brewed(BREWS)
    assert same(shown(model, "recipes", "product_line"), [5, 2, 6, NO, 5])
    assert same(shown(model, "recipes", "needed", "L"), [0.6, 0, 1, 0, 0.6])
    assert same(shown(model, "recipes", "wanted", "L"), [0.66, 0, 1, 0, 0.6])
    assert same(shown(model, "recipes", "batches"), [3, NO, 1, NO, 1])
    assert same(shown(model, "recipes", "each_batch", "L"), [0.22, NO, 1, NO, 0.6])


@pytest.mark.parametrize(
    ("needed", "batch", "batches"),
    [
        (2.1, 0.7, 3),
        (2.1 + 2e-10, 0.7, 3),
        (2.1 + 2e-9, 0.7, 4),
        (0.3, 0.1, 3),
        (0.0, 0.7, 0),
        (0.1, 0.7, 1),
        (2.1, NO, NO),
        (2.1, 0.0, NO),
    ],
)
def test_whole_batches_stay_whole(needed: float, batch: float, batches: float) -> None:
    """2.1 ÷ 0.7 is a little more than 3 in floats, and what is more by less than the ninth decimal is no batch."""
    model = brewed([("Brew", batch)], **taken(needed, unit="L"))
    assert same(model.column("recipes", "batches")[0], batches)
    each = model.column("recipes", "each_batch").to("L").magnitude[0]
    assert same(each, needed / batches if batches else NO)


def test_when_to_begin() -> None:
    """A day of brewing before 7 o'clock on 20 May, to be used within six hours."""
    model, seven = brewed(BREWS), on(5, 20) + 7 / 24
    assert same(shown(model, "recipes", "begin"), [on(5, 19) + 7 / 24])
    assert same(shown(model, "recipes", "ready"), [seven, NO, seven, NO, seven])
    assert same(shown(model, "recipes", "use_by"), [seven + 0.25, NO, NO, NO, seven + 0.25])


@pytest.mark.parametrize(
    ("as_of", "words", "brewing"),
    [
        (on(5, 18), "in time", "start by 19 May 2024, sheet Brewing"),
        (on(5, 19), "start now", "start by 19 May 2024, sheet Brewing"),
        (
            on(5, 20),
            f"{PAST} 21 May 2024",
            "the start is past: begun now, ready on 21 May 2024, sheet Brewing",
        ),
    ],
)
def test_whether_there_is_time_to_brew(as_of: float, words: str, brewing: str) -> None:
    """It is begun on 19 May at 7 o'clock, for the round of 20 May."""
    model = brewed(BREWS, **MONTHS, start__as_of=("date", [as_of]))
    assert shown(model, "recipes", "start_words") == [words]
    assert model.column("today_round", "brewing") == brewing


def test_the_brew_is_ready_for_the_first_day_that_takes_some() -> None:
    """A line that must not go on takes none, whatever its day; another day needs another brew."""
    days: dict[str, Any] = {"round_lines__day": ("date", [on(5, 22), on(5, 20), on(5, 21), on(5, 1), on(5, 1)])}
    model = brewed(BREWS, **MONTHS, **{**taken(600.0, 1000.0), **days})
    assert same(shown(model, "recipes", "goes_on"), [on(5, 21), NO, on(5, 20), NO, on(5, 21)])
    assert same(shown(model, "recipes", "begin"), [on(5, 20) + 7 / 24])
    assert shown(model, "recipes", "start_words") == ["in time; it goes on on several days: choose a shorter round"]


def test_at_the_very_hour_of_the_day_it_is_not_past() -> None:
    midnight = brewed([("Brew", 1.0, 55.0, 6.0)], **MONTHS, start__as_of=("date", [on(5, 18)]))
    assert same(shown(midnight, "recipes", "begin"), [on(5, 18)])
    assert shown(midnight, "recipes", "start_words") == ["start now"]
    assert midnight.column("today_round", "brewing") == "start by 18 May 2024, sheet Brewing"


def test_what_the_front_sheet_says_of_brewing() -> None:
    """The first of two brews counts; one of unknown time cannot be begun by a day."""
    two = [("Brew", 1.0, 24.0), ("Humate", 1.0, 96.0)]
    said = {
        "start by 16 May 2024, sheet Brewing": brewed(two, **MONTHS),
        "say how long it brews, sheet Brewing": brewed([("Brew", 1.0)], **MONTHS),
        "nothing to brew": brewed(two, **MONTHS, **taken(0.0)),
    }
    assert {words: model.column("today_round", "brewing") for words, model in said.items()} == {
        one: one for one in said
    }


def due(*lines: tuple[str, float, float]) -> dict[str, Any]:
    """Products, their next days and what they take, on the sheet Due; the round is the 15th of May alone."""
    products, days, volumes = (list(column) for column in zip(*lines, strict=True))
    return {
        **taken(0.0),
        "due__product": ("text", products),
        "due__next_due": ("date", days),
        "due__volume_to_come": ("mL", volumes),
    }


LATER: dict[str, Any] = due(
    ("brew", on(5, 25), 9.0), ("Brew", on(5, 22), 9.0), ("Urea", on(5, 17), 9.0),
    ("Brew", on(5, 18), NO), ("Brew", NO, 9.0), ("Brew", on(5, 15), 9.0),
)  # fmt: skip
"""The brew is next due on the 22nd: its line of the 18th has no amount, and what is due by the 15th is the round's."""


@pytest.mark.parametrize(
    ("brewing_time", "words", "front"),
    [
        (24.0, "in time", "start by 21 May 2024, sheet Brewing"),
        (7 * 24.0, "start now", "start by 15 May 2024, sheet Brewing"),
        (8 * 24.0, f"{PAST} 23 May 2024", "the start is past: begun now, ready on 23 May 2024, sheet Brewing"),
    ],
)
def test_a_brew_for_a_day_after_the_round_is_told_in_time(brewing_time: float, words: str, front: str) -> None:
    """It is the 15th. The round takes nothing, so how much is for the round of the 22nd to say."""
    model = brewed([("Brew", 1.0, brewing_time, 6.0)], **MONTHS, **LATER)
    assert same(shown(model, "recipes", "goes_on"), [on(5, 22)])
    assert same(shown(model, "recipes", "begin"), [on(5, 22) + 7 / 24 - brewing_time / 24])
    assert same(shown(model, "recipes", "wanted", "L"), [0])
    assert shown(model, "recipes", "start_words") == [f"{words}; for how much, choose the round of that day"]
    assert model.column("today_round", "brewing") == front


def test_what_the_round_takes_comes_before_what_is_due_later() -> None:
    model = brewed([("Brew", 1.0, 24.0)], **MONTHS, **{**LATER, **taken(600.0)})
    assert same(shown(model, "recipes", "goes_on"), [on(5, 20)])
    assert shown(model, "recipes", "start_words") == ["in time"]


def test_a_start_that_is_past_does_not_hide_one_to_come() -> None:
    """Of two that are past, the one that is ready first is named: begun on the 15th at 7, after 10 and 12 days."""
    later = due(("Brew", on(5, 22), 9.0), ("Humate", on(5, 22), 9.0))
    late = [("Brew", 1.0, 10 * 24.0), ("Humate", 1.0, 12 * 24.0)]
    both = brewed(late, **MONTHS, **later)
    assert same(shown(both, "recipes", "begun_now"), [on(5, 25) + 7 / 24, on(5, 27) + 7 / 24])
    assert shown(both, "recipes", "to_start") == []
    assert both.column("today_round", "brewing") == "the start is past: begun now, ready on 25 May 2024, sheet Brewing"
    one = brewed([late[0], ("Humate", 1.0, 48.0)], **MONTHS, **later)
    assert same(shown(one, "recipes", "to_start"), [NO, on(5, 20) + 7 / 24])
    assert one.column("today_round", "brewing") == "start by 20 May 2024, sheet Brewing; another start is past"


def test_an_hour_that_is_not_set_is_midnight() -> None:
    model = brewed(BREWS[:1], settings__use_time=("h", NO))
    assert same(shown(model, "recipes", "begin"), [on(5, 19)])
    assert same(shown(model, "recipes", "ready"), [on(5, 20)])


def test_nothing_is_begun_where_nothing_is_wanted() -> None:
    model = brewed(BREWS[:1], **taken(0.0))
    for key in ("begin", "ready", "use_by"):
        assert shown(model, "recipes", key) == []
    assert same(shown(model, "recipes", "batches"), [0])
    assert shown(model, "recipes", "each_batch", "L") == []


def test_what_is_to_be_mended_in_a_recipe() -> None:
    twice, none = "this product stands twice", "how much is a batch"
    assert shown(brewed(BREWS), "recipes", "recipe_state") == [
        twice, f"a brew is measured by volume; {none}", "", f"unknown product; {none}", twice,
    ]  # fmt: skip


@pytest.mark.parametrize(("life", "hours"), [(8.0, "8"), (12.5, "12.5"), (0.5, "0.5")])
def test_a_recipe_that_keeps_a_brew_too_long_asks(life: float, hours: str) -> None:
    brews = [("Brew", 1.0, 24.0, life), ("Humate", 1.0, 24.0, life + 0.1)]
    asked = f"kept for more than {hours} h, ask whether it still is fit for use"
    states = list(brewed(brews, settings__brew_life=("h", life)).column("recipes", "recipe_state"))[:2]
    assert states == ["", asked]
    assert not any(brewed(brews, settings__brew_life=("h", NO)).column("recipes", "recipe_state"))


SUGAR, DIRT = "sugar lets germs grow again: do not", "manure carries germs: do not"


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("ripe compost", ""), ("Kelp meal", ""), ("water", ""), ("youngest leaves", ""),
        ("Cane Molasses", SUGAR), ("brown sugar", SUGAR), ("golden SYRUP", SUGAR), ("treacle", SUGAR),
        ("horse manure", DIRT), ("Cow dung", DIRT), ("hen droppings", DIRT), ("pig slurry", DIRT),
        ("dung and sugar", f"{SUGAR}; {DIRT}"),
    ],
)  # fmt: skip
def test_what_no_brew_is_made_of_is_said_by_name(name: str, said: str) -> None:
    model = brewed(BREWS[:1], [("Brew", name, 50.0)])
    assert model.column("ingredients", "ingredient_state")[0] == said


TEXT = "a text stands where a number belongs"


def test_a_text_for_a_number_of_a_recipe_is_as_nothing_and_is_said() -> None:
    """The third is without a batch, as the second; the first has a text for the time, the fourth for both shares."""
    brews = [("Brew", 1.0, 24.0), ("Humate", NO), ("Humate", 1.0), ("Brew", 1.0, 24.0, 6.0, 0.1)]
    places = ("brewing_time", "batch@2", "use_within@3", "extra@3")
    model = brewed(brews, misplaced=[f"recipes.{place}" for place in places])
    assert same(shown(model, "recipes", "begin"), [NO, NO, NO, on(5, 19) + 7 / 24])
    assert shown(model, "recipes", "use_by") == []
    assert same(shown(model, "recipes", "wanted", "L"), [0.6, 1, 1, 0.6])
    twice, none = "this product stands twice", "how much is a batch"
    assert shown(model, "recipes", "recipe_state") == [
        f"{twice}; {TEXT}", f"{none}; {twice}", f"{none}; {twice}; {TEXT}", f"{twice}; {TEXT}",
    ]  # fmt: skip


def test_a_text_for_an_amount_is_as_nothing_and_is_said() -> None:
    into = [("Brew", "Meal", 50.0, 20.0), ("Brew", "Molasses", 50.0, 30.0)]
    model = brewed(BREWS, into, misplaced=["ingredients.mass", "ingredients.volume@1", "ingredients.mass@1"])
    assert same(shown(model, "ingredients", "mass_all", "g"), [])
    assert same(shown(model, "ingredients", "volume_all", "mL"), [52.8])
    assert shown(model, "ingredients", "ingredient_state") == [TEXT, f"nothing given; {TEXT}; {SUGAR}"]


def test_ingredients_by_brew_and_by_batch() -> None:
    """0.66 L are 2.64 times the quarter of a litre; a litre of humate is half of a batch."""
    model = brewed(BREWS, INTO)
    assert same(shown(model, "ingredients", "recipe_line"), [2, 2, 4, NO, 3])
    assert same(shown(model, "ingredients", "share"), [2.64, 2.64, 0.5])
    assert same(shown(model, "ingredients", "mass_all", "g"), [132, NO, 5])
    assert same(shown(model, "ingredients", "volume_all", "mL"), [NO, 79.2])
    assert same(shown(model, "ingredients", "mass_batch", "g"), [44, NO, 5])
    assert same(shown(model, "ingredients", "volume_batch", "mL"), [NO, 26.4])


def test_ingredients_for_the_rest_of_the_programme() -> None:
    """12 L and a tenth more are 52.8 times a quarter of a litre; 5 L of humate two and a half batches."""
    coming: dict[str, Any] = {"stock__needed_volume": ("L", [NO, NO, NO, 12.0, 5.0])}
    model = brewed(BREWS, INTO, **coming)
    assert same(shown(model, "recipes", "coming", "L"), [13.2, 0, 5, 0, 12])
    assert same(shown(model, "ingredients", "coming_mass", "kg"), [2.64, NO, 0.025])
    assert same(shown(model, "ingredients", "coming_volume", "L"), [NO, 1.584])
    none = brewed([("Brew", NO, 24.0)], INTO[:1], **coming)
    assert shown(none, "ingredients", "coming_mass", "kg") == []


def test_ingredients_of_no_batch() -> None:
    model = brewed(BREWS[:1], INTO[:1], **taken(0.0))
    assert same(shown(model, "ingredients", "share"), [0])
    assert same(shown(model, "ingredients", "mass_all", "g"), [0])
    assert shown(model, "ingredients", "mass_batch", "g") == []


def test_what_is_to_be_mended_in_an_ingredient() -> None:
    assert shown(brewed(BREWS, INTO), "ingredients", "ingredient_state") == [
        "", SUGAR, "name the ingredient", "no recipe for it", "nothing given",
    ]  # fmt: skip
    nothing = brewed(BREWS, [("Tea", "")])
    wrong = "no recipe for it; name the ingredient; nothing given"
    assert shown(nothing, "ingredients", "ingredient_state") == [wrong]


def test_a_recipe_by_the_gallon() -> None:
    model = brewed([("Brew", 1.0)], recipes__batch=("us_gallon", [0.5]), **taken(3785.411784))
    assert same(shown(model, "recipes", "batches"), [2])
    assert same(shown(model, "recipes", "each_batch", "us_gallon"), [0.5])
