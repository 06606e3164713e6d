"""The diary's columns, worked out by hand for a few lines."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
import pytest

from support.small_diary import EMPTY, LIMITS, LINES, NO, line, on, planner
from wbgen.units.quantity import FLOAT

Value = Any


def figures(key: str, unit: str = "", **more: Value) -> list[Any]:
    """A column of the small diary, in a unit."""
    column = planner(**more).column("diary", key)
    return list(column.to(unit).magnitude if unit else column)


def of_time(lines: Value = LINES) -> list[str]:
    """What the flags say of the time of each line."""
    said = [flags.split("; ") for flags in figures("flags", lines=lines)]
    return ["; ".join(part for part in parts if part.startswith(("too soon", "too many"))) for parts in said]


NO_LIMITS: Final[dict[str, Any]] = {
    f"limits__{which}_{risk}": FLOAT.Quantity(NO, unit)
    for risk, (unit, *_) in LIMITS.items()
    for which in ("ask", "stop")
}


def is_close(found: list[float], expected: list[float]) -> bool:
    alike = np.ndim(expected) == 0 or np.shape(found) == np.shape(expected)
    return alike and bool(np.allclose(found, expected, rtol=1e-12, atol=0, equal_nan=True))


def test_lines_count_the_heading_row() -> None:
    assert is_close(figures("product_line"), [2, 2, 3, 2, 2, 4, 4, NO, NO, NO])
    assert is_close(figures("lawn_line"), [2, 2, 2, 3, 2, 2, 3, NO, NO, NO])


def test_what_is_taken_from_the_product() -> None:
    assert is_close(figures("of_highest"), [1.25, 1, 2 / 1.5, 1.25, 0.125, 1, 0.225, NO, NO, NO])


def test_a_highest_rate_of_nothing_is_none() -> None:
    nothing: dict[str, Any] = {"products__spray_mass_high": FLOAT.Quantity(np.array([0.0, NO, 2.0]), "g/m**2")}
    assert is_close(figures("of_highest", **nothing)[:1], [NO])


def test_what_reached_the_lawn() -> None:
    """Of 10 L two were left: four fifths of the 100 g."""
    assert is_close(figures("area_counted", "m**2"), [100, 100, 25, 200, 100, 100, 200, NO, NO, NO])
    assert is_close(figures("applied_mass", "g"), [100, 80, NO, 200, 10, 900, 90, 0, NO, NO])
    assert is_close(figures("applied_volume", "mL"), [NO, NO, 50, NO, NO, NO, NO, NO, NO, NO])
    assert is_close(figures("rate_mass", "g/m**2"), [1, 0.8, NO, 1, 0.1, 9, 0.45, NO, NO, NO])
    assert is_close(figures("rate_volume", "mL/m**2"), [NO, NO, 2, NO, NO, NO, NO, NO, NO, NO])
    assert is_close(figures("against_plan"), [NO, NO, 0.25, 0, NO, NO, NO, NO, NO, NO])


@pytest.mark.parametrize(
    ("water", "left_over", "share"),
    [(10.0, 0.0, 1.0), (0.0, 0.0, 1.0), (0.0, 3.0, 1.0), (NO, 3.0, 1.0), (10.0, NO, 1.0), (10.0, 10.0, 0.0)],
)
def test_share_used_at_its_edges(water: float, left_over: float, share: float) -> None:
    lines = [line(on(4, 1), "Front", "Urea", weighed=1.0, poured=2.0, water=water, left_over=left_over)]
    assert is_close(figures("applied_mass", "g", lines=lines), [share])
    assert is_close(figures("applied_volume", "mL", lines=lines), [2 * share])


def test_solid_is_held_against_its_own_plan_first() -> None:
    both: dict[str, Any] = {"poured": 300.0, "planned_mass_rate": 2.0, "planned_volume_rate": 1.0}
    lines = [line(on(4, 1), "Front", "Urea", weighed=300.0, **both), line(on(4, 1), "Front", "Urea", **both)]
    assert is_close(figures("against_plan", lines=lines), [0.5, 2.0])


def test_loads_are_grams_of_what_is_in_it() -> None:
    """20 % iron in the salt; 60 g Fe and 20 g N in a litre of the brew; 46 % N in urea."""
    assert is_close(figures("load_iron", "g_Fe"), [20, 16, 3, 40, 2, 0, 0, NO, NO, NO])
    assert is_close(figures("load_nitrogen", "g_N"), [0, 0, 1, 0, 0, 414, 41.4, NO, NO, NO])
    assert is_close(figures("load_potash", "g_K2O"), [0, 0, 0, 0, 0, 0, 0, NO, NO, NO])


def test_season_runs_from_its_start_to_the_as_of_date() -> None:
    assert is_close(figures("season_month"), [4, 4, 4, 4, NO, 5, NO, 5, NO, NO])
    edges = [line(on(*day), "Front", "Urea", weighed=1.0) for day in ((2, 29), (3, 1), (6, 30), (7, 1))]
    assert is_close(figures("season_month", lines=edges), [NO, 3, 6, NO])
    soon = "too soon for the family urea: 1 days, at least 7"
    assert figures("flags", lines=edges) == ["", soon, "", f"{soon}; after the as-of date"]


def test_days_since_are_of_the_family_on_the_lawn() -> None:
    """Two lines on one day are not since one another. The line of 20 February stands below, and says so.

    In their order, from 20 February to 1 April of a leap year are 41 days.
    """
    assert is_close(figures("days_since", "day"), [NO, 10, 10, NO, NO, NO, NO, NO, NO, NO])
    in_order = [LINES[4], *LINES[:4]]
    assert is_close(figures("days_since", "day", lines=in_order), [NO, 41, 10, 10, NO])


@pytest.mark.parametrize(
    ("days", "said"),
    [
        ([5, 5, 6], [False] * 3),
        ([5, 6, 5, 6], [False, False, True, False]),
        ([5, 9, 6, 7, 10], [False, False, True, True, False]),
        ([95, 5, 6], [False] * 3),
        ([95, 6, 5], [False, False, True]),
        ([NO, 5, NO, 6], [False] * 4),
    ],
)
def test_a_line_that_is_earlier_than_one_above_says_so(days: list[float], said: list[bool]) -> None:
    """Of whatever lawn. A day after the as-of date (here the 95th) is a slip of its own, and no measure of others."""
    lawns = ["Front", "Back", "Nowhere", "Side", "Front"]
    lines = [line(on(4, 1) + day, lawn, "Urea", weighed=1.0) for day, lawn in zip(days, lawns, strict=False)]
    words = "earlier than a line above: sort the lines by date"
    assert [words in flags for flags in figures("flags", lines=lines)] == said


def test_number_counts_dates_of_the_line_s_own_season() -> None:
    """The line of February belongs to the season before; the brew of the second date adds none."""
    assert is_close(figures("number_this_season"), [1, 2, 2, 1, 1, 1, 1, NO, NO, NO])


def test_a_key_stands_once_a_day() -> None:
    """The second and the third line are of one family, lawn and day; what has no family has no key. One is dry."""
    keys = np.array([1.0, 2.0, 2.0, 4.0, 5.0, 6.0, 7.0, NO, NO, NO])
    assert is_close(figures("day_key", diary__visit_key=keys), [1, 2, NO, 4, 5, 6 + 5e9, 7, NO, NO, NO])


def test_each_method_has_its_own_limits() -> None:
    """Urea may be sprayed every week, and spread dry every four, once a year; the time since is that of either.

    900 g on 100 m² are 4.14 g N/m², 1200 g are 5.52: more than the 5 of one dressing. Sprayed it is over the label.
    """
    days = [(on(4, 1), "spray"), (on(4, 9), "dry"), (on(4, 16), "DRY"), (on(4, 23), "spray"), (on(4, 29), "")]
    lines = [line(day, "Front", "Urea", method, weighed=100.0) for day, method in days]
    assert figures("number_this_season", lines=lines) == [1, 1, 2, 2, 3]
    assert of_time(lines) == [
        "",
        "too soon for the family urea: 8 days, at least 28",
        "too soon for the family urea: 7 days, at least 28; too many of the family urea: number 2, usually at most 1",
        "",
        "too soon for the family urea: 6 days, at least 7",
    ]
    much = [line(on(5, day), "Front", "Urea", method, weighed=grams) for day, method, grams in
            ((1, "dry", 900.0), (2, "dry", 1200.0), (2, "spray", 1200.0))]  # fmt: skip
    said = "; more soluble nitrogen than one dry dressing should bring"
    dressed = [flags.partition("; much")[0] for flags in figures("flag_visit", lines=much, **NO_LIMITS)]
    assert dressed == ["", said, ""]
    half: dict[str, Any] = {"products__slow_nitrogen": FLOAT.Quantity(np.array([NO, NO, 0.23]), "g_N/g")}
    assert figures("flag_visit", lines=much, **NO_LIMITS, **half) == ["", "", ""]
    none: dict[str, Any] = {"settings__dry_nitrogen": FLOAT.Quantity(NO, "g_N/m**2")}
    assert figures("flag_visit", lines=much, **NO_LIMITS, **none) == ["", "", ""]


def test_season_that_starts_in_autumn_counts_over_new_year() -> None:
    days = [on(9, 30, 2023), on(10, 1, 2023), on(12, 31, 2023), on(1, 1), on(9, 30), on(10, 1)]
    lines = [line(day, "Front", "Urea", weighed=1.0) for day in days]
    season: dict[str, Any] = {"settings__season_month": 10.0, "settings__season_day": 1.0}
    assert figures("number_this_season", lines=lines, **season) == [1, 1, 2, 3, 4, 1]
    season["settings__season_day"] = 2.0
    assert figures("number_this_season", lines=lines, **season) == [1, 2, 1, 2, 3, 4]


@pytest.mark.parametrize(("more", "said"), [
    ({"note": "sick lawn"}, ""),
    ({}, "say in the note why"),
    ({"lawn": "Nowhere", "note": "wet"}, "say the date and a lawn of the sheet Lawns: not counted"),
    ({"lawn": "", "note": "wet"}, "say the date and a lawn of the sheet Lawns: not counted"),
    ({"date": NO}, "say the date and a lawn of the sheet Lawns: not counted; say in the note why"),
    ({"product": "Urea", "note": "wet"}, "what was not done has no product; nothing weighed or poured"),
])  # fmt: skip
@pytest.mark.parametrize("method", ["skipped", "PUT OFF"])
def test_what_was_not_done_has_a_lawn_a_day_and_a_reason_and_no_product(
    method: str, more: dict[str, Any], said: str
) -> None:
    """Front is line 2; 1 April 2024 is day 8857 after 1 January 2000."""
    lines = [line(**{"date": on(4, 1), "lawn": "front", "product": "", "method": method, **more})]
    assert figures("flags", lines=lines) == [said]
    counted = said in ("", "say in the note why")
    step = 50_000 if method == "PUT OFF" else 0
    assert is_close(figures("not_done_key", lines=lines), [208_857 + step if counted else NO])
    assert is_close(figures("line_key", lines=lines), [NO] if not more.get("product") else [20_885_700_001])
    assert figures("notes", lines=lines)[0] == "" or more.get("product")


def test_lines_of_the_mix_s_lawns_have_their_family() -> None:
    """Back is treated; the last of its lines is of an unknown product."""
    assert is_close(figures("mix_family"), [NO, NO, NO, 2, NO, NO, 4, NO, NO, NO])
    lines = [line(on(4, 1), "back", product, method) for product, method in (("Urea", "DRY"), ("None", "dry"))]
    assert is_close(figures("mix_family", lines=lines), [4 + planner(lines).column("ones", "dry_step"), 0])


def test_flags_say_all_that_holds() -> None:
    over, soon = "; over the label", "too soon for the family iron: 10 days, at least 14"
    number = "too many of the family iron: number 3, at most 2"
    assert figures("flag_amount") == [over, "", over, over, "", "", "", "", "", ""]
    assert of_time() == ["", soon, *[""] * 8]
    assert figures("flags") == [
        "over the label",
        soon,
        "over the label; off the plan",
        "over the label",
        "earlier than a line above: sort the lines by date",
        "out of its months",
        "after the as-of date",
        "unknown product; unknown lawn; say spray or dry; nothing weighed or poured",
        "date, lawn or product is missing: not counted",
        "",
    ]
    third = [*LINES[:4], line(on(6, 30), "front", "Iron SALT", "SPRAY", weighed=100.0)]
    assert of_time(third)[4] == number
    december = [line(on(12, 2, 2023), "Back", "Iron salt"), line(on(12, 3, 2023), "Back", "Iron salt", "mist")]
    assert figures("flags", lines=december)[1] == (
        "say spray or dry; nothing weighed or poured; out of its months; "
        "too soon for the family iron: 1 days, at least 14"
    )


NOTHING: Final = "nothing weighed or poured"


@pytest.mark.parametrize(
    ("weighed", "flags"),
    [(110.0, ""), (110.0 + 1e-8, ""), (110.1, "off the plan"), (90.0, ""), (89.9, "off the plan"), (NO, NOTHING)],
)
def test_rate_off_its_plan_by_more_than_a_tenth_is_said(weighed: float, flags: str) -> None:
    """1 g/m² was planned for the Back's 100 treated square metres."""
    lines = [line(on(4, 1), "Back", "Urea", weighed=weighed, treated_area=100.0, planned_mass_rate=1.0)]
    assert figures("flags", lines=lines) == [flags]


