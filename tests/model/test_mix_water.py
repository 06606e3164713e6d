"""The water of a mix and its acid, against figures worked out by hand and against its chemistry solved by trial."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, Final

import numpy as np
import pytest
import yaml
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from support.small_visit import ACID_CONSTANTS, IRON, Columns, close, found, visit
from support.tables import NO
from wbgen.files import shipped
from wbgen.model.tools.ions import charges
from wbgen.trade.families import family
from wbgen.trade.nutrients import ATOMIC_WEIGHT
from wbgen.trade.tank_rules import ACID, CONDITIONERS, SIDES, TRAIT_RULES
from wbgen.units.quantity import convert

UREA: Columns = {"product": ("text", ["Slow urea"])}
WANTED: Columns = {"wanted_ph": ("", 6.0)}
HARD: Columns = {"ph": ("", 7.8), "alkalinity": ("meq/L", 5.0), "hardness": ("meq/L", NO)}
UNSAID: Columns = {"hardness": ("meq/L", NO)}
"""A mix that says nothing of its water."""


def of(key: str, unit: str = "", products: Columns = IRON, mix: Columns = UNSAID, **changed: Any) -> Any:
    """A figure of the water of a mix of iron, on a site of which `water` says what is known."""
    return found(visit(products, mix=mix, **changed), key, unit, "mix_water")


# --- the chemistry, by another road: concentrations of single ions, and pH found by halving -----------------------


PK: Final = {key: float(figure) for key, (unit, figure) in ACID_CONSTANTS.items() if unit == ""}
CARBONIC: Final = [PK["pk_carbonic_one"], PK["pk_carbonic_two"]]
CITRIC: Final = [PK["pk_citric_one"], PK["pk_citric_two"], PK["pk_citric_three"]]


def anions(total: float, hydrogen: float, pks: Sequence[float]) -> list[float]:
    """The concentrations of an acid's forms, the uncharged one first: each is the one before × K ÷ hydrogen ions."""
    forms = [1.0]
    for pk in pks:
        forms.append(forms[-1] * 10.0**-pk / hydrogen)
    return [total * form / sum(forms) for form in forms]


def imbalance(ph: float, bases: float, carbonate: float, citric: float) -> float:
    """Positive less negative charges (mol/L) of a water with so much strong base, total carbonate and citric acid."""
    hydrogen = 10.0**-ph
    negative: float = 10.0 ** -PK["pk_water"] / hydrogen
    for total, pks in ((carbonate, CARBONIC), (citric, CITRIC)):
        negative += sum(charge * form for charge, form in enumerate(anions(total, hydrogen, pks)))
    return float(bases + hydrogen - negative)


def root(function: Callable[[float], float], low: float, high: float) -> float:
    """Where a falling function is 0."""
    assert function(low) > 0 > function(high)
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if function(middle) > 0 else (low, middle)
    return low


def ph_after(ph: float, alkalinity: float, citric: float) -> float:
    """The pH of a water (alkalinity in mol/L) with so much citric acid (mol/L), no carbonic acid leaving it."""
    carbonate = root(lambda total: imbalance(ph, alkalinity, total, 0.0), 0.0, 1.0)
    return root(lambda one: imbalance(one, alkalinity, carbonate, citric), 0.0, 14.0)


@settings(derandomize=True, deadline=None, max_examples=120)
@given(
    ph=st.floats(5.0, 10.5), alkalinity=st.floats(0.05, 40.0), wanted=st.floats(4.0, 8.0),
    kind=st.sampled_from(["anhydrous", "monohydrate"]),
)  # fmt: skip
def test_the_acid_brings_the_water_to_the_ph_that_is_wanted(
    ph: float, alkalinity: float, wanted: float, kind: str
) -> None:
    assume(ph - wanted > 0.001 and alkalinity / 1000 > 1.01 * (10 ** (ph - 14) - 10**-ph))
    water: Columns = {
        "ph": ("", ph), "alkalinity": ("meq/L", alkalinity), "wanted_ph": ("", wanted), "citric_acid": ("text", kind)
    }  # fmt: skip
    grams = of("acid_in_water", "g/L", water=water)
    moles = grams / {"anhydrous": 192.123, "monohydrate": 210.138}[kind]
    assert ph_after(ph, alkalinity / 1000, moles) == pytest.approx(wanted, abs=1e-9)


