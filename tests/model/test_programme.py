"""The programme, its dates and its calendar, against published programmes and figures worked out by hand."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from support.small_programme import line, on, shown, site
from support.tables import NO, bare, is_close
from wbgen.trade.families import family

Value = Any
US_RATE = ("oz/thousand_square_feet", [3.2])
HALF = ("lb_N/lb", [0.5])


def test_weekly_sprays_of_a_published_trial_add_up() -> None:
    """18 weekly sprays of 0.1 lb N/1000 ft² from 7 May: USGA Green Section, Comparison of Foliar Nitrogen Sources
    for Putting Greens, 6 May 2016, which gives 1.8 lb N/1000 ft². Up to 25 September there would be 21 weeks.

    3.2 oz of what is half nitrogen are 0.1 lb N.
    """
    until: dict[str, Any] = {"first": on(5, 7), "every": 7.0}
    figures: dict[str, Any] = {"programme__own_rate_mass": US_RATE, "products__mass_content_nitrogen": HALF}
    season = site(line(**until, last=on(9, 3)), **figures)
    assert shown(season, "programme", "times_planned")[0] == 18
    assert is_close(shown(season, "programme", "by_area_nitrogen", "lb_N/thousand_square_feet"), [0.1])
    assert is_close(shown(season, "programme", "year_nitrogen", "lb_N/thousand_square_feet"), [1.8])
    longer = site(line(**until, last=on(9, 25)), **figures)
    assert is_close(shown(longer, "programme", "year_nitrogen", "lb_N/thousand_square_feet"), [2.1])


@pytest.mark.parametrize(("ounces", "pounds"), [(4.0, 1.5), (8.0, 3.0)])
def test_twelve_sprays_of_a_published_trial_add_up(ounces: float, pounds: float) -> None:
    """Twelve of 0.125 and of 0.25 lb N/1000 ft² are 1.5 and 3.0 lb: GCSAA, Golf Course Management research summary
    (Michigan State University)."""
    rate = ("oz/thousand_square_feet", [ounces])
    season = site(
        line(first=on(5, 1), last=on(10, 15), times=12.0),
        programme__own_rate_mass=rate,
        products__mass_content_nitrogen=HALF,
    )
    assert is_close(shown(season, "programme", "year_nitrogen", "lb_N/thousand_square_feet"), [pounds])


def test_running_totals_of_a_published_programme() -> None:
    """7; 9.8; 12.6 g N/m² from 50 g/m² of 14 % N and twice 35 g/m² of 8 % N: Grounds Management Association,
    Fertiliser programmes - nitrogen."""
    once = {"method": "dry", "first": on(4, 1), "last": on(4, 1), "times": 1.0}
    spring, summer = line("Urea", own_rate_mass=50.0, **once), line("Iron salt", own_rate_mass=35.0, **once)
    season = site(spring, summer, summer, products__mass_content_nitrogen=("g_N/kg", [140.0, 80.0]))
    assert is_close(np.cumsum(shown(season, "programme", "year_nitrogen", "g_N/m**2")), [7, 9.8, 12.6])


def test_lawns_are_numbered_grouped_and_walked() -> None:
    season = site()
    assert is_close(shown(season, "lawns", "lawn_number"), [1, 2, NO, 3, 4])
    assert is_close(shown(season, "lawns", "group_key"), [200001, NO, NO, 200002])
    assert is_close(shown(season, "lawns", "walk"), [3, 2, NO, 1, 4])
    assert is_close(shown(season, "lawns", "walk_rank"), [3, 2, NO, 1, 4])
    even = site(lawns__walking_order=("", [2.0, NO, NO, 0.0, 2.0]))
    assert is_close(shown(even, "lawns", "walk_rank"), [2, 3, NO, 1, 4])


def test_a_line_goes_on_a_lawn_a_group_or_all() -> None:
    season = site(line(), line(group="GREENS"), line(lawn="back"), line(lawn="strip"), line(lawn="Side", group="x"))
    assert shown(season, "programme", "where_words") == ["all lawns", "GREENS", "back", "strip", "Side"]
    assert is_close(shown(season, "programme", "scope_key"), [0, 2, 3, 6])
    assert is_close(shown(season, "programme", "lawns_counted"), [4, 2, 1, 1, 0])
    assert is_close(shown(season, "programme", "area_counted", "m**2"), [350, 150, 200, 0, 0])
    assert is_close(shown(season, "programme", "pairs_up_to"), [4, 6, 7, 8, 8])


def test_rates_are_own_or_usual_by_the_method() -> None:
    """A dilution of 20 g/L in 500 L/ha is 1 g/m²; one of 5 mL/L in 1000 L/ha is 0.5 mL/m²."""
    season = site(line(), line(method="Dry"), line("calcium NITRATE", own_carrier=500.0), line("Brew"), line("Humate"))
    assert is_close(shown(season, "programme", "rate_mass", "g/m**2"), [2, 10, 1])
    assert is_close(shown(season, "programme", "rate_volume", "mL/m**2"), [NO, NO, NO, 3, 0.5])
    assert is_close(shown(season, "programme", "carrier_volume", "L/ha"), [800, NO, 500, 600, 1000])
    assert is_close(shown(season, "programme", "water_each_time", "L"), [28, NO, 17.5, 21, 35])
    assert is_close(shown(season, "programme", "mass_all", "g"), [3500, 17500, 1750])
    assert is_close(shown(season, "programme", "volume_all", "mL"), [NO, NO, NO, 5250, 875])
    assert is_close(shown(season, "programme", "by_area_nitrogen", "g_N/m**2"), [0.92, 4.6, 0.155, 0.06, 0])
    own = site(
        line(own_rate_mass=0.0, own_rate_volume=5.0),
        line("Brew", own_rate_mass=9.0, own_rate_volume=4.0),
        line("Brew", method="dry"),
        line("Calcium nitrate"),
        line("Gypsum", own_rate_mass=9.0, own_rate_volume=9.0, own_carrier=500.0),
    )
    assert is_close(shown(own, "programme", "rate_mass", "g/m**2"), [0])
    assert is_close(shown(own, "programme", "rate_volume", "mL/m**2"), [NO, 4])
    assert is_close(shown(own, "programme", "carrier_volume", "L/ha"), [800, 600])


@pytest.mark.parametrize(
    ("more", "times", "interval"),
    [
        ({"every": 7.0}, 5, 7.0),
        ({"every": 7.0, "last": on(5, 28)}, 4, 7.0),
        ({"every": 28 / 3}, 4, 28 / 3),
        ({"every": 40.0}, 1, 40.0),
        ({"times": 4.0}, 4, 28 / 3),
        ({"times": 4.9}, 4, 28 / 3),
        ({"times": 1.0}, 1, NO),
        ({"times": 3.0, "last": on(5, 1)}, 3, 0.0),
        ({"times": 0.5}, 0, NO),
        ({"every": 0.0}, 0, NO),
        ({"every": 7.0, "times": 4.0}, 0, NO),
        ({"times": NO}, 0, NO),
        ({"last": on(4, 30)}, 0, NO),
        ({"first": NO}, 0, NO),
        ({"lawn": "Lost"}, 0, NO),
    ],
)
def test_times_and_intervals(more: dict[str, Any], times: float, interval: float) -> None:
    season = site(line(**more))
    assert season.column("programme", "times_planned")[0] == times
    assert is_close(season.column("programme", "interval").to("day").magnitude[0], interval)


def test_a_line_without_a_product_plans_nothing() -> None:
    season = site(line(""), line())
    assert is_close(shown(season, "programme", "dates_up_to"), [0, 5, 5, 5, 5])
    assert shown(season, "programme", "where_words") == ["", "all lawns"]


def test_dates_are_dealt_out_line_after_line() -> None:
    """Four dates over 28 days are 9 1/3 days apart: 1, 10, 20 and 29 May."""
    season = site(line(lawn="Lost"), line(times=4.0), line("Brew", lawn="Back", every=14.0))
    assert is_close(shown(season, "applications", "programme_line"), [3, 3, 3, 3, 4, 4, 4])
    assert is_close(shown(season, "applications", "turn_of_line"), [1, 2, 3, 4, 1, 2, 3])
    days = [on(5, day) for day in (1, 10, 20, 29, 1, 15, 29)]
    assert is_close(shown(season, "applications", "date"), days)
    assert is_close(shown(season, "applications", "date_rank"), [1, 3, 5, 6, 2, 4, 7])
    assert is_close(shown(season, "timeline", "spot"), [2, 6, 3, 7, 4, 5, 8])
    assert shown(season, "timeline", "product") == ["Urea", "Brew", "Urea", "Brew", "Urea", "Urea", "Brew"]
    assert shown(season, "timeline", "when") == ["past", "past", "past", "today", "to come", "to come", "to come"]
    assert is_close(shown(season, "timeline", "date"), sorted(days))
    assert is_close(shown(season, "timeline", "mass", "g"), [700, NO, 700, NO, 700, 700])
    assert is_close(shown(season, "timeline", "volume", "mL"), [NO, 600, NO, 600, NO, NO, 600])
    assert is_close(shown(season, "timeline", "water", "L"), [28, 12, 28, 12, 28, 28, 12])
    assert is_close(shown(season, "programme", "planned_to_date"), [0, 2, 2])


def test_room_for_the_dates_and_the_pairs() -> None:
    """Two lines of 29 dates make 58, and eight pairs of lawn and line."""
    season = site(line(every=1.0), line(every=1.0))
    assert [season.column("plan", f"dates_{key}") for key in ("total", "room", "left")] == [58, 40, -18]
    assert [season.column("plan", f"pairs_{key}") for key in ("total", "room", "left")] == [8, 12, 4]
    more_dates = "more dates than this planner has room for: build anew"
    more_pairs = "more lawns and lines than this planner has room for: build anew"
    assert season.column("plan", "room_words") == more_dates
    both = site(*[line(every=1.0)] * 4)
    assert both.column("plan", "room_words") == f"{more_dates}; {more_pairs}"
    full = site(line(times=40.0), line(times=NO))
    assert [full.column("plan", key) for key in ("dates_left", "room_words")] == [0, "room enough"]
    pairs = site(*[line(times=1.0)] * 3)
    assert [pairs.column("plan", key) for key in ("pairs_left", "room_words")] == [0, "room enough"]


@pytest.mark.parametrize(
    ("iron", "calcium", "met"),
    [
        ({}, {}, True),
        ({}, {"lawn": "Strip"}, True),
        ({"group": "greens"}, {}, True),
        ({"group": "greens"}, {"group": "Greens"}, True),
        ({"group": "Greens"}, {"lawn": "side"}, True),
        ({"lawn": "front"}, {"group": "greens"}, True),
        ({"group": "Greens"}, {"lawn": "Back"}, False),
        ({"lawn": "Front"}, {"lawn": "Side"}, False),
        ({"lawn": "Front"}, {"lawn": "front"}, True),
        ({"lawn": "Back"}, {"lawn": "Strip"}, False),
        ({}, {"first": on(5, 2)}, False),
    ],
)
def test_lines_meet_on_one_day_and_one_ground(iron: dict[str, Any], calcium: dict[str, Any], met: bool) -> None:
    """Sulphate and calcium must never meet; the first dates alone are looked at."""
    first, second = line("Iron salt", times=1.0, **iron), line("Calcium nitrate", times=1.0, **calcium)
    season = site(first, second)
    level = 2 if met else 0
    assert shown(season, "applications", "level") == [level, level]
    words = "1 date with something it must not meet" if met else ""
    assert list(season.column("programme", "meets"))[:2] == [words, words]


def test_a_product_twice_on_a_day_does_not_meet_itself() -> None:
    """The iron salt has sulphate and iron; twice on a day it is one product, with nothing beside it."""
    twice = site(line("Iron salt", times=1.0), line("Iron salt", times=1.0))
    assert shown(twice, "applications", "traits") == [1010, 1010]
    assert shown(twice, "applications", "beside") == [0, 0]
    assert shown(twice, "applications", "together") == [1, 1]
    assert shown(twice, "applications", "level") == [0, 0]


def test_a_rule_whose_level_is_taken_out_does_not_count() -> None:
    season = site(line("Iron salt"), line("Calcium nitrate"), rules__level_calcium_with_sulphate=("", NO))
    assert shown(season, "applications", "level") == [0] * 10
    assert shown(season, "applications", "date_words") == []
    assert shown(season, "programme", "meets") == []


def test_date_words_say_all_that_holds() -> None:
    """Calcium beside a humate asks for a jar test, iron beside it is never to be; June does not suit the iron."""
    iron = line("Iron salt", first=on(6, 1), last=on(6, 1), times=1.0)
    humate, calcium = line("Humate", times=2.0, first=on(5, 1), last=on(6, 1)), line("Calcium nitrate", times=1.0)
    season = site(iron, humate, calcium)
    apart, jar = "keep apart from others of this day", "jar test with others of this day"
    assert shown(season, "applications", "date_words") == [f"{apart}; out of its months", jar, apart, jar]
    assert shown(season, "programme", "out_of_months") == ["1 date out of its months"]
    assert shown(season, "timeline", "date_words") == [jar, jar, f"{apart}; out of its months", apart]
    assert shown(season, "programme", "line_verdict")[0] == (
        "1 date out of its months; 1 date with something it must not meet"
    )


FINE = "nothing against it here"


def test_what_the_label_speaks_against() -> None:
    """The iron's label allows four in a season, two weeks apart."""
    season = site(line("Iron salt", lawn="Front"), line("Iron salt", group="Greens", every=14.0), line())
    often = "every 7 days, at least 14"
    assert shown(season, "programme", "too_often") == [often]
    many = "8 times, at most 4 a year"
    assert shown(season, "programme", "too_many") == [many, many]
    assert shown(season, "programme", "line_verdict") == [f"{often}; {many}", many, FINE]
    third = site(line("Iron salt", times=4.0), line("Iron salt", times=3.0, lawn="Lost"))
    assert shown(third, "programme", "too_often") == ["every 9.3 days, at least 14"]
    assert shown(third, "programme", "too_many") == []
    assert shown(site(line("Calcium nitrate", times=5.0)), "programme", "too_often") == []
    assert shown(site(line("Brew")), "programme", "too_many") == []


