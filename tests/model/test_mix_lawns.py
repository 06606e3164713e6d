"""The lawns of a visit and their nitrogen, against figures worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_mix import MAY_14, RECORDS, TABLES, figure
from support.tables import NO, bare, changed, is_close, planner


@pytest.mark.parametrize(
    ("key", "unit", "figures"),
    [
        ("lawn_area", "m**2", [200, NO, NO, 1000]),
        ("treated_area", "m**2", [50, NO, NO, 1000]),
        ("lawn_line", "", [1, NO, NO, 2]),
        ("water", "L", [2.2, NO, NO, 44]),
        ("water_so_far", "L", [2.2, 2.2, NO, 46.2]),
        ("spray_time", "min", [2.2 / 1.5, NO, NO, 44 / 1.5]),
    ],
)
def test_lawns_of_the_visit(key: str, unit: str, figures: list[float]) -> None:
    assert is_close(figure(key, unit, table="mix_lawns"), figures)


def test_all_lawns_a_group_or_one_in_their_walking_order() -> None:
    walked: dict[str, Any] = {"lawns__walk_rank": ("", [2.0, 1.0, 3.0])}
    for box, which, used in (
        ("All", "all", ["Back", "Front", "Bare", ""]),
        ("FINE", "group", ["Front", "Bare", "", ""]),
        ("back", "one", ["back", "", "", ""]),
        ("Shed", "one", ["Shed", "", "", ""]),
        ("", "listed", ["back", "Bare", "", "Front"]),
    ):
        given = {key: column for key, column in TABLES["mix"].items() if key != "which_lawns"}
        tables = {**TABLES, "mix": given}
        model = planner(changed(tables, chosen__lawns=("text", box), **walked), RECORDS)
        assert model.column("mix", "which_lawns") == which
        assert bare(model.column("mix_lawns", "lawn_used")) == used
    same = planner(changed(tables, chosen__lawns=("text", "Fine"), lawns__name=("text", ["Fine", "Back"])), RECORDS)
    assert same.column("mix", "which_lawns") == "one", "a lawn comes before a group of its name"


@pytest.mark.parametrize(
    ("columns", "problems"),
    [
        ({}, ["", "has no area", "", ""]),
        ({"chosen_lawns__lawn": ("text", ["Shed", "Front", "", "FRONT"])},
         ["is not on the sheet Lawns", "is named twice", "", "is named twice"]),
        ({"chosen_lawns__part_treated": ("m**2", [200.1])}, ["has a part larger than the lawn", "has no area", "", ""]),
        ({"chosen_lawns__part_treated": ("m**2", [200 + 1e-10])}, ["", "has no area", "", ""]),
        ({"chosen_lawns__lawn": ("text", ["Back", "back"]), "chosen_lawns__part_treated": ("m**2", [201.0])},
         ["has a part larger than the lawn", "is named twice", "", ""]),
        ({"mix__which_lawns": ("text", "all"), "chosen_lawns__part_treated": ("m**2", [5000.0])},
         ["", "", "has no area", ""]),
    ],
)  # fmt: skip
def test_what_keeps_a_lawn_from_being_treated(columns: dict[str, Any], problems: list[str]) -> None:
    assert figure("lawn_problem", table="mix_lawns", **columns) == problems
    assert figure("problem", table="visit_lawns", **columns) == problems
    levels = figure("lawn_level", table="visit_lawns", **columns)
    assert [level == 2 for level in levels] == [problem != "" for problem in problems]


LINES = ["Back", "back", "Back", "BACK", "Front", "Back", "Back"]
TODAY: dict[str, Any] = {"diary__lawn": ("text", LINES)}
"""The diary's line of the day is of the Back too."""


@pytest.mark.parametrize(
    ("key", "unit", "figures"),
    [
        # 120 g on 200 m²; the 30th day before, the visit's day, a line without a date and a later one do not count.
        ("nitrogen_before", "g_N/m**2", [0.6, NO, NO, 0]),
        ("nitrogen_visit", "g_N/m**2", [0.25, NO, NO, 1]),
        ("nitrogen_together", "g_N/m**2", [0.85, NO, NO, 1]),
        ("growth", "", [0.25, 0.5, NO, 0.5]),
        ("nitrogen_ceiling", "g_N/m**2", [1, 1.5, NO, 1.5]),
        ("nitrogen_level", "", [0, NO, NO, 0]),
        # 1120 g since 1 March on 200 m².
        ("nitrogen_season", "g_N/m**2", [5.6, NO, NO, 0]),
        ("nitrogen_target", "g_N/m**2", [6, NO, NO, NO]),
        ("target_level", "", [0, NO, NO, 0]),
        ("lines_today", "", [1, 0, NO, 0]),
        ("lawn_level", "", [1, 2, NO, 0]),
    ],
)
def test_nitrogen_on_the_lawns_of_the_visit(key: str, unit: str, figures: list[float]) -> None:
    assert is_close(figure(key, unit, table="visit_lawns", **TODAY), figures)


