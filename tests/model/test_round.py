"""The next round: what is taken to which lawn, worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_programme import AS_OF, LINES, line, on, shown, site
from support.tables import NO, is_close, planner
from wbgen.model.binding import Model

Value = Any


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
    assert season.column("round_whole", "until") == until


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
    products = ["Urea", "Iron salt", "Urea", "Urea", "Iron salt", "Calcium nitrate", "Urea", "Brew"]
    assert shown(season, "round_lines", "product") == products
    assert shown(season, "round_lines", "method")[6] == "dry"
    assert is_close(shown(season, "round_lines", "rate_volume", "mL/m**2"), [*[NO] * 7, 3])
    assert is_close(shown(season, "round_lines", "volume", "mL"), [*[NO] * 7, 600])
    assert is_close(shown(season, "round_lines", "mass", "g"), [100, 25, 400, 200, 50, 150, 500])


def test_each_line_has_a_tick_box() -> None:
    assert shown(round_of(), "round_lines", "tick") == ["□"] * 6


def test_what_the_round_holds() -> None:
    season = round_of()
    found = [season.column("round_whole", key) for key in ("lawns_in", "lines_in", "room_words")]
    assert found == [3, 6, "room enough"]
    full = round_of(1.0, line(), line("Brew"), line("Humate"))
    words = "1 lines more than this sheet has room for: choose fewer days, or build anew"
    assert [full.column("round_whole", key) for key in ("lines_in", "room_words")] == [9, words]
    even = round_of(6.0)
    assert [even.column("round_whole", key) for key in ("lines_in", "room_words")] == [8, "room enough"]
    empty = round_of(1.0, round__begin=("date", on(1, 1)))
    assert [empty.column("round_whole", key) for key in ("lawns_in", "lines_in", "tanks_in")] == [0, 0, 0]


def test_what_to_bring_says_for_how_many_products_it_has_no_line() -> None:
    """There are four lines for what to bring, and five products. A product that must not go on needs no line."""
    names = ("Urea", "Iron salt", "Calcium nitrate", "Brew", "Humate")
    rates = {name: {"own_rate_volume" if name in names[3:] else "own_rate_mass": 1.0} for name in names}
    lines = [line(name, lawn="Front", first=AS_OF, **rates[name]) for name in names]
    season = round_of(1.0, *lines)
    words = "What to bring has no line for 1 of the products: choose fewer days"
    assert [season.column("round_whole", key) for key in ("lines_in", "room_words")] == [5, words]
    assert shown(season, "round_products", "product") == list(names[:4])
    for fewer in (lines[:4], [*lines[:4], line("Humate", lawn="Front", own_rate_volume=0.0, first=AS_OF)]):
        assert round_of(1.0, *fewer).column("round_whole", "room_words") == "room enough"
    wide = [line(name, lawn="" if name in names[:2] else "Side", first=AS_OF, **rates[name]) for name in names]
    both = round_of(1.0, *wide)
    more = "1 lines more than this sheet has room for: choose fewer days, or build anew"
    assert both.column("round_whole", "room_words") == f"{more}; {words}"


def test_lawns_are_those_that_the_sheet_has_room_for() -> None:
    """A round with more lines than room says how many are missing; its lawns are counted as they stand there."""
    lines = planner(
        {"round_lines": {"lawn": ("text", ["Side", "Back", "side"])}, "round_whole": {}}, {"round_lines": 4}
    )
    assert lines.column("round_whole", "lawns_in") == 2


def test_what_to_bring() -> None:
    """Urea 100 + 500 (dry) + 400 + 200 g in packs of 150 g; 600 mL of the brew in packs of half a litre."""
    season = round_of(6.0)
    assert is_close(shown(season, "round_lines", "bring_turn"), [1, 2, NO, NO, NO, 3, NO, 4])
    assert shown(season, "round_products", "product") == ["Urea", "Iron salt", "Calcium nitrate", "Brew"]
    assert is_close(shown(season, "round_products", "mass", "g"), [1200, 75, 150])
    assert is_close(shown(season, "round_products", "volume", "mL"), [NO, NO, NO, 600])
    assert is_close(shown(season, "round_products", "packs"), [8, NO, 1, 2])
    few = round_of(1.0, line("Brew"), line("Iron salt", lawn="Back", first=on(5, 20)))
    assert shown(few, "round_products", "product") == ["Brew"]
    assert is_close(shown(few, "round_products", "product_line"), [5])
    brewed = round_of(6.0, recipes__product=("text", ["brew"]))
    assert is_close(shown(brewed, "round_products", "packs"), [8, NO, 1])


def test_whole_packs_are_not_rounded_up() -> None:
    """Three times 0.1 g/m² on 100 m² are as much as three packs of 10 g, though not in floats."""
    season = round_of(1.0, line(lawn="Front", own_rate_mass=0.1 + 0.2), products__pack_mass=("kg/pack", [0.01]))
    assert shown(season, "round_products", "packs") == [3]