def test_a_day_too_often_is_only_noted_behind_what_speaks_against_the_line() -> None:
    """The iron's label says two weeks and four times; urea spread dry has no interval here."""
    day: dict[str, Any] = {"settings__interval_tolerance": ("day", 1.0), "products__dry_least_interval": ("day", [])}
    lines = [line("Iron salt", every=13.0, lawn="Front"), line("Iron salt", every=13.0, last=on(7, 29), lawn="Back"),
             line("Iron salt", every=12.0, lawn="Side"), line(every=13.0, method="dry", own_rate_mass=2.0)]  # fmt: skip
    season = site(*lines, **day)
    noted = "a little often: every 13 days, at least 14"
    assert shown(season, "programme", "early") == [noted, noted]
    verdicts = shown(season, "programme", "line_verdict")
    assert verdicts[0] == f"{FINE}, {noted}"
    assert verdicts[1].endswith(f"; {noted}")
    assert verdicts[1].startswith("7 times, at most 4 a year")
    assert verdicts[2] == "every 12 days, at least 14"
    assert verdicts[3] == "ask first: interval not stated"


@pytest.mark.parametrize(
    ("more", "state"),
    [
        ({}, ""),
        ({"method": "SPRAY", "group": "greens"}, ""),
        ({"product": "Gypsum"}, "unknown product"),
        ({"lawn": "Front", "group": "Greens"}, "give a lawn or a group, not both"),
        ({"lawn": "Lost"}, "unknown lawn"),
        ({"group": "Fairways"}, "unknown group"),
        ({"last": NO}, "give first and last date"),
        ({"last": on(4, 1)}, "ends before it begins"),
        ({"every": NO}, "say every or times, one of them"),
        ({"every": 7.0, "times": 3.0}, "say every or times, one of them"),
        ({"product": "Calcium nitrate"}, "no rate"),
        ({"method": "mist"}, "say spray or dry"),
        ({"method": "", "lawn": "Lost", "first": NO}, "unknown lawn; give first and last date; say spray or dry"),
    ],
)
def test_line_state_says_all_that_is_to_be_mended(more: dict[str, Any], state: str) -> None:
    season = site(line(**more))
    assert season.column("programme", "line_state")[0] == state
    assert season.column("programme", "line_verdict")[0] == (state or FINE)


