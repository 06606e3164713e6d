"""What the front sheet says of the weather, the round, the lawns and the stock, worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.tables import NO, Table, bare, changed, is_close, planner

LEVELS = ("wind", "near_wind", "air", "heat", "calm", "rain", "ground")
WEATHER: dict[str, Table] = {
    "weather": {
        "planner_date": ("date", NO), "wind": ("km/h", NO), "air_temperature": ("degC", NO), "humidity": ("", NO),
        "heavy_rain": ("text", ""), "wet_ground": ("text", ""),
    },
    "mix_checks": {f"level_{key}": ("", 0.0) for key in LEVELS} | {"unchecked": ("", 4.0)},
    "today": {},
}  # fmt: skip


def said(key: str, **more: Any) -> str:
    found: str = planner(changed(WEATHER, **more), {}).column("weather", f"{key}_says")
    return found


def spraying(**more: Any) -> str:
    found: str = planner(changed(WEATHER, **more), {}).column("today", "spraying")
    return found


def test_what_was_not_typed_was_not_checked() -> None:
    assert [said(key) for key in ("wind", "air", "humidity", "rain", "ground")] == ["not checked"] * 5
    assert spraying() == "not checked"
    assert spraying(mix_checks__unchecked=("", 0.0)) == "in bounds"
    assert said("date") == "today"
    assert said("date", weather__planner_date=("date", 45000.0)) == "typed"


TYPED: dict[str, tuple[str, float | str]] = {
    "wind": ("km/h", 9.0), "air_temperature": ("degC", 9.0), "humidity": ("", 0.6),
    "heavy_rain": ("text", "no"), "wet_ground": ("text", "no"),
}  # fmt: skip


@pytest.mark.parametrize("key", TYPED)
def test_one_answer_of_the_weather_is_not_all_of_it(key: str) -> None:
    assert spraying(**{f"weather__{key}": TYPED[key]}) == "in bounds, as far as it was checked"


@pytest.mark.parametrize(("level", "words"), [(0.0, "in bounds"), (1.0, "ask first"), (2.0, "do not")])
def test_what_is_typed_is_in_bounds_or_not(level: float, words: str) -> None:
    wind, air = {"weather__wind": ("km/h", 9.0)}, {"weather__air_temperature": ("degC", 9.0)}
    assert said("wind", **wind, mix_checks__level_wind=("", level), mix_checks__level_near_wind=("", NO)) == words
    assert said("wind", **wind, mix_checks__level_wind=("", NO), mix_checks__level_near_wind=("", level)) == words
    assert said("air", **air, mix_checks__level_air=("", level)) == words


def test_calm_and_dry_air_are_said() -> None:
    wind, damp = {"weather__wind": ("km/h", 1.0)}, {"weather__humidity": ("", 0.3)}
    assert said("wind", **wind, mix_checks__level_calm=("", 1.0)) == "in bounds, calm"
    assert said("humidity", **damp) == "in bounds"
    assert said("humidity", **damp, mix_checks__level_heat=("", 1.0)) == "hot and dry"


@pytest.mark.parametrize(("answer", "words"), [("yes", "do not"), ("No", "in bounds"), ("maybe", "not checked")])
def test_rain_and_ground_are_answered(answer: str, words: str) -> None:
    assert said("rain", weather__heavy_rain=("text", answer)) == words
    assert said("ground", weather__wet_ground=("text", answer)) == words


@pytest.mark.parametrize("key", LEVELS)
def test_one_level_decides_whether_one_may_spray(key: str) -> None:
    """Rain and ground only forbid; heat and calm only ask."""
    one, two = (spraying(**{f"mix_checks__level_{key}": ("", level)}) for level in (1.0, 2.0))
    assert one == ("not checked" if key in ("rain", "ground") else "ask first, by the weather")
    if key not in ("heat", "calm"):
        assert two == "do not, by the weather"


def test_the_furthest_from_the_plan_come_first() -> None:
    """Off by 0.5 of 2, 1 of 10, and 0.5 of 2 again; a lawn without a target or without an area is last."""
    nitrogen = "g_N/m**2"
    tables: dict[str, Table] = {
        "feeding": {
            "lawn": ("text", ["A", "B", "C", "D", "E"]),
            "had": (nitrogen, [1.5, 5.0, 0.5, 3.0, NO]),
            "plan": (nitrogen, [1.0, 6.0, 1.0, 1.0, 2.0]),
            "target": (nitrogen, [2.0, 10.0, 2.0, NO, 4.0]),
            "plan_words": ("text", ["ahead", "behind", "behind", "ahead"]),
        },
        "season_share": {"turn": ("", [1.0, 2, 3, 4, 5]), "lawn": ("text", ["A", "B", "C", "D", "E"])},
        "today_lawns": {"turn": ("", [1.0, 2, 3, 4])},
        "today": {},
    }
    found = planner(tables, {"feeding": 6, "season_share": 6, "today_lawns": 4})
    assert is_close(bare(found.column("season_share", "away")), [0.25, 0.1, 0.25, 0, 0, NO])
    assert is_close(bare(found.column("season_share", "away_rank")), [1, 3, 2, 4, 5, NO])
    assert bare(found.column("today_lawns", "lawn")) == ["A", "C", "B", "D"]
    assert is_close(bare(found.column("today_lawns", "bar")), [0.75, 0.25, 0.5, NO])
    assert bare(found.column("today_lawns", "plan_words")) == ["ahead", "behind", "behind", "ahead"]
    assert found.column("today", "more_lawns") == "and 1 more, on the sheet Feeding"


def test_tanks_in_short() -> None:
    tables: dict[str, Table] = {
        "round_tanks": {
            "spot": ("", [2.0, 4.0]), "day": ("date", [45000.0, 45001.0]), "lawns_count": ("", [1.0, 3.0]),
            "products_count": ("", [2.0, 1.0]), "water": ("L", [9.0, NO]), "fills": ("", [1.0, NO]),
            "words": ("text", ["nothing against it here", "nothing against it here; jar test first; choose a sprayer"]),
        },
        "round_lines": {"lawn": ("text", ["Front", "Front", "Back"]), "product": ("text", ["Urea", "Iron", "Feed"])},
        "today_tanks": {"turn": ("", [1.0, 2.0, 3.0])},
    }  # fmt: skip
    found = planner(tables, {"round_tanks": 4, "round_lines": 3, "today_tanks": 3})
    assert bare(found.column("today_tanks", "lawns_words")) == ["Front", "Back and 2 more", ""]
    assert bare(found.column("today_tanks", "products_words")) == ["Urea and 1 more", "Feed", ""]
    assert bare(found.column("today_tanks", "words")) == ["nothing against it here", "jar test first, and more", ""]


@pytest.mark.parametrize(
    ("whole", "methods", "words"),
    [
        ({"lines_in": 0.0}, [], "nothing is due in the round of the sheet Round"),
        ({}, [], ""),
        ({"tanks_in": 5.0}, [], "2 more tanks, on the sheet Round"),
        ({"lines_stopped": 3.0}, ["dry", "spray", "Dry"], "2 lines spread dry; 3 lines must not go on"),
        ({"room_words": "no room"}, [], "not all of it has room"),
    ],
)
def test_what_the_tanks_do_not_say(whole: dict[str, Any], methods: list[str], words: str) -> None:
    figures: dict[str, Any] = {"lines_in": 4.0, "tanks_in": 2.0, "lines_stopped": 0.0, "room_words": "room enough"}
    tables: dict[str, Table] = {
        "round_whole": {key: ("text" if key == "room_words" else "", one) for key, one in (figures | whole).items()},
        "round_lines": {"method": ("text", methods)},
        "today_tanks": {},
        "today_round": {},
    }
    found = planner(tables, {"round_lines": 4, "today_tanks": 3})
    assert found.column("today_round", "words") == words


def test_what_runs_short_has_something_to_do() -> None:
    tables: dict[str, Table] = {
        "order_lines": {
            "words": ("text", ["buy now", "", "brew"]), "on_hand": ("text", ["2 kg", "1 kg", ""]),
            "needed": ("text", ["3 kg", "", "9 L"]), "product": ("text", ["Urea", "Iron", "Tea"]),
            "runs_out": ("date", [45000.0]), "packs": ("", [1.0]), "spot": ("", [2.0, 3.0, 4.0]),
        },
        "today_short": {"turn": ("", [1.0, 2.0, 3.0])},
    }  # fmt: skip
    found = planner(tables, {"order_lines": 3, "today_short": 3})
    assert bare(found.column("today_short", "product")) == ["Urea", "Tea", ""]
    amounts = ["2 kg on hand, 3 kg needed", "none counted, 9 L needed", ""]
    assert bare(found.column("today_short", "amounts")) == amounts
