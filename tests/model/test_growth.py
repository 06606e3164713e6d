"""Nitrogen against the growth of the grass: in the programme, its dates, the round and the mix, worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_mix import figure
from support.small_programme import AS_OF, line, on, shown, site
from support.tables import NO, is_close
from wbgen.model.tools.dates import serial

WARM: dict[str, Any] = {"lawns__grass": ("text", ["cool season", "Warm Season", "warm season", "warm season", ""])}
"""The Back and the Side are of warm-season grass; the third record is no lawn, and nobody said what the Strip is."""
SLOW = "when the grass hardly grows"


def grown(may: float = 1.0, warm_may: float = 1.0, **more: Any) -> dict[str, Any]:
    """Months in which all grass grows, but for May."""
    return {
        "months__growth_cool": ("", [*[1.0] * 4, may, *[1.0] * 7]),
        "months__growth_warm": ("", [*[1.0] * 4, warm_may, *[1.0] * 7]),
        **more,
    }


def nitrogen(value: float) -> tuple[str, float]:
    return ("g_N/m**2", value)


@pytest.mark.parametrize(
    ("growth", "limit", "dates"),
    [
        (0.1, 0.1, 5),
        (0.1 + 1e-10, 0.1, 5),
        (0.1 + 1e-6, 0.1, 0),
        (0.05, 0.1, 5),
        (0.05, 0.04, 0),
        (0.0, 0.0, 5),
        (0.0, NO, 0),
        (1.0, 1.0, 5),
    ],
)
def test_dates_when_the_grass_hardly_grows(growth: float, limit: float, dates: int) -> None:
    """Five in May: 1, 8, 15, 22 and 29."""
    season = site(line(), **grown(growth, growth), settings__slow_growth=("", limit))
    assert shown(season, "programme", "slow_dates") == ([dates] if dates else [0])
    words = f"{dates} dates {SLOW}" if dates else ""
    assert next(iter(season.column("programme", "out_of_growth"))) == words
    assert next(iter(season.column("programme", "line_verdict"))) == (words or "nothing against it here")


def test_each_date_has_its_own_month() -> None:
    """30 April and 1 May; the first of June."""
    season = site(line(first=on(4, 30), last=on(5, 1), every=1.0), line(first=on(6, 1), last=on(6, 1)), **grown(0.1))
    assert shown(season, "programme", "out_of_growth") == [f"1 date {SLOW}"]
    assert shown(season, "applications", "date_words") == ["", "the grass hardly grows"]


@pytest.mark.parametrize(
    ("product", "least", "asked"),
    [
        ("Urea", 0.92, True),
        ("Urea", 0.92 - 1e-10, True),
        ("Urea", 0.9201, False),
        ("Brew", 0.06, True),
        ("Brew", 0.061, False),
        ("Brew", NO, True),
        ("Iron salt", NO, False),
        ("Iron salt", 0.0, False),
        ("Gypsum", 0.0, False),
    ],
)
def test_only_nitrogen_to_feed_with_asks_for_growth(product: str, least: float, asked: bool) -> None:
    """Urea of 2 g/m² brings 0.92 g N/m², 3 mL of the brew 0.06, the iron none; gypsum is not in the catalogue."""
    season = site(line(product, times=1.0), **grown(0.1), settings__growth_nitrogen=nitrogen(least))
    assert shown(season, "programme", "needs_growth") == ["yes"] * asked
    assert shown(season, "programme", "out_of_growth") == [f"1 date {SLOW}"] * asked


@pytest.mark.parametrize(
    ("where", "warm", "words"),
    [
        ({}, 2, "the grass hardly grows on 2 of 4 lawns"),
        ({"group": "greens"}, 1, "the grass hardly grows on 1 of 2 lawns"),
        ({"lawn": "front"}, 0, "the grass hardly grows"),
        ({"lawn": "Strip"}, 0, "the grass hardly grows"),
        ({"lawn": "Back"}, 1, ""),
    ],
)
def test_each_lawn_has_its_own_grass(where: dict[str, Any], warm: int, words: str) -> None:
    """In May the cool-season grass hardly grows; what nobody named counts as that."""
    season = site(line(times=1.0, **where), **grown(0.1), **WARM)
    assert shown(season, "programme", "warm_lawns")[0] == warm
    assert next(iter(season.column("applications", "date_words"))) == words
    assert next(iter(season.column("timeline", "date_words"))) == words
    slow = SLOW.replace("the grass", "some of the grass") if " on " in words else SLOW
    assert shown(season, "programme", "out_of_growth") == ([f"1 date {slow}"] if words else [])
    other = site(line(times=1.0, **where), **grown(1.0, 0.1), **WARM)
    assert shown(other, "applications", "slow_lawns")[:1] == [warm]


def test_where_all_grass_hardly_grows_on_one_date_and_some_on_another() -> None:
    """In May none of it grows, in June that of the warm season does not."""
    season = site(
        line(first=on(5, 31), last=on(6, 1), every=1.0), line(first=on(5, 30), last=on(5, 31), every=1.0),
        **grown(0.1, 0.1) | {"months__growth_warm": ("", [0.0] * 12)}, **WARM,
    )  # fmt: skip
    assert shown(season, "applications", "slow_lawns")[:4] == [4, 2, 4, 4]
    assert shown(season, "programme", "out_of_growth") == [
        "2 dates when some of the grass hardly grows",
        f"2 dates {SLOW}",
    ]


@pytest.mark.parametrize("where", [{"lawn": "Lost"}, {"group": "Fairways"}, {"product": ""}, {"lawn": "", "group": ""}])
def test_where_no_lawn_is_known_none_is_of_warm_season_grass(where: dict[str, Any]) -> None:
    season = site(line(**where), **WARM)
    assert season.column("programme", "warm_lawns")[0] == (2 if where == {"lawn": "", "group": ""} else 0)


UNKNOWN: dict[str, Any] = {"months__mean_temperature": ("degC", [*[20.0] * 4, NO, *[20.0] * 7])}


def test_a_month_without_a_mean_temperature_is_never_taken_as_fine_in_silence() -> None:
    """Its growth counts as full elsewhere; even a limit of 1 does not make it one in which the grass hardly grows."""
    lines = line(), line("Iron salt", every=14.0), line("Iron salt", every=7.0), line(times=1.0)
    season = site(*lines, **UNKNOWN, products__most_a_year=("", []), settings__slow_growth=("", 1.0))
    assert shown(season, "applications", "growth_unknown").count("yes") == 6
    assert sum(shown(season, "applications", "slow_lawns")) == 0
    assert list(season.column("programme", "line_verdict"))[:4] == [
        "nothing against it here, growth not known on 5 dates", "nothing against it here", "every 7 days, at least 14",
        "nothing against it here, growth not known on 1 date",
    ]  # fmt: skip
    assert "growth not known" in shown(season, "applications", "date_words")


def test_what_could_not_be_compared_is_said_beside_what_speaks_against_the_line() -> None:
    season = site(
        line(method="dry", own_rate_mass=11.0), **UNKNOWN,
        products__dry_least_interval=("day", []), products__dry_most_a_year=("", []),
        products__share_nitrogen=("g_N/g", [0.46]),
    )  # fmt: skip
    (told,) = shown(season, "programme", "line_verdict")
    assert told.split("; ") == [
        "more soluble nitrogen than one dry dressing should bring", "ask first: interval not stated",
        "growth not known on 5 dates",
    ]  # fmt: skip


def test_without_a_limit_nothing_is_unknown() -> None:
    season = site(line(), **UNKNOWN, settings__slow_growth=("", NO), round__length=("day", 1.0))
    assert shown(season, "programme", "line_verdict") == ["nothing against it here"]
    assert shown(season, "round_lines", "growth") == []


@pytest.mark.parametrize(
    ("lawn", "may", "warm_may", "growth", "words"),
    [
        ("Front", 0.1, 1.0, "hardly any", "ask first: the grass hardly grows"),
        ("Front", 0.11, 0.0, "enough", ""),
        ("Back", 0.0, 0.11, "enough", ""),
        ("Back", 1.0, 0.1, "hardly any", "ask first: the grass hardly grows"),
    ],
)
def test_a_round_asks_whether_the_grass_grows(lawn: str, may: float, warm_may: float, growth: str, words: str) -> None:
    season = site(line(lawn=lawn, first=AS_OF), **grown(may, warm_may), **WARM)
    assert shown(season, "round_lines", "growth") == [growth]
    assert next(iter(season.column("round_lines", "words"))) == words
    assert shown(season, "round_lines", "line_level") == [1.0 if words else 0.0]


def test_a_round_says_where_growth_is_not_known_and_asks_nothing_of_it() -> None:
    season = site(line(lawn="Front", first=AS_OF), line("Iron salt", lawn="Front", first=AS_OF), **UNKNOWN)
    assert shown(season, "round_lines", "growth") == ["not known"]
    assert shown(season, "round_lines", "words") == ["growth of this month not known"]
    assert shown(season, "round_lines", "line_level") == [0, 0]


MAY: dict[str, Any] = {
    "months__growth_cool": ("", [1.0, 1.0, 1.0, 1.0, 0.06]),
    "months__growth_warm": ("", [1.0, 1.0, 1.0, 1.0, 0.8]),
    "settings__most_nitrogen_month": ("g_N/m**2", 99.0),
    "lawns__target_nitrogen": ("g_N/m**2", []),
    "lawns__most_nitrogen_month": ("g_N/m**2", []),
}


@pytest.mark.parametrize(
    ("rate", "least", "limit", "levels"),
    [
        (1.0, 0.2, 0.1, [0, 1]),
        (0.2, 0.2, 0.1, [0, 1]),
        (0.1999, 0.2, 0.1, [0, 0]),
        (0.0, 0.0, 0.1, [0, 0]),
        (0.01, NO, 0.1, [0, 1]),
        (1.0, 0.2, 0.06, [0, 1]),
        (1.0, 0.2, 0.059, [0, 0]),
        (1.0, 0.2, 0.8, [1, 1]),
        (1.0, 0.2, NO, [0, 0]),
    ],
)
def test_a_mix_asks_first_on_grass_that_hardly_grows(
    rate: float, least: float, limit: float, levels: list[int]
) -> None:
    """The Back is of warm-season grass, the Front of the cool season."""
    given = {
        **MAY,
        "chosen_lawns__lawn": ("text", ["back", "Front"]),
        "chosen_lawns__part_treated": ("m**2", []),
        "mix_nutrients__rate_nitrogen": nitrogen(rate),
        "settings__growth_nitrogen": nitrogen(least),
        "settings__slow_growth": ("", limit),
    }
    assert is_close(figure("growth_level", table="visit_lawns", **given), [*levels, NO, NO])
    assert is_close(figure("lawn_level", table="visit_lawns", **given), [*levels, NO, NO])
    words = ", nitrogen while its grass hardly grows: growth {}, ask first at {:g} or under"
    said = [
        f"; {lawn}" + words.format(growth, round(limit, 2)) if level else ""
        for lawn, growth, level in zip(("back", "Front"), (0.8, 0.06), levels, strict=True)
    ]
    assert figure("lawn_words", table="visit_lawns", **given)[:2] == said
    assert figure("verdict", table="verdict", **given) == ("Ask first" if 1 in levels else "Go")


def test_a_mix_in_a_month_of_unknown_growth_is_not_judged_by_it_but_says_so() -> None:
    given = {**MAY, "months__mean_temperature": ("degC", []), "settings__slow_growth": ("", 1.0)}
    assert is_close(figure("growth_level", table="visit_lawns", **given), [0, 0, NO, 0])
    assert "growth of this month" in figure("not_checked", table="verdict", **given)


@pytest.mark.parametrize(
    ("start", "more", "whole", "season"),
    [
        ((2024, 3, 1), {}, 3, 3),
        ((2023, 5, 22), {}, 3, 1),
        ((2023, 5, 23), {}, 3, 2),
        ((2023, 5, 29), {}, 3, 2),
        ((2023, 5, 30), {}, 3, 3),
        ((2023, 6, 1), {"times": 1.0, "first": on(5, 31), "last": on(6, 30)}, 1, 1),
        ((2023, 5, 31), {"times": 1.0, "first": on(5, 31), "last": on(6, 30)}, 1, 0),
        ((2023, 5, 31), {"times": 3.0, "first": on(5, 31), "last": on(5, 31)}, 1, 0),
        ((2023, 6, 1), {"times": 3.0, "first": on(5, 31), "last": on(5, 31)}, 1, 1),
    ],
)
def test_what_is_to_come_this_season_ends_with_it(
    start: tuple[int, int, int], more: dict[str, Any], whole: int, season: int
) -> None:
    """15, 22 and 29 May are to come; the day on which the next season starts belongs to that."""
    found = site(
        line(**{"lawn": "Front", "first": AS_OF, **more}),
        settings__season_start=("date", float(serial(*start))),
        products__price=("currency/pack", [3.0]),
        products__pack_mass=("kg/pack", [0.15]),
    )
    assert shown(found, "due", "to_come") == [whole]
    assert shown(found, "due", "season_to_come") == [season]
    assert is_close(shown(found, "due", "coming_nitrogen", "g_N/m**2"), [0.92 * season])
    assert is_close(shown(found, "due", "cost_to_come", "currency"), [4.0 * whole])
    assert is_close(shown(found, "due", "season_cost", "currency"), [4.0 * season])
    assert is_close(shown(found, "lawn_costs", "coming", "currency")[:1], [4.0 * season])
