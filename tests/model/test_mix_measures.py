"""What is weighed and poured for the loads of a visit, against figures worked out by hand."""

from __future__ import annotations

import numpy as np
import pytest

from support.small_visit import NAMES, close, found, visit
from support.tables import NO as BLANK


@pytest.mark.parametrize(
    ("key", "unit", "figures"),
    [
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
    ],
)
def test_what_is_measured(key: str, unit: str, figures: list[float]) -> None:
    assert found(visit(NAMES), key, unit) == close(figures)


def weighed(rate: float, volume: float, step: float, overlap: float = BLANK) -> float:
    model = visit(
        {"product": ("text", ["Iron sulphate"]), "own_rate_mass": ("g/m**2", [rate])},
        mix={"volume_full": ("L", volume), "overlap": ("", overlap)},
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


@pytest.mark.parametrize(("overlap", "weighs"), [(BLANK, 200), (0.2, 200), (0.2 + 1e-10, 200), (0.25, 150)])
def test_rounding_goes_down_where_the_nearest_step_is_too_much_with_the_overlap(overlap: float, weighs: float) -> None:
    """4.8 L are for 120 m², and 1.6 g/m² 192 g. 200 g are 1.667 g/m²: a fifth more is the label's 2, a quarter over."""
    assert weighed(1.6, 4.8, 50, overlap) == weighs


@pytest.mark.parametrize(("overlap", "pours"), [(BLANK, 5), (0.2, 5), (0.25, 0)])
def test_pouring_counts_the_overlap_too(overlap: float, pours: float) -> None:
    """1.5 L are for 37.5 m², and 0.12 mL/m² 4.5 mL. 5 mL are 0.133 mL/m²: a fifth more is the label's 0.16."""
    model = visit(
        {"product": ("text", ["Seaweed"])},
        mix={"volume_full": ("L", 1.5), "overlap": ("", overlap)},
        scales={"fine_jug_step": ("mL", 5)},
    )
    assert found(model, "pour_full", "mL")[0] == pours


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
        "too little to measure, make a stock solution; measuring is too coarse"
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


def test_without_a_part_load_the_last_counts_nothing() -> None:
    model = visit(NAMES, mix={"volume_last": ("L", BLANK)})
    assert found(model, "mass_total", "g") == close([1050, BLANK, BLANK, BLANK, 2100])
    assert found(model, "rounding_error") == close([0, 0, BLANK, BLANK, 0])
    assert found(model, "level_small") == close([0, 0, BLANK, BLANK, 0])


@pytest.mark.parametrize(("dilution", "times"), [(1, 1), (20, 20)])
def test_a_jar_test_is_the_tank_in_small(dilution: float, times: float) -> None:
    """Of 25 and 50 g/L, and of 3 mL/L, in half a litre; in the jar of a hose-end sprayer is what the hose thins."""
    visited = visit(NAMES, settings={"jar_volume": ("mL", 500)}, mix={"dilution": ("", dilution)})
    assert found(visited, "jar_mass", "g") == close([12.5 * times, BLANK, BLANK, BLANK, 25 * times])
    assert found(visited, "jar_liquid", "mL") == close([BLANK, 1.5 * times, BLANK, BLANK, BLANK])
    unset = visit(NAMES, settings={"jar_volume": ("mL", BLANK)})
    assert found(unset, "jar_mass", "g") == close([BLANK] * 5)
