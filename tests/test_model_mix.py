"""Litres, loads, the lawns of a visit and its verdict, against figures worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from tables import NO, Table, bare, changed, is_close, planner

RECORDS = {"start": 1, "sprayers": 3, "lawns": 4, "mix_lawns": 4, "mix_nitrogen": 4,
           "mix_products": 3, "diary": 8, "months": 12}
MAY_14 = 46156.0  # 2026

# Figures are invented.
TABLES: dict[str, Table] = {
    "start": {"as_of": ("date", [MAY_14])},
    "sprayers": {
        "name": ("text", ["Knapsack", "Hose"]),
        "kind": ("text", ["knapsack", "hose-end"]),
        "jar_dilution": ("", [NO, 20.0]),
        "remainder": ("L", [0.2]),
        "carrier_volume": ("L/ha", [400.0]),
        "spray_capacity": ("L", [14.0, 20.0]),
        "total_output": ("L/min", [1.5]),
        "calibration": ("text", ["known area", "never calibrated"]),
    },
    "lawns": {
        "name": ("text", ["Front", "Back", "Bare"]),
        "grass": ("text", ["cool season", "Warm Season", ""]),
        "area": ("m**2", [1000.0, 200.0]),
        "most_nitrogen_month": ("g_N/m**2", [NO, 4.0]),
    },
    "months": {"growth_cool": ("", [0.1, 0.2, 0.3, 0.4, 0.5]), "growth_warm": ("", [0, 0, 0, 0, 0.25])},
    "mix": {
        "date": ("date", NO),
        "sprayer": ("text", "KNAPSACK"),
        "which_lawns": ("text", "listed"),
        "wanted_carrier": ("L/ha", NO),
        "loads_style": ("text", "equal"),
        "watered_in": ("text", "no"),
        "overlap": ("", 0.1),
        "water_temperature": ("degC", NO),
        "wind": ("km/h", NO),
        "air_temperature": ("degC", NO),
        "humidity": ("", NO),
        "heavy_rain": ("text", ""),
        "wet_ground": ("text", ""),
    },
    "mix_lawns": {"lawn": ("text", ["back", "Bare", "", "Front"]), "part_treated": ("m**2", [50.0])},
    "mix_nitrogen": {},
    "mix_products": {
        "product": ("text", ["Urea", "", "Seaweed"]),
        "product_line": ("", [3.0, NO, 2.0]),
        "words_so_far": ("text", ["", "", ""]),
        "usual_carrier": ("L/ha", [500.0, NO, 300.0]),
        "rate_volume": ("mL/m**2", [NO, NO, 0.8]),
        "pour_full": ("mL", [NO, NO, 200.0]),
        "pour_last": ("mL", [NO, NO, NO]),
        "salts": ("g/L", [30.0, NO, 5.0]),
        "solubility_share": ("", [0.25, NO, 0.125]),
        "salt_load": ("g/m**2", [2.0, NO, 0.5]),
        "soluble_nitrogen": ("g_N/m**2", [0.75, NO, 0.0]),
        "level": ("", [0.0, NO, 0.0]),
    },
    "verdict": {},
    "mix_nutrients": {"rate_nitrogen": ("g_N/m**2", 1.0)},
    "mix_checks": {"worst": ("", 0.0), "words": ("text", "")},
    "settings": {
        "rolling_time": ("day", 30.0),
        "most_nitrogen_month": ("g_N/m**2", 3.0),
        "water_temperature": ("degC", 10.0),
        "watered_in_factor": ("", 2.0),
        "volume_basis": ("kg/L", 1.0),
    },
    "diary": {
        "date": ("date", [MAY_14 - 29, MAY_14 - 30, MAY_14, MAY_14 - 1, MAY_14 - 1, NO, MAY_14 + 1]),
        "lawn": ("text", ["Back", "back", "Back", "BACK", "Front", "Back", "Back"]),
        "load_nitrogen": ("g_N", [100.0, 1000.0, 1000.0, 20.0, NO, 1000.0, 1000.0]),
    },
}


def figure(key: str, unit: str = "", *, table: str = "mix", **columns: tuple[str, Any]) -> Any:
    return bare(planner(changed(TABLES, **columns), RECORDS).column(table, key), unit)


def test_date_is_the_one_typed_else_the_as_of_date() -> None:
    assert figure("visit_date") == MAY_14
    assert figure("visit_date", mix__date=("date", MAY_14 + 3)) == MAY_14 + 3


def test_water_for_the_visit() -> None:
    """50 m² of the Back and 1000 m² of the Front at 400 L/ha, a tenth more, and 0.2 L that stay: 46.4 L."""
    assert figure("treated_area", "m**2") == 1050
    assert figure("carrier_volume", "L/ha") == 400
    assert figure("calibration") == "known area"
    assert is_close(figure("spray_volume", "L"), 46.4)
    assert is_close(figure("spray_volume", "L", mix__overlap=("", NO)), 42.2)


HOSE: dict[str, Any] = {"mix__sprayer": ("text", "Hose")}


def test_sprayer_never_calibrated_goes_by_what_is_aimed_at() -> None:
    """The most that a product usually has is 500 L/ha; 20 litres of spray come from a litre in the jar."""
    assert figure("carrier_volume", "L/ha", **HOSE) == 500
    assert figure("carrier_volume", "L/ha", mix__wanted_carrier=("L/ha", 350.0), **HOSE) == 350
    assert is_close(figure("spray_volume", "L", **HOSE), 57.75)
    assert figure("loads", **HOSE) == 3
    assert figure("dilution", **HOSE) == 20
    assert is_close(figure("fill_full", "L", **HOSE), 57.75 / 60)
    assert is_close(figure("least_carrier", "L/ha", **HOSE), 160)
    no_usual = ("L/ha", [NO, NO, NO])
    assert is_close(figure("carrier_aim", "L/ha", mix_products__usual_carrier=no_usual), NO)


def test_equal_loads() -> None:
    """46.4 L in tanks of 14 L: four times 11.6 L, each with 0.2 L of liquids."""
    assert (figure("loads"), figure("full_loads"), figure("part_load")) == (4, 4, "no")
    assert is_close(figure("volume_full", "L"), 11.6)
    assert is_close(figure("volume_last", "L"), NO)
    assert is_close(figure("clean_water_full", "L"), 11.4)
    assert is_close([figure("fill_last", "L"), figure("liquids_last", "L"), figure("clean_water_last", "L")], [NO] * 3)


def test_full_and_part_loads() -> None:
    style: dict[str, Any] = {"mix__loads_style": ("text", "Full and Part")}
    assert (figure("loads", **style), figure("full_loads", **style), figure("part_load", **style)) == (4, 3, "yes")
    assert is_close(figure("volume_full", "L", **style), 14)
    assert is_close(figure("volume_last", "L", **style), 4.4)
    assert is_close([figure("liquids_last", "L", **style), figure("clean_water_last", "L", **style)], [0, 4.4])


def test_noise_of_floats_makes_no_further_load() -> None:
    assert figure("loads", mix__spray_volume=("L", 42.00000000001)) == 3
    assert figure("loads", mix__spray_volume=("L", 42.0001)) == 4


def test_no_spray_without_a_sprayer() -> None:
    given: dict[str, Any] = {"mix__sprayer": ("text", ""), "mix__wanted_carrier": ("L/ha", 400.0)}
    assert is_close([figure("carrier_volume", "L/ha", **given), figure("spray_volume", "L", **given)], [400, NO])


def test_jar_empties_at_the_output_of_its_concentrate() -> None:
    """The Hose makes 50 m² × 500 L/ha × 1.1 = 2.75 L of spray from a twentieth of that, at 0.5 L/min."""
    given = HOSE | {"sprayers__total_output": ("L/min", [NO, 0.5])}
    assert is_close(figure("spray_time", "min", table="mix_lawns", **given)[0], 2.75 / 20 / 0.5)


def test_one_load_has_no_part_load() -> None:
    one: dict[str, Any] = {"mix__loads_style": ("text", "full and part"), "sprayers__spray_capacity": ("L", [46.4])}
    assert (figure("loads", **one), figure("full_loads", **one), figure("part_load", **one)) == (1, 1, "no")
    assert is_close(figure("volume_full", "L", **one), 46.4)


def test_liquids_that_overfill_the_tank_leave_less_than_no_water() -> None:
    pour = ("mL", [12000.0, NO, 100.0])
    assert is_close(figure("clean_water_full", "L", mix_products__pour_full=pour), -0.5)


@pytest.mark.parametrize(
    "columns",
    [
        {"mix__sprayer": ("text", "")},
        {"mix__sprayer": ("text", "Other")},
        {"mix_lawns__lawn": ("text", [])},
        {"mix_lawns__lawn": ("text", ["", "Bare"])},
        {"sprayers__spray_capacity": ("L", [0.0])},
    ],
)
def test_no_loads_without_a_sprayer_or_a_treated_area(columns: dict[str, Any]) -> None:
    blank = [figure("loads", **columns), figure("full_loads", **columns), figure("volume_full", "L", **columns)]
    assert is_close(blank, [NO] * 3)
    assert figure("part_load", **columns) == ""
    assert figure("ready", table="verdict", **columns) == "choose a lawn, a sprayer and a product"
    assert figure("level", table="verdict", **columns) == 2


def test_sums_over_the_products() -> None:
    assert is_close([figure("salts", "g/L"), figure("salts_share")], [35, 0.035])
    assert is_close([figure("solubility_share"), figure("salt_load", "g/m**2")], [0.375, 2.5])
    assert is_close(figure("soluble_nitrogen", "g_N/m**2"), 0.75)
    assert [figure("limit_factor"), figure("limit_factor", mix__watered_in=("text", "YES"))] == [1, 2]
    assert figure("water_used", "degC") == 10
    assert figure("water_used", "degC", mix__water_temperature=("degC", 12.0)) == 12


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
    ],
)
def test_nitrogen_on_the_lawns_of_the_visit(key: str, unit: str, figures: list[float]) -> None:
    assert is_close(figure(key, unit, table="mix_nitrogen"), figures)


def test_all_lawns_in_the_order_of_their_table() -> None:
    every: dict[str, Any] = {"mix__which_lawns": ("text", "All")}
    assert figure("lawn_used", table="mix_lawns", **every) == ["Front", "Back", "Bare", ""]
    assert is_close(figure("turn", table="mix_lawns", **every), [1, 2, 3, 4])
    assert figure("lawn_used", table="mix_lawns") == ["back", "Bare", "", "Front"]


@pytest.mark.parametrize(("rate", "level"), [(1.6, 0), (1.6 + 1e-10, 0), (1.6 + 1e-6, 1)])
def test_nitrogen_over_what_the_grass_can_use(rate: float, level: int) -> None:
    """0.6 g/m² before and a quarter of the rate meet the Back's ceiling of 1 g/m²."""
    given: dict[str, Any] = {
        "mix_nutrients__rate_nitrogen": ("g_N/m**2", rate),
        "settings__most_nitrogen_month": ("g_N/m**2", 9.0),
    }
    assert figure("nitrogen_level", table="mix_nitrogen", **given)[0] == level
    words = "ask first, more nitrogen than it can use" if level else ""
    assert figure("lawn_words", table="mix_nitrogen", **given) == [words, "this lawn has no area", "", ""]