def test_calendar_counts_the_dates_of_each_week() -> None:
    """The season began on Friday 1 March 2024; 1 May is in its ninth week (26 April to 2 May)."""
    season = site(line(every=3.0), line(""), line("Brew", times=1.0))
    weeks = [week.key for week in family("weeks")]
    begins = [bare(season.column("calendar_weeks", f"begins_{key}"))[0] for key in weeks]
    assert begins[0] == on(3, 1)
    assert begins[8] == on(4, 26)
    assert len(weeks) == 53
    assert is_close(np.diff(begins), 7)
    assert shown(season, "calendar", "product") == ["Urea", "", "Brew"]
    counts = [season.column("calendar", f"count_{key}") for key in weeks]
    assert is_close([column[0] for column in counts[8:14]], [1, 2, 3, 2, 2, NO])
    assert is_close([column[2] for column in counts[7:10]], [NO, 1, NO])
    assert np.nansum(counts) == 11


def test_each_method_has_its_own_limits() -> None:
    """Urea is spread dry every four weeks at least and three times; sprayed as often as every day. 10 g/m² dry."""
    weekly = line(lawn="Front", method="dry")
    in_june: dict[str, Any] = {"times": 1.0, "first": on(6, 1), "last": on(6, 1)}
    season = site(weekly, line(lawn="Front"), line(lawn="Front", method="Dry", **in_june))
    often, many = "every 7 days, at least 28", "6 times, usually at most 3 a year"
    assert list(season.column("programme", "line_verdict")[:3]) == [f"{often}; {many}", FINE, many]
    assert is_close(season.column("programme", "most_planned")[:3], [6, 5, 6])
    bound = site(weekly, products__dry_number_binds=("text", ["yes"]))
    assert shown(bound, "programme", "too_many") == ["5 times, at most 3 a year"]


