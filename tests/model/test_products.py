"""What is in each product and what its label rates come to, against figures worked out by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from support.tables import NO, Table, bare, changed, is_close, planner
from wbgen.trade.families import family

RECORDS = {"products": 8, "rate_units": 7}

# A solid, a liquid by weight, a liquid by volume, a brew without an analysis, a liquid without a density, a solid
# stated by volume, and the first one again. Figures are invented.
TABLES: dict[str, Table] = {
    "products": {
        "name": ("text", ["Urea", "Liquid", "Iron", "Tea", "Thin", "Wrong", "UREA"]),
        "form": ("text", ["soluble powder", "Liquid", "liquid", "BREW", "liquid", "granule", ""]),
        "analysis_per": ("text", ["w/w", "w/w", "W/V", "", "w/w", "w/v"]),
        "density": ("kg/L", [NO, 1.25, NO, NO, NO, NO]),
        "pack_mass": ("kg/pack", [25.0]),
        "pack_volume": ("L/pack", [NO, 10.0]),
        **{f"stated_{n.key}": (f"g_{n.says['symbol']}/g", []) for n in family("nutrients")},
        **{f"element_{n.key}": (f"g_{n.says['element']}/g", []) for n in family("oxides")},
        "stated_nitrogen": ("g_N/g", [0.46, 0.1, NO, NO, 0.1, 0.1, 0.0]),
        "stated_iron": ("g_Fe/g", [NO, NO, 0.06]),
        "stated_phosphate": ("g_P2O5/g", [NO, 0.04, NO, NO, NO, NO, 0.2]),
        "element_phosphate": ("g_P/g", [NO, NO, 0.02, NO, NO, NO, 0.5]),
        **{f"{way}_{level.key}": ("", []) for way in ("spray", "dry") for level in family("levels")},
        "spray_unit": ("text", []),
        "dry_unit": ("text", []),
    },
    "oxides": {f"element_in_{n.key}": (f"g_{n.says['element']}/g_{n.says['symbol']}", 0.4) for n in family("oxides")},
    "settings": {"volume_basis": ("kg/L", 1.0), "unknown_solids": ("g/L", 600.0)},
    "rate_units": {
        "rate_unit": ("text", ["kg/ha", "L/ha", "pack/ha", "kg N/ha", "kg Fe/ha", "mL in 10 L", "g in 10 L"]),
        "kind_number": ("", [1, 2, 3, 4, 10, 12, 13]),
        "mass_rate": ("g/m**2", [0.1]),
        "volume_rate": ("mL/m**2", [NO, 0.1]),
        "pack_rate": ("pack/m**2", [NO, NO, 1e-4]),
        **{f"rate_{n.key}": (f"g_{n.says['symbol']}/m**2", []) for n in family("nutrients")},
        "rate_nitrogen": ("g_N/m**2", [NO, NO, NO, 0.1]),
        "rate_iron": ("g_Fe/m**2", [NO, NO, NO, NO, 0.1]),
        "volume_dilution": ("mL/L", [NO, NO, NO, NO, NO, 0.1]),
        "mass_dilution": ("g/L", [NO, NO, NO, NO, NO, NO, 0.1]),
    },
}
MEND_SPRAY = "the spray rate cannot be brought to one unit"
MEND_DRY = "the dry rate cannot be brought to one unit"
MEND_DENSITY = "give the density, or an analysis by w/v"
MEND_BY_VOLUME = "w/v is for liquids only"
MEND_TWICE = "this name stands twice"


def figures(key: str, unit: str = "", **columns: tuple[str, Any]) -> Any:
    found = bare(planner(changed(TABLES, **columns), RECORDS).column("products", key), unit)
    assert found[7] == "" or math.isnan(found[7])
    return found[:7]


def test_liquids_and_brews_are_poured() -> None:
    assert figures("measured_by") == ["mass", "volume", "volume", "volume", "volume", "mass", "mass"]


def test_a_liquid_of_which_no_solids_are_known_is_not_taken_for_water() -> None:
    """A solid has none to count, a brew none that count; a liquid whose maker states 0 has 0."""
    stated: Any = ("g/L", [5.0, 300.0, NO, NO, 0.0])
    given = {"products__dissolved_solids": stated, "settings__unknown_solids": ("g/L", 600.0)}
    assert is_close(figures("solids_counted", "g/L", **given), [NO, 300, 600, 0, 0, NO, NO])


def test_how_often_a_year_is_a_limit_or_what_is_usual() -> None:
    most, binds = ("", [6.0, NO, 2.5, 52.0]), ("text", ["", "yes", "no", "Yes"])
    words = ["usually at most 6", "", "usually at most 2.5", "at most 52", "", "", ""]
    assert figures("most_words", products__most_a_year=most, products__number_binds=binds) == words


@pytest.mark.parametrize(
    ("key", "unit", "expected"),
    [
        ("millilitre_mass", "kg/L", [NO, 1.25, 1, NO, NO, NO, NO]),
        ("share_nitrogen", "g_N/g", [0.46, 0.1, NO, NO, 0.1, 0.1, 0]),
        ("share_phosphate", "g_P2O5/g", [NO, 0.04, 0.05, NO, NO, NO, 0.2]),
        ("share_iron", "g_Fe/g", [NO, NO, 0.06, NO, NO, NO, NO]),
        ("mass_content_nitrogen", "g_N/kg", [460, NO, NO, NO, NO, 100, 0]),
        ("volume_content_nitrogen", "g_N/L", [NO, 125, NO, NO, NO, NO, NO]),
        ("volume_content_iron", "g_Fe/L", [NO, NO, 60, NO, NO, NO, NO]),
        ("volume_content_phosphate", "g_P2O5/L", [NO, 50, 50, NO, NO, NO, NO]),
        ("mass_element_phosphate", "g_P/kg", [NO, NO, NO, NO, NO, NO, 80]),
        ("volume_element_phosphate", "g_P/L", [NO, 20, 20, NO, NO, NO, NO]),
    ],
)
def test_contents(key: str, unit: str, expected: list[float]) -> None:
    """10 % by weight of a liquid of 1.25 kg/L is 125 g/L; 6 % w/v is 60 g/L; 0.02 of P over 0.4 is 0.05 of P2O5."""
    assert is_close(figures(key, unit), expected)


@pytest.mark.parametrize(
    ("unit", "solid", "liquid", "iron"),
    [
        ("kg/ha", 0.1, 0.08, NO),  # over 1.25 kg/L; the third product has no density
        ("KG/HA", 0.1, 0.08, NO),
        ("L/ha", NO, 0.1, 0.1),
        ("pack/ha", 2.5, 1, NO),
        ("kg N/ha", 0.1 / 0.46, 0.8, NO),
        ("kg Fe/ha", NO, NO, 0.1 / 0.06),
        ("mL in 10 L", NO, NO, NO),
        ("g in 10 L", NO, NO, NO),
        ("handful", NO, NO, NO),
    ],
)
def test_what_one_unit_of_a_rate_is(unit: str, solid: float, liquid: float, iron: float) -> None:
    given: dict[str, Any] = {"products__spray_unit": ("text", [unit] * 7), "products__dry_unit": ("text", [unit] * 7)}
    by_mass, by_volume = figures("spray_one_mass", "g/m**2", **given), figures("spray_one_volume", "mL/m**2", **given)
    assert is_close(by_mass[:3], [solid, NO, NO])
    assert is_close(by_volume[:3], [NO, liquid, iron])
    assert is_close(figures("dry_one_mass", "g/m**2", **given)[:3], [solid, NO, NO])
    assert is_close(by_mass[6], 0.1 if unit.lower() == "kg/ha" else NO), "0 % N gives no rate"


@pytest.mark.parametrize(
    ("unit", "solid", "liquid", "iron"),
    [("g in 10 L", 0.1, 0.08, NO), ("mL in 10 L", NO, 0.1, 0.1), ("kg/ha", NO, NO, NO), ("", NO, NO, NO)],
)
def test_what_one_unit_of_a_dilution_is(unit: str, solid: float, liquid: float, iron: float) -> None:
    given: dict[str, Any] = {"products__spray_unit": ("text", [unit] * 7)}
    assert is_close(figures("spray_one_mass_diluted", "g/L", **given)[:3], [solid, NO, NO])
    assert is_close(figures("spray_one_volume_diluted", "mL/L", **given)[:3], [NO, liquid, iron])


def test_label_rates() -> None:
    """25 kg/ha is 2.5 g/m²; 30 mL in 10 L is 3 mL/L; 8 L/ha is 0.8 mL/m²; 40 g in 10 L is 4 g/L."""
    units = ("text", ["kg/ha", "L/ha", "mL in 10 L", "", "", "g in 10 L"])
    given: dict[str, Any] = {
        "products__spray_unit": units,
        "products__spray_usual": ("", [25, 8, 30, NO, NO, 40]),
        "products__dry_unit": units,
        "products__dry_high": ("", [300]),
    }
    assert is_close(figures("spray_mass_usual", "g/m**2", **given)[:6], [2.5, NO, NO, NO, NO, NO])
    assert is_close(figures("spray_volume_usual", "mL/m**2", **given)[:6], [NO, 0.8, NO, NO, NO, NO])
    assert is_close(figures("diluted_volume_usual", "mL/L", **given)[:6], [NO, NO, 3, NO, NO, NO])
    assert is_close(figures("diluted_mass_usual", "g/L", **given)[:6], [NO, NO, NO, NO, NO, 4])
    assert is_close(figures("dry_mass_high", "g/m**2", **given)[:6], [30, NO, NO, NO, NO, NO])
    assert figures("spray_unit_kind", **given)[:3] == [1, 2, 12]
    assert figures("dry_unit_kind", **given)[5] == 13


def test_what_is_to_be_mended() -> None:
    assert figures("product_state") == [MEND_TWICE, "", "", "", MEND_DENSITY, MEND_BY_VOLUME, MEND_TWICE]


def test_rates_that_cannot_be_brought_to_one_unit() -> None:
    """Litres of a solid, kilograms of a liquid without a density, a dilution for spreading dry."""
    given: dict[str, Any] = {
        "products__spray_unit": ("text", ["L/ha", "kg/ha", "kg/ha", "", "kg/ha"]),
        "products__spray_low": ("", [5, 5, 5, 5]),
        "products__dry_unit": ("text", ["g in 10 L", "kg/ha", "", "", "", "kg/ha"]),
        "products__dry_high": ("", [5, NO, NO, NO, NO, 5]),
    }
    assert figures("product_state", **given) == [
        "; ".join([MEND_SPRAY, MEND_DRY, MEND_TWICE]),
        "", MEND_SPRAY, MEND_SPRAY, MEND_DENSITY, MEND_BY_VOLUME, MEND_TWICE,
    ]  # fmt: skip


def test_area_that_a_pack_covers() -> None:
    """25 kg at 50 kg/ha spray 5000 m², as do 10 L at 20 L/ha; spread dry at 200 kg/ha the 25 kg cover 1250 m²."""
    given: dict[str, Any] = {
        "products__spray_unit": ("text", ["kg/ha", "L/ha", "L/ha", "L/ha", "mL in 10 L"]),
        "products__spray_usual": ("", [50.0, 20.0, 20.0, 0.0, 5.0]),
        "products__dry_unit": ("text", ["kg/ha"]),
        "products__dry_usual": ("", [200.0]),
        "products__pack_volume": ("L/pack", [NO, 10.0, NO, 5.0, 5.0]),
    }
    assert is_close(figures("spray_pack_area", "m**2", **given), [5000, 5000, NO, NO, NO, NO, NO])
    assert is_close(figures("dry_pack_area", "m**2", **given), [1250, NO, NO, NO, NO, NO, NO])
    assert is_close(figures("dry_pack_area", "m**2", **given | {"products__pack_mass": ("kg/pack", [0.0])}), [NO] * 7)
