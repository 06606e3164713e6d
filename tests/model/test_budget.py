"""Growth, the split of the year's nitrogen and what the programme brings, worked out by hand for a small site."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from support.small_budget import DAYS, PLAN, month_by_month, year
from support.small_programme import LAWNS, line, on, shown
from support.tables import NO, bare, is_close
from wbgen.model.tools.dates import serial
from wbgen.trade.families import MONTH_NAMES

Value = Any


def test_months_stand_in_the_order_of_the_season() -> None:
    """From March to February, in all of their tables; from July to June where the season starts on 1 July."""
    names = list(MONTH_NAMES)
    july: dict[str, Any] = {"settings__season_start": ("date", float(serial(2024, 7, 1)))}
    for season, first in ((year(), 2), (year(**july), 6)):
        order = names[first:] + names[:first]
        for table in ("season_months", "growth_months", "budget_months", "budget_running"):
            assert list(season.column(table, "month")) == order
    assert is_close(year(**july).column("growth_months", "days"), [*DAYS[6:], *DAYS[:6]])


def test_equal_growth_is_split_by_days() -> None:
    """12 g N/m² over the 365 days of the season; 8 on the Back, where all months grow alike too."""
    by_days = np.array(DAYS) / 365
    assert month_by_month(year(), "growth_months", "days") == DAYS
    assert is_close(month_by_month(year(), "growth_months", "should", "g_N/m**2"), 12 * by_days)
    back = year(shown_lawn="back")
    assert is_close(month_by_month(back, "growth_months", "growth"), [0.5] * 12)
    assert is_close(month_by_month(back, "growth_months", "should", "g_N/m**2"), 8 * by_days)


def test_days_are_those_of_the_season() -> None:
    """The February of the season that started on 1 March 2023 is that of 2024, also before the turn of the year."""
    season = year(start__as_of=("date", [serial(2023, 5, 15)]), settings__season_start=("date", serial(2023, 3, 1)))
    assert month_by_month(season, "growth_months", "days") == [31, 29, *DAYS[2:]]
    assert is_close(month_by_month(season, "growth_months", "should", "g_N/m**2")[0], 12 * 31 / 366)


def test_closed_months_leave_their_share_to_the_others() -> None:
    """Only April, at full growth, and May, at a third, are open: 30 and 31 ÷ 3 days."""
    closed = ["YES"] * 3 + ["", "no"] + ["yes"] * 7
    growth = ("", [1.0, 1.0, 1.0, 1.0, 1 / 3] + [1.0] * 7)
    season = year(months__closed=("text", closed), months__growth_cool=growth)
    weights = 30 + 31 / 3
    should = [0, 0, 0, 12 * 30 / weights, 12 * 31 / 3 / weights, *[0] * 7]
    assert is_close(month_by_month(season, "growth_months", "should", "g_N/m**2"), should)
    assert is_close(season.column("growth_view", "weights"), weights)
    assert is_close(month_by_month(season, "growth_months", "ceiling", "g_N/m**2"), [0, 0, 0, 3, 1, *[0] * 7])


@pytest.mark.parametrize(
    ("growth", "words"),
    [
        (0.0, "not at all: no month is open and grows"),
        (1e-12, "not at all: no month is open and grows"),
        (1e-9, "by growth, days and open months"),
    ],
)
def test_without_growth_there_is_no_split(growth: float, words: str) -> None:
    season = year(months__growth_cool=("", [growth] + [0.0] * 11))
    assert season.column("growth_view", "split_words") == words
    should = 12 if growth == 1e-9 else NO
    assert is_close(month_by_month(season, "growth_months", "should", "g_N/m**2")[0], should)


def test_without_a_target_there_is_no_split() -> None:
    season = year(shown_lawn="Side")
    assert is_close(month_by_month(season, "growth_months", "should", "g_N/m**2"), [NO] * 12)
    assert season.column("growth_view", "split_words") == "by growth, days and open months"


@pytest.mark.parametrize(
    ("name", "line_of", "grass", "group", "most"),
    [
        ("", 2, "cool season", 2, 3),
        ("BACK", 3, "Warm Season", NO, 4),
        ("Side", 5, "", 2, 3),
        ("Far", NO, "", NO, 3),
    ],
)
def test_lawn_shown(name: str, line_of: float, grass: str, group: float, most: float) -> None:
    season = year(shown_lawn=name)
    assert is_close(season.column("growth_view", "lawn_line"), line_of)
    assert season.column("growth_view", "grass") == grass
    assert is_close(season.column("growth_view", "group_line"), group)
    assert is_close(bare(season.column("growth_view", "most_month"), "g_N/m**2"), most)


@pytest.mark.parametrize(
    ("start", "end"),
    [((2024, 3, 1), (2025, 3, 1)), ((2023, 10, 31), (2024, 10, 31)), ((2024, 2, 29), (2025, 3, 1))],
)
def test_the_next_season(start: tuple[int, int, int], end: tuple[int, int, int]) -> None:
    season = year(settings__season_start=("date", serial(*start)))
    assert season.column("growth_view", "year_end") == serial(*end)


def test_ceiling_is_unknown_where_the_most_is() -> None:
    season = year(settings__most_nitrogen_month=("g_N/m**2", NO), months__closed=("text", ["yes"]))
    assert is_close(month_by_month(season, "growth_months", "ceiling", "g_N/m**2"), [NO] * 12)
    assert month_by_month(season, "growth_months", "words") == [""] * 12


def planned(name: str, key: str = "nitrogen", symbol: str = "N") -> Any:
    season = year(*PLAN[:5], shown_lawn=name)
    return month_by_month(season, "budget_months", f"planned_{key}", f"g_{symbol}/m**2")


def test_what_the_dates_bring() -> None:
    season = year(*PLAN[:3])
    assert is_close(shown(season, "applications", "month"), [5, 5, 5, 5, 6, 6])
    assert shown(season, "applications", "in_year") == ["yes"] * 6
    brings = shown(season, "applications", "brings_nitrogen", "g_N/m**2")
    assert is_close(brings, [0.92, 0.92, 0.92, 0, 0, 0.06])
    assert is_close(shown(season, "applications", "brings_iron", "g_Fe/m**2"), [0, 0, 0, 0.1, 0.1, 0])


def test_what_is_planned_for_the_lawn_shown() -> None:
    """What goes on all lawns, on the lawn's group and on itself; of what is in the gypsum nothing is known."""
    assert is_close(planned("Front"), [0, 0, 0, 0, 2.76, *[0] * 7])
    assert is_close(planned("Back"), [0, 0, 0, 0, 2.76, 0.06, *[0] * 6])
    assert is_close(planned("side"), [0, 0, 0, 0, 2.76, 0, 0.92, *[0] * 5])
    assert is_close(planned("Front", "iron", "Fe"), [0, 0, 0, 0, 0.1, 0.1, *[0] * 6])
    assert is_close(planned("Side", "iron", "Fe"), [0, 0, 0, 0, 0.1, 0.1, *[0] * 6])
    assert is_close(planned("Back", "iron", "Fe"), [0] * 12)
    assert is_close(planned("Far"), [NO] * 12)


