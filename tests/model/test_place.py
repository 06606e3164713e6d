"""What the rule of a place speaks against: in the mix, in the diary and in the programme."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_programme import MEASURED, filled, line, on, same, shown, site
from support.small_visit import NAMES, Columns, found, visit
from support.tables import NO

CALM: Columns = {
    "wind": ("km/h", 8),
    "air_temperature": ("degC", 18),
    "heavy_rain": ("text", "no"),
    "wet_ground": ("text", "no"),
    "carrier_aim": ("L/ha", 400),
    "salt_load": ("g/m**2", 1),
    "hardness": ("meq/L", NO),
    "soluble_nitrogen": ("g_N/m**2", 0.4),
}
"""A visit that nothing else speaks against: what it brings is given here as it stands."""
BROUGHT: Columns = {"rate_nitrogen": ("g_N/m**2", 0.8), "rate_phosphate": ("g_P2O5/m**2", 0.1)}


def mixed(place: Columns, closed: list[str] | None = None, **brought: tuple[str, Any]) -> tuple[float, str]:
    """The worst level of a calm visit on 14 May in a place, and what is said of it."""
    model = visit(
        NAMES, mix=CALM, mix_nutrients=BROUGHT | brought, place=place, months={"closed": ("text", closed or [])}
    )
    return found(model, "worst", table="mix_checks"), found(model, "words", table="mix_checks")


def test_a_place_without_a_rule_allows_everything() -> None:
    assert mixed({}) == (0, "")
    model = visit(NAMES, place={"rule": ("text", "By-law 7")})
    assert found(model, "rule_words", table="place") == "By-law 7"
    assert found(visit(NAMES), "rule_words", table="place") == "your own rule"


@pytest.mark.parametrize(("most", "level"), [(0.8, 0), (0.8 - 4e-10, 0), (0.799, 2), (0.0, 2), (NO, 0)])
def test_nitrogen_of_one_visit(most: float, level: float) -> None:
    words = "; more nitrogen in one visit than allowed: your own rule" if level else ""
    assert mixed({"most_nitrogen": ("g_N/m**2", most)}) == (level, words)


@pytest.mark.parametrize(("most", "level"), [(0.4, 0), (0.4 - 4e-10, 0), (0.399, 2), (NO, 0)])
def test_soluble_nitrogen_of_one_visit(most: float, level: float) -> None:
    words = "; more soluble nitrogen in one visit than allowed: By-law 7" if level else ""
    assert mixed({"most_soluble": ("g_N/m**2", most), "rule": ("text", "By-law 7")}) == (level, words)


@pytest.mark.parametrize(
    ("said", "phosphate", "level"),
    [("yes", 0.1, 2), ("YES", 0.1, 2), ("no", 0.1, 0), ("", 0.1, 0), ("yes", 0, 0), ("yes", 4e-10, 0)],
)
def test_phosphorus_in_the_mix(said: str, phosphate: float, level: float) -> None:
    words = "; phosphorus is not allowed: your own rule" if level else ""
    rate = ("g_P2O5/m**2", phosphate)
    assert mixed({"no_phosphorus": ("text", said)}, rate_phosphate=rate) == (level, words)


@pytest.mark.parametrize(
    ("closed", "level"),
    [(["", "", "", "", "Yes"], 2), (["", "", "", "", "no"], 0), (["yes"] * 4, 0), (["yes"] * 4 + ["", "yes"], 0)],
)
def test_closed_month_of_the_visit(closed: list[str], level: float) -> None:
    assert mixed({}, closed) == (level, "; this month is closed to feeding" if level else "")


def test_all_of_the_place_stands_between_the_ground_and_the_risks() -> None:
    place: Columns = {
        "rule": ("text", "By-law 7"),
        "most_nitrogen": ("lb_N/thousand_square_feet", 0.1),
        "most_soluble": ("g_N/m**2", 0.3),
        "no_phosphorus": ("text", "yes"),
    }
    changed: Columns = {"wet_ground": ("text", "yes"), "wind": ("km/h", 16)}
    model = visit(
        NAMES, mix=CALM | changed, mix_nutrients=BROUGHT, place=place, months={"closed": ("text", ["yes"] * 12)}
    )
    assert found(model, "words", table="mix_checks") == (
        "; the ground is frozen or waterlogged; more nitrogen in one visit than allowed: By-law 7"
        "; more soluble nitrogen in one visit than allowed: By-law 7; phosphorus is not allowed: By-law 7"
        "; this month is closed to feeding; wind: 16 km/h, ask first above 15 km/h"
    )


PHOSPHATE: dict[str, Any] = {"products__mass_content_phosphate": ("g_P2O5/kg", [NO, NO, NO, NO, NO])}
FED = [
    (on(4, 1), "Front", "Urea", 100.0),
    (on(4, 1), "front", "Calcium nitrate", 300.0),
    (on(4, 1), "Back", "Urea", 100.0),
    (on(4, 2), "Front", "Urea", 201.0),
    (on(4, 3), "Back", "Urea", 201.0, NO, NO, NO, 100.0),
    (on(5, 3), "Strip", "Urea", 900.0),
    (on(5, 4), "Front", "Iron salt", 10.0),
    (on(5, 4), "Nowhere", "Urea", 900.0),
]
"""On 1 April the Front, of 100 m², had 46 + 46.5 g N; on the days after, 100 m² had 92.46 g N."""
MUCH = "; more nitrogen than the place allows"


def flags(**more: Any) -> list[str]:
    model = site(**filled("diary", MEASURED, FED), **{**PHOSPHATE, **more})
    return list(model.column("diary", "flag_conditions"))[: len(FED)]


@pytest.mark.parametrize(
    ("most", "places"),
    [(0.925, []), (0.9246, [1]), (0.924, [1, 3, 4]), (0.23, [0, 1, 3, 4]), (0.2, [0, 1, 2, 3, 4]), (NO, [])],
)
def test_nitrogen_of_a_visit_is_said_from_the_line_on_that_crosses(most: float, places: list[int]) -> None:
    """The Back's 46 g N are 0.23 g/m² of its 200 m²; the Strip has no area, and what is nowhere is no visit."""
    wanted = [MUCH if place in places else "" for place in range(len(FED))]
    assert flags(place__most_nitrogen=("g_N/m**2", most)) == wanted


