"""The verdict on a visit and what goes in, in short, against what was worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_mix import MAY_14, figure
from support.tables import NO


def of(key: str, **columns: tuple[str, Any]) -> Any:
    """A figure of the verdict on a visit whose lawns have areas."""
    return figure(key, table="verdict", **{"chosen_lawns__lawn": ("text", ["back", "", "", "Front"])} | columns)


CHOOSE = "choose a lawn, a sprayer and a product"


@pytest.mark.parametrize(
    ("columns", "ready"),
    [
        ({}, "yes"),
        ({"mix__sprayer": ("text", "")}, CHOOSE),
        ({"chosen_lawns__lawn": ("text", [])}, CHOOSE),
        ({"mix_products__product_line": ("", [])}, CHOOSE),
        ({"sprayers__spray_capacity": ("L", [0.0])}, CHOOSE),
        ({"chosen_lawns__lawn": ("text", ["", "Bare"])}, "mend the lawns"),
        ({"chosen_lawns__lawn": ("text", ["back", "Bare"])}, "yes"),
    ],
)
def test_ready_with_a_sprayer_an_area_and_a_product(columns: dict[str, Any], ready: str) -> None:
    assert of("ready", **columns) == ready
    if ready != "yes":
        assert of("level", **columns) == 2
        assert of("reason", **columns).startswith(f"{ready}")


@pytest.mark.parametrize(
    ("columns", "level", "words"),
    [
        ({}, 0, "Go"),
        ({"mix_checks__worst": ("", 1.0)}, 1, "Ask first"),
        ({"mix_products__level": ("", [0.0, NO, 2.0])}, 2, "Do not mix"),
        ({"mix_nutrients__rate_nitrogen": ("g_N/m**2", 1.6)}, 1, "Ask first"),  # 1.6 g/m² on the Front
        ({"chosen_lawns__lawn": ("text", ["back", "Bare", "", "Front"])}, 2, "Do not mix"),  # one of them has no area
        ({"diary__date": ("date", [MAY_14])}, 1, "Ask first"),  # a line of the day
        ({"lawns__target_nitrogen": ("g_N/m**2", [NO, 5.8])}, 1, "Ask first"),  # 5.6 and 0.25 g/m² on the Back
        ({"mix_products__product_line": ("", [])}, 2, "Do not mix"),
    ],
)
def test_verdict_is_the_worst_of_all(columns: dict[str, Any], level: int, words: str) -> None:
    assert of("level", **columns) == level
    assert of("verdict", **columns) == words


SAID: dict[str, Any] = {
    "mix_checks__words": ("text", "; hot and dry air"),
    "mix_products__product_words": ("text", ["", "; Urea, too soon", ""]),
    "mix_nutrients__rate_nitrogen": ("g_N/m**2", 1.6),
}
FRONT = "Front, more nitrogen in 30 days than it can use: 1.6 g N/m², at most 1.5 g N/m²"


@pytest.mark.parametrize(
    ("columns", "reason"),
    [
        ({"mix_products__level": ("", [1.0])}, f"{FRONT}; hot and dry air; Urea, too soon"),
        # What may not go in is said first.
        ({"mix_products__level": ("", [1.0, NO, 2.0])}, f"Urea, too soon; {FRONT}; hot and dry air"),
    ],
)
def test_reasons_are_those_that_apply(columns: dict[str, Any], reason: str) -> None:
    assert of("reason", **SAID | columns) == reason
    assert of("reason") == ""


def test_until_all_is_chosen_the_checks_have_nothing_to_say() -> None:
    given = SAID | {"mix__sprayer": ("text", ""), "mix_nutrients__rate_nitrogen": ("g_N/m**2", 0.0)}
    assert of("reason", **given) == f"{CHOOSE}; Urea, too soon"


WEATHER: dict[str, Any] = {
    "mix__wind": ("km/h", 0.0),
    "mix__air_temperature": ("degC", 18.0),
    "mix__humidity": ("", 0.6),
    "mix__heavy_rain": ("text", "no"),
    "mix__wet_ground": ("text", "no"),
}


@pytest.mark.parametrize(
    ("columns", "words"),
    [
        ({}, ""),
        ({"mix__wind": ("km/h", NO)}, "wind"),
        ({"mix__air_temperature": ("degC", NO)}, "heat"),
        ({"mix__humidity": ("", NO)}, ""),  # at 18 °C its dryness does not matter
        ({"mix__air_temperature": ("degC", 25.0), "mix__humidity": ("", NO)}, ""),
        ({"mix__air_temperature": ("degC", 25.1), "mix__humidity": ("", NO)}, "heat"),
        ({"mix__air_temperature": ("degC", 25.1)}, ""),
        ({"mix__heavy_rain": ("text", "")}, "rain"),
        ({"mix__heavy_rain": ("text", "perhaps")}, "rain"),
        ({"mix__heavy_rain": ("text", "YES")}, ""),
        ({"mix__wet_ground": ("text", "")}, "ground"),
        ({"months__mean_temperature": ("degC", [14.0, 14.0, 14.0, 14.0])}, "growth of this month"),
        ({"mix__date": ("date", MAY_14 + 18)}, "growth of this month"),  # 1 June
        ({"mix_products__trait_calcium": ("", [1.0])}, "alkalinity, hardness of the water"),
        ({"mix_products__trait_phosphate": ("", [NO, NO, 1.0])}, "hardness of the water"),
        ({"mix_products__trait_ferrous": ("", [1.0])}, "pH, alkalinity, hardness of the water"),
        ({"mix_products__trait_alkaline_humate": ("", [1.0])}, "pH, hardness of the water"),
        ({"mix_products__trait_calcium": ("", [1.0]), "mix__hardness": ("meq/L", 0.0)}, "alkalinity of the water"),
        ({"mix_products__trait_phosphate": ("", [1.0]), "mix__hardness": ("meq/L", 0.0)}, ""),
    ],
)
def test_what_was_not_checked(columns: dict[str, Any], words: str) -> None:
    assert of("not_checked", **WEATHER | columns) == words


def test_all_that_was_not_checked() -> None:
    given = {"months__mean_temperature": ("degC", []), "mix_products__trait_calcium": ("", [1.0])}
    assert of("not_checked", **given) == (
        "wind; heat; rain; ground; growth of this month; alkalinity, hardness of the water"
    )