def test_what_goes_on_another_lawn_of_the_group_does_not_count() -> None:
    season = year(line(lawn="Front", first=on(7, 1), last=on(7, 1), times=1.0), shown_lawn="Side")
    assert is_close(month_by_month(season, "budget_months", "planned_nitrogen", "g_N/m**2"), [0] * 12)


def test_the_plan_of_a_year_ends_with_the_season() -> None:
    """28 February is the last day; 1 March would stand in the season's first month."""
    before = line(lawn="Front", first=on(2, 29), last=on(3, 1), every=1.0)
    season = year(PLAN[5], before)
    assert shown(season, "applications", "in_year") == ["yes", "", "", "yes"]
    assert is_close(month_by_month(season, "budget_months", "planned_nitrogen", "g_N/m**2"), [0, 0.92, 0.92, *[0] * 9])


def test_plan_against_the_ceiling() -> None:
    """2.76 g N/m² in May are over nine tenths of 3; those of February and March are planned in closed months."""
    fed = line(lawn="Front", first=on(3, 1), last=on(3, 1), times=1.0)
    open_as = ("text", ["yes", "yes", "Yes"])

    def words(may: float) -> Any:
        growth = ("", [1.0] * 4 + [may] + [1.0] * 7)
        season = year(PLAN[0], PLAN[5], fed, months__closed=open_as, months__growth_cool=growth)
        return month_by_month(season, "growth_months", "words")

    closed = "closed, yet planned"
    assert words(0.9) == ["", closed, closed, "", "over max. N use: planned", *[""] * 7]
    assert words(0.92) == ["", closed, closed, *[""] * 9]
    assert words(2.76 / 3 - 1e-11) == ["", closed, closed, *[""] * 9]


