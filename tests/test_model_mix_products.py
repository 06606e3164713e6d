"""The products of a visit and the mix's checks, against figures worked out by hand."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from wbgen.families import RISKS, WATERED_IN, family
from wbgen.inputs import Inputs, blank_column
from wbgen.model import Model

Table = dict[str, tuple[str, Any]]
"""By column: its unit, and its figures from the first record on (the rest is blank)."""

RECORDS = {"products": 4, "mix_products": 5, "diary": 6}
FORMS = frozenset({"mix", "settings", "scales", "rules", "limits", "oxides", "mix_checks", "mix_nutrients"})
SEASON, MAY_14 = 46023.0, 46156.0  # 1 January and 14 May 2026

# A solid with iron, a liquid whose label gives a dilution, a solid of which a quarter of the nitrogen is slow, and a
# solid with calcium. Figures are invented.
PRODUCTS: Table = {
    "name": ("text", ["Iron sulphate", "Seaweed", "Slow urea", "Calcium nitrate"]),
    "measured_by": ("text", ["mass", "volume", "mass", "mass"]),
    "family": ("text", ["iron", "seaweed", "urea", "nitrate"]),
    "usual_carrier": ("L/ha", [400, 300]),
    "spray_mass_usual": ("g/m**2", [1, np.nan, 2, 2]),
    "spray_mass_high": ("g/m**2", [2, np.nan, 3, 3]),
    "diluted_volume_usual": ("mL/L", [np.nan, 3]),
    "diluted_volume_high": ("mL/L", [np.nan, 4]),
    "mass_content_nitrogen": ("g_N/kg", [np.nan, np.nan, 400, 150]),
    "mass_content_iron": ("g_Fe/kg", [200, np.nan, np.nan, 0]),
    "volume_content_potash": ("g_K2O/L", [np.nan, 40]),
    "slow_nitrogen": ("g_N/g", [np.nan, np.nan, 0.1]),
    "share_nitrogen": ("g_N/g", [np.nan, np.nan, 0.4, 0.15]),
    "mixing_place": ("", [3, np.nan, 2, 3]),
    "solubility_cold": ("g/L", [200, np.nan, 700, 900]),
    "solubility_mild": ("g/L", [260, np.nan, np.nan, 1200]),
    "salt_index": ("", [120, np.nan, 75, 60]),
    "dissolved_solids": ("g/L", [np.nan, 300]),
    "least_interval": ("day", [21, np.nan, 14]),
    "most_a_year": ("", [3, 0]),
    "months_suited": ("text", ["JFMA-JJASOND", "", "JFMAMJJASOND", "J"]),
    "trait_ferrous": ("text", ["Yes"]),
    "trait_sulphate": ("text", ["yes"]),
    "trait_calcium": ("text", ["", "", "", "yes"]),
}
MIX: Table = {
    "visit_date": ("date", MAY_14),
    "carrier_volume": ("L/ha", 400),
    "delivered_carrier": ("L/ha", 400),
    "carrier_aim": ("L/ha", 380),
    "volume_full": ("L", 14),
    "volume_last": ("L", 7.3),
    "full_loads": ("", 3),
    "dilution": ("", 1),
    "water_used": ("degC", 15),
    "treated_area": ("m**2", 1000),
    "limit_factor": ("", 2),
    "calibration": ("text", "known area"),
    "clean_water_full": ("L", 13),
    "clean_water_last": ("L", 7),
    "heavy_rain": ("text", ""),
    "wet_ground": ("text", "no"),
    "air_temperature": ("degC", np.nan),
    "humidity": ("", np.nan),
    "wind": ("km/h", np.nan),
    "hardness": ("meq/L", 3),
    "salts": ("g/L", 50),
    "solubility_share": ("", 0.4),
    "salt_load": ("g/m**2", 11),
    "soluble_nitrogen": ("g_N/m**2", 0.1),
}
SETTINGS: Table = {
    "season_start": ("date", SEASON),
    "cold_water": ("degC", 10),
    "mild_water": ("degC", 20),
    "dissolve_share": ("", 0.5),
    "unknown_salt_index": ("", 100),
    "salt_index_reference": ("", 100),
    "rounding_tolerance": ("", 0.05),
    "hot_air": ("degC", 25),
    "dry_air": ("", 0.4),
    "hot_air_iron": ("degC", 27),
}
SCALES: Table = {
    "fine_scale_step": ("g", 1),
    "coarse_scale_step": ("g", 10),
    "fine_scale_capacity": ("g", 500),
    "fine_jug_step": ("mL", 1),
    "coarse_jug_step": ("mL", 10),
    "fine_jug_capacity": ("mL", 100),
}
LIMITS = {
    "carrier": ("", 0.05, np.nan),
    "products": ("", 3, np.nan),
    "salts": ("g/L", 50, 100),
    "solubility": ("", 0.5, 0.8),
    "salt_load": ("g/m**2", 5, 10),
    "nitrogen": ("g_N/m**2", 1.22, 2.44),
    "iron": ("g_Fe/m**2", 0.34, 1.96),
    "wind": ("km/h", 15, 20),
    "hardness": ("meq/L", 2.5, np.nan),
}
DIARY: Table = {
    "date": ("date", [46000, 46100, 46140, 46150, MAY_14, 46152]),
    "family": ("text", ["iron", "Iron", "iron", "iron", "iron", "urea"]),
    "of_this_mix": ("text", ["yes", "yes", "yes", "", "yes", "yes"]),
    "number_this_season": ("", [9, 1, 2, 7, 8, 1]),
}


def blank_tables() -> dict[str, Table]:
    """The columns of families, and of products that no test here fills, all blank."""
    products: Table = {}
    for level in family("levels"):
        for stem, unit in (("spray_mass", "g/m**2"), ("spray_volume", "mL/m**2"), ("diluted_mass", "g/L")):
            products[f"{stem}_{level.key}"] = (unit, [])
        products[f"diluted_volume_{level.key}"] = ("mL/L", [])
    wanted: Table = {"own_rate_mass": ("g/m**2", []), "own_rate_volume": ("mL/m**2", [])}
    for nutrient in family("nutrients"):
        unit = f"g_{nutrient.says['symbol']}"
        products[f"mass_content_{nutrient.key}"] = (f"{unit}/kg", [])
        products[f"volume_content_{nutrient.key}"] = (f"{unit}/L", [])
        wanted[f"wanted_{nutrient.key}"] = (f"{unit}/m**2", [])
    products |= {f"trait_{trait.key}": ("text", []) for trait in family("traits")}
    rules: Table = {f"level_{rule.key}": ("", float(rule.says["level"])) for rule in family("trait_rules")}
    limits: Table = {f"ask_{key}": (unit, ask) for key, (unit, ask, _) in LIMITS.items()}
    limits |= {f"stop_{key}": (unit, stop) for key, (unit, _, stop) in LIMITS.items()}
    oxides: Table = {
        f"element_in_{oxide.key}": (f"g_{oxide.says['element']}/g_{oxide.says['symbol']}", 0.8)
        for oxide in family("oxides")
    }
    return {"products": products, "mix_products": wanted, "rules": rules, "limits": limits, "oxides": oxides}


def column(unit: str, figures: Any, records: int) -> Any:
    """The figures from the first record on, blank after them."""
    given = figures if isinstance(figures, list) else [figures]
    filled = blank_column(unit, records)
    filled[: len(given)] = given
    return filled


def visit(mix_products: Table, **changed: Table) -> Model:
    """A visit with these products; `changed` replaces columns of other tables."""
    filled = {"products": PRODUCTS, "mix": MIX, "settings": SETTINGS, "scales": SCALES, "diary": DIARY}
    tables = blank_tables()
    for more in (filled, {"mix_products": mix_products}, changed):
        for table, columns in more.items():
            tables[table] = tables.get(table, {}) | columns
    records = {table: RECORDS.get(table, 1) for table in tables}
    return Model(
        Inputs(
            values={
                table: {key: column(*given, records[table]) for key, given in columns.items()}
                for table, columns in tables.items()
            },
            units={table: {key: unit for key, (unit, _) in columns.items()} for table, columns in tables.items()},
            records=records,
            forms=FORMS,
        )
    )


NAMES = {"product": ("text", ["iron SULPHATE", "Seaweed", "", "Unknown", "Slow urea"])}
BLANK = np.nan


def found(model: Model, key: str, unit: str = "", table: str = "mix_products") -> Any:
    """The figures of a column, in `unit`; a list where there are several."""
    value = model.column(table, key)
    bare = value.to(unit).magnitude if hasattr(value, "units") else value
    return bare.tolist() if isinstance(bare, np.ndarray) else bare


def close(figures: list[float]) -> Any:
    return pytest.approx(figures, rel=1e-12, nan_ok=True)


@pytest.mark.parametrize(
    ("key", "unit", "figures"),
    [
        ("product_line", "", [2, 3, BLANK, BLANK, 4]),
        ("rates_given", "", [0, 0, BLANK, BLANK, 0]),
        ("usual_carrier", "L/ha", [400, 300, BLANK, BLANK, BLANK]),
        ("rate_mass", "g/m**2", [1, BLANK, BLANK, BLANK, 2]),
        # 400 L/ha are 0.04 L/m²: 3 mL/L of it are 0.12 mL/m², and 1 g/m² is 25 g/L.
        ("rate_volume", "mL/m**2", [BLANK, 0.12, BLANK, BLANK, BLANK]),
        ("label_volume_high", "mL/m**2", [BLANK, 0.16, BLANK, BLANK, BLANK]),
        ("in_water_mass", "g/L", [25, BLANK, BLANK, BLANK, 50]),
        ("exact_mass_full", "g", [350, BLANK, BLANK, BLANK, 700]),
        ("exact_mass_last", "g", [182.5, BLANK, BLANK, BLANK, 365]),
        ("scale_step_full", "g", [1, BLANK, BLANK, BLANK, 10]),
        ("weigh_full", "g", [350, BLANK, BLANK, BLANK, 700]),
        ("weigh_last", "g", [183, BLANK, BLANK, BLANK, 365]),
        ("pour_full", "mL", [BLANK, 42, BLANK, BLANK, BLANK]),
        ("pour_last", "mL", [BLANK, 22, BLANK, BLANK, BLANK]),
        ("mass_total", "g", [1233, BLANK, BLANK, BLANK, 2465]),
        ("volume_total", "mL", [BLANK, 148, BLANK, BLANK, BLANK]),
        # 1233 for 1232.5, and 148 for 3 × 42 + 21.9.
        ("rounding_error", "", [0.5 / 1232.5, 0.1 / 147.9, BLANK, BLANK, 0]),
        # The largest place of the catalogue is 3.
        ("mixing_place", "", [3, 4, BLANK, BLANK, 2]),
        ("pouring_order", "", [2, 3, BLANK, BLANK, 1]),
        # Half-way between 200 and 260; of the slow urea only the colder is known.
        ("solubility", "g/L", [230, BLANK, BLANK, BLANK, 700]),
        ("bucket", "L", [350 / 115, BLANK, BLANK, BLANK, 2]),
        ("solubility_share", "", [25 / 230, BLANK, BLANK, BLANK, 50 / 700]),
        ("salts", "g/L", [25, 0.9, BLANK, BLANK, 50]),
        ("salt_index", "", [120, 100, BLANK, BLANK, 75]),
        ("salt_load", "g/m**2", [1.2, 0.036, BLANK, BLANK, 1.5]),
        ("delivered_iron", "g_Fe/m**2", [0.2, 0, BLANK, BLANK, 0]),
        ("delivered_potash", "g_K2O/m**2", [0, 0.0048, BLANK, BLANK, 0]),
        # 0.8 g N/m², of which a quarter is slow.
        ("soluble_nitrogen", "g_N/m**2", [0, 0, BLANK, BLANK, 0.6]),
        ("trait_ferrous", "", [1, 0, BLANK, BLANK, 0]),
        # The line of another lawn, the day itself and the season before do not count for the number.
        ("last_date", "", [46140, BLANK, BLANK, BLANK, 46152]),
        ("days_since", "day", [16, BLANK, BLANK, BLANK, 4]),
        ("number_this_season", "", [3, 1, BLANK, BLANK, 2]),
        ("level_rate", "", [0, 0, BLANK, BLANK, 0]),
        ("level_month", "", [1, 0, BLANK, BLANK, 0]),
        ("level_interval", "", [1, 0, BLANK, BLANK, 1]),
        ("level_number", "", [0, 0, BLANK, BLANK, 0]),
        ("level", "", [1, 0, BLANK, 2, 1]),
    ],
)
def test_usual_rates(key: str, unit: str, figures: list[float]) -> None:
    assert found(visit(NAMES), key, unit) == close(figures)


@pytest.mark.parametrize(
    ("key", "texts"),
    [
        ("measured_by", ["mass", "volume", "", "", "mass"]),
        ("rate_from", ["usual", "usual", "", "", "usual"]),
        ("family", ["iron", "seaweed", "", "", "urea"]),
        ("product_verdict", ["Ask first", "Go", "", "Do not mix", "Ask first"]),
        ("product_reason", ["out of its months; too soon;", "", "", "unknown product;", "too soon;"]),
    ],
)
def test_words(key: str, texts: list[str]) -> None:
    assert found(visit(NAMES), key) == texts


def test_a_rate_is_usual_or_own_or_for_a_wanted_nutrient() -> None:
    model = visit(
        {
            "product": ("text", ["Iron sulphate", "Seaweed", "Slow urea", "Iron sulphate", "Iron sulphate"]),
            "own_rate_mass": ("g/m**2", [1.5, 0.3, BLANK, 1, BLANK]),
            "wanted_nitrogen": ("g_N/m**2", [BLANK, BLANK, 0.5, BLANK, 0.1]),
            "wanted_iron": ("g_Fe/m**2", [BLANK, BLANK, BLANK, 0.3]),
        }
    )
    assert found(model, "rate_from") == ["own", "own", "wanted", "two rates", "wanted"]
    # A liquid's own rate by mass leaves it without any; two rates leave that for the nutrient; iron sulphate has no N.
    assert found(model, "rate_mass", "g/m**2") == close([1.5, BLANK, 1.25, 1.5, BLANK])
    assert found(model, "rate_volume", "mL/m**2") == close([BLANK, 0, BLANK, BLANK, BLANK])
    assert found(model, "in_water_volume", "mL/L") == close([BLANK] * 5)
    assert found(model, "level_rate") == [0, 2, 0, 2, 2]
    assert found(model, "product_reason")[3].startswith("two rates given; out of its months;")


def test_nothing_holds_a_nutrient_of_which_it_has_none() -> None:
    model = visit({"product": ("text", ["Calcium nitrate"]), "wanted_iron": ("g_Fe/m**2", [0.1])})
    assert found(model, "wanted_mass_iron", "g/m**2") == close([BLANK] * 5)


def test_a_dilution_has_no_rate_without_a_carrier_volume() -> None:
    model = visit(NAMES, mix={"carrier_volume": ("L/ha", BLANK)})
    assert found(model, "label_volume_usual", "mL/m**2") == close([BLANK] * 5)
    assert found(model, "label_mass_usual", "g/m**2") == close([1, BLANK, BLANK, BLANK, 2])


def weighed(rate: float, volume: float, step: float) -> float:
    model = visit(
        {"product": ("text", ["Iron sulphate"]), "own_rate_mass": ("g/m**2", [rate])},
        mix={"volume_full": ("L", volume)},
        scales={"fine_scale_step": ("g", step)},
    )
    return float(found(model, "weigh_full", "g")[0])


def test_rounding_goes_down_where_the_nearest_step_exceeds_the_label() -> None:
    # The label's high rate is 2 g/m², 50 g/L. 4.6 L: 230 g, nearest step of 50 is 250, which would be 54 g/L.
    assert weighed(2, 4.6, 50) == 200
    # 4.4 L: 220 g, nearest 200.
    assert weighed(2, 4.4, 50) == 200
    # 1.9 g/m²: 4.6 L take 218.5 g; nearest 200. 4.8 L take 228 g; 250 g would be 52 g/L.
    assert weighed(1.9, 4.8, 50) == 200
    # 6.1 L take 289.75 g: the nearest is 300, which is 49 g/L and allowed.
    assert weighed(1.9, 6.1, 50) == 300


def test_rounding_down_keeps_what_is_on_a_step() -> None:
    # 3 g/m² are over the label's 2: 4 L take 300 g, six steps of 50; 4.5 L take 337.5 g, nearest and below 350.
    assert weighed(3, 4, 50) == 300
    assert weighed(3, 4.5, 50) == 300


def test_without_a_step_nothing_can_be_measured() -> None:
    model = visit(NAMES, scales={"fine_scale_step": ("g", BLANK)})
    assert np.isnan(found(model, "weigh_full", "g")[0])
    assert found(model, "level_small") == close([2, 0, BLANK, BLANK, 2])


def test_a_half_step_goes_up() -> None:
    assert weighed(1, 0.1, 1) == 3
    assert weighed(1, 0.7, 5) == 20  # 17.5 g
    assert weighed(1, 0.09999999999, 1) == 3  # 2.49999999975 g, a half to 9 decimals


def test_what_rounds_to_nothing_cannot_be_measured() -> None:
    model = visit({"product": ("text", ["Iron sulphate"]), "own_rate_mass": ("g/m**2", [0.001])})
    # 0.35 and 0.1825 g on a scale that shows grams.
    assert found(model, "weigh_full", "g")[0] == 0
    assert found(model, "level_small")[0] == 2
    assert found(model, "rounding_error")[0] == -1
    assert found(model, "product_reason")[0].endswith(
        "too little to measure, make a stock solution; measuring is too coarse;"
    )


def test_each_load_must_be_measurable() -> None:
    part = visit(NAMES, mix={"volume_last": ("L", 0.01)})
    # 0.25 g; and 0.5 g, where a whole gram would be 4 g/m² at a label's 3.
    assert found(part, "weigh_last", "g") == close([0, BLANK, BLANK, BLANK, 0])
    assert found(part, "level_small") == close([2, 2, BLANK, BLANK, 2])
    liquid = visit({"product": ("text", ["Seaweed"]), "own_rate_volume": ("mL/m**2", [0.001])})
    assert found(liquid, "pour_full", "mL")[0] == 0
    whole = visit(
        {"product": ("text", ["Seaweed"]), "own_rate_volume": ("mL/m**2", [0.001])}, mix={"volume_last": ("L", BLANK)}
    )
    assert found(whole, "level_small")[0] == 2
    solid = visit(
        {"product": ("text", ["Slow urea"]), "own_rate_mass": ("g/m**2", [0.001])}, mix={"volume_last": ("L", BLANK)}
    )
    assert found(solid, "level_small")[0] == 2


def test_a_scale_holds_what_it_is_made_for() -> None:
    for capacity, step in ((350, 1), (349, 10)):
        model = visit(NAMES, scales={"fine_scale_capacity": ("g", capacity)})
        assert found(model, "scale_step_full", "g")[0] == step


def test_a_jar_holds_the_concentrate() -> None:
    model = visit(NAMES, mix={"dilution": ("", 20)})
    assert found(model, "solubility_share")[0] == pytest.approx(25 * 20 / 230)
    assert found(model, "salts", "g/L")[0] == 25


def test_an_interval_that_is_just_kept_is_kept() -> None:
    for interval, level in ((16, 0), (17, 1)):
        model = visit(NAMES, products={"least_interval": ("day", [interval])})
        assert found(model, "level_interval")[0] == level


def test_a_rate_is_in_the_unit_of_own_rates() -> None:
    model = visit(NAMES | {"own_rate_mass": ("oz/thousand_square_feet", [0.25])})
    rate = model.column("mix_products", "rate_mass")
    assert str(rate.units) == "ounce / thousand_square_feet"
    # A quarter of an ounce on 1000 ft² (7.0874 g on 92.903 m²), and 2 g/m².
    assert rate.to("g/m**2").magnitude[[0, 4]] == pytest.approx([0.0762875, 2], rel=1e-5)


def test_without_a_part_load_the_last_counts_nothing() -> None:
    model = visit(NAMES, mix={"volume_last": ("L", BLANK)})
    assert found(model, "mass_total", "g") == close([1050, BLANK, BLANK, BLANK, 2100])
    assert found(model, "rounding_error") == close([0, 0, BLANK, BLANK, 0])
    assert found(model, "level_small") == close([0, 0, BLANK, BLANK, 0])


@pytest.mark.parametrize(("water", "dissolves"), [(10, 200), (5, 170), (20, 260), (30, 260), (-40, 0)])
def test_solubility_goes_on_below_the_colder_but_not_above_the_milder(water: float, dissolves: float) -> None:
    model = visit(NAMES, mix={"water_used": ("degC", water)})
    assert found(model, "solubility", "g/L")[0] == pytest.approx(dissolves, abs=1e-9)


def test_a_temperature_may_be_on_another_scale() -> None:
    model = visit(NAMES, mix={"water_used": ("degF", 59)})
    assert found(model, "solubility", "g/L")[0] == pytest.approx(230, rel=1e-12)


def test_a_solubility_of_which_the_colder_is_not_known_is_not_known() -> None:
    model = visit(NAMES, products={"solubility_cold": ("g/L", [])})
    assert np.isnan(found(model, "solubility", "g/L")[0])


def test_rules_are_between_two_products() -> None:
    alone = visit(NAMES, products={"trait_calcium": ("text", ["yes"])})
    assert found(alone, "rule_calcium_with_sulphate") == close([0, 0, BLANK, BLANK, 0])
    together = visit({"product": ("text", ["Calcium nitrate", "", "Iron sulphate", "Seaweed"])})
    assert found(together, "rule_calcium_with_sulphate") == close([2, BLANK, 2, 0, BLANK])
    assert found(together, "level_tank") == close([2, BLANK, 2, 0, BLANK])
    assert found(together, "product_reason")[0] == "must not share this tank;"
    softer = visit(
        {"product": ("text", ["Calcium nitrate", "Iron sulphate"])},
        rules={"level_calcium_with_sulphate": ("", 1)},
    )
    assert found(softer, "product_reason")[0] == "jar test first;"
    assert found(softer, "tank_words_calcium_with_sulphate", table="mix_checks") == (
        "calcium with sulphate, jar test first, gypsum falls out; "
    )


def test_a_rate_at_the_label_is_not_over_it() -> None:
    for rate, level in ((2, 0), (2 + 4e-10, 0), (2.001, 2)):
        model = visit({"product": ("text", ["Iron sulphate"]), "own_rate_mass": ("g/m**2", [rate])})
        assert found(model, "level_label")[0] == level


def test_the_number_a_year_counts_this_visit() -> None:
    model = visit(NAMES, products={"most_a_year": ("", [2, 0])})
    assert found(model, "level_number") == close([2, 0, BLANK, BLANK, 0])
    assert "number reached;" in found(model, "product_reason")[0]


def test_nutrients_of_the_visit() -> None:
    model = visit(NAMES)
    assert found(model, "rate_iron", "g_Fe/m**2", "mix_nutrients") == pytest.approx(0.2)
    assert found(model, "hectare_nitrogen", "kg_N/ha", "mix_nutrients") == pytest.approx(8)
    assert found(model, "element_potash", "g_K/m**2", "mix_nutrients") == pytest.approx(0.8 * 0.0048)
    assert found(model, "grams_iron", "g_Fe", "mix_nutrients") == pytest.approx(200)
    assert found(model, "rate_phosphate", "g_P2O5/m**2", "mix_nutrients") == 0


def check(key: str, unit: str = "", products: Table = NAMES, **mix: tuple[str, Any]) -> Any:
    """A figure of the checks of a visit whose mix is changed."""
    return found(visit(products, mix=mix), key, unit, "mix_checks")


@pytest.mark.parametrize(
    ("risk", "level"),
    [
        ("carrier", 1),  # 400 against 380 is 5.3 % over; there is no second limit
        ("products", 0),  # three, for the unknown one is not counted
        ("salts", 0),  # 50 g/L at a first limit of 50
        ("solubility", 0),
        ("salt_load", 1),  # 11 g/m² against 5 and 10, doubled
        ("nitrogen", 0),
        ("iron", 0),
        ("wind", BLANK),
        ("hardness", BLANK),  # neither calcium nor phosphate
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


def test_hardness_matters_with_calcium_or_phosphate() -> None:
    calcium: Table = {"product": ("text", ["Calcium nitrate"])}
    assert check("found_hardness", "meq/L", calcium) == 3
    assert check("words_hardness", products=calcium) == "hard water may throw down this feed: jar test; "
    model = visit(NAMES, products={"trait_phosphate": ("text", ["", "yes"])})
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


def test_iron_in_heat() -> None:
    urea: Table = {"product": ("text", ["Slow urea"])}
    assert check("level_iron_heat", air_temperature=("degC", 27.5)) == 1
    assert check("level_iron_heat", air_temperature=("degC", 27)) == 0
    assert check("level_iron_heat", products=urea, air_temperature=("degC", 27.5)) == 0


def test_no_load_may_be_overfull() -> None:
    assert [check("level_water", clean_water_full=("L", water)) for water in (0, -0.1)] == [0, 2]
    assert check("level_water", clean_water_last=("L", BLANK)) == 0


def test_the_worst_may_be_a_risk_or_a_tank_rule() -> None:
    calm: Table = {"carrier_aim": ("L/ha", 400), "salt_load": ("g/m**2", 1), "hardness": ("meq/L", BLANK)}

    def worst(names: list[str], **mix: tuple[str, Any]) -> Any:
        return found(visit({"product": ("text", names)}, mix=calm | mix), "worst", table="mix_checks")

    assert worst(["Iron sulphate"]) == 0
    assert worst(["Iron sulphate"], wind=("km/h", 16)) == 1
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
            "air_temperature": ("degC", 30),
            "humidity": ("", 0.2),
        },
    )
    assert found(model, "worst", table="mix_checks") == 2
    assert found(model, "words", table="mix_checks") == (
        "wind; the sprayer was never calibrated; no room for water, see the least carrier volume; hot and dry air; "
        "iron in heat; heavy rain is forecast; the ground is frozen or waterlogged; "
        "calcium with sulphate must not share a tank, gypsum falls out; "
    )


def test_an_empty_mix_has_no_levels_and_no_words() -> None:
    empty = visit(
        {"product": ("text", [])}, mix={key: (unit, BLANK) for key, (unit, _) in MIX.items() if unit != "text"}
    )
    assert found(empty, "worst", table="mix_checks") == 0
    assert found(empty, "words", table="mix_checks") == ""
    assert found(empty, "found_products", table="mix_checks") == 0
    assert found(empty, "level") == close([BLANK] * 5)
    assert found(empty, "product_reason") == [""] * 5


def test_every_figure_has_its_record_blank_where_there_is_no_product() -> None:
    """A first and a last record that are blank leave the ones between as they are."""
    model = visit({"product": ("text", ["", "Seaweed", "Iron sulphate", ""])})
    assert found(model, "pouring_order") == close([BLANK, 2, 1, BLANK, BLANK])
    assert found(model, "level_month") == close([BLANK, 0, 1, BLANK, BLANK])
