"""Which rate each product of a visit goes on at, against figures worked out by hand."""

from __future__ import annotations

import pytest

from support.small_visit import NAMES, close, found, visit
from support.tables import NO as BLANK


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
        ("label_mass_low", "g/m**2", [0.5, BLANK, BLANK, BLANK, 1]),
    ],
)
def test_rates_of_the_label(key: str, unit: str, figures: list[float]) -> None:
    assert found(visit(NAMES), key, unit) == close(figures)


@pytest.mark.parametrize(
    ("key", "texts"),
    [
        ("measured_by", ["mass", "volume", "", "", "mass"]),
        ("rate_from", ["usual", "usual", "", "", "usual"]),
    ],
)
def test_where_a_rate_comes_from(key: str, texts: list[str]) -> None:
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
    assert found(model, "product_reason")[3].startswith("two rates given; out of its months")


def test_nothing_holds_a_nutrient_of_which_it_has_none() -> None:
    model = visit({"product": ("text", ["Calcium nitrate"]), "wanted_iron": ("g_Fe/m**2", [0.1])})
    assert found(model, "wanted_mass_iron", "g/m**2") == close([BLANK] * 5)


def test_a_dilution_has_no_rate_without_a_carrier_volume() -> None:
    model = visit(NAMES, mix={"carrier_volume": ("L/ha", BLANK)})
    assert found(model, "label_volume_usual", "mL/m**2") == close([BLANK] * 5)
    assert found(model, "label_mass_usual", "g/m**2") == close([1, BLANK, BLANK, BLANK, 2])


def test_a_rate_is_in_the_unit_of_own_rates() -> None:
    model = visit(NAMES | {"own_rate_mass": ("oz/thousand_square_feet", [0.25])})
    rate = model.column("mix_products", "rate_mass")
    assert str(rate.units) == "ounce / thousand_square_feet"
    # A quarter of an ounce on 1000 ft² (7.0874 g on 92.903 m²), and 2 g/m².
    assert rate.to("g/m**2").magnitude[[0, 4]] == pytest.approx([0.0762875, 2], rel=1e-5)


def test_overlap_counts_in_what_is_laid_and_not_in_the_rate() -> None:
    """A quarter of the ground sprayed twice: 1 and 2 g/m² become 1.25 and 2.5; 0.12 mL/m² become 0.15."""
    model = visit(NAMES, mix={"overlap": ("", 0.25)})
    assert found(model, "rate_mass", "g/m**2") == close([1, BLANK, BLANK, BLANK, 2])
    assert found(model, "laid_mass", "g/m**2") == close([1.25, BLANK, BLANK, BLANK, 2.5])
    assert found(model, "laid_volume", "mL/m**2") == close([BLANK, 0.15, BLANK, BLANK, BLANK])


def test_without_an_overlap_the_rate_is_laid() -> None:
    model = visit(NAMES)
    assert found(model, "laid_mass", "g/m**2") == close([1, BLANK, BLANK, BLANK, 2])
    assert found(model, "laid_volume", "mL/m**2") == close([BLANK, 0.12, BLANK, BLANK, BLANK])