def test_a_measure_that_adds_nothing_to_the_totals_is_said() -> None:
    """Solids are weighed and liquids poured; the brew has no content by mass, the urea none by volume."""
    day = on(4, 1)
    lines = [
        line(day, "Back", "Urea", weighed=20.0),
        line(day, "Back", "Urea", poured=20.0),
        line(day, "Back", "Iron brew", poured=20.0),
        line(day, "Back", "Iron brew", weighed=20.0),
        line(day, "Back", "Gypsum", weighed=20.0, poured=20.0),
    ]
    wrong = "weigh solids and pour liquids"
    assert figures("flags", lines=lines) == ["", wrong, "", wrong, "unknown product"]


def test_off_the_plan_is_said_before_the_date() -> None:
    late = [line(on(7, 4), "Back", "Urea", weighed=90.0, planned_mass_rate=1.0)]
    assert figures("flags", lines=late) == ["off the plan; after the as-of date"]
    assert figures("flags", lines=late, settings__plan_tolerance=NO) == ["after the as-of date"]


def test_rate_at_the_label_s_own_limit_is_not_over_it() -> None:
    """Tenths that do not add up exactly in floats: 0.1 + 0.7 falls short of 0.8, 3 × 0.1 passes 0.3."""
    high = FLOAT.Quantity(np.array([0.3, NO, NO]), "g/m**2")
    lines = [
        line(on(4, 1), "Front", "Iron salt", weighed=3 * 0.1 * 100),
        line(on(4, 1), "Front", "Iron salt", weighed=30.001),
    ]
    assert figures("flag_amount", lines=lines, products__spray_mass_high=high) == ["", "; over the label"]