BY_PHREEQC: Final[dict[tuple[float, float, float], tuple[float, float]]] = {
    (7.8, 250, 6.0): (0.2708, 0.2903), (8.3, 100, 5.0): (0.2151, 0.2184), (8.3, 100, 6.0): (0.1131, 0.1208),
    (7.5, 50, 6.0): (0.0556, 0.0595), (7.7, 377, 5.27): (0.6855, 0.6994), (7.8, 250, 7.0): (0.0495, 0.0602),
    (7.2, 400, 5.5): (0.6293, 0.6477), (7.0, 30, 6.0): (0.0313, 0.0334),
}  # fmt: skip
"""By pH, alkalinity (mg CaCO3/L) and the pH that is wanted: g/L of citric acid at 25 °C and at 10 °C.

Computed with PHREEQC (phreeqpython 1.6.2, phreeqc.dat; citrate and its heats after Bénézeth and others, 1997), a closed
system of sodium bicarbonate, with activities by its own rules.
"""


@pytest.mark.parametrize("water", BY_PHREEQC)
def test_a_program_that_knows_activities_and_temperature_is_not_far(water: tuple[float, float, float]) -> None:
    """The note of the constants says how far, at most: a tenth less at 25 °C, an eighth more at 10 °C."""
    ph, alkalinity, wanted = water
    given: Columns = {"ph": ("", ph), "alkalinity": ("meq/L", alkalinity / 50.043), "wanted_ph": ("", wanted)}
    grams = of("acid_in_water", "g/L", water=given)
    mild, cold = BY_PHREEQC[water]
    assert 0.9 * grams < mild < grams
    assert 0.9 * grams < cold < 1.125 * grams


def test_a_hundredth_less_acid_would_not_do() -> None:
    """The test above can tell."""
    moles = of("acid_in_water", "g/L", water=HARD | WANTED) / 192.123
    assert ph_after(7.8, 0.005, moles) == pytest.approx(6, abs=1e-9)
    assert ph_after(7.8, 0.005, 0.99 * moles) - 6 > 0.005


def test_by_hand() -> None:
    """At pH 6, 10^(6 - 6.352) = 0.4446 of a carbonate's forms are bicarbonate to 1 of carbonic acid: 0.3078."""
    figures = {key: of(key, water=HARD | WANTED) for key in ("carbonate_before", "carbonate_after", "groups")}
    assert figures["carbonate_after"] == pytest.approx(0.44463 / 1.44463, abs=1e-4)
    assert figures["carbonate_before"] == pytest.approx((28.05 + 2 * 0.0830) / (1 + 28.05 + 0.0830), abs=1e-4)
    assert figures["groups"] == pytest.approx(2.2354, abs=1e-4)
    assert of("free_before", "meq/L", water=HARD | WANTED) == pytest.approx(1000 * (10**-6.2 - 10**-7.8))
    taken = of("neutralised", "meq/L", water=HARD | WANTED)
    assert taken == pytest.approx(5 * (1 - 0.30781 / 0.96853), abs=0.003)
    assert of("acid_in_water", "g/L", water=HARD | WANTED) == pytest.approx(taken * 0.192123 / 2.2354, rel=1e-4)


def test_the_constants_are_those_of_the_templates_and_the_masses_those_of_the_atoms() -> None:
    tables = yaml.safe_load((shipped.templates() / "settings.yaml").read_text("utf-8"))["tables"]
    (row,) = next(table["rows"] for table in tables if table["key"] == "acid_constants")
    assert row == {key: figure for key, (_, figure) in ACID_CONSTANTS.items()}

    def mass(**atoms: int) -> float:
        return float(sum(ATOMIC_WEIGHT[atom] * number for atom, number in atoms.items()))

    assert mass(C=6, H=8, O=7) == pytest.approx(row["anhydrous"], abs=1e-9)
    assert mass(C=6, H=10, O=8) == pytest.approx(row["monohydrate"], abs=1e-9)
    assert convert(1, "meq/L", "mg CaCO3/L") == pytest.approx(mass(Ca=1, C=1, O=3) / 2, abs=1e-12)