@pytest.mark.parametrize(("rate", "level"), [(1.6, 0), (1.6 + 1e-10, 0), (1.6 + 1e-6, 1)])
def test_nitrogen_over_what_the_grass_can_use(rate: float, level: int) -> None:
    """0.6 g/m² before and a quarter of the rate meet the Back's ceiling of 1 g/m²."""
    given: dict[str, Any] = {
        "mix_nutrients__rate_nitrogen": ("g_N/m**2", rate),
        "settings__most_nitrogen_month": ("g_N/m**2", 9.0),
        "lawns__target_nitrogen": ("g_N/m**2", []),
    }
    assert figure("nitrogen_level", table="visit_lawns", **given)[0] == level
    words = "; back, more nitrogen in 30 days than it can use: 1 g N/m², at most 1 g N/m²" if level else ""
    assert figure("lawn_words", table="visit_lawns", **given) == [words, "; Bare has no area", "", ""]


def test_visit_without_nitrogen_is_not_held_to_the_ceiling() -> None:
    given: dict[str, Any] = {
        "mix_nutrients__rate_nitrogen": ("g_N/m**2", 0.0),
        "diary__load_nitrogen": ("g_N", [5000.0]),
    }
    assert figure("nitrogen_together", "g_N/m**2", table="visit_lawns", **given)[0] == 25
    assert figure("nitrogen_level", table="visit_lawns", **given)[0] == 0


@pytest.mark.parametrize(("target", "level"), [(5.85, 0), (5.85 - 1e-10, 0), (5.84, 1), (NO, 0)])
def test_season_over_its_target(target: float, level: int) -> None:
    """5.6 g/m² since the season began and 0.25 g/m² of the visit."""
    given: dict[str, Any] = {"lawns__target_nitrogen": ("g_N/m**2", [NO, target])}
    assert figure("target_level", table="visit_lawns", **given)[0] == level
    assert figure("lawn_level", table="visit_lawns", **given)[0] == level
    words = "; back, over its nitrogen target of the year: 5.85 g N/m², at most 5.84 g N/m²" if level else ""
    assert figure("lawn_words", table="visit_lawns", **given)[0] == words
    none = given | {"mix_nutrients__rate_nitrogen": ("g_N/m**2", 0.0), "diary__load_nitrogen": ("g_N", [9000.0])}
    assert figure("target_level", table="visit_lawns", **none)[0] == 0


@pytest.mark.parametrize(("target", "level"), [(4.68, 0), (4.68 - 1e-10, 0), (4.67, 1), (5.0, 0)])
def test_a_season_on_its_target_is_not_over_it(target: float, level: int) -> None:
    """With a quarter more, 4.68 g/m² allow 5.85, which the visit makes full."""
    given: dict[str, Any] = {
        "lawns__target_nitrogen": ("g_N/m**2", [NO, target]),
        "settings__target_tolerance": ("", 0.25),
    }
    assert figure("target_level", table="visit_lawns", **given)[0] == level
    words = "; back, over its nitrogen target of the year: 5.85 g N/m², at most 5.84 g N/m²" if level else ""
    assert figure("lawn_words", table="visit_lawns", **given)[0] == words


@pytest.mark.parametrize(
    ("date", "month", "nitrogen"),
    [
        (NO, 3.0, 5.6),
        (NO, 5.0, 0.1),  # since 1 May only the 20 g of the day before
        (MAY_14 + 1, 5.0, 0.1),  # the line of that day is not counted
        (MAY_14 + 2, 5.0, 5.1),  # but the day after it is
        (MAY_14 + 2, 6.0, 10.6),  # since 1 June of the year before
    ],
)
def test_nitrogen_of_the_season_that_the_visit_is_in(date: float, month: float, nitrogen: float) -> None:
    given: dict[str, Any] = {"mix__date": ("date", date), "settings__season_month": ("", month)}
    assert is_close(figure("nitrogen_season", "g_N/m**2", table="visit_lawns", **given)[0], nitrogen)


def test_nitrogen_of_the_season_counts_its_first_day() -> None:
    first: dict[str, Any] = {
        "mix__date": ("date", MAY_14),
        "settings__season_month": ("", 5.0),
        "settings__season_day": ("", 13.0),
    }
    assert is_close(figure("nitrogen_season", "g_N/m**2", table="visit_lawns", **first)[0], 0.1)
    later = first | {"settings__season_day": ("", 14.0)}
    assert is_close(figure("nitrogen_season", "g_N/m**2", table="visit_lawns", **later)[0], 0)


@pytest.mark.parametrize(
    ("strips", "level"), [([], 0), (["back"], 1), (["", "Back"], 0), (["Bare"], 0), (["", "", "BACK"], 1)]
)
def test_an_untreated_strip_is_asked_about(strips: list[str], level: int) -> None:
    """The strip of another lawn, that is; the Back cannot be its own."""
    given: dict[str, Any] = {"lawns__strip": ("text", strips)}
    assert figure("strip_level", table="visit_lawns", **given)[0] == level
    assert figure("lawn_level", table="visit_lawns", **given)[0] == level
    assert figure("lawn_words", table="visit_lawns", **given)[0] == "; back is an untreated strip" * level