@pytest.mark.parametrize("practice", ["spray", "dry"])
def test_over_what_is_practice_only_another_word_is_said_for_that_method_alone(practice: str) -> None:
    marked: dict[str, Any] = {f"products__{practice}_practice": np.array(["", "", "Yes"], dtype=object)}
    rates = {"spray": (200.0, 400.0), "dry": (900.0, 1800.0)}
    for method, (high, far) in rates.items():
        own = method == practice
        steps = {
            high: "", high + 1: "; over the usual range" if own else "; over the label",
            far: "; over the usual range" if own else "; over the label",
            far + 1: "; far over the usual range" if own else "; over the label",
        }  # fmt: skip
        for grams, said in steps.items():
            lines = [line(on(4, 1), "Front", "Urea", method, weighed=grams)]
            assert figures("flag_amount", lines=lines, **marked) == [said]


@pytest.mark.parametrize(("grams", "said"), [(21.7, False), (21.8, True), (NO, False), (-50.0, False)])
@pytest.mark.parametrize(("month", "lawn", "slow"), [
    (1, "Front", True), (2, "Front", False), (3, "Front", False), (1, "Back", False), (2, "Back", True),
])  # fmt: skip
@pytest.mark.parametrize("method", ["spray", "dry"])
def test_nitrogen_on_grass_that_hardly_grows_is_said(
    grams: float, said: bool, month: int, lawn: str, slow: bool, method: str
) -> None:
    """From 0.1 g N/m² of what was treated, here 100 m²; the Front is of the cool season, the Back of the warm."""
    given: dict[str, Any] = {
        "months__mean_temperature": FLOAT.Quantity(np.array([3.0, 3.0, NO] + [9.0] * 9), "degC"),
        "months__growth_cool": np.array([0.1, 0.11, 0.0] + [1.0] * 9),
        "months__growth_warm": np.array([0.11, 0.1, 0.0] + [1.0] * 9),
    }
    lines = [line(on(month, 9), lawn, "Urea", method, weighed=grams, treated_area=100.0)]
    words = "; nitrogen while the grass hardly grows" if said and slow else ""
    assert figures("flag_conditions", lines=lines, **given)[0].replace("; out of its months", "") == words
    assert words.removeprefix("; ") in figures("flags", lines=lines, **given)[0]
    assert "hardly grows" not in figures("flags", lines=lines, **given, settings__slow_growth=NO)[0]