def test_one_dry_dressing_has_a_limit_of_nitrogen() -> None:
    """10 g/m² of urea are 4.6 g N/m², under 5; 11 are 5.06. Of a spray 2.5 are much."""
    said = "more soluble nitrogen than one dry dressing should bring"
    sprayed = "too much salt in the spray; much soluble nitrogen in one visit"
    once: dict[str, Any] = {"times": 1.0, "lawn": "Front"}
    much = site(
        line(method="dry", own_rate_mass=11.0, **once),
        line(method="dry", **{**once, "lawn": "Back"}),
        line(own_rate_mass=11.0, **once),
        products__share_nitrogen=("g_N/g", [0.46]),
    )
    assert list(much.column("programme", "too_much")[:3]) == [said, "", sprayed]
    assert shown(much, "programme", "line_verdict") == [said, FINE, sprayed]
    none = site(line(method="dry", own_rate_mass=11.0, **once), settings__dry_nitrogen=("g_N/m**2", NO))
    assert shown(none, "programme", "line_verdict") == [FINE]


def test_what_the_catalogue_does_not_state_is_said() -> None:
    """The other method's interval never stands in for one that is not stated."""
    season = site(
        line(method="dry", times=1.0), line(times=1.0),
        products__dry_least_interval=("day", []), products__dry_most_a_year=("", []),
    )  # fmt: skip
    assert shown(season, "programme", "line_verdict") == ["ask first: interval not stated", FINE]


def test_a_product_without_family_is_counted_by_its_own_line() -> None:
    family_of = ("text", ["", "iron", "nitrate", "brew", "humate"])
    season = site(line(), products__family=family_of, products__most_a_year=("", [4.0]))
    assert shown(season, "programme", "too_many") == ["5 times, usually at most 4 a year"]