@pytest.mark.parametrize(
    ("ago", "before", "visit", "level"),
    [
        (13, 24.1, 0.22, 1),
        (13, 24.0, 0.22, 0),
        (14, 96.0, 0.22, 0),
        (0, 96.0, 0.22, 0),
        (1, 200.0, 0.0, 0),
        (1, 200.0, NO, 0),
        (1, 0.0, 1.5, 0),
        (1, NO, 1.5, 0),
    ],
)
def test_iron_of_the_last_days_counts_whatever_brought_it(ago: int, before: float, visit: float, level: int) -> None:
    """24 g on 200 m² are 0.12 g/m²; with 0.22 of this visit 0.34, the most that one visit brings without asking."""
    given: dict[str, Any] = {
        "diary__date": ("date", [MAY_14 - ago, MAY_14 + 1]), "diary__lawn": ("text", ["Back", "Back"]),
        "diary__load_nitrogen": ("g_N", []), "diary__load_iron": ("g_Fe", [before, 500.0]),
        "mix_nutrients__rate_nitrogen": ("g_N/m**2", 0.0), "mix_nutrients__rate_iron": ("g_Fe/m**2", visit),
    }  # fmt: skip
    words = "; back, much iron in 14 days: 0.341 g Fe/m², in one visit ask first above 0.34 g Fe/m²"
    assert figure("iron_level", table="visit_lawns", **given)[0] == level
    if ago:
        assert figure("lawn_level", table="visit_lawns", **given)[0] == level
        assert figure("lawn_words", table="visit_lawns", **given)[0] == words * level
    assert figure("iron_level", table="visit_lawns", **given, limits__ask_iron=("g_Fe/m**2", NO))[0] == 0


@pytest.mark.parametrize(("key", "load", "unit"), [
    ("nitrogen_before", "load_nitrogen", "g_N"), ("nitrogen_season", "load_nitrogen", "g_N"),
    ("iron_before", "load_iron", "g_Fe"),
])  # fmt: skip
@pytest.mark.parametrize(("method", "counts"), [("dry", True), ("DRY", True), ("spray", False), ("", False)])
def test_of_the_day_of_the_visit_what_was_spread_dry_is_there_already(
    key: str, load: str, unit: str, method: str, counts: bool
) -> None:
    """A spray of that day may be this very visit, written down; what was spread on another lawn or later is not it."""
    given: dict[str, Any] = {
        "diary__date": ("date", [MAY_14, MAY_14, MAY_14 + 1]), "diary__lawn": ("text", ["Back", "Shed", "Back"]),
        "diary__load_nitrogen": ("g_N", []), "diary__load_iron": ("g_Fe", []),
        "diary__method": ("text", [method, "dry", "dry"]),
        f"diary__{load}": (unit, [50.0, 500.0, 500.0]),
    }  # fmt: skip
    assert is_close(figure(key, f"{unit}/m**2", table="visit_lawns", **given)[0], 0.25 if counts else 0)


def test_a_part_that_is_a_text_is_not_passed_over() -> None:
    words = "has a text where the number of its part belongs"
    misplaced = ["chosen_lawns.part_treated"]
    assert figure("lawn_problem", table="mix_lawns", misplaced=misplaced) == [words, "has no area", "", ""]
    assert figure("lawn_level", table="visit_lawns", misplaced=misplaced)[0] == 2


def test_a_part_that_is_a_text_is_nothing_to_all_lawns() -> None:
    """Parts are not used there, and the text stands beside another lawn than the one that it would be said of."""
    given: dict[str, Any] = {"misplaced": ["chosen_lawns.part_treated"], "mix__which_lawns": ("text", "All")}
    assert figure("lawn_problem", table="mix_lawns", **given) == ["", "", "has no area", ""]
    assert figure("lawn_level", table="visit_lawns", **given)[0] == 0


def test_each_lawn_has_its_own_words() -> None:
    back = "; back, the diary has lines of this day already"
    bare = "; Bare has no area"
    assert figure("lawn_words", table="visit_lawns", **TODAY) == [back, bare, "", ""]


def test_all_that_holds_of_a_lawn_is_said_unless_it_is_to_mend() -> None:
    given = TODAY | {
        "lawns__target_nitrogen": ("g_N/m**2", [NO, 1.0]),
        "mix_nutrients__rate_nitrogen": ("g_N/m**2", 9.0),
    }
    assert figure("lawn_words", table="visit_lawns", **given)[0] == (
        "; back, more nitrogen in 30 days than it can use: 2.85 g N/m², at most 1 g N/m²"
        "; back, over its nitrogen target of the year: 7.85 g N/m², at most 1 g N/m²"
        "; back, the diary has lines of this day already"
    )
    mend = given | {"chosen_lawns__part_treated": ("m**2", [201.0])}
    assert figure("lawn_words", table="visit_lawns", **mend)[0] == "; back has a part larger than the lawn"
