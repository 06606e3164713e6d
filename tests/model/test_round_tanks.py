"""The tanks of a round: what shares one and what must not, worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_programme import AS_OF, LINES, line, on, shown, site
from support.tables import NO, bare, is_close
from wbgen.model.binding import Model
from wbgen.trade.families import family
from wbgen.trade.tank_rules import OTHERS, TRAIT_RULES, TRAITS

Value = Any
PARTED, JAR = "not in one tank with the others of its lawn", "jar test first"


def round_of(length: float = 1.0, *lines: dict[str, Any], **more: Any) -> Model:
    return site(*(lines or LINES), round__length=("day", length), **more)


def minded(season: Model) -> list[str]:
    return list(shown(season, "round_lines", "words"))


def tanks_of(season: Model) -> list[tuple[str, str]]:
    """The lawns and the products of each tank, in words."""
    words = zip(*(shown(season, "round_tanks", f"{of}_words") for of in ("lawns", "products")), strict=True)
    return list(words)


def test_lawns_that_get_the_same_share_a_tank() -> None:
    """Side and Front get urea and iron, the Back urea alone; the calcium of the Front must not meet its iron.

    800 L/ha on 50 and 100 m² are 12 L, on 200 m² 16 L; 1000 L/ha on 100 m² 10 L; half a litre stays in the knapsack,
    which makes 10 L.
    """
    season = round_of()
    assert is_close(shown(season, "round_lines", "tank"), [1, 1, 2, 1, 1, 3])
    assert tanks_of(season) == [("Side, Front", "Urea, Iron salt"), ("Back", "Urea"), ("Front", "Calcium nitrate")]
    assert shown(season, "round_tanks", "sprayer") == ["Knapsack"] * 3
    assert is_close(shown(season, "round_tanks", "area", "m**2"), [150, 200, 100])
    assert is_close(shown(season, "round_tanks", "water", "L"), [12.5, 16.5, 10.5])
    assert is_close(shown(season, "round_tanks", "fills"), [2, 2, 2])
    assert is_close(shown(season, "round_tanks", "each_fill", "L"), [6.25, 8.25, 5.25])
    assert [season.column("round_whole", key) for key in ("tanks_in", "room_words")] == [3, "room enough"]
    assert is_close(season.column("round_whole", "water_all").to("L").magnitude, 39.5)
    assert minded(season) == ["overdue"] * 5 + [f"{PARTED}; overdue"]
    assert is_close(shown(season, "round_lines", "lawn_place"), [100001, NO, 200001, 100002, NO, 300001])
    assert is_close(shown(season, "round_lines", "product_place"), [100001, 100002, 200001, NO, NO, 300001])


def test_the_first_of_many_are_named() -> None:
    season = round_of(1.0, line(), line("Humate"), line("Iron salt", lawn="Back", first=on(5, 20)))
    assert tanks_of(season) == [("Side, Back and 1 more", "Urea, Humate")]
    four = [line(name, lawn="Side", own_rate_mass=1.0) for name in ("Urea", "Iron salt", "Brew")]
    assert tanks_of(round_of(1.0, *four)) == [("Side", "Urea, Iron salt and 1 more")]


def test_another_rate_is_another_tank() -> None:
    """Rates that differ by the rounding of floats alone are the same rate, whichever line of the programme says so."""
    two = [line(lawn=lawn, own_rate_mass=rate) for lawn, rate in (("Side", 0.3), ("Front", 0.1 + 0.2))]
    assert tanks_of(round_of(1.0, *two)) == [("Side, Front", "Urea")]
    other = [line(lawn=lawn, own_rate_mass=rate) for lawn, rate in (("Side", 0.3), ("Front", 0.301))]
    assert tanks_of(round_of(1.0, *other)) == [("Side", "Urea"), ("Front", "Urea")]
    liquids = [line("Brew", lawn=lawn, own_rate_volume=rate) for lawn, rate in (("Side", 3.0), ("Front", 2.0))]
    assert len(tanks_of(round_of(1.0, *liquids))) == 2


def test_another_day_is_another_tank() -> None:
    """What is due on 1 May goes on on the first day of the round, the Side's on 18 May, though walked first."""
    season = round_of(7.0, line(first=on(5, 18), lawn="Side"), line(lawn="Front"))
    assert shown(season, "round_lines", "day") == [AS_OF, on(5, 18)]
    assert tanks_of(season) == [("Front", "Urea"), ("Side", "Urea")]
    assert shown(season, "round_tanks", "day") == [AS_OF, on(5, 18)]