@pytest.mark.parametrize(
    ("product", "method", "rate", "interval"),
    [
        ("Iron salt", "spray", True, True), ("Iron salt", "dry", False, False), ("Iron brew", "spray", True, False),
        ("Iron brew", "dry", False, False), ("Urea", "Dry", True, True), ("Urea", "", True, True),
        ("Gypsum", "dry", True, True),
    ],
)  # fmt: skip
def test_what_could_not_be_judged_is_noted(product: str, method: str, rate: bool, interval: bool) -> None:
    """By the method of the line alone: a rate for spraying says nothing of spreading. Of Gypsum nothing is known."""
    dry = method.lower() == "dry"
    lines = [line(on(4, 1), "Front", product, method, weighed=1.0, water=1.0)]
    assert ("no dry rate stated" in figures("flags", lines=lines)[0]) is (dry and not rate)
    said = [] if rate or dry else ["rate not judged: none is stated to spray"]
    said += [] if interval else ["interval not judged: none is stated"]
    assert figures("notes", lines=lines) == ["; ".join(said)]
    lines = [line(on(4, 1), "Front", product, method, weighed=1.0)]
    said += [] if dry else ["strength not judged: no spray made is noted"]
    assert figures("notes", lines=lines) == ["; ".join(said)]
    diluted: dict[str, Any] = {
        "products__diluted_mass_high": FLOAT.Quantity(np.array([NO, NO, 2.0]), "g/L"),
        "products__spray_mass_high": FLOAT.Quantity(np.array([NO, NO, NO]), "g/m**2"),
    }
    if product == "Iron salt" and method == "spray":
        assert "rate not judged" in figures("notes", lines=lines, **diluted)[0]
    if product == "Urea":
        assert "rate not judged" not in figures("notes", lines=lines, **diluted)[0]


