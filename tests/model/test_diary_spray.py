"""The sprays of a lawn and day as one tank, worked out by hand: strength, and what they brought."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
import pytest

from support.small_diary import NO, SPRAYED_ON, column_of, flags_of, line, on, planner, spray
from wbgen.units.quantity import FLOAT


def close(figures: Sequence[float]) -> Any:
    return pytest.approx(list(figures), rel=1e-12, nan_ok=True)


def test_a_visit_is_one_tank() -> None:
    """100 g and 500 mL of 200 g/L in 10 L; the other lawn and day have no part in it, nor the 900 g that lay dry."""
    lines = [
        line(SPRAYED_ON, "Front", "Urea", "dry", weighed=900.0),
        spray(weighed=100.0, water=10.0, treated_area=50.0),
        spray("Iron brew", poured=500.0, treated_area=50.0),
        spray(lawn="Back", weighed=300.0, water=20.0),
        spray(day=on(4, 2), weighed=10.0),
    ]
    model = planner(lines)
    assert column_of(model, "tank_water", "L") == close([NO, 10, 10, 20, NO])
    assert column_of(model, "own_salts", "g/L") == close([NO, 10, 10, 15, NO])
    assert column_of(model, "visit_salts", "g/L") == close([NO, 10, 20, 15, NO])
    assert column_of(model, "own_salt_load", "g/m**2") == close([NO, 2, 2, 1.5, 0.1])
    assert column_of(model, "visit_salt_load", "g/m**2") == close([NO, 2, 4, 1.5, 0.1])
    assert column_of(model, "visit_iron", "g_Fe/m**2") == close([0, 0.4, 0.4 + 0.6, 0.3, 0.02])
    assert column_of(model, "visit_nitrogen", "g_N/m**2") == close([4.14, 0, 0.2, 0, 0])


def test_what_was_left_over_was_as_strong_and_is_not_on_the_grass() -> None:
    model = planner([spray(weighed=100.0, water=10.0, left_over=2.0)])
    assert column_of(model, "visit_salts", "g/L") == close([10])
    assert column_of(model, "visit_salt_load", "g/m**2") == close([0.8])
    assert column_of(model, "visit_iron", "g_Fe/m**2") == close([0.16])


def test_more_left_over_than_made_brought_nothing() -> None:
    lines = [spray("Iron brew", poured=100.0, water=10.0, left_over=12.0)]
    model = planner(lines)
    for key, unit in (("visit_salt_load", "g/m**2"), ("visit_nitrogen", "g_N/m**2"), ("visit_iron", "g_Fe/m**2")):
        assert column_of(model, key, unit) == [0]
    least = FLOAT.Quantity(np.array([NO, 400.0, NO]), "L/ha")
    assert "less water than the least" in flags_of(lines[0], products__least_carrier=least)[0]


def test_loads_of_one_product_are_not_mixed_with_one_another() -> None:
    """A second load of 10 g/L is as strong as it is; one that was spread dry, or without its water, is no load."""
    loads = [spray(weighed=300.0, water=10.0), spray(weighed=100.0, water=10.0)]
    assert column_of(planner(loads), "visit_salts", "g/L") == close([30, 10])
    assert column_of(planner(loads[::-1]), "visit_salts", "g/L") == close([10, 30])
    other = line(SPRAYED_ON, "Front", "Iron salt", "dry", weighed=100.0)
    assert column_of(planner([loads[0], other]), "visit_salts", "g/L") == close([30, NO])


def test_a_liquid_that_was_weighed_and_a_solid_that_was_poured_are_no_salt() -> None:
    lines = [spray("Iron brew", weighed=500.0, water=10.0), spray(poured=500.0, water=10.0)]
    assert column_of(planner(lines), "own_salts", "g/L") == close([0, 0])
    assert column_of(planner(lines), "own_salt_load", "g/m**2") == close([0, 0])


def test_an_unknown_salt_index_counts_as_the_setting_and_solids_that_are_not_counted_as_none() -> None:
    lines = [spray(weighed=100.0), spray("Urea", weighed=100.0), spray("Iron brew", poured=500.0, water=10.0)]
    some: dict[str, Any] = {"settings__unknown_salt_index": 80.0, "settings__salt_index_reference": 50.0,
                            "products__solids_counted": FLOAT.Quantity(np.array([NO] * 3), "g/L")}  # fmt: skip
    assert column_of(planner(lines, **some), "own_salt_load", "g/m**2") == close([1.6, 1.5, 0])
    assert column_of(planner(lines, **some), "own_salts", "g/L") == close([NO, NO, 0])
    for blank in (NO, 0.0):
        model = planner(lines, settings__salt_index_reference=blank)
        assert column_of(model, "own_salt_load", "g/m**2") == close([NO] * 3)
    unknown = planner(lines, settings__unknown_salt_index=NO)
    assert column_of(unknown, "own_salt_load", "g/m**2") == close([0, 0.75, 0])


def test_without_water_or_area_nothing_is_said_of_what_takes_them() -> None:
    lines = [spray(weighed=9000.0), spray(weighed=9000.0, day=on(4, 2), water=0.0, treated_area=0.0)]
    model = planner(lines)
    assert column_of(model, "visit_salts", "g/L") == close([NO, NO])
    assert column_of(model, "visit_iron", "g_Fe/m**2") == close([18, 0])
    assert column_of(model, "visit_nitrogen", "g_N/m**2") == close([0, 0])
    assert column_of(model, "visit_salt_load", "g/m**2") == close([90, NO])