@pytest.mark.parametrize("ph", [-400.0, 400.0, 1e300, np.nan])
def test_a_ph_of_nowhere_has_no_charges(ph: float) -> None:
    assert charges(ph, CITRIC) == 0 if ph == -400 else np.isnan(charges(ph, CITRIC))
    water: Columns = {**HARD, "ph": ("", ph), "wanted_ph": ("", -500.0)}
    assert np.isnan(of("acid_in_water", "g/L", water=water))


# --- whose water, and what is said where there is no acid ---------------------------------------------------------


@pytest.mark.parametrize(
    ("mix", "water", "owner", "figures"),
    [
        ({}, {}, "not known", [NO, NO, NO]),
        ({}, HARD, "the site", [7.8, 5, NO]),
        ({"ph": ("", 6.5)}, HARD, "this mix", [6.5, NO, NO]),
        ({"alkalinity": ("meq/L", 0.0)}, HARD, "this mix", [NO, 0, NO]),
        ({"hardness": ("meq/L", 0.0)}, HARD, "this mix", [NO, NO, 0]),
        ({"ph": ("", 7.0), "alkalinity": ("meq/L", 1.0), "hardness": ("meq/L", 2.0)}, {}, "this mix", [7, 1, 2]),
    ],
)
def test_a_mix_that_says_anything_of_its_water_has_a_water_of_its_own(
    mix: Columns, water: Columns, owner: str, figures: list[float]
) -> None:
    """Figures of two waters are never put together: rain water has not the alkalinity of the main."""
    given: Any = {"mix": UNSAID | mix, "water": water}
    assert of("water_from", **given) == owner
    assert [of("ph", **given), of("alkalinity", "meq/L", **given), of("hardness", "meq/L", **given)] == close(figures)


NO_WISH, UNKNOWN = "no pH is wanted on the sheet Settings", "pH or alkalinity of the water is not known"
LOW, NONE = "the water is not above the pH that is wanted", "the water has no alkalinity"


@pytest.mark.parametrize(
    ("water", "why"),
    [
        (HARD | WANTED, ""),
        (HARD, NO_WISH),
        ({**HARD, **WANTED, "ph": ("", NO)}, UNKNOWN),
        ({**HARD, **WANTED, "alkalinity": ("meq/L", NO)}, UNKNOWN),
        (WANTED, UNKNOWN),
        ({**HARD, "wanted_ph": ("", 7.8)}, LOW),
        ({**HARD, "wanted_ph": ("", 7.8 - 4e-10)}, LOW),
        ({**HARD, "wanted_ph": ("", 8.0)}, LOW),
        ({**HARD, "wanted_ph": ("", 7.799)}, ""),
        ({**HARD, **WANTED, "alkalinity": ("meq/L", 0.0)}, NONE),
        # Hydroxide alone is 0.1 meq/L at pH 10.
        ({**WANTED, "ph": ("", 10.0), "alkalinity": ("meq/L", 0.0999)}, NONE),
        ({**WANTED, "ph": ("", 10.0), "alkalinity": ("meq/L", 0.1001)}, ""),
    ],
)
def test_why_there_is_no_acid(water: Columns, why: str) -> None:
    assert of("no_acid", water=water) == why
    grams = of("acid_in_water", "g/L", water=water)
    assert bool(np.isnan(grams)) is (why != "")
    assert bool(grams > 0) is (why == "")
    if why:
        assert of("acid_words", water=water) == f"no acid: {why}"
        noted = "" if why in (NO_WISH, LOW) else f"; no acid: {why}"
        assert of("note_words", water=water) == noted
        assert of("note_words", products=UREA, water=water) == ""


def test_a_text_where_the_site_has_a_number_is_not_known() -> None:
    model = visit(IRON, mix=UNSAID, water=HARD | WANTED, misplaced=["water.alkalinity"])
    assert found(model, "no_acid", table="mix_water") == UNKNOWN


# --- what is weighed ----------------------------------------------------------------------------------------------