LONG = (0, 2, 4, 6, 7, 9, 11)
"""The months of 31 days, from 0."""


def test_target_against_what_the_grass_can_use() -> None:
    """3 g N/m² a month are 36 a year; of 36 in 365 days a month of 31 days should get 3.06, one of 30 days 2.96."""

    def told(target: float, **more: Any) -> tuple[str, list[str]]:
        season = year(lawns__target_nitrogen=("g_N/m**2", [target]), **more)
        return season.column("growth_view", "target_words"), month_by_month(season, "growth_months", "words")

    by_growth = ["over max. N use: by growth" if month in LONG else "" for month in range(12)]
    usable = bare(year().column("growth_view", "ceilings"), "g_N/m**2")
    assert is_close(usable, 36)
    assert is_close(bare(year().column("growth_view", "target"), "g_N/m**2"), 12)
    assert told(12) == ("the grass can use it", [""] * 12)
    assert told(36) == ("the grass can use it", by_growth)
    assert told(36.01)[0] == "more than the grass can use"
    assert told(40) == ("more than the grass can use", ["over max. N use: by growth"] * 12)
    assert told(NO) == ("", [""] * 12)
    assert told(40, settings__most_nitrogen_month=("g_N/m**2", NO)) == ("", [""] * 12)
    shut = ("text", ["yes"] * 3)
    assert told(27.01, months__closed=shut)[0] == "more than the grass can use"
    assert told(27, months__closed=shut)[0] == "the grass can use it"


def test_what_was_applied_against_the_ceiling() -> None:
    """4.14 g N/m² were put on the Front in May, 0.46 in March, which is closed; 2.76 are planned for May, and of the
    target the months of 31 days should have 1.11."""
    shut: dict[str, Any] = {"months__closed": ("text", ["", "", "yes"])}
    in_may = (on(5, 2), "Front", "Urea", 900.0)

    def words(ceiling: float, *lines: dict[str, Any]) -> Any:
        season = year(*lines, diary=[*FED, in_may], settings__most_nitrogen_month=("g_N/m**2", ceiling), **shut)
        return month_by_month(season, "growth_months", "words")[2:5]

    fed = "closed, yet fed"
    assert words(4.14, PLAN[0]) == words(NO, PLAN[0]) == [fed, "", ""]
    assert words(4.13, PLAN[0]) == [fed, "", "over max. N use: applied"]
    assert words(2.75, PLAN[0]) == [fed, "", "over max. N use: planned, applied"]
    assert words(1.1, PLAN[0]) == [fed, "", "over max. N use: by growth, planned, applied"]
    in_march = line(lawn="Front", first=on(3, 1), last=on(3, 1), times=1.0)
    assert words(4.14, in_march) == ["closed, yet planned, fed", "", ""]


def test_planned_and_applied_stand_beside_it() -> None:
    season = year(PLAN[0], diary=[(on(5, 1), "Front", "Urea", 100.0), (on(5, 1), "Back", "Urea", 100.0)])
    planned = month_by_month(season, "growth_months", "planned", "g_N/m**2")
    assert is_close(planned, [0, 0, 0, 0, 2.76, *[0] * 7])
    assert is_close(month_by_month(season, "growth_months", "applied", "g_N/m**2"), [0, 0, 0, 0, 0.46, *[0] * 7])
    nowhere = year(shown_lawn="Strip")
    assert is_close(month_by_month(nowhere, "growth_months", "applied", "g_N/m**2"), [NO] * 12)


