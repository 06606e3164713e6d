"""Conversion factors against published definitions and figures, and the safety of dimensions."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction

import numpy as np
import pint
import pytest

from wbgen.units.label_rates import offered_units
from wbgen.units.names import ATOMS
from wbgen.units.quantity import (
    FLOAT,
    KINDS,
    UnitError,
    convert,
    convert_exactly,
    definition,
    dimension,
    factor,
    kind,
    label,
    parse_quantity,
    parse_unit,
    same_dimension,
    with_nutrient,
)
from wbgen.units.registry import exact_registry

EXACT_DEFINITIONS = [
    # Weights and Measures Ordinance of Hong Kong (54/87), schedule: "0.453 592 37 kilogram exactly"; ounce 1/16 pound
    ("lb", "kg", "0.45359237"),
    ("lb", "oz", "16"),
    # International yard and pound agreement, 1959
    ("yd", "m", "0.9144"),
    # Standards of Weights and Measures Act 1976 (India), schedule
    ("ft²", "m²", "0.09290304"),
    ("US gal", "m^3", "0.003785411784"),
    # Weights and Measures Ordinance of Hong Kong (54/87), schedule: 4840 square yards; 43 560 is 4840 x 9
    ("acre", "yd²", "4840"),
    ("acre", "ft²", "43560"),
    # The same in square metres: 43 560 x 0.09290304
    ("acre", "m²", "4046.8564224"),
    # NIST Handbook 44, appendix C: gallon 231 cubic inches; fluid ounce, pint and quart
    ("US gal", "in^3", "231"),
    ("US gal", "fl oz", "128"),
    ("US gal", "US pt", "8"),
    ("US gal", "US qt", "4"),
    ("fl oz", "mL", "29.5735295625"),
    # Weights and Measures Act 1985 (United Kingdom), schedule 1, as quoted at sizes.com/units/gallon_imperial.htm
    ("imp gal", "L", "4.54609"),
    ("imp gal", "imp pt", "8"),
    ("imp gal", "imp qt", "4"),
    # Petroleum Equipment Institute, www.pei.org/wiki/imperial-gallon: the fluid ounce is 1/160 gallon
    ("imp gal", "imp fl oz", "160"),
    ("imp fl oz", "mL", "28.4130625"),
    # By definition
    ("ha", "m²", "10000"),
    ("1000 ft²", "ft²", "1000"),
    ("mile", "ft", "5280"),
    ("%", "dimensionless", "0.01"),
    ("meq/L", "meq/mL", "0.001"),
    # Half of the formula's mass, by the atomic weights of 2021: (40.078 + 12.011 + 3 x 15.999) / 2
    ("meq/L", "mg CaCO3/L", "50.043"),
    ("mg CaCO3/L", "ppm CaCO3", "1"),
    ("mm", "L/m²", "1"),
    # CTP practice worksheet for applicators: 1 mph = 88 ft/min
    ("mph", "ft/min", "88"),
]


@pytest.mark.parametrize(("from_unit", "to_unit", "value"), EXACT_DEFINITIONS)
def test_statutory_definitions_are_exact(from_unit: str, to_unit: str, value: str) -> None:
    assert factor(from_unit, to_unit) == Fraction(value)
    assert factor(to_unit, from_unit) == 1 / Fraction(value)


PUBLISHED = [
    # University of Florida/IFAS AGR39 (Unruh, Brecke, Leon-Gonzalez), Metric System Conversion Factors
    (1, "acre", "m²", 4047, 0.5),
    # Oregon State University turf trial abstracts: 0.1 lb = 4.88 kg/ha, 2 lb = 97.6 kg/ha (per 1000 ft2)
    (0.1, "lb/1000 ft²", "kg/ha", 4.88, 0.005),
    (2, "lb/1000 ft²", "kg/ha", 97.6, 0.06),
    (2, "lb N/1000 ft²", "kg N/ha", 97.6, 0.06),
    # Golf Course Management (GCSAA): 8 oz and 16 oz of liquid per 1000 ft2
    (8, "fl oz/1000 ft²", "mL/m²", 2.5, 0.05),
    (16, "fl oz/1000 ft²", "mL/m²", 5.0, 0.1),
    # HortScience 52(11):1615 prints 9.55 and 19.1 L/ha for 3 and 6 fl oz/1000 ft2
    (3, "fl oz/1000 ft²", "L/ha", 9.55, 0.005),
    (6, "fl oz/1000 ft²", "L/ha", 19.1, 0.05),
    # Oregon State University carrier volume abstract
    (2, "US gal/1000 ft²", "L/ha", 814, 1),
    (2.5, "US gal/1000 ft²", "L/ha", 1019, 1),
    (7.5, "US gal/1000 ft²", "L/ha", 3056, 1),
    (10, "US gal/1000 ft²", "L/ha", 4075, 1),
    # Kansas State University Soils Laboratory Manual (Moorberg and Crouse), conversion factors
    (1, "US gal/acre", "L/ha", 9.35, 0.005),
    (1, "lb/acre", "kg/ha", 1.12, 0.005),
    (1, "lb/US gal", "mg/L", 119_826, 0.5),
    # Irish Independent Farming, Useful formulae for working out nozzle selection
    (1, "imp gal/acre", "L/ha", 11.2, 0.05),
    # A grower's page quoting old leaflets: 4 oz = 136 g, 1/2 oz = 17 g (per square yard)
    (4, "oz/yd²", "g/m²", 136, 0.5),
    (0.5, "oz/yd²", "g/m²", 17, 0.5),
    # FAS Scotland: a fertiliser "unit" is 1 % of a hundredweight of 112 lb; 1 unit/acre is 1.25 kg/ha
    (1.12, "lb/acre", "kg/ha", 1.25, 0.01),
    # FAS Scotland: 1 cwt/acre is 123.5 kg/ha, taking a hundredweight as 50 kg
    (112, "lb/acre", "kg/ha", 123.5, 0.02 * 123.5),
    # Pesticide Environmental Stewardship, Spray Gun: 5.25 gal/1000 ft2 is 228.7 gal/acre
    (5.25, "US gal/1000 ft²", "US gal/acre", 228.7, 0.05),
    # Oklahoma State University (Gerken), Calibrating Application Equipment: 40 gal/acre, 3.6 pints/acre
    (40, "US gal/acre", "US gal/1000 ft²", 0.92, 0.005),
    (3.6, "US pt/acre", "fl oz/1000 ft²", 1.3, 0.05),
    # North Carolina State University (Bailey), Alkalinity control for irrigation water used in greenhouses
    (1, "meq/L", "mg CaCO3/L", 50.04, 0.005),
    # Calculated: the ratio of the gallons; 40 psi, the usual US rating pressure of a nozzle, in bar
    (1, "imp gal", "US gal", 1.200950, 5e-7),
    (1, "oz/1000 ft²", "g/m²", 0.305152, 5e-7),
    (40, "psi", "bar", 2.7579, 5e-5),
]


@pytest.mark.parametrize(("value", "from_unit", "to_unit", "published", "tolerance"), PUBLISHED)
def test_published_conversions(value: float, from_unit: str, to_unit: str, published: float, tolerance: float) -> None:
    assert convert(value, from_unit, to_unit) == pytest.approx(published, abs=tolerance, rel=0)


MISPRINTS = [
    # Conversions page of the International Fertilizer Association (retired): 4480 sq yards; 0.9822 lb/acre
    ("acre", "yd²", 4480, 4840),
    ("kg/ha", "lb/acre", 0.9822, 0.8922),
    # Standards of Weights and Measures Act 1976 (India): the older gallon and acre
    ("imp gal", "L", 4.546087, 4.54609),
    ("acre", "m²", 4046.8561, 4046.8564),
]


@pytest.mark.parametrize(("from_unit", "to_unit", "printed", "right"), MISPRINTS)
def test_misprinted_and_superseded_figures_do_not_match(
    from_unit: str, to_unit: str, printed: float, right: float
) -> None:
    step = 10.0 ** -len(str(printed).partition(".")[2]) if "." in str(printed) else 1.0
    assert abs(convert(1, from_unit, to_unit) - printed) > step / 2
    assert abs(convert(1, from_unit, to_unit) - right) <= max(step, 0.0001) / 2


def test_acre_is_not_the_survey_acre() -> None:
    """NIST SP 811: the survey foot is 1200/3937 m, so the survey acre is 4046.873 m2."""
    survey = 43560 * Fraction(1200, 3937) ** 2
    assert factor("acre", "m²") != survey
    assert float(survey / factor("acre", "m²") - 1) == pytest.approx(4e-6, abs=1e-7)
    assert pint.UnitRegistry().Quantity(1.0, "acre").to("m**2").magnitude == pytest.approx(float(survey), rel=1e-12)


def test_spray_constants_follow_from_the_units() -> None:
    """600 (metric), 5940 and 495 (US) are unit conversions: UF/IFAS WG013; Defra, Nozzle selection and maintenance."""
    assert factor("L/min", "L/h") / (factor("km", "m") / factor("ha", "m²")) == 600
    assert factor("US gal/min/mph/in", "US gal/acre") == 5940
    assert factor("US gal/min/mph/ft", "US gal/acre") == 495


def test_catching_ounces_on_a_128th_of_an_acre() -> None:
    """Utah State University Extension, Vegetables/2014-03: fl oz caught on 340.3 ft2 is gal/acre."""
    assert factor("acre", "ft²") / 128 == Fraction("340.3125")
    assert factor("fl oz/ft²", "US gal/acre") / Fraction("340.3125") == 1


def test_factors_are_exact_fractions() -> None:
    """1/1600 prints as 0.000625, with no tail of stray digits."""
    assert all(type(factor(rate.unit, rate.unit)) is Fraction for rate in offered_units())
    assert factor("m²/hour", "ha/hour") / factor("g", "mg") == Fraction(1, 10**7)
    assert repr(convert(Fraction(5, 8), "mL/m²", "L/m²")) == "0.000625"
    assert repr(convert(1, "oz/100 m²", "lb/m²")) == "0.000625"


def test_a_round_trip_returns_the_number_itself() -> None:
    for rate in offered_units():
        assert factor(rate.unit, rate.unit) == 1
        for other in offered_units():
            if same_dimension(rate.unit, other.unit):
                assert factor(rate.unit, other.unit) * factor(other.unit, rate.unit) == 1


def test_registries_agree_on_every_rate_unit() -> None:
    for rate in offered_units():
        for other in offered_units():
            if same_dimension(rate.unit, other.unit):
                column = FLOAT.Quantity(np.array([1.0, 2.5]), rate.unit).to(other.unit).magnitude
                exact = [convert(value, rate.unit, other.unit) for value in (1, 2.5)]
                assert column == pytest.approx(exact, rel=1e-14)


@pytest.mark.parametrize("registry", ["exact", "float"])
def test_nutrient_forms_never_add(registry: str) -> None:
    units = {"exact": exact_registry(), "float": FLOAT}[registry]
    for other in ("g_P2O5", "g_P", "g", "pack"):
        with pytest.raises(pint.DimensionalityError):
            units.Quantity(1, "g_N") + units.Quantity(1, other)
    assert (units.Quantity(1, "kg_N") + units.Quantity(1, "g_N")).to("g_N").magnitude == pytest.approx(1001, rel=1e-15)
    with pytest.raises(UnitError, match=r"phosphate.*nitrogen"):
        factor("g N/m²", "g P2O5/m²")


def test_newton_and_coulomb_do_not_exist() -> None:
    for name in ("N", "newton", "coulomb", "P", "K", "S"):
        with pytest.raises(UnitError):
            parse_unit(name)
    with pytest.raises(pint.UndefinedUnitError):
        exact_registry().parse_units("N")


def test_temperatures_only_subtract_and_compare() -> None:
    """Fixed points of the Fahrenheit scale; -40 is where the scales meet."""
    assert convert(32, "°F", "°C") == 0
    assert convert(100, "degC", "degF") == 212
    assert convert(-40, "degC", "degF") == -40
    assert convert_exactly(Fraction(1), "delta_degC", "delta_degF") == Fraction(9, 5)
    assert dimension("degC") == dimension("degF") != dimension("delta_degC")
    warm, cold = FLOAT.Quantity(18.0, "degC"), FLOAT.Quantity(10.0, "degC")
    assert warm > cold
    assert (warm - cold).to("delta_degF").magnitude == pytest.approx(14.4)
    with pytest.raises(pint.OffsetUnitCalculusError):
        warm + cold
    for unit in ("degC/day", "1/degC", "degC^2"):
        with pytest.raises(UnitError, match="temperature"):
            parse_unit(unit)
    with pytest.raises(UnitError, match="convert"):
        factor("degC", "degF")


def test_counts_are_numbers_and_packs_are_not() -> None:
    assert dimension("load") == dimension("pass") == dimension("bottle") == dimension("%") == ()
    assert len({dimension(unit) for unit in ("pack", "currency", "turf_quality", "meq", "g", "g N")}) == 6
    assert same_dimension("L/load", "L")


def test_every_name_and_every_print_is_read_back() -> None:
    for atom in ATOMS:
        for text in (atom.name, atom.printed, *atom.spellings):
            assert parse_unit(text) == parse_unit(atom.name), text
        assert exact_registry().parse_units(parse_unit(atom.name)) == exact_registry().parse_units(atom.name)
        assert label(atom.name) == atom.printed


def test_rate_units_read_back_as_what_they_are() -> None:
    assert len({rate.printed for rate in offered_units()}) == len(offered_units()) >= 30
    assert {rate.kind for rate in offered_units()} == {
        "mass rate", "volume rate", "pack rate", "nutrient rate", "dilution by volume", "dilution by mass",
    }  # fmt: skip
    for rate in offered_units():
        read = parse_quantity(f"7 {rate.printed}")
        assert (read.unit, read.kind, read.printed, read.nutrient) == (
            rate.unit,
            rate.kind,
            rate.printed,
            rate.nutrient,
        )
        assert kind(rate.printed) == rate.kind


def test_units_of_published_labels_are_offered() -> None:
    """The forms of rate in the extension publications and label leaflets cited above."""
    offered = {rate.printed for rate in offered_units()}
    assert offered >= {"kg/ha", "g/m²", "L/ha", "lb/acre", "lb/1000 ft²", "oz/1000 ft²", "oz/yd²", "fl oz/1000 ft²"}
    assert offered >= {"US gal/acre", "US gal/1000 ft²", "imp gal/acre", "lb N/1000 ft²", "g N/m²", "kg N/ha"}
    assert offered >= {"mL in 10 L", "g in 10 L", "fl oz in 1 US gal", "oz in 1 US gal", "pack/ha", "pack/1000 ft²"}


def test_every_kind_has_an_example_of_itself() -> None:
    assert {name: parse_quantity(example).kind for name, example in KINDS.items()} == {name: name for name in KINDS}


def test_definition_names_every_source() -> None:
    text = definition("fl oz/1000 ft²", "mL/m²")
    assert text.startswith("1 fl oz/1000 ft² = 0.318 326 822 9 mL/m² (rounded); ")
    for part in ("1/128 US gal (NIST Handbook 44", "231 in³", "1 ft = 0.3048 m", "1 L = 0.001 m³"):
        assert part in text
    assert definition("lb N/acre", "kg N/ha").count("yard and pound agreement") == 2
    assert definition("degC", "degF").startswith("°F = °C × 1.8 + 32; ")
    assert "43 560" not in definition("lb/acre", "kg/acre")
    assert "Fahrenheit scale" in definition("delta_degF", "delta_degC")
    assert definition("kg", "g") == "1 kg = 1000 g exactly; by the metric prefixes"
    assert definition("L", "l") == "1 L = 1 L exactly: the same unit"
    with pytest.raises(UnitError):
        definition("kg", "L")


def test_a_nutrient_known_from_elsewhere() -> None:
    assert with_nutrient("lb/1000 ft²", "Fe") == "lb_Fe/thousand_square_feet"
    for unit, symbol in (("L/ha", "N"), ("g P/m²", "P2O5"), ("g/m²", "Zn")):
        with pytest.raises(UnitError):
            with_nutrient(unit, symbol)


def test_importing_the_units_does_not_load_pint() -> None:
    command = "import sys, wbgen.units; sys.exit('pint' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", command], check=False).returncode == 0
