"""Tank-mix properties follow from the analysis; what is not known is said, and asked about where it matters."""

from __future__ import annotations

from typing import Final

import pytest

from support.small_visit import Columns, close, found, visit
from support.tables import NO as BLANK
from thorough.omission_sites import CALM, WITH_OWN, N
from thorough.omissions import Scene, scene
from wbgen.trade.nutrients import FORMS, counted_form
from wbgen.trade.tank_rules import FROM_ANALYSIS, HOLDS_METALS, SIDES, TRAIT_RULES, TRAITS

OWN: Final = """\
products:
  - name: Own
    form: %s
    family: own
    analysis: {per: %s, contents: {%s}, basis: invented}
    %s
    spray: {usual: %s, basis: invented}
"""


def own(contents: str, more: str = "", form: str = "soluble powder") -> Scene:
    """The calm site with a product of which only the analysis is stated."""
    how = ("w/v", "1 mL/m²") if form in ("liquid", "brew") else ("w/w", "1 g/m²")
    return scene(CALM + WITH_OWN, "metric", OWN % (form, how[0], contents, more, how[1]))


def properties(planner: Scene) -> set[str]:
    """The properties that the product has."""
    return {trait for trait in TRAITS if planner.figure(f"products.property_{trait}@Own") == "yes"}


@pytest.mark.parametrize("form", ["soluble powder", "liquid"])
@pytest.mark.parametrize("symbol", FORMS)
def test_a_label_that_states_a_nutrient_gives_its_property(symbol: str, form: str) -> None:
    of = {nutrient: trait for trait, nutrient in FROM_ANALYSIS.items()}
    nutrient = counted_form(symbol).nutrient.key
    assert properties(own(f"{symbol}: 0.1 %", form=form)) == ({of[nutrient]} if nutrient in of else set())


def test_every_nutrient_but_nitrogen_has_a_property() -> None:
    assert set(FROM_ANALYSIS.values()) == {counted_form(one).nutrient.key for one in FORMS} - {"nitrogen"}


@pytest.mark.parametrize(
    ("contents", "more", "has"),
    [
        ("N: 10 %", "", set()),
        ("N: 10 %", "nitrogen: {ammonium: 3 %, basis: invented}", {"ammonium"}),
        ("N: 10 %", "nitrogen: {ammonium: 0 %, urea: 10 %, basis: invented}", set()),
        ("Ca: 0 %", "", set()),
        ("Fe: 6 %", "", {"ferrous"}),
        ("Fe: 6 %", "traits: {value: [chelated iron], basis: invented}", {"chelated iron"}),
        ("P: 6 %", "traits: {value: [chelated iron], basis: invented}", {"phosphate", "chelated iron"}),
        ("S: 3 %", "traits: {value: [thiosulphate], basis: invented}", {"thiosulphate"}),
        ("S: 3 %", "traits: {value: [thiosulphate, sulphate], basis: invented}", {"thiosulphate", "sulphate"}),
        ("P: 6 %, Fe: 0.1 %, Mn: 0.1 %", "", {"phosphate", "chelated iron"}),
        ("P: 6 %, Fe: 0 %, Mn: 0.1 %", "", {"phosphate"}),
        ("P: 6 %, Fe: 6 %", "traits: {value: [ferrous], basis: invented}", {"phosphate", "ferrous"}),
        ("P: 6 %, Mn: 6 %", "traits: {value: [manganese], basis: invented}", {"phosphate", "manganese"}),
        ("Fe: 1 %, Mn: 1 %", "traits: {value: [phosphate], basis: invented}", {"phosphate", "chelated iron"}),
        ("Fe: 1 %, Mn: 1 %", "traits: {value: [alkaline], basis: invented}", {"alkaline", "chelated iron"}),
        ("Fe: 1 %", "traits: {value: [alkaline humate], basis: invented}", {"alkaline humate", "chelated iron"}),
        ("Fe: 1 %", "traits: {value: [strongly alkaline], basis: invented}", {"strongly alkaline", "chelated iron"}),
        ("Ca: 6 %, Fe: 1 %, Mn: 1 %", "", {"calcium", "ferrous", "manganese"}),
        ("Fe: 1 %, Mn: 1 %", "traits: {value: [acid], basis: invented}", {"acid", "ferrous", "manganese"}),
        ("S: 3 %, K: 2 %", "traits: {value: [acid], basis: invented}", {"sulphate", "potassium", "acid"}),
    ],
)
def test_what_is_stated_adds_and_takes_nothing_away(contents: str, more: str, has: set[str]) -> None:
    assert properties(own(contents, more)) == {one.replace(" ", "_") for one in has}


def test_a_brew_is_live_without_being_told() -> None:
    assert properties(own("N: 0.1 %", form="brew")) == {"live_brew"}


def test_a_product_of_the_users_breaks_a_rule_without_being_told() -> None:
    alone = own("Ca: 12 %").changed({"chosen_products.product": "Own"})
    both = alone.changed({"chosen_products.product@1": N})
    assert alone.figure("mix_checks.tank_calcium_with_sulphate") == 0
    assert both.figure("mix_checks.tank_calcium_with_sulphate") == 2
    assert "gypsum falls out" in both.figure("verdict.reason")
    assert both.figure("verdict.verdict") == "Do not mix"