FED = [
    (on(3, 2), "Front", "Urea", 100.0),
    (on(3, 2), "Back", "Urea", 100.0),
    (on(4, 2), "Front", "Urea", 200.0),
    (on(5, 16), "Front", "Urea", 900.0),
    (on(2, 1), "Front", "Urea", 50.0),
]
"""On the Front 0.46 g N/m² in March and 0.92 in April; 0.23 in February belong to an earlier season or to its end."""


def test_running_total_goes_in_the_order_of_the_season() -> None:
    season = year(diary=FED)
    running = month_by_month(season, "budget_running", "running_nitrogen", "g_N/m**2")
    assert is_close(running, [1.38, 1.38, 0.46, *[1.38] * 9])
    october = year(diary=FED, settings__season_start=("date", float(serial(2023, 10, 1))))
    running = month_by_month(october, "budget_running", "running_nitrogen", "g_N/m**2")
    assert is_close(running, [0, 0.23, 0.69, *[1.61] * 6, 0, 0, 0])
    strip = year(diary=FED, shown_lawn="Strip")
    assert is_close(month_by_month(strip, "budget_running", "running_nitrogen", "g_N/m**2"), [NO] * 12)


def test_forecast_of_the_end() -> None:
    """Three sprays of 0.92 g N/m² are to come on all lawns from 15 to 29 May, and iron on the Greens; the Front had
    1.38. The Strip has no area."""
    lines = [
        line(first=on(5, 15), every=7.0),
        line("Iron salt", group="Greens", first=on(5, 30), last=on(5, 30), times=1.0),
    ]
    season = year(*lines, line("Gypsum", lawn="Front", first=on(5, 20), times=1.0), diary=FED)
    assert is_close(shown(season, "due", "to_come"), [3, 3, 3, 3, 1, 1, 1])
    coming = shown(season, "due", "coming_nitrogen", "g_N/m**2")
    assert is_close(coming, [2.76, 2.76, 2.76, 2.76, 0, 0])
    assert shown(season, "season_forecast", "lawn") == ["Front", "Back", "", "Side", "Strip"]
    end = shown(season, "season_forecast", "end_nitrogen", "g_N/m**2")
    assert is_close(end, [4.14, 2.99, NO, 2.76])
    assert is_close(shown(season, "season_forecast", "end_iron", "g_Fe/m**2"), [0.1, 0, NO, 0.1])


@pytest.mark.parametrize(
    ("target", "words"),
    [
        ([4.6, 2.718, NO, NO, 3.0], ["on the target", "over the target", "", "not planned"]),
        ([4.61, 2.719, NO, 2.76, NO], ["under the target", "on the target", "", "on the target", "not planned"]),
        ([0.0, NO, NO, 0.0, NO], ["over the target", "not planned", "", "over the target", "not planned"]),
    ],
)
def test_the_end_against_the_target(target: list[float], words: list[str]) -> None:
    """4.14, 2.99 and 2.76 g N/m² at the end, a tenth of the target let pass: 4.6 less 0.46, 2.7182 and 0.2718."""
    season = year(line(first=on(5, 15), every=7.0), diary=FED, lawns__target_nitrogen=("g_N/m**2", target))
    assert shown(season, "season_end", "words") == words
    over = bare(season.column("season_end", "over_nitrogen"), "g_N/m**2")
    assert is_close(over, np.array([4.14, 2.99, NO, 2.76, NO]) - target)
    assert is_close(shown(season, "season_end", "over_iron", "g_Fe/m**2"), [-0.1])
    assert shown(season, "season_end", "lawn") == list(LAWNS["name"][1])


@pytest.mark.parametrize("let_pass", [0.0, NO])
def test_without_a_share_let_pass_the_end_is_on_the_target_or_not(let_pass: float) -> None:
    season = year(
        line(first=on(5, 15), every=7.0),
        diary=FED,
        lawns__target_nitrogen=("g_N/m**2", [4.14, 2.98, NO, 2.77, 3.0]),
        settings__target_tolerance=("", let_pass),
    )
    words = ["on the target", "over the target", "", "under the target"]
    assert shown(season, "season_end", "words") == words
