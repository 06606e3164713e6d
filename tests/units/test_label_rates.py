"""Label rates: whatever the grammar takes is read as what it is, and prints back; what it does not take is told."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wbgen.units.label_rates import RATE_KINDS, LabelRate, offered_units, rate_unit, read_label_rate
from wbgen.units.quantity import UnitError, convert

AREAS: Final = {"ha": "10000", "m²": "1", "m2": "1", "sq m": "1", "100 m²": "100", "450 m²": "450", "0.5 ha": "5000",
                "acre": "4046.8564224", "1000 ft²": "92.90304", "1,000 sq ft": "92.90304", "100 ft²": "9.290304",
                "yd²": "0.83612736"}  # fmt: skip
"""In m². The acre and the square foot: international yard of 0.9144 m, 1959; Ordinance of Hong Kong (54/87)."""
MASSES: Final = {"g": "1", "kg": "1000", "mg": "0.001", "lb": "453.59237", "oz": "28.349523125", "grams": "1"}
"""In g. The pound: international yard and pound agreement, 1959."""
VOLUMES: Final = {"mL": "1", "L": "1000", "ml": "1", "US fl oz": "29.5735295625", "US pt": "473.176473",
                  "US gal": "3785.411784", "imp gal": "4546.09", "imp fl oz": "28.4130625",
                  "fl oz": "29.5735295625"}  # fmt: skip
"""In mL. NIST Handbook 44, appendix C; Weights and Measures Act 1985 (United Kingdom), schedule 1."""
PACKS: Final = {"pack": "1", "packs": "1", "sachet": "1", "bags": "1"}
NUTRIENTS: Final = ("N", "P2O5", "P", "K2O", "K", "Fe", "Mg", "SO3")
numbers = st.decimals("0.001", "9999", places=3).map(Fraction)
stroke = st.sampled_from(["/", " per ", " / "])


def shown(number: Fraction) -> str:
    return f"{float(number):.12g}"


def about(found: float, expected: Fraction) -> bool:
    return found == pytest.approx(float(expected), rel=1e-12)


@st.composite
def per_area(draw: st.DrawFn) -> tuple[str, str, str, Fraction]:
    """A text, its kind, the unit to ask for, and how many of that it is."""
    number, area = draw(numbers), draw(st.sampled_from(list(AREAS)))
    kind, amounts = draw(st.sampled_from([
        ("mass rate", MASSES), ("volume rate", VOLUMES), ("pack rate", PACKS), ("nutrient rate", MASSES),
    ]))  # fmt: skip
    amount = draw(st.sampled_from(list(amounts)))
    symbol = draw(st.sampled_from(NUTRIENTS)) if kind == "nutrient rate" else ""
    text = f"{shown(number)} {amount}{' ' * bool(symbol)}{symbol}{draw(stroke)}{area}"
    unit = {"mass rate": "g/m²", "volume rate": "mL/m²", "pack rate": "pack/m²"}.get(kind, f"g {symbol}/m²")
    return text, kind, unit, number * Fraction(amounts[amount]) / Fraction(AREAS[area])


@st.composite
def diluted(draw: st.DrawFn) -> tuple[str, str, str, Fraction]:
    number, water = draw(numbers), draw(st.sampled_from(list(VOLUMES)))
    of_water = draw(st.sampled_from(["", "1 ", "5 ", "10 ", "15 ", "4.5 ", "100 "]))
    kind, amounts, unit = draw(st.sampled_from([
        ("dilution by mass", MASSES, "g/L"), ("dilution by volume", VOLUMES, "mL/L"),
    ]))  # fmt: skip
    amount = draw(st.sampled_from(list(amounts)))
    parting = draw(st.sampled_from(["/", " per ", " in "]))
    text = f"{shown(number)} {amount}{parting}{of_water}{water}"
    litres = Fraction(of_water.strip() or "1") * Fraction(VOLUMES[water]) / 1000
    return text, kind, unit, number * Fraction(amounts[amount]) / litres


def is_read(rate: LabelRate, kind: str, unit: str, expected: Fraction, text: str) -> None:
    assert rate.unit.kind == kind in RATE_KINDS, text
    assert about(convert(rate.quantity.exact, rate.quantity.unit, unit), expected), text
    assert about(rate.unit.of(rate.quantity) * rate.unit.one_in(unit), expected), text
    assert rate_unit(rate.unit.printed) == rate.unit, text
    again = read_label_rate(f"{rate.unit.of(rate.quantity):.15g} {rate.unit.printed}")
    assert again.unit == rate.unit
    assert about(convert(again.quantity.exact, again.quantity.unit, unit), expected), text


@given(per_area())
def test_a_rate_per_any_area_is_read_as_what_it_is(case: tuple[str, str, str, Fraction]) -> None:
    text, kind, unit, expected = case
    is_read(read_label_rate(text), kind, unit, expected, text)


@given(diluted())
def test_a_dilution_of_any_size_is_read_as_what_it_is(case: tuple[str, str, str, Fraction]) -> None:
    text, kind, unit, expected = case
    is_read(read_label_rate(text), kind, unit, expected, text)


@given(st.integers(1, 50), st.integers(51, 5000), st.sampled_from(["{}:{}", "{} in {}", "{} to {}", "{} part in {}"]))
def test_parts_in_parts_are_a_volume_in_a_volume(part: int, whole: int, words: str) -> None:
    rate = read_label_rate(words.format(part, whole))
    is_read(rate, "dilution by volume", "mL/L", Fraction(1000 * part, whole), words)


@pytest.mark.parametrize(
    ("text", "number", "unit", "kind"),
    [
        ("1 % v/v", 10, "mL in 1 L", "dilution by volume"),
        ("0.25 %w/v", 2.5, "g in 1 L", "dilution by mass"),
        ("25 kg ha-1", 25, "kg/ha", "mass rate"),
        ("30 kg N ha⁻¹", 30, "kg N/ha", "nutrient rate"),
        ("3 g m-2", 3, "g/m²", "mass rate"),
        ("600 L ha^-1", 600, "L/ha", "volume rate"),
        ("1 sachet per 250 m²", 1, "pack/250 m²", "pack rate"),
        ("35 g per 15 L", 35, "g in 15 L", "dilution by mass"),
        ("2 g/L", 2, "g in 1 L", "dilution by mass"),
        ("2 lb in 100 US gal", 2, "lb in 100 US gal", "dilution by mass"),
    ],
)
def test_forms_that_labels_have(text: str, number: float, unit: str, kind: str) -> None:
    rate = read_label_rate(text)
    assert (rate.unit.of(rate.quantity), rate.unit.printed, rate.unit.kind) == (number, unit, kind)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("1 %", "v/v or 1 % w/v"),
        ("100:1", "write the smaller first"),
        ("1 gal/acre", "write US gal or imp gal"),
        ("5 g", "which is a mass"),
        ("5 g/L/day", "label rate such as"),
        ("3 g N in 10 L", "so much per area"),
        ("2,5 kg/ha", "decimal with a point"),
        ("1-2 kg/ha", "not a range"),
        ("7 mL/m²/day", "which is a speed"),
        ("4 kg/0 ha", "label rate such as"),
        ("handful", "write a number"),
    ],
)
def test_what_is_no_rate_says_what_would_be_one(text: str, says: str) -> None:
    with pytest.raises(UnitError, match=says):
        read_label_rate(text)


@given(st.text("0123456789.,:%/ ()kgmLhaw²in-acreoz", max_size=24))
def test_any_text_is_a_rate_or_is_told(text: str) -> None:
    try:
        kind = read_label_rate(text).unit.kind
    except UnitError:
        return
    assert kind in RATE_KINDS


def test_offered_units_are_what_their_texts_say() -> None:
    for unit in offered_units():
        assert read_label_rate(f"7 {unit.printed}").unit == unit
        assert unit.per == 1
