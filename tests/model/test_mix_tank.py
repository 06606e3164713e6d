"""What the products of a visit do in the tank and on the grass, against figures worked out by hand."""

from __future__ import annotations

import numpy as np
import pytest

from support.small_visit import IRON, NAMES, close, found, visit
from support.tables import NO as BLANK


@pytest.mark.parametrize(
    ("key", "unit", "figures"),
    [
        # The largest place of the catalogue is 3.
        ("mixing_place", "", [3, 4, BLANK, BLANK, 2]),
        ("pouring_order", "", [2, 3, BLANK, BLANK, 1]),
        # Half-way between 200 and 260; of the slow urea only the colder is known.
        ("solubility", "g/L", [230, BLANK, BLANK, BLANK, 700]),
        # 350 g in 115 g/L are 3.04 L, 700 g in 350 g/L just 2; for the part load 1.59 and 1.04.
        ("bucket_full", "L", [3.1, BLANK, BLANK, BLANK, 2]),
        ("bucket_last", "L", [1.6, BLANK, BLANK, BLANK, 1.1]),
        ("solubility_share", "", [25 / 230, BLANK, BLANK, BLANK, 50 / 700]),
        ("salts", "g/L", [25, 0.9, BLANK, BLANK, 50]),
        ("salt_index", "", [120, 100, BLANK, BLANK, 75]),
        ("salt_load", "g/m**2", [1.2, 0.036, BLANK, BLANK, 1.5]),
        ("delivered_iron", "g_Fe/m**2", [0.2, 0, BLANK, BLANK, 0]),
        ("delivered_potash", "g_K2O/m**2", [0, 0.0048, BLANK, BLANK, 0]),
        # 0.8 g N/m², of which a quarter is slow.
        ("soluble_nitrogen", "g_N/m**2", [0, 0, BLANK, BLANK, 0.6]),
        ("trait_ferrous", "", [1, 0, BLANK, BLANK, 0]),
    ],
)
def test_in_the_tank_and_on_the_grass(key: str, unit: str, figures: list[float]) -> None:
    assert found(visit(NAMES), key, unit) == close(figures)


@pytest.mark.parametrize(
    ("weighs", "litres"),
    [(345, 3.0), (345 + 1e-9, 3.0), (346, 3.1), (6, 0.1), (5.75, 0.1), (5.74, 0.05), (1, 0.01), (0, 0)],
)
def test_a_bucket_is_rounded_up_to_a_tenth(weighs: float, litres: float) -> None:
    """115 g dissolve in a litre at the half of 230 g/L that the settings allow; what is a tenth but for noise stays.

    Where a tenth would be more than twice as much it is a hundredth: 5.75 g need 0.05 L.
    """
    model = visit({**IRON, "weigh_full": ("g", [weighs])})
    assert found(model, "bucket_full", "L")[0] == pytest.approx(litres, abs=1e-12)


def test_a_bucket_is_rounded_in_the_unit_of_the_tank() -> None:
    """3.0435 L are 0.804 US gallons: 0.9 of them."""
    model = visit(NAMES, mix={"fill_full": ("us_gallon", 3.5)})
    assert found(model, "bucket_full", "us_gallon")[0] == pytest.approx(0.9)


def test_there_is_no_bucket_for_what_is_not_known_to_dissolve() -> None:
    unknown = visit(NAMES, products={"solubility_cold": ("g/L", []), "solubility_mild": ("g/L", [])})
    assert found(unknown, "bucket_full", "L") == close([BLANK] * 5)
    none_allowed = visit(NAMES, settings={"dissolve_share": ("", 0)})
    assert found(none_allowed, "bucket_full", "L") == close([BLANK] * 5)


def test_overlap_counts_in_what_comes_on_the_grass() -> None:
    """A tenth more of everything on the grass; in the water nothing changes."""
    model = visit(NAMES, mix={"overlap": ("", 0.1)})
    assert found(model, "salt_load", "g/m**2") == close([1.32, 0.0396, BLANK, BLANK, 1.65])
    assert found(model, "delivered_iron", "g_Fe/m**2") == close([0.22, 0, BLANK, BLANK, 0])
    assert found(model, "delivered_potash", "g_K2O/m**2") == close([0, 0.00528, BLANK, BLANK, 0])
    assert found(model, "soluble_nitrogen", "g_N/m**2") == close([0, 0, BLANK, BLANK, 0.66])
    assert found(model, "rate_iron", "g_Fe/m**2", "mix_nutrients") == pytest.approx(0.22)
    assert found(model, "grams_nitrogen", "g_N", "mix_nutrients") == pytest.approx(880)
    assert found(model, "salts", "g/L") == close([25, 0.9, BLANK, BLANK, 50])
    assert found(model, "solubility_share") == close([25 / 230, BLANK, BLANK, BLANK, 50 / 700])


def test_a_jar_holds_the_concentrate() -> None:
    model = visit(NAMES, mix={"dilution": ("", 20)})
    assert found(model, "solubility_share")[0] == pytest.approx(25 * 20 / 230)
    assert found(model, "salts", "g/L")[0] == 25


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
    alone = visit(NAMES, products={"property_calcium": ("text", ["yes"])})
    assert found(alone, "rule_calcium_with_sulphate") == close([0, 0, BLANK, BLANK, 0])
    together = visit({"product": ("text", ["Calcium nitrate", "", "Iron sulphate", "Seaweed"])})
    assert found(together, "rule_calcium_with_sulphate") == close([2, BLANK, 2, 0, BLANK])
    assert found(together, "level_tank") == close([2, BLANK, 2, 0, BLANK])
    assert found(together, "product_reason")[0] == "must not share this tank"
    softer = visit(
        {"product": ("text", ["Calcium nitrate", "Iron sulphate"])},
        rules={"level_calcium_with_sulphate": ("", 1)},
    )
    assert found(softer, "product_reason")[0] == "jar test first"
    assert found(softer, "tank_words_calcium_with_sulphate", table="mix_checks") == (
        "; calcium with sulphate, jar test first, gypsum falls out"
    )


def test_nutrients_of_the_visit() -> None:
    model = visit(NAMES)
    assert found(model, "rate_iron", "g_Fe/m**2", "mix_nutrients") == pytest.approx(0.2)
    assert found(model, "hectare_nitrogen", "kg_N/ha", "mix_nutrients") == pytest.approx(8)
    assert found(model, "element_potash", "g_K/m**2", "mix_nutrients") == pytest.approx(0.8 * 0.0048)
    assert found(model, "grams_iron", "g_Fe", "mix_nutrients") == pytest.approx(200)
    assert found(model, "rate_phosphate", "g_P2O5/m**2", "mix_nutrients") == 0