def test_each_load_has_the_acid_of_its_clean_water_on_a_step_of_the_scale() -> None:
    given: Any = {"water": HARD | WANTED}
    strength = of("acid_in_water", "g/L", **given)
    assert strength == pytest.approx(0.2932, abs=1e-4)
    assert of("exact_full", "g", **given) == pytest.approx(13 * strength)
    assert of("exact_last", "g", **given) == pytest.approx(7 * strength)
    assert [of(f"weigh_{load}", "g", **given) for load in ("full", "last")] == [4, 2]
    assert [of(f"steps_{load}", **given) for load in ("full", "last")] == [1, 1]
    assert of("acid_words", **given) == "weigh it as below, stir it into the water first; measure the pH afterwards"
    assert of("caution_words", **given).startswith("•Citric acid: ")
    fine: Any = {**given, "scales": {"fine_scale_step": ("g", 0.1)}}
    assert [of(f"weigh_{load}", "g", **fine) for load in ("full", "last")] == close([3.8, 2.1])
    kind: Any = {"water": {**HARD, **WANTED, "citric_acid": ("text", "Monohydrate")}}
    assert of("acid_in_water", "g/L", **kind) == pytest.approx(strength * 210.138 / 192.123)


@pytest.mark.parametrize(("water", "steps"), [(NO, [1, 0]), (1.6, [1, 0]), (2.0, [1, 1]), (-0.5, [1, 0])])
def test_a_part_load_that_takes_too_little_has_no_step_of_acid(water: float, steps: list[int]) -> None:
    given: Any = {"water": HARD | WANTED, "mix": {**UNSAID, "clean_water_last": ("L", water)}}
    assert [of(f"steps_{load}", **given) for load in ("full", "last")] == steps
    assert bool(np.isnan(of("exact_last", "g", **given))) is bool(np.isnan(water))


def test_too_little_to_weigh_is_said() -> None:
    given: Any = {"water": HARD | WANTED, "scales": {"fine_scale_step": ("g", 10), "coarse_scale_step": ("g", 10)}}
    assert (of("adds", **given), of("treated", **given), of("ph_in_tank", **given)) == ("no", "no", 7.8)
    assert of("acid_words", **given) == "no acid: too little to weigh, make a stock solution"
    assert of("note_words", **given) == "; no acid: too little to weigh, make a stock solution"
    assert of("caution_words", **given) == ""
    without: Any = {"water": HARD | WANTED, "scales": {"fine_scale_step": ("g", NO), "coarse_scale_step": ("g", NO)}}
    assert np.isnan(of("weigh_full", "g", **without))
    assert of("adds", **without) == "no"


@pytest.mark.parametrize(
    ("acidify", "products", "adds"),
    [
        ("with iron", IRON, "yes"), ("with iron", UREA, "no"), ("", IRON, "yes"), ("perhaps", UREA, "no"),
        ("Yes", UREA, "yes"), ("yes", IRON, "yes"), ("no", IRON, "no"), ("NO", UREA, "no"),
    ],
)  # fmt: skip
def test_acid_goes_where_it_is_asked_for(acidify: str, products: Columns, adds: str) -> None:
    given: Any = {"products": products, "water": HARD | WANTED, "mix": {**UNSAID, "acidify": ("text", acidify)}}
    assert of("adds", **given) == adds
    assert of("ph_in_tank", **given) == (6 if adds == "yes" else 7.8)
    assert of("steps_full", **given) == (adds == "yes")
    if adds == "no":
        assert of("acid_words", **given) == "no acid goes in: it is not asked for above"


def with_acid(rate: float, family: str = "Water conditioners", acid: str = "yes", **changed: Columns) -> dict[str, Any]:
    """A mix of iron and of a product that is acid, at 400 L/ha, in hard water."""
    products: Columns = {
        "name": ("text", ["Iron sulphate", "Acid"]), "measured_by": ("text", ["mass", "mass"]),
        "family": ("text", ["iron", family]), "property_acid": ("text", ["yes", acid]),
        "spray_mass_usual": ("g/m**2", [1, rate]), "diluted_volume_usual": ("mL/L", []),
    }  # fmt: skip
    return {
        "products": {"product": ("text", ["Iron sulphate", "Acid"])}, "water": HARD | WANTED, "mix": UNSAID, **changed,
        "catalogue": products,
    }  # fmt: skip