@pytest.mark.parametrize(
    ("most", "places"),
    [(0.925, []), (0.9246, [1]), (0.924, [1, 3, 4]), (0.23, [0, 1, 3, 4]), (0.2, [0, 1, 2, 3, 4]), (NO, [])],
)
def test_soluble_nitrogen_of_a_visit_is_said_from_the_line_on_that_crosses(most: float, places: list[int]) -> None:
    """All of it is soluble; half as much of the urea's where a half is slow."""
    quick = "; more soluble nitrogen than the place allows"
    shares: dict[str, Any] = {"products__share_nitrogen": ("g_N/g", [0.46, NO, 0.155])}
    wanted = [quick if place in places else "" for place in range(len(FED))]
    assert flags(place__most_soluble=("g_N/m**2", most), **shares) == wanted
    half = flags(place__most_soluble=("g_N/m**2", 0.5), **shares, products__slow_nitrogen=("g_N/g", [0.23]))
    assert [place for place, said in enumerate(half) if said] == [1]


def test_an_area_of_nothing_is_no_visit_s_area() -> None:
    none = filled("diary", MEASURED, [(on(4, 1), "Front", "Urea", 100.0, NO, NO, NO, 0.0)])
    model = site(**none, place__most_nitrogen=("g_N/m**2", 0.1))
    assert shown(model, "diary", "flag_conditions") == []


def test_phosphorus_and_closed_months_of_the_diary() -> None:
    """Iron salt of a hundredth phosphate; May is closed. Each line says it of its own."""
    place: dict[str, Any] = {"products__mass_content_phosphate": ("g_P2O5/kg", [NO, 10.0])}
    banned, closed = "; phosphorus is not allowed here", "; a month closed to feeding"
    assert flags(**place) == [""] * 8
    assert flags(**place, place__no_phosphorus=("text", "Yes")) == [""] * 6 + [banned, ""]
    assert flags(**place, months__closed=("text", ["", "", "", "", "YES"])) == [""] * 5 + [closed] * 3
    every = flags(
        **place,
        place__no_phosphorus=("text", "yes"),
        place__most_nitrogen=("g_N/m**2", 0.0),
        months__closed=("text", ["yes"] * 12),
        products__mass_content_nitrogen=("g_N/kg", [460.0, 10.0, 155.0]),
    )
    assert every[6] == MUCH + banned + closed


def test_flags_of_the_place_stand_after_those_of_the_rate() -> None:
    limits: dict[str, Any] = {
        "products__spray_mass_high": ("g/m**2", [0.5]), "products__spray_volume_high": ("mL/m**2", []),
        "products__dry_mass_high": ("g/m**2", []), "products__family_line": ("", []),
        "diary__method": ("text", ["spray"] * 8), "diary__planned_mass_rate": ("g/m**2", []),
        "diary__planned_volume_rate": ("mL/m**2", []), "settings__plan_tolerance": ("", 0.1),
        "settings__season_month": ("", 3.0), "settings__season_day": ("", 1.0),
        "diary__note": ("text", []), "lawns__strip_for": ("text", []),
        "products__least_carrier": ("L/ha", []), "settings__volume_tolerance": ("", NO),
        "diary__flag_visit": ("text", []),
    }  # fmt: skip
    model = site(**filled("diary", MEASURED, FED), **limits, months__closed=("text", ["", "", "", "yes"]))
    assert model.column("diary", "flags")[0] == "over the label; a month closed to feeding"