@pytest.mark.parametrize(
    ("loads", "crossed"),
    [
        ((100.0, 99.9), 2),
        ((100.0, 100.1), 1),
        ((60.0, 60.0, 80.1), 2),
        ((60.0, 150.0, 1.0), 1),
        ((200.1,), 1),
        ((1.0,), 1),
    ],
)
@pytest.mark.parametrize("method", ["spray", ""])
def test_the_loads_of_a_day_are_held_to_the_highest_rate_together(
    loads: tuple[float, ...], crossed: int, method: str
) -> None:
    """2 g/m² on the Front's 100 m², said from the load on that crosses it. Other lawns and days are apart.

    One that is over by itself says so otherwise.
    """
    lines = [line(on(4, 1), "Front", "Urea", method, weighed=grams, treated_area=100.0) for grams in loads]
    lines += [line(on(4, 1), "Back", "Urea", weighed=399.0), line(on(4, 2), "Front", "Urea", weighed=199.0)]
    words = "over its highest rate with the lines above of the day"
    expected = [crossed <= place < len(loads) for place in range(len(lines))]
    assert [words in flags for flags in figures("flags", lines=lines)] == expected
    halves = [line(on(4, 1), "Front", "Urea", weighed=95.0, treated_area=50.0) for _ in range(2)]
    assert figures("flag_amount", lines=halves) == ["", ""]