def acid_of(key: str, unit: str, given: dict[str, Any]) -> Any:
    rest = {table: columns for table, columns in given.items() if table not in ("products", "catalogue")}
    return found(visit(given["products"], products=given["catalogue"], **rest), key, unit, "mix_water")


ENOUGH: Final = 0.2932 * 0.95 * 0.04
"""At 400 L/ha, in g/m²: what the water takes, less the error of measuring."""


@pytest.mark.parametrize(
    ("given", "own", "treated"),
    [
        (with_acid(0.02), 1, "yes"),
        (with_acid(ENOUGH * 1.001), 1, "yes"),
        (with_acid(ENOUGH * 0.999), 1, "no"),
        (with_acid(0.02, family="iron"), 0, "yes"),  # iron sulphate is acid too, and no acid for the water
        (with_acid(0.02, acid=""), 0, "yes"),
    ],
)
def test_acid_that_is_chosen_as_a_product_is_not_added_to(given: dict[str, Any], own: int, treated: str) -> None:
    assert acid_of("own_acids", "", given) == own
    assert acid_of("adds", "", given) == ("no" if own else "yes")
    assert acid_of("treated", "", given) == treated
    assert acid_of("ph_in_tank", "", given) == (6 if treated == "yes" else 7.8)
    if own:
        assert acid_of("acid_words", "", given) == "the mix has an acid of its own, so no other goes in"
        assert acid_of("steps_full", "", given) == 0
        rate = acid_of("own_acid", "g/L", given)
        said = f"; acid among the products: {round(rate, 2):g} g/L, this water takes 0.29 g/L"
        assert acid_of("note_words", "", given) == said


def test_the_acid_of_a_jar_is_that_much_stronger() -> None:
    given = with_acid(0.02, mix={**UNSAID, "dilution": ("", 20)})
    assert acid_of("own_acid", "g/L", given) == pytest.approx(20 * 0.02 / 0.04)


@pytest.mark.parametrize(
    ("times", "span", "over"),
    [(0.5, 2.0, 0), (2.0, 2.0, 0), (2.001, 2.0, 1), (3.0, 3.0, 0), (3.001, 3.0, 1), (9.0, NO, 0)],
)
def test_far_more_acid_than_the_water_takes_is_asked_about(times: float, span: float, over: int) -> None:
    needed = of("acid_in_water", "g/L", water=HARD | WANTED)
    given = with_acid(times * needed * 0.04, settings={"acid_span": ("", span)})
    assert acid_of("taken", "g/L", given) == needed
    assert acid_of("over_taken", "", given) == over
    words = acid_of("over_words", "", given)
    assert words.startswith("; more acid among the products than this water takes: ") is bool(over)
    assert words.endswith(" g/L, to the pH that is wanted 0.29 g/L") is bool(over)
    assert bool(acid_of("note_words", "", given)) is not bool(over)
    rest = {table: columns for table, columns in given.items() if table not in ("products", "catalogue")}
    model = visit(given["products"], products=given["catalogue"], **rest)
    assert found(model, "level_own_acid", table="mix_checks") == over
    assert found(model, "worst", table="mix_checks") >= over
    assert words in found(model, "words", table="mix_checks")


@pytest.mark.parametrize(
    ("water", "over"),
    [
        ({**HARD, **WANTED, "ph": ("", 6.0)}, 1),  # it takes none
        ({**HARD, **WANTED, "ph": ("", 3.5)}, 1),
        ({**HARD, **WANTED, "alkalinity": ("meq/L", 0.0)}, 1),
        ({**HARD, **WANTED, "alkalinity": ("meq/L", NO)}, 1),  # it is not known what it takes
        (HARD, 1),
        ({**HARD, **WANTED}, 0),
    ],
)
def test_water_that_takes_no_acid_has_too_much_of_any(water: Columns, over: int) -> None:
    given = with_acid(0.001, water=water)
    assert acid_of("over_taken", "", given) == over


