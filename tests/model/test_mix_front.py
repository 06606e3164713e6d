"""What the sheet Mix answers, against figures and words worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_visit import NAMES, Columns, found, visit
from support.tables import NO, is_close, planner

MADE: dict[str, tuple[str, Any]] = {
    "loads": ("", 2.0), "full_loads": ("", 1.0), "part_load": ("text", "yes"), "treated_area": ("m**2", 390.0),
    "spray_volume": ("L", 23.4), "fill_full": ("L", 14.0), "fill_last": ("L", 9.4), "remainder": ("L", 0.0),
    "first_fill_full": ("L", 7.0),
}  # fmt: skip


def answer(key: str, **changed: tuple[str, Any]) -> str:
    found = planner({"mix": MADE | changed, "mix_answers": {}}, {}).column("mix_answers", key)
    return str(found)


def test_how_much_is_mixed_is_said_in_a_line() -> None:
    assert answer("to_mix") == "390 m², 23.4 L, 1 full to 14 L, then the last part tank to 9.4 L"
    assert answer("to_mix", part_load=("text", "no")) == "390 m², 23.4 L, 2 equal tank fills, each to 14 L"
    one = answer("to_mix", part_load=("text", "no"), loads=("", 1.0))
    assert one == "390 m², 23.4 L, one tank fill, to 14 L"
    assert answer("into_tank").startswith("7 L, clean water; then ")
    assert [answer(key, loads=("", NO)) for key in ("to_mix", "into_tank")] == ["", ""]


def into_tank(key: str, unit: str = "", *, steps: float = 0.0) -> Any:
    tables: dict[str, Columns] = {
        "into_tank": {"line": ("", [1.0, 2.0, 3.0])},
        "mix_water": {"steps_full": ("", steps), "weigh_full": ("g", 7.0), "weigh_last": ("g", 3.0)},
        "mix_products": {
            "product": ("text", ["Urea", "", "Seaweed"]), "pouring_order": ("", [2.0, NO, 1.0]),
            "measured_by": ("text", ["mass", "", "volume"]), "rate_mass": ("g/m**2", [2.5]),
            "rate_volume": ("mL/m**2", [NO, NO, 1.6]), "label_mass_low": ("g/m**2", [1.5]),
            "label_volume_low": ("mL/m**2", []), "weigh_full": ("g", [300.0]), "weigh_last": ("g", [150.0]),
            "pour_full": ("mL", [NO, NO, 190.0]), "pour_last": ("mL", []),
        },
        "ones": {"one_mass": ("g", 1.0), "one_volume": ("mL", 1.0)},
    }  # fmt: skip
    return found(planner(tables, {"into_tank": 3, "mix_products": 3}), key, unit, "into_tank")


def test_what_goes_into_the_tank_stands_in_its_order() -> None:
    assert into_tank("what") == ["Seaweed", "Urea", ""]
    assert is_close(into_tank("rate", "1/m**2"), [1.6, 2.5, NO])
    assert into_tank("measured_in") == ["mL", "g", ""]
    assert is_close(into_tank("rate_low", "1/m**2"), [NO, 1.5, NO])
    assert is_close(into_tank("weigh_full", "g"), [NO, 300, NO])
    assert is_close(into_tank("pour_full", "mL"), [190, NO, NO])


def test_acid_for_the_water_goes_in_before_all_products() -> None:
    assert into_tank("what", steps=1.0) == ["Citric acid (water)", "Seaweed", "Urea"]
    assert is_close(into_tank("weigh_full", "g", steps=1.0), [7, NO, 300])
    assert is_close(into_tank("weigh_last", "g", steps=1.0), [3, NO, 150])
    assert is_close(into_tank("rate", "1/m**2", steps=1.0), [NO, 1.6, 2.5])
    assert into_tank("measured_in", steps=1.0) == ["g", "mL", "g"]


@pytest.mark.parametrize(
    ("salts", "bar", "beyond"), [(25.0, 0.5, 0), (50.0, 1, 0), (75.0, 1, 0.5), (200.0, 1, 1), (NO, NO, NO)]
)
def test_bars_go_to_the_caution_and_on_to_the_maximum(salts: float, bar: float, beyond: float) -> None:
    """Salts ask above 50 g/L and stop above 100."""
    model = visit(NAMES, mix={"salts": ("g/L", salts)}, mix_limits={})
    assert is_close(found(model, "bar_salts", table="mix_limits"), bar)
    assert is_close(found(model, "beyond_salts", table="mix_limits"), beyond)


@pytest.mark.parametrize(("height", "ask", "stop"), [("forecast at 10 m", 15.0, 20.0), ("at spray height", 10.0, 14.0)])
def test_wind_is_held_to_the_limits_of_its_height(height: str, ask: float, stop: float) -> None:
    model = visit(NAMES, mix={"wind": ("km/h", 12.0), "wind_height": ("text", height)}, mix_limits={})
    assert is_close(found(model, "ask_wind", "km/h", "mix_limits"), ask)
    assert is_close(found(model, "stop_wind", "km/h", "mix_limits"), stop)
    assert is_close(found(model, "bar_wind", table="mix_limits"), min(1.0, 12 / ask))


@pytest.mark.parametrize(("iron", "ask", "bar"), [(0.0, 32.0, 22 / 27), (0.1, 27.0, 1.0)])
def test_with_iron_air_asks_earlier(iron: float, ask: float, bar: float) -> None:
    """The bar begins at 5 °C, where it is too cold to spray; air has 27 °C."""
    air: Columns = {"air_temperature": ("degC", 27.0)}
    model = visit(NAMES, mix_limits={}, mix=air, mix_nutrients={"rate_iron": ("g_Fe/m**2", iron)})
    assert is_close(found(model, "ask_air", "degC", "mix_limits"), ask)
    assert is_close(found(model, "bar_air", table="mix_limits"), bar)


def test_what_forbids_is_said_before_what_asks() -> None:
    """Three reasons stand on the sheet: where it is not to be mixed, none of them only asks."""
    reasons = ("first_reason", "second_reason", "third_reason")
    tables: dict[str, Columns] = {
        "verdict": {"ready": ("text", "yes"), "level": ("", 2.0)},
        "mix_products": {
            "stop_words": ("text", ["; Urea: over, far"]), "ask_words": ("text", ["", "; Iron: soon"]),
        },
        "visit_lawns": {"stop_words": ("text", ["; Bare has no area"]), "lawn_words": ("text", ["; Front, growth"])},
        "mix_checks": {"stop_words": ("text", "; heavy rain; frozen"), "words": ("text", "; heavy rain; frozen; wind")},
    }  # fmt: skip
    records = {"mix_products": 2, "visit_lawns": 1}
    model = planner(tables, records)
    assert [model.column("verdict", key) for key in reasons] == [
        "Urea: over, far", "Bare has no area", "heavy rain; and more, see Mix workings",
    ]  # fmt: skip
    asked = planner(tables | {"verdict": {"ready": ("text", "yes"), "level": ("", 1.0)}}, records)
    assert asked.column("verdict", "said") == "Front, growth; heavy rain; frozen; wind; Iron: soon"