@pytest.mark.parametrize(
    ("round_day", "length", "days"),
    [
        ("", 1.0, [AS_OF]),  # a Wednesday
        ("Wed", 1.0, [AS_OF]),
        ("wed", 1.0, [AS_OF]),
        ("Thu", 1.0, []),
        ("Thu", 2.0, [AS_OF + 1]),
        ("Tue", 6.0, []),
        ("Tue", 7.0, [AS_OF + 6]),
        ("Someday", 1.0, [AS_OF]),
    ],
)
def test_a_lawn_is_visited_on_its_round_day(round_day: str, length: float, days: list[float]) -> None:
    season = round_of(length, line(lawn="Front"), lawns__round_day=("text", [round_day]))
    assert shown(season, "round_lines", "day") == days


@pytest.mark.parametrize("due", [AS_OF + day for day in range(14)])
def test_a_round_day_is_within_a_week_from_the_day_that_is_due(due: float) -> None:
    season = round_of(60.0, line(lawn="Front", first=due), lawns__round_day=("text", ["Fri"]))
    found = shown(season, "round_lines", "day")[0]
    assert due <= found < due + 7
    assert (found - AS_OF) % 7 == 2


def test_another_sprayer_is_another_tank() -> None:
    """The boom delivers 500 L/ha, whatever the programme wants; of an unknown sprayer only the name is known."""
    own: dict[str, Any] = {"lawns__sprayer": ("text", ["Boom", "Hose"])}
    season = round_of(1.0, line(), **own)
    assert tanks_of(season) == [("Side", "Urea"), ("Back", "Urea"), ("Front", "Urea")]
    assert shown(season, "round_tanks", "sprayer") == ["Knapsack", "Hose", "Boom"]
    assert is_close(shown(season, "round_tanks", "water", "L"), [4.5, 16, 5])
    assert is_close(shown(season, "round_tanks", "fills"), [1, NO, 1])
    words = shown(season, "round_tanks", "words")
    assert [one.split("; ")[1:] for one in words] == [[], ["choose a sprayer"], []]
    boom = round_of(1.0, line(), round__sprayer=("text", "boom"))
    assert shown(boom, "round_tanks", "sprayer") == ["boom"]
    bare_list = round_of(1.0, line(), sprayers__name=("text", []))
    assert shown(bare_list, "round_tanks", "sprayer") == ["none"]
    unknown = round_of(1.0, line(), sprayers__spray_capacity=("L", []))
    assert shown(unknown, "round_tanks", "words") == [
        "nothing against it here; give the working capacity of its sprayer"
    ]
    assert shown(unknown, "round_tanks", "fills") == []


def tanks(*traits: str, **more: Any) -> tuple[list[float], list[str]]:
    """The tanks of lines of the Front on one day, each product with its traits, and what is to be minded."""
    names = ["Urea", "Iron salt", "Calcium nitrate", "Brew", "Humate"]
    lines = [line(name, lawn="Front", first=AS_OF, own_rate_mass=1.0) for name, _ in zip(names, traits, strict=False)]
    has: dict[str, Any] = {
        f"products__property_{trait}": ("text", ["yes" if trait in one.split() else "" for one in traits])
        for trait in TRAITS
    }
    season = round_of(1.0, *lines, **has, **more)
    return shown(season, "round_lines", "tank"), minded(season)