def test_of_a_liquid_acid_it_is_not_known_how_much_it_brings() -> None:
    given = with_acid(0.02)
    given["catalogue"] = {**given["catalogue"], "measured_by": ("text", ["mass", "volume"])}
    assert acid_of("own_acid", "g/L", given) == 0
    unknown = "; acid among the products, and whether the water takes so much is not known"
    assert (acid_of("over_taken", "", given), acid_of("over_words", "", given)) == (1, unknown)


@pytest.mark.parametrize(("wanted", "left", "level"), [(6.0, 1.53, 0), (6.9, 3.95, 1), (7.7, 4.9, 1)])
def test_what_acid_leaves_of_the_alkalinity_is_held_to_its_limit(wanted: float, left: float, level: int) -> None:
    """Of 5 meq/L; 2 is the limit. A pH that is wanted too high silences nothing."""
    given: Any = {"water": {**HARD, "wanted_ph": ("", wanted)}}
    assert of("alkalinity_left", "meq/L", **given) == pytest.approx(left, abs=0.1)
    assert checks("level_alkalinity", **given) == level


@pytest.mark.parametrize("trait", ["calcium", "phosphate", "alkaline_humate", "strongly_alkaline"])
def test_hard_water_is_asked_about_with_what_it_may_throw_down(trait: str) -> None:
    given: Any = {"products": {f"property_{trait}": ("text", ["", "", "yes"])}}
    for hardness, level in ((2.5, 0), (2.6, 1)):
        model = visit(
            {"product": ("text", ["Slow urea"])}, mix=UNSAID, water={"hardness": ("meq/L", hardness)}, **given
        )
        assert found(model, "level_hardness", table="mix_checks") == level


def test_acid_among_the_products_needs_ph_and_alkalinity() -> None:
    feed: Columns = {"property_ferrous": ("text", []), "property_acid": ("text", ["", "yes"])}
    given = with_acid(0.02, water={"ph": ("", NO), "alkalinity": ("meq/L", NO), "hardness": ("meq/L", 1.0)})
    given["catalogue"] = {**given["catalogue"], **feed}
    assert acid_of("unchecked", "", given) == ", pH, alkalinity"


@pytest.mark.parametrize(
    ("end", "kind", "below", "ph", "limit", "level"),
    [
        *(("low", "acid", "below", *one) for one in ((4.5, 4.5, 0), (4.49, 4.5, 1), (3.0, NO, 0), (7.0, 7.1, 1))),
        *(("high", "alkaline", "above", *one) for one in ((9.0, 9.0, 0), (9.01, 9.0, 1), (11.0, NO, 0))),
        ("low", "acid", "below", NO, 4.5, 0), ("high", "alkaline", "above", NO, 9.0, 0),
    ],
)  # fmt: skip
def test_very_acid_or_alkaline_water_is_asked_about_whatever_is_mixed(
    end: str, kind: str, below: str, ph: float, limit: float, level: int
) -> None:
    settings: Columns = {f"{end}est_ph": ("", limit)}
    model = visit({"product": ("text", ["Slow urea"])}, mix=UNSAID, water={"ph": ("", ph)}, settings=settings)
    assert found(model, f"level_{end}_ph", table="mix_checks") == level
    words = f"; very {kind} water, pH {round(ph, 1):g}, ask first {below} {limit:g}" if level else ""
    assert found(model, f"words_{end}_ph", table="mix_checks") == words
    assert words in found(model, "words", table="mix_checks")


def test_acid_of_its_own_where_nothing_is_wanted_is_not_judged() -> None:
    given = with_acid(0.02, water=HARD)
    assert (acid_of("treated", "", given), acid_of("note_words", "", given)) == ("no", "")


def test_the_family_of_acids_is_that_of_the_catalogue_and_of_the_template() -> None:
    catalogue = (shipped.product_catalogue() / "brews_and_conditioners.yaml").read_text("utf-8")
    (acid,) = [one for one in yaml.safe_load(catalogue)["products"] if one["name"] == "Citric acid"]
    assert (acid["family"], acid["traits"]["value"]) == (CONDITIONERS, ["acid", "citrate"])
    assert f'"{CONDITIONERS}"' in (shipped.templates() / "mix_workings" / "mix_water.yaml").read_text("utf-8")