def over(*lines: dict[str, Any], **more: Any) -> list[str]:
    return shown(site(*lines, **more), "programme", "over_place")


@pytest.mark.parametrize(("most", "words"), [(0.92, []), (0.9, ["over the place's nitrogen of one visit"]), (NO, [])])
def test_nitrogen_of_a_line_of_the_programme(most: float, words: list[str]) -> None:
    """2 g/m² of urea are 0.92 g N/m²; the brew brings 0.06."""
    assert over(line(), line("Brew"), place__most_nitrogen=("g_N/m**2", most)) == words


@pytest.mark.parametrize(
    ("slow", "total", "most", "said"),
    [
        (0.115, 0.46, 0.69, False),
        (0.115, 0.46, 0.689, True),
        (NO, 0.46, 0.9, True),
        (NO, 0.46, 0.92, False),
        (0.115, NO, 0.1, False),
        (0.115, 0.46, NO, False),
    ],
)
def test_soluble_nitrogen_of_a_line_of_the_programme(slow: float, total: float, most: float, said: bool) -> None:
    """A quarter of the urea's 0.92 g N/m² is slow."""
    shares: dict[str, Any] = {
        "products__slow_nitrogen": ("g_N/g", [slow]),
        "products__share_nitrogen": ("g_N/g", [total]),
    }
    assert (
        over(line(), place__most_soluble=("g_N/m**2", most), **shares) == ["over the place's soluble nitrogen"] * said
    )


def test_a_line_without_nitrogen_has_none_that_is_soluble() -> None:
    shares: dict[str, Any] = {
        "products__slow_nitrogen": ("g_N/g", [0.115]),
        "products__share_nitrogen": ("g_N/g", [0.46, NO, 0.155]),
    }
    season = site(line(), line("Iron salt"), line("Calcium nitrate", own_rate_mass=10.0), line("Gypsum"), **shares)
    assert same(shown(season, "programme", "soluble_nitrogen", "g_N/m**2"), [0.69, 0, 1.55])


def test_phosphorus_of_a_line_of_the_programme() -> None:
    content: dict[str, Any] = {"products__mass_content_phosphate": ("g_P2O5/kg", [NO, 10.0])}
    yes: dict[str, Any] = {"place__no_phosphorus": ("text", "yes")}
    assert over(line(), line("Iron salt"), **content, **yes) == ["", "phosphorus is not allowed"]
    assert over(line(), line("Iron salt"), **content, place__no_phosphorus=("text", "no")) == []


def test_dates_in_closed_months() -> None:
    """From 1 May, every week; from 25 April the first alone is in April."""
    closed: dict[str, Any] = {"months__closed": ("text", ["", "", "", "Yes"])}
    lines = [line(), line(first=on(4, 25)), line(first=on(4, 10)), line(first=on(4, 10), lawn="Back")]
    assert over(*lines, **closed) == ["", "1 date in a closed month", *["3 dates in a closed month"] * 2]


def test_a_date_says_that_its_month_is_closed() -> None:
    """Iron salt does not suit April: both are said of 25 April, nothing of 2 May."""
    season = site(
        line("Iron salt", first=on(4, 25), last=on(5, 2)),
        months__closed=("text", ["", "", "", "YES"]),
        products__months_suited=("text", ["", "JFM-MJJASOND"]),
    )
    assert shown(season, "applications", "date_words") == ["out of its months; a closed month"]


def test_everything_of_the_place_in_one_verdict() -> None:
    """A line without an end has its own mistake said first."""
    more: dict[str, Any] = {
        "place__most_nitrogen": ("g_N/m**2", 0.5), "place__most_soluble": ("g_N/m**2", 0.5),
        "place__no_phosphorus": ("text", "yes"), "months__closed": ("text", ["yes"] * 12),
        "products__share_nitrogen": ("g_N/g", [0.46]), "products__mass_content_phosphate": ("g_P2O5/kg", [5.0]),
    }  # fmt: skip
    words = (
        "over the place's nitrogen of one visit; over the place's soluble nitrogen; phosphorus is not allowed"
        "; 5 dates in a closed month"
    )
    season = site(line(), line(method=""), line("Brew"), **more, products__months_suited=("text", ["JFMA-JJASOND"]))
    verdicts = season.column("programme", "line_verdict")
    assert verdicts[0] == f"5 dates out of its months; {words}"
    assert verdicts[1].startswith("say spray or dry; ")
    assert verdicts[2] == "5 dates in a closed month"
    assert site(line("Brew")).column("programme", "line_verdict")[0] == "nothing against it here"