def test_visit_without_nitrogen_is_not_held_to_the_ceiling() -> None:
    given: dict[str, Any] = {
        "mix_nutrients__rate_nitrogen": ("g_N/m**2", 0.0),
        "diary__load_nitrogen": ("g_N", [5000.0]),
    }
    assert figure("nitrogen_together", "g_N/m**2", table="mix_nitrogen", **given)[0] == 25
    assert figure("nitrogen_level", table="mix_nitrogen", **given)[0] == 0


@pytest.mark.parametrize(
    ("columns", "level", "words"),
    [
        ({}, 0, "Go"),
        ({"mix_checks__worst": ("", 1.0)}, 1, "Ask first"),
        ({"mix_products__level": ("", [0.0, NO, 2.0])}, 2, "Do not mix"),
        ({"mix_nutrients__rate_nitrogen": ("g_N/m**2", 1.6)}, 1, "Ask first"),  # 1.6 g/m² on the Front
        ({"mix_products__product_line": ("", [])}, 2, "Do not mix"),
    ],
)
def test_verdict_is_the_worst_of_all(columns: dict[str, Any], level: int, words: str) -> None:
    assert figure("level", table="verdict", **columns) == level
    assert figure("verdict", table="verdict", **columns) == words


def test_reasons_are_those_that_apply_with_single_spaces() -> None:
    given: dict[str, Any] = {
        "mix_checks__words": ("text", " hot and  dry air; "),
        "mix_products__level": ("", [1.0]),
        "mix_products__words_so_far": ("text", ["Urea, too soon; "] * 3),
        "mix_nutrients__rate_nitrogen": ("g_N/m**2", 1.6),
    }
    expected = "hot and dry air; Urea, too soon; more nitrogen in the last weeks than the grass can use;"
    assert figure("reason", table="verdict", **given) == expected
    assert figure("reason", table="verdict") == ""
    given["mix__sprayer"] = ("text", "")
    assert figure("reason", table="verdict", **given) == "choose a lawn, a sprayer and a product"


def test_what_was_not_checked() -> None:
    assert figure("not_checked", table="verdict") == "wind; heat; rain; ground;"
    air: dict[str, Any] = {"mix__air_temperature": ("degC", 18.0), "mix__heavy_rain": ("text", "no")}
    assert figure("not_checked", table="verdict", **air) == "wind; heat; ground;"
    rest: dict[str, Any] = {"mix__humidity": ("", 0.6), "mix__wind": ("km/h", 0.0), "mix__wet_ground": ("text", "no")}
    assert figure("not_checked", table="verdict", **air, **rest) == ""