PARTNERS: Final = {rule.says["partner"]: rule for rule in family("acid_rules")}


def test_acid_keeps_the_rules_of_the_tank_as_a_product_would() -> None:
    kept = {
        partner
        for rule in TRAIT_RULES
        for own, partner in ((rule.first, rule.second), (rule.second, rule.first))
        if own in ("acid", "citrate", "not_live")
    }
    assert (
        kept
        == set(PARTNERS)
        >= {"calcium", "thiosulphate", "strongly_alkaline", "alkaline_humate", "alkaline", "live_brew"}
    )
    assert {*ACID} == {"acid", "citrate", "not_live"}


@pytest.mark.parametrize("level", [0, 1, 2])
@pytest.mark.parametrize("partner", PARTNERS)
def test_acid_for_the_water_meets_what_it_must_not_or_only_after_a_jar_test(partner: str, level: int) -> None:
    rule = PARTNERS[partner]
    held: Columns = {f"level_{one.key}": ("", 0) for one in PARTNERS.values()} | {f"level_{rule.key}": ("", level)}
    model = visit(
        {"product": ("text", ["Slow urea", "Iron sulphate"])}, mix=UNSAID, water=HARD | WANTED, rules=held,
        products={f"property_{partner}": ("text", ["", "", "yes"])},
    )  # fmt: skip
    assert found(model, "adds", table="mix_water") == ("no" if level == 2 else "yes")
    assert found(model, "level_acid", table="mix_checks") == level % 2
    words = f"; acid for the water with {rule.name}, jar test first, {rule.says['reason']}" * (level == 1)
    assert found(model, "words_acid", table="mix_checks") == words
    assert ("acid for the water with" in found(model, "words", table="mix_checks")) is (level == 1)
    assert words in found(model, "words", table="mix_checks")
    if level == 2:
        assert found(model, "note_words", table="mix_water") == "; no acid: a product of the mix must not meet it"
        assert found(model, "level_iron_ph", table="mix_checks") == 1


@pytest.mark.parametrize(("most", "adds"), [(1.0, "yes"), (0.0, "no"), (NO, "yes")])
def test_more_acid_than_the_most_does_not_go_in(most: float, adds: str) -> None:
    model = visit(
        {"product": ("text", ["Slow urea"])}, mix={**UNSAID, "acidify": ("text", "yes")}, water=HARD | WANTED,
        settings={"most_acid": ("g/L", most)},
    )  # fmt: skip
    assert found(model, "adds", table="mix_water") == adds
    if adds == "no":
        assert found(model, "note_words", table="mix_water") == (
            "; no acid: it would take more than the most of the sheet Settings, check pH and alkalinity of the water"
        )


def test_a_product_of_which_the_side_is_not_known_is_in_the_company_of_acid() -> None:
    """Alone it is only noted."""
    given: Any = {"products": {f"property_{side}": ("text", []) for side in SIDES}}
    for acidify, level in (("yes", 1), ("no", 0)):
        model = visit(
            {"product": ("text", ["Slow urea"])},
            mix={**UNSAID, "acidify": ("text", acidify)},
            water=HARD | WANTED,
            **given,
        )
        assert found(model, "level_unknown")[0] == level
        assert ("not known: pH" in found(model, "unknown_words")[0]) is bool(level)


# --- what of the water speaks against a mix, and what was not checked ---------------------------------------------


def checks(key: str, unit: str = "", products: Columns = IRON, **changed: Any) -> Any:
    return found(visit(products, mix=UNSAID, **changed), key, unit, "mix_checks")


def test_iron_asks_first_in_water_that_is_not_acid() -> None:
    assert [checks("level_iron_ph", water={**HARD, "ph": ("", ph)}) for ph in (7.0, 7.1)] == [0, 1]
    assert np.isnan(checks("level_iron_ph"))
    assert np.isnan(checks("level_iron_ph", products=UREA, water=HARD))
    said = "; iron may rust out of this water, acidify it: 7.8, ask first above 7"
    assert checks("words_iron_ph", water=HARD) == said
    assert checks("level_iron_ph", water=HARD | WANTED) == 0
    assert checks("level_iron_ph", water={**HARD, "wanted_ph": ("", 7.2)}) == 1