def test_what_must_not_meet_goes_into_a_second_tank_together() -> None:
    """Both sulphates may meet."""
    assert tanks("calcium", "sulphate", "sulphate") == ([1, 2, 2], ["", PARTED, PARTED])


def test_what_may_meet_all_before_it_stays_in_the_first_tank() -> None:
    """Phosphate must not meet calcium, nor iron, and these may meet one another: a second tank for it."""
    assert tanks("calcium", "ferrous", "phosphate")[0] == [1, 1, 2]


def test_what_must_not_meet_the_second_tank_has_one_of_its_own() -> None:
    """Sulphate apart from the calcium; then iron and sulphate, that may join it; then phosphate, against both; then
    phosphate once more, which would do no harm beside the other, but has a tank of its own too; then calcium."""
    assert tanks("calcium", "sulphate", "sulphate ferrous", "phosphate", "phosphate")[0] == [1, 2, 2, 3, 4]
    assert tanks("calcium", "sulphate", "phosphate", "calcium")[0] == [1, 2, 2, 3]


def test_a_product_does_not_meet_itself() -> None:
    assert tanks("calcium sulphate") == ([1], [])
    assert tanks("calcium sulphate", "sulphate") == ([1, 2], ["", PARTED])


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("rule", [one for one in TRAIT_RULES if one.second not in OTHERS], ids=str)
def test_every_rule_parts_or_asks(rule: Any, turned: bool) -> None:
    """Whichever of the two comes first; at level 0 they share a tank without a word."""
    pair = (rule.second, rule.first) if turned else (rule.first, rule.second)
    key = f"rules__level_{rule.first}_with_{rule.second}"
    for level, expected in ((2.0, ([1, 2], ["", PARTED])), (1.0, ([1, 1], ["", JAR])), (0.0, ([1, 1], []))):
        assert tanks(*pair, **{key: ("", level)}) == expected


@pytest.mark.parametrize("first", [one.key for one in family("tank_traits")])
def test_traits_without_a_rule_between_them_share_a_tank(first: str) -> None:
    met = {frozenset((rule.first, rule.second)) for rule in TRAIT_RULES}
    for other in (one.key for one in family("tank_traits")):
        if frozenset((first, other)) not in met:
            assert tanks(first, other) == ([1, 1], [])


def test_many_lines_count_as_well_as_one() -> None:
    """Nine lines of a trait are a digit of nine: the tenth is parted all the same, and what comes after ten lines."""
    names = [f"Feed {number}" for number in range(12)]
    lines = [line(name, lawn="Front", first=AS_OF, own_rate_mass=1.0) for name in names]
    has: dict[str, Any] = {
        "products__name": ("text", names),
        "products__measured_by": ("text", ["mass"] * 12),
        "products__property_ferrous": ("text", []),
        "products__property_alkaline_humate": ("text", []),
        "products__property_sulphate": ("text", ["yes"] * 9 + ["", "yes", "yes"]),
        "products__property_calcium": ("text", [""] * 9 + ["yes"]),
        "products__spray_mass_high": ("g/m**2", [9.0] * 12),
        "products__least_interval": ("day", [1.0] * 12),
    }
    season = round_of(1.0, *lines, wide=True, **has)
    assert shown(season, "round_lines", "tank") == [1] * 9 + [2, 3, 4]


def test_a_live_brew_has_a_tank_of_its_own() -> None:
    """Whatever the others are, and whichever comes first; they share theirs."""
    alone = "a live brew goes on alone"
    assert tanks("neutral", "live_brew", "wetting_agent") == ([1, 2, 1], ["", alone])
    assert tanks("live_brew", "", "")[0] == [1, 2, 2]
    assert tanks("calcium", "live_brew", "sulphate")[0] == [1, 2, 3]
    assert tanks("calcium", "sulphate", "live_brew")[0] == [1, 2, 3]
    assert tanks("live_brew", "live_brew") == ([1, 2], [alone, alone])
    lawful: dict[str, Any] = {"rules__level_live_brew_with_not_live": ("", 1.0)}
    assert tanks("live_brew", "", "", **lawful) == ([1, 1, 1], [JAR])
    assert tanks("", "live_brew", **lawful) == ([1, 1], ["", JAR])
    assert tanks("live_brew", "", rules__level_live_brew_with_not_live=("", 0.0)) == ([1, 1], [])


