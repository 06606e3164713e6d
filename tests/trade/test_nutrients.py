"""Oxide factors against the legal ones, and atomic weights against an independent table."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction

import periodictable
import pytest

from wbgen.sheets.book import shipped_templates
from wbgen.trade.nutrients import (
    ATOMIC_WEIGHT,
    FORMS,
    NUTRIENTS,
    counted_form,
    formula_weight,
    nutrient,
    oxide_factor,
    oxide_factor_derivation,
)
from wbgen.units.quantity import dimension

LEGAL = [("P2O5", "0.436"), ("K2O", "0.830"), ("MgO", "0.603"), ("CaO", "0.715"), ("SO3", "0.400")]
"""Norwegian Food Safety Authority (Mattilsynet), 2013: factors for declaring an element from its oxide."""


@pytest.mark.parametrize(("oxide", "legal"), LEGAL)
def test_oxide_factor_is_the_legal_one_to_its_last_digit(oxide: str, legal: str) -> None:
    assert abs(oxide_factor(oxide) - Fraction(legal)) <= Fraction("0.0005")


@pytest.mark.parametrize("symbol", sorted(ATOMIC_WEIGHT))
def test_atomic_weight_agrees_with_another_table(symbol: str) -> None:
    assert float(ATOMIC_WEIGHT[symbol]) == pytest.approx(getattr(periodictable, symbol).mass, rel=2e-4)


def test_only_oxides_have_a_factor() -> None:
    for symbol in ("N", "Fe", "Mn", "P", "H2O", ""):
        with pytest.raises(ValueError, match="P2O5, K2O, CaO, MgO, SO3"):
            oxide_factor(symbol)


def test_every_form_is_counted_as_one_nutrient() -> None:
    assert len(FORMS) == 13
    for form in FORMS:
        counted = counted_form(form)
        assert counted.factor == 1 if form == counted.nutrient.symbol else counted.factor > 1
    assert counted_form("K").factor * oxide_factor("K2O") == 1
    with pytest.raises(KeyError):
        counted_form("Zn")


def test_every_form_is_a_dimension_of_its_own() -> None:
    assert len({dimension(f"g {form}") for form in FORMS}) == len(FORMS)


def test_keys_never_look_like_cells() -> None:
    for record in NUTRIENTS:
        assert nutrient(record.key) is record
        assert not any(character.isdigit() for character in record.key)
    assert len({record.key for record in NUTRIENTS}) == 8


def test_formula_weights() -> None:
    """Hand sums of the abridged weights."""
    assert formula_weight("P2O5") == Fraction("141.943")
    assert formula_weight("H2O") == Fraction("18.015")
    for text in ("", "p2o5", "P2O5 ", "2P"):
        with pytest.raises(ValueError, match="formula"):
            formula_weight(text)


def test_the_derivation_can_be_followed() -> None:
    text = oxide_factor_derivation("P2O5")
    assert text.startswith("P in P₂O₅ = 2 × 30.974 ÷ (2 × 30.974 + 5 × 15.999) = 61.948 ÷ 141.943 = 0.436429. Standard")


def test_a_formula_that_names_the_nutrients_by_hand_names_them_all() -> None:
    """Where a formula names more than half of them, as `wanted_iron`, one that it leaves out was forgotten.

    It names each as often as any other: `wanted_every` stands for all of them, and hides none that is missing.
    """
    by_hand = set()
    for table in shipped_templates().book("metric").tables.values():
        for column in table.columns:
            named: dict[str, Counter[str]] = {}
            for word in re.findall(r"[a-z_.]+", column.meaning.formula or ""):
                for one in NUTRIENTS:
                    if word.endswith(f"_{one.key}"):
                        named.setdefault(word.removesuffix(one.key), Counter())[one.key] += 1
            for stem, times in named.items():
                if len(times) > len(NUTRIENTS) / 2:
                    by_hand.add(f"{table.key}.{column.key}")
                    others = table.key == "chosen_targets"  # nitrogen stands beside the products
                    often = {times[one.key] for one in NUTRIENTS[others:]}
                    assert len(often) == 1, f"{table.key}.{column.key}: {stem} {times}"
    assert by_hand >= {"checks.found_totals"}