LEVELS: Final = {frozenset((rule.first, rule.second)): rule.level for rule in TRAIT_RULES}


def test_two_traits_have_one_rule() -> None:
    assert len(LEVELS) == len(TRAIT_RULES)


def test_what_is_strongly_alkaline_does_no_less_than_what_is_alkaline() -> None:
    partners = {one for pair in LEVELS if "alkaline" in pair for one in pair} - {"alkaline"}
    assert {"acid", "calcium", "ferrous", "manganese"} <= partners
    strong = {one: LEVELS.get(frozenset((one, "strongly_alkaline")), 0) for one in partners}
    assert [one for one in partners if strong[one] < LEVELS[frozenset((one, "alkaline"))]] == []


def test_gas_is_never_a_matter_of_a_jar_test() -> None:
    gases = {(rule.first, rule.second): rule.level for rule in TRAIT_RULES if "gas comes off" in rule.reason}
    assert gases == {("strongly_alkaline", "ammonium"): 2, ("thiosulphate", "acid"): 2}


def test_what_holds_its_metals_is_what_would_throw_them_down() -> None:
    """By the rules of iron: but for what is live, and for a thiosulphate, which takes nothing out of solution."""
    of_iron = {one for pair in LEVELS if "ferrous" in pair for one in pair} - {"ferrous", "thiosulphate"}
    assert of_iron == set(HOLDS_METALS)


SOLID: Final[Columns] = {"product": ("text", ["Iron sulphate"])}
PAIR: Final[Columns] = {"product": ("text", ["Iron sulphate", "Seaweed"])}
POURED: Final[Columns] = {"product": ("text", ["Seaweed"])}
NONE: Final[Columns] = {"property_neutral": ("text", []), "properties_stated": ("text", [])}
NO_SIDE: Final[Columns] = {"property_neutral": ("text", [])}
UNSOLVED: Final[Columns] = {"solubility_cold": ("g/L", [])}
ALL_UNKNOWN: Final = "not known: solubility, pH, whether it is live"


@pytest.mark.parametrize(
    ("mix", "products", "level", "reason", "note"),
    [
        (SOLID, {}, 0, "", ""),
        (SOLID, UNSOLVED, 1, "not known: solubility", ""),
        (POURED, UNSOLVED, 0, "", ""),  # nothing to be dissolved
        (SOLID, NO_SIDE, 0, "", "not known: pH of Iron sulphate"),  # it meets nothing
        (PAIR, NO_SIDE, 1, "not known: pH", ""),
        (SOLID, NONE, 0, "", "not known: pH of Iron sulphate; not known: whether Iron sulphate is live"),
        (PAIR, NONE, 1, "not known: pH, whether it is live", ""),
        (PAIR, {**NONE, **UNSOLVED}, 1, ALL_UNKNOWN, ""),
        (
            POURED,
            {"dissolved_solids": ("g/L", [])},
            0,
            "",
            "not known: dissolved solids of Seaweed, counted as 300 g/L",
        ),
        (PAIR, {"dissolved_solids": ("g/L", [])}, 0, "", "not known: dissolved solids of Seaweed, counted as 300 g/L"),
    ],
)
def test_what_is_not_known_is_said_once_and_asked_where_it_matters(
    mix: Columns, products: Columns, level: int, reason: str, note: str
) -> None:
    products = {"months_suited": ("text", []), "least_interval": ("day", [1] * 4), **products}
    model = visit(mix, products=products)
    assert found(model, "level_unknown")[0] == level
    assert found(model, "level")[0] == level
    assert found(model, "product_reason")[0] == reason
    assert "".join(found(model, "note_words")).removeprefix("; ") == note


@pytest.mark.parametrize("key", SIDES)
def test_any_side_of_neutral_is_known(key: str) -> None:
    model = visit(PAIR, products={**NO_SIDE, f"property_{key}": ("text", ["yes"])})
    assert found(model, "unknown_side")[:2] == ["", ", pH"]


def test_a_live_product_is_known_to_be_live() -> None:
    model = visit(PAIR, products={**NONE, "property_live_brew": ("text", ["yes"])})
    assert found(model, "unknown_life")[:2] == ["", ", whether it is live"]


def test_a_solubility_that_is_not_known_is_not_nothing() -> None:
    unknown = own("N: 10 %").changed({"chosen_products.product": "Own"})
    assert unknown.figure("mix.solubility_share") == close(BLANK)
    assert "not known: solubility" in unknown.figure("verdict.reason")
    known = own("N: 10 %").changed({"chosen_products.product": "Own", "chosen_products.product@1": N})
    assert 0 < known.figure("mix.solubility_share") < 0.1
    assert "not known: solubility" in known.figure("verdict.reason")
    liquid = own("N: 10 %", form="liquid").changed({"chosen_products.product": "Own"})
    assert liquid.figure("mix.solubility_share") == 0