def test_product_without_limits_is_never_too_soon_or_too_many() -> None:
    lines = [line(on(4, day), "Front", "Iron brew", poured=1.0) for day in range(1, 30)]
    assert set(of_time(lines)) == {""}
    urea = [line(on(6, day), "Front", "Urea", weighed=1.0) for day in (1, 8, 15, 22, 29)]
    assert set(of_time(urea)) == {""}


def test_area_of_zero_gives_no_rate() -> None:
    lines = [line(on(4, 1), "Front", "Urea", weighed=1.0, treated_area=0.0)]
    assert is_close(figures("rate_mass", "g/m**2", lines=lines), [NO])


def test_empty_diary_has_no_figures() -> None:
    for key in ("product_line", "season_month", "number_this_season", "mix_family"):
        assert is_close(figures(key, lines=[EMPTY] * 3), [NO] * 3)
    assert is_close(figures("days_since", "day", lines=[EMPTY] * 3), [NO] * 3)
    assert is_close(figures("load_iron", "g_Fe", lines=[EMPTY] * 3), [NO] * 3)
    assert figures("flags", lines=[EMPTY] * 3) == ["", "", ""]


def test_us_units_give_the_same_loads() -> None:
    """An ounce of iron salt of 20 % has a fifth of an ounce of iron."""
    model = planner([line(on(4, 1), "Front", "Iron salt", weighed=28.349523125)])
    assert model.column("diary", "load_iron").to("oz_Fe").magnitude[0] == pytest.approx(0.2, rel=1e-12)


def test_slow_release_comes_free_over_its_time() -> None:
    """Half of the urea's nitrogen is slow, over 60 days up to 30 June: of 46 g N, 23 at once and the rest evenly."""
    days = [on(7, 4), on(6, 30), on(6, 15), on(5, 31), on(5, 1), on(4, 30)]
    lines = [line(day, "Front", "Urea", weighed=100.0) for day in days]
    slow: dict[str, Any] = {
        "products__slow_nitrogen": FLOAT.Quantity(np.array([NO, NO, 0.23]), "g_N/g"),
        "products__release_time": FLOAT.Quantity(np.array([NO, NO, 60.0]), "day"),
    }
    found = figures("available_nitrogen", "g_N", lines=lines, **slow)
    assert is_close(found, [23, 23, 23 + 5.75, 23 + 11.5, 46, 46])
    assert is_close(figures("load_nitrogen", "g_N", lines=lines, **slow), [46] * 6)
    untimed = {**slow, "products__release_time": FLOAT.Quantity(np.array([NO, NO, NO]), "day")}
    assert is_close(figures("available_nitrogen", "g_N", lines=lines, **untimed), [46] * 6)
    at_once = {**slow, "products__slow_nitrogen": FLOAT.Quantity(np.array([NO, NO, NO]), "g_N/g")}
    assert is_close(figures("available_nitrogen", "g_N", lines=lines, **at_once), [46] * 6)
    no_time = {**slow, "products__release_time": FLOAT.Quantity(np.array([NO, NO, 0.0]), "day")}
    assert is_close(figures("available_nitrogen", "g_N", lines=lines, **no_time), [46] * 6)


def test_all_nitrogen_of_other_products_is_available() -> None:
    assert is_close(figures("available_nitrogen", "g_N"), figures("load_nitrogen", "g_N"))
