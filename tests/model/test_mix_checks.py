"""The checks of a mix against its limits, against figures worked out by hand."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from support.small_visit import LIMITS, MAY_14, MIX, NAMES, Columns, close, found, visit
from support.tables import NO as BLANK
from wbgen.trade.tank_rules import RISKS, WATERED_IN


def check(key: str, unit: str = "", products: Columns = NAMES, **mix: tuple[str, Any]) -> Any:
    """A figure of the checks of a visit whose mix is changed."""
    return found(visit(products, mix=mix), key, unit, "mix_checks")


@pytest.mark.parametrize(
    ("risk", "level"),
    [
        ("carrier", 1),  # 400 against 380 is 5.3 % over; there is no second limit
        ("products", 0),  # three, for the unknown one is not counted
        ("salts", 0),  # 50 g/L at a first limit of 50
        ("solubility", 0),
        ("potassium_sulphate", BLANK),  # the seaweed has no potassium here
        ("salt_load", 1),  # 11 g/m² against 5 and 10, doubled
        ("nitrogen", 0),
        ("iron", 0),
        ("wind", BLANK),
        ("hardness", 1),  # with iron
    ],
)
def test_levels_of_risks(risk: str, level: float) -> None:
    assert check(f"level_{risk}") == pytest.approx(level, nan_ok=True)


def test_only_salt_and_nitrogen_limits_are_wider_when_watered_in() -> None:
    for risk, (unit, ask, stop) in LIMITS.items():
        times = 2 if risk in WATERED_IN else 1
        assert check(f"ask_{risk}", unit) == ask * times
        assert check(f"stop_{risk}", unit) == pytest.approx(stop * times, nan_ok=True)


def test_the_second_limit_itself_counts_for_some_risks_only() -> None:
    signs = {risk.key: risk.sign for risk in RISKS}
    assert (signs["wind"], signs["salts"]) == (">=", ">")
    assert [check("level_wind", wind=("km/h", wind)) for wind in (15, 15.1, 20)] == [0, 1, 2]
    assert [check("level_salts", salts=("g/L", salts)) for salts in (50, 50.1, 100, 100.1)] == [0, 1, 1, 2]
    # A limit is met on the figure rounded to 9 decimals.
    assert check("level_salts", salts=("g/L", 100 + 4e-10)) == 1
    assert check("level_wind", wind=("km/h", 20 - 4e-10)) == 2


@pytest.mark.parametrize(("overlap", "level"), [(BLANK, 0), (0.7, 0), (0.71, 1)])
def test_limits_are_held_against_what_is_laid(overlap: float, level: int) -> None:
    """0.2 g Fe/m² of the iron sulphate and seven tenths more are the first limit, 0.34 g Fe/m²."""
    assert check("level_iron", overlap=("", overlap)) == level


POTASH: Columns = {"product": ("text", ["Iron sulphate", "Seaweed"])}
"""Sulphate in the one, and in a test potassium in the other."""


@pytest.mark.parametrize(
    ("potassium", "share", "level"),
    [
        ([], BLANK, BLANK),
        (["yes"], BLANK, BLANK),
        (["", "yes"], 0.4 ** (1 / 3), 1),
        (["yes", "yes"], 0.4 ** (1 / 3), 1),
    ],
)
def test_potassium_sulphate_falls_out_of_two_products(potassium: list[str], share: float, level: float) -> None:
    """(40/50)² × 40/64 = 0.4; the iron sulphate alone would be one salt, and is held against its own solubility."""
    model = visit(POTASH, products={"property_potassium": ("text", potassium)})
    assert found(model, "found_potassium_sulphate", "", "mix_checks") == close(share)
    assert found(model, "level_potassium_sulphate", "", "mix_checks") == close(level)


@pytest.mark.parametrize(("potash", "sulphate", "level"), [(0, 40, 0), (40, 0, 0), (20, 40, 0), (50, 40, 2)])
def test_potassium_sulphate_needs_both_ions(potash: float, sulphate: float, level: float) -> None:
    mix: Columns = {"potash_in_water": ("g_K2O/L", potash), "sulphate_in_water": ("g_SO3/L", sulphate)}
    model = visit(POTASH, products={"property_potassium": ("text", ["", "yes"])}, mix=mix)
    assert found(model, "level_potassium_sulphate", "", "mix_checks") == level


def test_hardness_matters_with_calcium_phosphate_or_iron() -> None:
    calcium: Columns = {"product": ("text", ["Calcium nitrate"])}
    assert check("found_hardness", "meq/L", calcium) == 3
    said = "; hard water may throw down this feed, jar test: 3 meq/L, ask first above 2.5 meq/L"
    assert check("words_hardness", products=calcium) == said
    assert np.isnan(check("found_hardness", "meq/L", {"product": ("text", ["Slow urea"])}))
    for key in ("phosphate", "ferrous"):
        model = visit({"product": ("text", ["Seaweed"])}, products={f"property_{key}": ("text", ["", "yes"])})
        assert found(model, "found_hardness", "meq/L", "mix_checks") == 3


def test_a_carrier_volume_that_is_not_known_is_not_checked() -> None:
    assert np.isnan(check("found_carrier", delivered_carrier=("L/ha", BLANK)))
    assert np.isnan(check("found_carrier", carrier_aim=("L/ha", BLANK)))
    assert check("found_carrier", carrier_aim=("L/ha", 500)) == pytest.approx(0.2)
    assert check("words_carrier", delivered_carrier=("L/ha", BLANK)) == ""


def test_heat_needs_both_figures() -> None:
    hot, dry = ("degC", 26), ("", 0.39)
    assert check("level_heat", air_temperature=hot) == 0
    assert check("level_heat", humidity=dry) == 0
    assert check("level_heat", air_temperature=hot, humidity=dry) == 1
    assert check("level_heat", air_temperature=("degC", 25), humidity=dry) == 0
    assert check("level_heat", air_temperature=hot, humidity=("", 0.4)) == 0


@pytest.mark.parametrize(("air", "level"), [(32, 0), (32.1, 1), (5, 0), (4.9, 1), (-2, 1), (BLANK, 0)])
def test_air_may_be_too_hot_or_too_cold_in_any_case(air: float, level: int) -> None:
    assert check("level_air", air_temperature=("degC", air)) == level
    assert check("words_air", air_temperature=("degC", air)) == "; too hot or too cold to spray" * level


def test_iron_in_heat() -> None:
    urea: Columns = {"product": ("text", ["Slow urea"])}
    assert check("level_iron_heat", air_temperature=("degC", 27.5)) == 1
    assert check("level_iron_heat", air_temperature=("degC", 27)) == 0
    assert check("level_iron_heat", products=urea, air_temperature=("degC", 27.5)) == 0


@pytest.mark.parametrize(
    ("air", "level", "words"),
    [(32.1, 1, "; too hot or too cold to spray"), (36, 1, "; too hot or too cold to spray"),
     (36.1, 2, "; too hot to mix: do not")],
)  # fmt: skip
def test_in_great_heat_nothing_is_mixed(air: float, level: int, words: str) -> None:
    assert check("level_air", air_temperature=("degC", air)) == level
    assert check("words_air", air_temperature=("degC", air)) == words


FORECAST, NEAR = ("text", "Forecast at 10 m"), ("text", "at spray height")


@pytest.mark.parametrize(
    ("height", "wind", "levels"),
    [
        (FORECAST, 15, (0, BLANK, 0)),
        (FORECAST, 15.1, (1, BLANK, 0)),
        (FORECAST, 20, (2, BLANK, 0)),
        (NEAR, 10, (BLANK, 0, 0)),
        (NEAR, 10.1, (BLANK, 1, 0)),
        (NEAR, 14, (BLANK, 2, 0)),
        (("text", ""), 10.1, (BLANK, 1, 0)),  # a height that is not told has the stricter limits
        (("text", "on the roof"), 10.1, (BLANK, 1, 0)),
        (FORECAST, 1.9, (0, BLANK, 1)),
        (NEAR, 1.9, (BLANK, 0, 1)),
        (NEAR, 2, (BLANK, 0, 0)),
        (FORECAST, 0, (0, BLANK, 1)),
        (FORECAST, BLANK, (BLANK, BLANK, 0)),
    ],
)
def test_wind_has_a_height_and_a_lower_bound(
    height: tuple[str, str], wind: float, levels: tuple[float, float, float]
) -> None:
    given: Any = {"wind_height": height, "wind": ("km/h", wind)}
    said = [check(f"level_{key}", **given) for key in ("wind", "near_wind", "calm")]
    assert said == close(list(levels))
    assert check("words_calm", **given) == "; hardly any wind, fine drops may hang and travel" * (levels[2] == 1)


CHECKED: Columns = {
    "wind": ("km/h", 8),
    "air_temperature": ("degC", 18),
    "humidity": ("", 0.6),
    "heavy_rain": ("text", "no"),
    "wet_ground": ("text", "No"),
}
PART = "; not all of the weather was checked"


@pytest.mark.parametrize(
    ("changed", "number", "words"),
    [
        ({}, 0, ""),
        ({"wind": ("km/h", BLANK)}, 1, PART),
        ({"air_temperature": ("degC", BLANK)}, 1, PART),
        ({"humidity": ("", BLANK)}, 0, ""),
        ({"humidity": ("", BLANK), "air_temperature": ("degC", 25.1)}, 1, PART),
        ({"heavy_rain": ("text", "")}, 1, PART),
        ({"heavy_rain": ("text", "perhaps")}, 1, PART),
        ({"wet_ground": ("text", "")}, 1, PART),
        ({"wind": ("km/h", BLANK), "wet_ground": ("text", "")}, 2, PART),
        (
            {"wind": ("km/h", BLANK), "air_temperature": ("degC", BLANK), "heavy_rain": ("text", ""),
             "wet_ground": ("text", "")},
            4,
            "; the weather was not checked",
        ),
    ],
)  # fmt: skip
def test_weather_that_was_not_checked_is_asked_about(changed: Columns, number: int, words: str) -> None:
    given: Any = CHECKED | changed
    assert check("unchecked", **given) == number
    assert check("level_weather", **given) == (number > 0)
    assert check("words_weather", **given) == words


def test_no_load_may_be_overfull() -> None:
    assert [check("level_water", clean_water_full=("L", water)) for water in (0, -0.1)] == [0, 2]
    assert check("level_water", clean_water_last=("L", BLANK)) == 0


@pytest.mark.parametrize("load", ["full", "last"])
@pytest.mark.parametrize(
    ("water", "bucket", "level"),
    [
        (2.1, 2, 0), (2 + 4e-10, 2, 1), (2, 2, 1), (1.9, 2, 1), (0, 2, 1), (-0.1, 2, 1), (BLANK, 2, 0),
        (0, 0, 0), (0, BLANK, 0), (-0.1, BLANK, 0),  # a brew that fills the tank has no bucket
    ],
)  # fmt: skip
def test_there_must_be_room_for_the_buckets_and_some_water(load: str, water: float, bucket: float, level: int) -> None:
    words = "; the buckets would overfill the tank, dissolve in the tank or take more water"
    brewed: Columns = {"product": ("text", ["Iron sulphate"]), f"bucket_{load}": ("L", [bucket])}
    model = visit(brewed, mix={f"clean_water_{load}": ("L", water)})
    assert found(model, "level_room", table="mix_checks") == level
    assert found(model, "words_room", table="mix_checks") == words * level


@pytest.mark.parametrize(
    ("days", "of_mix", "level"),
    [
        ([1], [2], 1),
        ([0], [2], 0),
        ([-1], [2], 0),
        ([1], [BLANK], 0),
        ([-1, 300], [2, 2], 1),
        ([1], [0], 1),  # of an unknown product
        ([], [], 0),
    ],
)
def test_a_mix_before_lines_of_its_lawns_is_asked_about(days: list[float], of_mix: list[float], level: int) -> None:
    """A wrong year leaves out all that the lawns have had."""
    diary: Columns = {"date": ("date", [MAY_14 + day for day in days]), "mix_family": ("", of_mix)}
    model = visit(NAMES, diary=diary)
    assert found(model, "level_later", table="mix_checks") == level
    said = "; the diary has later lines of these lawns, is the date right?" * level
    assert found(model, "words_later", table="mix_checks") == said
    assert found(model, "words", table="mix_checks").startswith(said)


def test_the_worst_may_be_a_risk_or_a_tank_rule() -> None:
    calm: Columns = {
        **CHECKED, "carrier_aim": ("L/ha", 400), "salt_load": ("g/m**2", 1), "hardness": ("meq/L", BLANK)
    }  # fmt: skip

    def worst(names: list[str], **mix: tuple[str, Any]) -> Any:
        return found(visit({"product": ("text", names)}, mix=calm | mix), "worst", table="mix_checks")

    assert worst(["Iron sulphate"]) == 0
    assert worst(["Iron sulphate"], wind=("km/h", 16)) == 1
    assert worst(["Iron sulphate"], air_temperature=("degC", 4)) == 1
    assert worst(["Iron sulphate"], calibration=("text", "never calibrated")) == 1
    assert worst(["Iron sulphate"], wet_ground=("text", "yes")) == 2
    assert worst(["Iron sulphate", "Calcium nitrate"]) == 2


def test_everything_at_once() -> None:
    model = visit(
        {"product": ("text", ["Iron sulphate", "Calcium nitrate"])},
        mix={
            "carrier_aim": ("L/ha", 400),
            "salt_load": ("g/m**2", 1),
            "hardness": ("meq/L", BLANK),
            "wind": ("km/h", 16),
            "calibration": ("text", "Never calibrated"),
            "clean_water_last": ("L", -0.1),
            "heavy_rain": ("text", "YES"),
            "wet_ground": ("text", "yes"),
            "air_temperature": ("degC", 33),
            "humidity": ("", 0.2),
        },
    )
    assert found(model, "worst", table="mix_checks") == 2
    assert found(model, "words", table="mix_checks") == (
        "; calcium with sulphate must not share a tank, gypsum falls out"
        "; no room for water, see the least carrier volume; heavy rain is forecast"
        "; the ground is frozen or waterlogged; wind: 16 km/h, ask first above 15 km/h"
        "; the buckets would overfill the tank, dissolve in the tank or take more water; hot and dry air"
        "; too hot or too cold to spray; iron in heat; the sprayer was never calibrated"
    )


OFF = "; the sprayer is off the water wanted, see its calibration"


@pytest.mark.parametrize(
    ("risk", "given", "words"),
    [
        ("carrier", {}, f"{OFF}: 5%, ask first above 5%"),  # 400 L/ha of 380 are 5.26 % more
        ("salts", {"salts": ("g/L", 62.04)}, "; much salt in the spray: 62 g/L, ask first above 50 g/L"),
        ("salts", {"salts": ("g/L", 123.45)}, "; much salt in the spray: 123.5 g/L, do not mix above 100 g/L"),
        ("salt_load", {}, "; salt load may scorch: 11 g/m², ask first above 10 g/m²"),
        ("solubility", {"solubility_share": ("", 0.625)}, "; may not dissolve: 63%, ask first above 50%"),
        ("solubility", {"solubility_share": ("", 0.9)}, "; may not dissolve: 90%, do not mix above 80%"),
        ("wind", {"wind": ("km/h", 20)}, "; wind: 20 km/h, do not mix from 20 km/h"),
        ("products", {}, ""),
    ],
)  # fmt: skip
def test_words_of_a_risk_say_what_was_found_and_the_limit(risk: str, given: Columns, words: str) -> None:
    assert found(visit(NAMES, mix=given), f"words_{risk}", table="mix_checks") == words


def test_texts_where_numbers_belong_are_named_first_and_stop() -> None:
    model = visit(NAMES, misplaced=["weather.humidity", "weather.wind"])
    assert found(model, "level_text", table="mix_checks") == 2
    assert found(model, "worst", table="mix_checks") == 2
    said = found(model, "words", table="mix_checks")
    assert said.startswith("; a text where a number belongs: wind, humidity; ")
    assert found(visit(NAMES), "words_text", table="mix_checks") == ""


def test_an_empty_mix_has_no_levels_and_no_words() -> None:
    empty = visit(
        {"product": ("text", [])}, mix={key: (unit, BLANK) for key, (unit, _) in MIX.items() if unit != "text"}
    )
    assert found(empty, "worst", table="mix_checks") == 1
    assert found(empty, "words", table="mix_checks") == "; not all of the weather was checked"
    assert found(empty, "found_products", table="mix_checks") == 0
    assert found(empty, "level") == close([BLANK] * 5)
    assert found(empty, "product_reason") == [""] * 5