def test_iron_asks_first_in_alkaline_water_unless_acid_takes_it_up() -> None:
    soft: Columns = {"ph": ("", 6.9), "alkalinity": ("meq/L", 2.1)}
    assert checks("level_alkalinity", water=soft) == 1
    assert checks("level_alkalinity", water={**soft, "alkalinity": ("meq/L", 2.0)}) == 0
    assert checks("level_alkalinity", water=soft | WANTED) == 0
    assert np.isnan(checks("level_alkalinity", products=UREA, water=soft))
    assert np.isnan(checks("level_alkalinity", water=WANTED))


def test_hardness_stands_for_alkalinity_only_where_that_is_not_known() -> None:
    hard: Columns = {"hardness": ("meq/L", 6.0)}
    assert checks("found_hardness", "meq/L", water=hard) == 6
    assert np.isnan(checks("found_hardness", "meq/L", water=hard | {"alkalinity": ("meq/L", 0.0)}))
    calcium: Columns = {"product": ("text", ["Calcium nitrate"])}
    assert checks("found_hardness", "meq/L", calcium, water=hard | {"alkalinity": ("meq/L", 0.0)}) == 6


HUMATE: Columns = {"property_alkaline_humate": ("text", ["", "", "yes"])}


@pytest.mark.parametrize(("ph", "level"), [(5.5, 0), (5.5 - 4e-10, 0), (5.4, 1), (NO, 0), (9.0, 0)])
def test_a_humate_asks_first_in_acid_water(ph: float, level: int) -> None:
    given: Any = {"products": UREA, "water": {"ph": ("", ph)}}
    humate = visit(UREA, mix=UNSAID, water={"ph": ("", ph)}, products=HUMATE)
    assert found(humate, "level_humate", table="mix_checks") == level
    words = "; a humate may fall out of such acid water" * level
    assert found(humate, "words_humate", table="mix_checks") == words
    assert ("a humate may fall out" in found(humate, "words", table="mix_checks")) is bool(level)
    assert checks("level_humate", **given) == 0
    off = visit(UREA, mix=UNSAID, water={"ph": ("", ph)}, products=HUMATE, settings={"humate_ph": ("", NO)})
    assert found(off, "level_humate", table="mix_checks") == 0


@pytest.mark.parametrize(
    ("traits", "known", "words"),
    [
        ([], [], ""),
        (["ferrous"], [], "; pH, alkalinity, hardness of the water"),
        (["ferrous"], ["alkalinity"], "; pH of the water"),
        (["ferrous"], ["hardness"], "; pH, alkalinity of the water"),
        (["ferrous"], ["ph"], "; alkalinity, hardness of the water"),
        (["ferrous"], ["ph", "alkalinity"], ""),
        (["alkaline_humate"], [], "; pH, hardness of the water"),
        (["alkaline_humate"], ["ph", "hardness"], ""),
        (["strongly_alkaline"], [], "; hardness of the water"),
        (["calcium"], [], "; alkalinity, hardness of the water"),
        (["phosphate"], ["ph", "alkalinity"], "; hardness of the water"),
        (["phosphate"], ["hardness"], ""),
        (["ferrous", "calcium"], ["ph", "alkalinity"], "; hardness of the water"),
    ],
)
def test_what_is_not_known_of_the_water_is_said_where_a_product_needs_it(
    traits: list[str], known: list[str], words: str
) -> None:
    products: Columns = {f"property_{trait}": ("text", []) for trait in ("ferrous", "calcium", "phosphate", "neutral")}
    products |= {f"property_{trait}": ("text", ["", "", "yes"]) for trait in traits}
    water = {key: column for key, column in {**HARD, "hardness": ("meq/L", 1.0)}.items() if key in known}
    model = visit(UREA, mix=UNSAID, water=water, products=products)
    assert found(model, "unchecked_words", table="mix_water") == words
