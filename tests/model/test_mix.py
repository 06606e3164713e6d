"""Litres and loads of a visit, against figures worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_mix import MAY_14, figure
from support.tables import NO, is_close


def test_date_is_the_one_typed_else_the_as_of_date() -> None:
    assert figure("visit_date") == MAY_14
    assert figure("visit_date", mix__date=("date", MAY_14 + 3)) == MAY_14 + 3


@pytest.mark.parametrize(
    ("date", "month", "day", "start"),
    [
        (NO, 3.0, 1.0, 46082),  # 1 March 2026
        (46081.0, 3.0, 1.0, 45717),  # a visit on the last day of February is of the season before
        (NO, 5.0, 14.0, MAY_14),
        (NO, 5.0, 15.0, MAY_14 - 364),
        (NO, NO, NO, 46023),  # 1 January where nothing is said
    ],
)
def test_season_is_the_one_that_the_visit_is_in(date: float, month: float, day: float, start: float) -> None:
    given: Any = {"settings__season_month": ("", month), "settings__season_day": ("", day), "mix__date": ("date", date)}
    assert figure("season_start", **given) == start


def test_water_for_the_visit() -> None:
    """50 m² of the Back and 1000 m² of the Front at 400 L/ha, a tenth more, and 0.2 L that stay: 46.4 L."""
    assert figure("treated_area", "m**2") == 1050
    assert figure("carrier_volume", "L/ha") == 400
    assert figure("calibration") == "known area"
    assert is_close(figure("spray_volume", "L"), 46.4)
    assert is_close(figure("spray_volume", "L", mix__overlap=("", NO)), 42.2)


@pytest.mark.parametrize(("sprayer", "litres"), [("KNAPSACK", 0.2), ("Hose", 0), ("", NO)])
def test_what_stays_in_the_tank(sprayer: str, litres: float) -> None:
    """Of the hose nothing is stated; without a sprayer there is no tank."""
    assert is_close(figure("remainder", "L", mix__sprayer=("text", sprayer)), litres)


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


def test_carrier_volume_is_wanted_of_the_visit_first_then_of_the_sprayer_then_of_the_products() -> None:
    of_sprayer = HOSE | {"sprayers__wanted_carrier": ("L/ha", [600.0, 350.0])}
    assert is_close(figure("sprayer_carrier", "L/ha", **HOSE), NO)
    assert figure("sprayer_carrier", "L/ha", **of_sprayer) == 350
    assert figure("carrier_aim", "L/ha", **of_sprayer) == 350
    assert figure("carrier_aim", "L/ha", mix__wanted_carrier=("L/ha", 450.0), **of_sprayer) == 450
    assert figure("carrier_aim", "L/ha", **HOSE) == 500
    assert figure("carrier_volume", "L/ha", sprayers__wanted_carrier=("L/ha", [600.0])) == 400  # as delivered


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


@pytest.mark.parametrize(
    ("bucket", "begun"),
    [
        (1.0, 5.8),  # half of 11.6 L
        (5.6, 5.8),  # 0.2 L of liquids and the bucket leave just the half
        (6.0, 5.4),
        (12.0, 0.0),  # there is no room at all
        (NO, 5.8),
    ],
)
def test_water_to_begin_with_leaves_room_for_buckets_and_liquids(bucket: float, begun: float) -> None:
    given: dict[str, Any] = {"mix_products__bucket_full": ("L", [bucket])}
    assert is_close(figure("first_fill_full", "L", **given), begun)
    assert is_close(figure("first_fill_last", "L", **given), NO)


@pytest.mark.parametrize(("share", "begun"), [(0.25, 2.9), (0.9, 10.44), (1, 10.5), (0, 0), (NO, 10.5)])
def test_water_to_begin_with_is_the_share_that_is_set(share: float, begun: float) -> None:
    """Of 11.6 L, or what 0.1 L of liquids and a bucket of 1 L leave; where no share is set, all that is left."""
    given: dict[str, Any] = {
        "settings__first_fill": ("", share), "mix_products__pour_full": ("mL", [NO, NO, 100.0])
    }  # fmt: skip
    assert is_close(figure("first_fill_full", "L", **given), begun)


def test_water_to_begin_a_part_load_with() -> None:
    """Of 4.4 L the half is 2.2 L; 3 L of buckets and 0.1 L of liquids leave 1.3 L."""
    style: dict[str, Any] = {"mix__loads_style": ("text", "full and part")}
    assert is_close(figure("first_fill_last", "L", **style), 2.2)
    style |= {"mix_products__bucket_last": ("L", [2.0, NO, 1.0]), "mix_products__pour_last": ("mL", [NO, NO, 100.0])}
    assert is_close(figure("first_fill_last", "L", **style), 1.3)
    assert is_close(figure("first_fill_full", "L", **style), 7)


def test_noise_of_floats_makes_no_further_load() -> None:
    assert figure("loads", mix__spray_volume=("L", 42.00000000001)) == 3
    assert figure("loads", mix__spray_volume=("L", 42.0001)) == 4


def test_no_spray_without_a_sprayer() -> None:
    given: dict[str, Any] = {"mix__sprayer": ("text", ""), "mix__wanted_carrier": ("L/ha", 400.0)}
    assert is_close([figure("carrier_volume", "L/ha", **given), figure("spray_volume", "L", **given)], [400, NO])


def test_a_hose_end_sprayer_takes_as_long_as_its_spray_needs() -> None:
    """The Hose lays 50 m² × 500 L/ha × 1.1 = 2.75 L of spray; 0.5 L/min of it, hose water too, leave the nozzle."""
    given = HOSE | {"sprayers__total_output": ("L/min", [NO, 0.5])}
    assert is_close(figure("spray_time", "min", table="mix_lawns", **given)[0], 2.75 / 0.5)


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
        {"chosen_lawns__lawn": ("text", [])},
        {"chosen_lawns__lawn": ("text", ["", "Bare"])},
        {"sprayers__spray_capacity": ("L", [0.0])},
    ],
)
def test_no_loads_without_a_sprayer_or_a_treated_area(columns: dict[str, Any]) -> None:
    blank = [figure("loads", **columns), figure("full_loads", **columns), figure("volume_full", "L", **columns)]
    assert is_close(blank, [NO] * 3)
    assert figure("part_load", **columns) == ""


def test_sums_over_the_products() -> None:
    assert is_close([figure("salts", "g/L"), figure("salts_share")], [35, 0.035])
    assert is_close([figure("solubility_share"), figure("salt_load", "g/m**2")], [0.375, 2.5])
    assert is_close(figure("soluble_nitrogen", "g_N/m**2"), 0.75)
    assert [figure("limit_factor"), figure("limit_factor", mix__watered_in=("text", "YES"))] == [1, 2]
    assert figure("water_used", "degC") == 10
    assert figure("water_used", "degC", mix__water_temperature=("degC", 12.0)) == 12
