"""The next round: what is taken to which lawn, worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_programme import AS_OF, line, on, shown, site
from support.tables import NO, is_close, planner
from wbgen.model.binding import Model
from wbgen.trade.tank_rules import TRAITS

Value = Any

LINES = [
    line(),
    line("Iron salt", group="Greens"),
    line("Brew", lawn="Back", first=on(5, 20)),
    line("Calcium nitrate", lawn="Front", method="spray", own_rate_mass=1.5, own_carrier=1000.0),
    line(lawn="Side", method="dry", first=on(5, 16)),
]
"""Walked: Side, Back, Front, Strip. The Strip has no area, so that nothing can be measured out for it."""


def round_of(length: float = 1.0, *lines: dict[str, Any], **more: Any) -> Model:
    return site(*(lines or LINES), round__length=("day", length), **more)


@pytest.mark.parametrize(
    ("begin", "length", "until"),
    [
        (NO, NO, AS_OF),
        (NO, 1.0, AS_OF),
        (NO, 0.0, AS_OF),
        (NO, 7.0, AS_OF + 6),
        (on(5, 20), 2.0, on(5, 21)),
        (on(4, 1), 7.0, on(4, 7)),
    ],
)
def test_days_of_the_round(begin: float, length: float, until: float) -> None:
    season = round_of(length, round__begin=("date", begin))
    assert season.column("round", "until") == until


def test_lines_go_by_the_walk() -> None:
    """Due until 15 May are the urea everywhere and the iron and the calcium; the rest is later."""
    season = round_of()
    assert is_close(shown(season, "due", "round_key"), [300001, 200002, 100003, NO, 300005, 100006, NO, 300008])
    assert is_close(shown(season, "round_lines", "spot"), [4, 7, 3, 2, 6, 9])
    assert shown(season, "round_lines", "lawn") == ["Side", "Side", "Back", "Front", "Front", "Front"]
    products = ["Urea", "Iron salt", "Urea", "Urea", "Iron salt", "Calcium nitrate"]
    assert shown(season, "round_lines", "product") == products
    assert shown(season, "round_lines", "method") == ["spray"] * 6
    assert is_close(shown(season, "round_lines", "area", "m**2"), [50, 50, 200, 100, 100, 100])
    assert is_close(shown(season, "round_lines", "rate_mass", "g/m**2"), [2, 0.5, 2, 2, 0.5, 1.5])
    assert is_close(shown(season, "round_lines", "mass", "g"), [100, 25, 400, 200, 50, 150])
    assert shown(season, "round_lines", "volume", "mL") == []
    assert is_close(shown(season, "round_lines", "carrier_volume", "L/ha"), [800, 400, 800, 800, 400, 1000])


def test_a_longer_round_takes_more() -> None:
    season = round_of(6.0)
    products = ["Urea", "Iron salt", "Urea", "Urea", "Brew", "Urea", "Iron salt", "Calcium nitrate"]
    assert shown(season, "round_lines", "product") == products
    assert shown(season, "round_lines", "method")[2] == "dry"
    assert is_close(shown(season, "round_lines", "rate_volume", "mL/m**2"), [NO, NO, NO, NO, 3])
    assert is_close(shown(season, "round_lines", "volume", "mL"), [NO, NO, NO, NO, 600])
    assert is_close(shown(season, "round_lines", "mass", "g"), [100, 25, 500, 400, NO, 200, 50, 150])


def test_water_of_a_tank_is_its_largest_once() -> None:
    """800 L/ha on 50 m² are 4 L, on 200 m² 16 L, on 100 m² 8 L; what must not meet the iron is 10 L by itself."""
    season = round_of()
    assert is_close(shown(season, "round_lines", "tank"), [1, 1, 1, 1, 1, 2])
    assert is_close(shown(season, "round_lines", "tank_water", "L"), [4, NO, 16, 8, NO, 10])
    assert is_close(season.column("round", "water_all").to("L").magnitude, 38)
    dry = round_of(1.0, line(lawn="Side", method="dry"), line("Brew", lawn="Side", own_carrier=0.0))
    assert shown(dry, "round_lines", "tank_water", "L") == []
    assert is_close(shown(dry, "round_lines", "tank"), [NO, 1])
    assert dry.column("round", "water_all").to("L").magnitude == 0
    assert shown(dry, "round_lines", "product") == ["Urea", "Brew"]


def test_each_day_has_its_own_water() -> None:
    """Due on 1 May, it goes on on the first day of the round; the other on 18 May. 400 and 800 L/ha on 100 m²."""
    season = round_of(7.0, line("Iron salt", lawn="Front"), line(lawn="Front", first=on(5, 18)))
    assert is_close(shown(season, "round_lines", "day"), [AS_OF, on(5, 18)])
    assert is_close(shown(season, "round_lines", "tank"), [1, 1])
    assert is_close(shown(season, "round_lines", "tank_water", "L"), [4, 8])


def test_what_the_round_holds() -> None:
    season = round_of()
    found = [season.column("round", key) for key in ("lawns_in", "lines_in", "lines_room", "blank_rows", "room_words")]
    assert found == [3, 6, 8, 2, "room enough"]
    full = round_of(1.0, line(), line("Brew"), line("Humate"))
    words = "1 lines more than this sheet has room for: choose fewer days, or build anew"
    assert [full.column("round", key) for key in ("lines_in", "blank_rows", "room_words")] == [9, 0, words]
    even = round_of(6.0)
    assert [even.column("round", key) for key in ("lines_in", "blank_rows", "room_words")] == [8, 0, "room enough"]
    empty = round_of(1.0, round__begin=("date", on(1, 1)))
    assert [empty.column("round", key) for key in ("lawns_in", "lines_in", "blank_rows")] == [0, 0, 8]


def test_what_to_bring_says_for_how_many_products_it_has_no_line() -> None:
    """There are four lines for what to bring, and five products. A product that must not go on needs no line."""
    names = ("Urea", "Iron salt", "Calcium nitrate", "Brew", "Humate")
    rates = {name: {"own_rate_volume" if name in names[3:] else "own_rate_mass": 1.0} for name in names}
    lines = [line(name, lawn="Front", first=AS_OF, **rates[name]) for name in names]
    season = round_of(1.0, *lines)
    words = "What to bring has no line for 1 of the products: choose fewer days"
    assert [season.column("round", key) for key in ("lines_in", "room_words")] == [5, words]
    assert shown(season, "round_products", "product") == list(names[:4])
    for fewer in (lines[:4], [*lines[:4], line("Humate", lawn="Front", own_rate_volume=0.0, first=AS_OF)]):
        assert round_of(1.0, *fewer).column("round", "room_words") == "room enough"
    wide = [line(name, lawn="" if name in names[:2] else "Side", first=AS_OF, **rates[name]) for name in names]
    both = round_of(1.0, *wide)
    more = "1 lines more than this sheet has room for: choose fewer days, or build anew"
    assert both.column("round", "room_words") == f"{more}; {words}"


def test_lawns_are_those_that_the_sheet_has_room_for() -> None:
    """A round with more lines than room says how many are missing; its lawns are counted as they stand there."""
    lines = planner({"round_lines": {"lawn": ("text", ["Side", "Back", "side"])}, "round": {}}, {"round_lines": 4})
    assert lines.column("round", "lawns_in") == 2


NEVER, JAR = "not in one tank with ", "jar test first with "


def minded(season: Model) -> list[str]:
    return list(shown(season, "round_lines", "words"))


def test_lines_of_a_lawn_must_not_share_a_tank() -> None:
    """Iron sulphate and calcium meet on the Front only; the Side has the iron alone."""
    season = round_of()
    assert shown(season, "round_lines", "has_calcium") == ["", "", "", "", "", "yes"]
    assert is_close(shown(season, "round_lines", "beside_sulphate"), [1, 0, 0, 1, 0, 1])
    assert is_close(shown(season, "round_lines", "rule_calcium_with_sulphate"), [0, 0, 0, 0, 2, 2])
    assert is_close(shown(season, "round_lines", "level"), [0, 0, 0, 0, 2, 2])
    assert is_close(shown(season, "round_lines", "partner_calcium_with_sulphate"), [NO, NO, NO, NO, 6, 5])
    assert minded(season) == ["overdue"] * 4 + [
        f"{NEVER}Calcium nitrate; overdue", f"{NEVER}Iron salt; overdue",
    ]  # fmt: skip


@pytest.mark.parametrize("method", ["spray", "Spray", "dry"])
def test_what_is_spread_dry_shares_no_tank(method: str) -> None:
    """Calcium and an alkaline humate ask for a jar test where both are sprayed."""
    calcium = line("Calcium nitrate", lawn="Back", method=method, own_rate_mass=1.0, first=AS_OF)
    season = round_of(1.0, line("Humate", lawn="back", first=AS_OF), calcium)
    met = method != "dry"
    asked = ["", "ask first: interval not stated"]
    assert minded(season) == ([f"{JAR}Calcium nitrate", f"{JAR}Humate"] if met else asked)
    assert is_close(shown(season, "round_lines", "tank"), [1, 1] if met else [1])


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
    """Both sulphates may meet; the calcium names the first of them, and says that there are others."""
    numbers, words = tanks("calcium", "sulphate", "sulphate")
    assert numbers == [1, 2, 2]
    assert words == [f"{NEVER}Iron salt or others", f"{NEVER}Urea", f"{NEVER}Urea"]


def test_what_meets_by_two_rules_names_both() -> None:
    """Phosphate must not meet calcium, nor iron, and these may meet one another: a second tank for it."""
    numbers, words = tanks("calcium", "ferrous", "phosphate")
    assert numbers == [1, 1, 2]
    assert words[2] == f"{NEVER}Urea or Iron salt"


def test_others_are_those_of_the_worst_rules_and_not_named() -> None:
    """Phosphate: calcium and two irons are three, the last rule names the first iron; magnesium asks a jar test only.
    What is both calcium and sulphate names the first sulphate, and meets the calcium too."""
    assert tanks("phosphate", "calcium", "ferrous", "ferrous")[1][0] == f"{NEVER}Iron salt or Calcium nitrate or others"
    assert tanks("phosphate", "calcium", "magnesium")[1][0] == f"{NEVER}Iron salt"
    both = [f"{NEVER}Iron salt or others", f"{NEVER}Urea or others", f"{NEVER}Urea or others"]
    assert tanks("calcium sulphate", "sulphate", "calcium")[1] == both
    assert tanks("phosphate", "magnesium", "magnesium")[1] == [f"{JAR}Iron salt or others", f"{JAR}Urea", f"{JAR}Urea"]


def test_what_must_not_meet_the_second_tank_has_one_of_its_own() -> None:
    """Sulphate apart from the calcium; then iron and sulphate, that may join it; then phosphate, against both; then
    phosphate once more, which would do no harm beside the other, but has a tank of its own too; then calcium."""
    assert tanks("calcium", "sulphate", "sulphate ferrous", "phosphate", "phosphate")[0] == [1, 2, 2, 3, 4]
    assert tanks("calcium", "sulphate", "phosphate", "calcium")[0] == [1, 2, 2, 3]


def test_a_product_does_not_meet_itself() -> None:
    numbers, words = tanks("calcium sulphate")
    assert (numbers, words) == ([1], [])
    assert tanks("calcium sulphate", "sulphate") == ([1, 2], [f"{NEVER}Iron salt", f"{NEVER}Urea"])


def test_a_live_brew_has_a_tank_of_its_own() -> None:
    """Whatever the others are, and whichever comes first; they share theirs, and two brews may share theirs."""
    has = {"products__property_not_live": ("text", ["yes", "", "yes"])}
    assert tanks("neutral", "live_brew", "wetting_agent", **has) == (
        [1, 2, 1], [f"{NEVER}Iron salt", f"{NEVER}Urea or others", f"{NEVER}Iron salt"],
    )  # fmt: skip
    first = {"products__property_not_live": ("text", ["", "yes", "yes"])}
    assert tanks("live_brew", "", "", **first)[0] == [2, 1, 1]
    among = {"products__property_not_live": ("text", ["yes", "", "yes"])}
    assert tanks("calcium", "live_brew", "sulphate", **among)[0] == [1, 2, 3]
    last = {"products__property_not_live": ("text", ["yes", "yes", ""])}
    assert tanks("calcium", "sulphate", "live_brew", **last)[0] == [1, 2, 3]
    lawful = {"rules__level_live_brew_with_not_live": ("", 1.0), **first}
    assert tanks("live_brew", "", "", **lawful)[0] == [1, 1, 1]
    live = {"products__property_not_live": ("text", ["", ""])}
    assert tanks("live_brew", "live_brew", **live) == ([1, 1], [])


def test_a_jar_test_parts_no_tank() -> None:
    assert tanks("magnesium", "phosphate") == ([1, 1], [f"{JAR}Iron salt", f"{JAR}Urea"])
    apart = {"rules__level_magnesium_with_phosphate": ("", 2.0)}
    assert tanks("magnesium", "phosphate", **apart)[0] == [1, 2]
    allowed = {"rules__level_calcium_with_sulphate": ("", 0.0)}
    assert tanks("calcium", "sulphate", **allowed) == ([1, 1], [])


def test_lawns_part_tanks_by_themselves() -> None:
    """The calcium of the Front does not part the iron of the Side."""
    season = round_of(1.0, line("Calcium nitrate", lawn="Front"), line("Iron salt", group="Greens"))
    assert shown(season, "round_lines", "lawn") == ["Side", "Front", "Front"]
    assert is_close(shown(season, "round_lines", "tank"), [1, 1, 2])
    assert minded(season) == ["overdue", f"{NEVER}Iron salt; overdue", f"{NEVER}Calcium nitrate; overdue"]


def test_what_to_bring() -> None:
    """Urea 100 + 500 (dry) + 400 + 200 g in packs of 150 g; 600 mL of the brew in packs of half a litre."""
    season = round_of(6.0)
    assert is_close(shown(season, "round_lines", "bring_turn"), [1, 2, NO, NO, 3, NO, NO, 4])
    assert shown(season, "round_products", "product") == ["Urea", "Iron salt", "Brew", "Calcium nitrate"]
    assert is_close(shown(season, "round_products", "mass", "g"), [1200, 75, NO, 150])
    assert is_close(shown(season, "round_products", "volume", "mL"), [NO, NO, 600])
    assert is_close(shown(season, "round_products", "packs"), [8, NO, 2, 1])
    few = round_of(1.0, line("Brew"), line("Iron salt", lawn="Back", first=on(5, 20)))
    assert shown(few, "round_products", "product") == ["Brew"]
    assert is_close(shown(few, "round_products", "product_line"), [5])
    brewed = round_of(6.0, recipes__product=("text", ["brew"]))
    assert is_close(shown(brewed, "round_products", "packs"), [8, NO, NO, 1])


def test_whole_packs_are_not_rounded_up() -> None:
    """Three times 0.1 g/m² on 100 m² are as much as three packs of 10 g, though not in floats."""
    season = round_of(1.0, line(lawn="Front", own_rate_mass=0.1 + 0.2), products__pack_mass=("kg/pack", [0.01]))
    assert shown(season, "round_products", "packs") == [3]