def test_the_same_product_twice_and_an_unknown_one_are_parted() -> None:
    twice = round_of(1.0, line(lawn="Front"), line(lawn="Front", own_rate_mass=1.0))
    assert shown(twice, "round_lines", "tank") == [1, 2]
    unknown = round_of(1.0, line(lawn="Front"), line("Gypsum", lawn="Front", own_rate_mass=1.0))
    assert shown(unknown, "round_lines", "tank") == [1, 2]
    assert minded(unknown)[1] == "not in the catalogue, so in a tank of its own; overdue"


@pytest.mark.parametrize("method", ["spray", "Spray", "dry"])
def test_what_is_spread_dry_shares_no_tank(method: str) -> None:
    """Calcium and an alkaline humate ask for a jar test where both are sprayed."""
    calcium = line("Calcium nitrate", lawn="Back", method=method, own_rate_mass=1.0, first=AS_OF)
    season = round_of(1.0, line("Humate", lawn="back", first=AS_OF), calcium)
    met = method != "dry"
    assert minded(season) == (["", JAR] if met else ["", "ask first: interval not stated"])
    assert is_close(shown(season, "round_lines", "tank"), [1, 1] if met else [1])


def test_what_a_tank_asks_is_said_of_it() -> None:
    """The first line of it that asks, in its words; a jar test; more products than may share one unasked."""
    much: dict[str, Any] = {"limits__ask_salts": ("g/L", 1.0)}
    season = round_of(1.0, line(lawn="Side"), line("Iron salt", lawn="Back"), **much)
    assert shown(season, "round_tanks", "words")[0].startswith("ask first: much salt in the spray")
    names = ("Urea", "Iron salt", "Brew")
    three = [line(name, lawn="Front", own_rate_mass=0.1, own_rate_volume=0.1) for name in names]
    assert shown(round_of(1.0, *three, limits__ask_products=("", 2.0)), "round_tanks", "words") == [
        "nothing against it here; many products in one tank",
    ]
    assert shown(round_of(1.0, *three, limits__ask_products=("", 3.0)), "round_tanks", "words") == [
        "nothing against it here",
    ]
    dry = round_of(1.0, line("Brew", lawn="Side", own_carrier=0.0))
    assert shown(dry, "round_tanks", "words") == ["nothing against it here; no spray volume"]
    assert shown(dry, "round_tanks", "water", "L") == []


def test_tanks_without_a_line_are_told() -> None:
    """There are six lines for tanks."""
    lawns = ("Front", "Front", "Front", "Side", "Side", "Side", "Back")
    lines = [line(lawn=lawn, own_rate_mass=1.0 + number) for number, lawn in enumerate(lawns)]
    season = round_of(1.0, *lines, wide=True)
    assert season.column("round_whole", "tanks_in") == 7
    assert season.column("round_whole", "room_words") == "1 tanks more than Tanks has lines for: choose fewer days"
    assert len(shown(season, "round_tanks", "day")) == 6


def test_digits_of_the_properties() -> None:
    """Iron sulphate is ferrous and a sulphate: kept apart from what either is kept apart from, and that once."""
    season = round_of()
    order = [one.key for one in family("tank_traits")]
    own = sum(10 ** order.index(trait) for trait in ("ferrous", "sulphate"))
    assert bare(season.column("products", "traits_digits"))[1] == own
    partners = {
        other
        for rule in TRAIT_RULES
        for trait, other in ((rule.first, rule.second), (rule.second, rule.first))
        if rule.level == 2 and trait in ("ferrous", "sulphate")
    }
    assert bare(season.column("products", "apart_digits"))[1] == sum(10 ** order.index(one) for one in partners)
