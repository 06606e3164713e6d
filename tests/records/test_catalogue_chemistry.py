"""The shipped catalogue against chemistry and published figures, read without the project's own loader.

`periodictable` is the oracle for molar masses. Units are worked out here from their exact definitions, so that a slip
in the project's own units cannot hide a slip in the catalogue.
"""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import periodictable
import pytest
import yaml

from wbgen.files import shipped
from wbgen.trade.tank_rules import TRAIT_RULES

FOLDER = Path(__file__).parents[2] / "product_catalogue"
SOURCES: dict[str, dict[str, Any]] = yaml.safe_load((FOLDER / "sources.yaml").read_text("utf-8"))["sources"]
PRODUCTS: dict[str, dict[str, Any]] = {
    product["name"]: product
    for path in sorted(FOLDER.glob("*.yaml"))
    if path.name != "sources.yaml"
    for product in yaml.safe_load(path.read_text("utf-8"))["products"]
}

FORMULA = {
    "Ammonium sulphate": "(NH4)2SO4",
    "Urea": "CO(NH2)2",
    "Potassium nitrate": "KNO3",
    "Calcium nitrate (fertiliser grade)": "Ca5(NO3)10NH4NO3(H2O)10",
    "Monoammonium phosphate (soluble grade)": "NH4H2PO4",
    "Monopotassium phosphate": "KH2PO4",
    "Potassium sulphate": "K2SO4",
    "Epsom salts": "MgSO4(H2O)7",
    "Ferrous sulphate heptahydrate": "FeSO4(H2O)7",
    "Iron EDTA chelate powder": "C10H12N2O8FeNa(H2O)3",
    "Manganese sulphate monohydrate": "MnSO4H2O",
}
OXIDE = {"P2O5": ("P", 2), "K2O": ("K", 2), "CaO": ("Ca", 1), "MgO": ("Mg", 1), "SO3": ("S", 1)}

# Exact by definition: 1 lb = 453.59237 g, 1 ft = 0.3048 m, 1 acre = 43 560 ft², US gallon = 231 in³ = 128 fl oz.
LB, OZ = 453.59237, 453.59237 / 16
ACRE, THOUSAND_FT2, YD2 = 43560 * 0.3048**2, 1000 * 0.3048**2, 0.9144**2
GALLON = 3785.411784
PER_M2 = {
    "kg/ha": ("mass", 0.1), "g/m²": ("mass", 1.0), "lb/acre": ("mass", LB / ACRE), "oz/yd²": ("mass", OZ / YD2),
    "oz/1000 ft²": ("mass", OZ / THOUSAND_FT2), "lb/1000 ft²": ("mass", LB / THOUSAND_FT2),
    "L/ha": ("volume", 0.1), "mL/m²": ("volume", 1.0),
    "fl oz/1000 ft²": ("volume", GALLON / 128 / THOUSAND_FT2), "US gal/1000 ft²": ("volume", GALLON / THOUSAND_FT2),
    "pack/ha": ("pack", 1e-4), "lb N/1000 ft²": ("nutrient", LB / THOUSAND_FT2),
    "mL in 10 L": ("dilution", 0.1), "g in 10 L": ("dilution by mass", 0.1),
}  # fmt: skip
"""Kind of each label rate, and g, mL, packs per m², or g or mL per litre of mix, of one such unit."""


def mass(formula: str) -> float:
    """Molar mass, g/mol."""
    return float(periodictable.formula(formula).mass)


def theory(product: str, form: str) -> float:
    """Greatest content of a nutrient in the pure compound, in per cent of its mass."""
    compound = periodictable.formula(FORMULA[product])
    element, atoms_in_oxide = OXIDE.get(form, (form, 1))
    atoms = compound.atoms.get(getattr(periodictable, element), 0)
    return float(100 * atoms / atoms_in_oxide * mass(form) / compound.mass)


def number(text: str) -> float:
    return float(text.split(" ", 1)[0])


def rate(product: dict[str, Any], which: str, method: str = "spray") -> float:
    """Label rate in g/m² (powders, granules) or mL/m² (liquids, brews), at the usual carrier volume."""
    text = product[method][which]
    found, one = PER_M2[text.split(" ", 1)[1]]
    value = number(text) * one
    if found == "nutrient":
        return value / (number(product["analysis"]["contents"]["N"]) / 100)
    if found == "pack":
        return value * number(product["pack"]["value"]) * 1000
    if found.startswith("dilution"):
        return value * number(product["carrier"]["usual"]) / 10_000
    return value


def salts(product: dict[str, Any], which: str, carrier: str = "usual") -> float:
    """Dissolved salts in the mix that a rate makes, g/L."""
    share = number(product["dissolved solids"]["value"]) / 1000 if "dissolved solids" in product else 1
    return rate(product, which) * share / number(product["carrier"][carrier]) * 10_000


def nutrient(product: dict[str, Any], form: str, which: str, method: str = "spray") -> float:
    """Nutrient that a rate brings, g/m²."""
    analysis = product.get("analysis", {"per": "w/w", "contents": {}})
    grams = rate(product, which, method) * number(analysis["contents"].get(form, "0 %")) / 100
    return grams * number(product["density"]["value"]) if "density" in product and analysis["per"] == "w/w" else grams


def mass_rate(product: dict[str, Any], which: str, method: str = "spray") -> float:
    """What a rate puts down, in g/m² of product; liquids by their density."""
    value = rate(product, which, method)
    return value * number(product["density"]["value"]) if "density" in product else value


def hydrate_solubility(molality: float, salt: str, waters: int) -> float:
    """g of hydrate that dissolve in 100 g of added water, from mol of salt per kg of all the water there is then."""
    return 100 * molality * (mass(salt) + waters * 18.015) / (1000 - molality * waters * 18.015)


LEVELS = ("low", "usual", "high")
SPRAYED = {name: product for name, product in PRODUCTS.items() if "spray" in product}
CONTENTS = [(name, form) for name in FORMULA for form in PRODUCTS[name]["analysis"]["contents"]]


def test_every_powder_with_an_analysis_is_checked_against_a_formula() -> None:
    powders = {n for n, p in PRODUCTS.items() if p["form"] == "soluble powder" and "analysis" in p}
    assert powders == set(FORMULA)


@pytest.mark.parametrize(("name", "form"), CONTENTS)
def test_a_grade_is_not_above_theory_nor_a_tenth_below_it(name: str, form: str) -> None:
    printed = number(PRODUCTS[name]["analysis"]["contents"][form])
    assert theory(name, form) * 0.9 <= printed <= theory(name, form) + 0.02


@pytest.mark.parametrize(
    ("formula", "published"),
    [  # computed with molmass 2026.1.8, an independent table of atomic masses
        ("(NH4)2SO4", 132.14), ("CO(NH2)2", 60.055), ("KNO3", 101.10), ("NH4H2PO4", 115.03), ("KH2PO4", 136.09),
        ("K2SO4", 174.26), ("MgSO4(H2O)7", 246.47), ("Ca5(NO3)10NH4NO3(H2O)10", 1080.6), ("FeSO4(H2O)7", 278.01),
        ("MnSO4H2O", 169.02),
    ],
)  # fmt: skip
def test_molar_masses(formula: str, published: float) -> None:
    assert formula in FORMULA.values()
    assert mass(formula) == pytest.approx(published, abs=0.05 if published > 1000 else 0.02)


@pytest.mark.parametrize(
    ("oxide", "published"),
    [
        # Mattilsynet (Norwegian Food Safety Authority), "Hva er forskjell på P og P2O5?", 2013: all five.
        # The first two are also in Penn State, "How Much Phosphorus and Potassium are Really in Your Fertilizer?" 2022.
        ("P2O5", 0.436), ("K2O", 0.830), ("CaO", 0.715), ("MgO", 0.603), ("SO3", 0.400),
    ],
)  # fmt: skip
def test_oxide_to_element_factors(oxide: str, published: float) -> None:
    element, atoms = OXIDE[oxide]
    assert atoms * mass(element) / mass(oxide) == pytest.approx(published, abs=0.0005)


@pytest.mark.parametrize("name", [n for n, p in PRODUCTS.items() if "nitrogen" in p])
def test_forms_of_nitrogen_add_up(name: str) -> None:
    product = PRODUCTS[name]
    stated = [product["nitrogen"].get(form) for form in ("ammonium", "nitrate", "urea", "slow release")]
    forms = sum(number(share) for share in stated if share)
    if None in stated:
        assert forms <= number(product["analysis"]["contents"]["N"])
        return
    assert forms == pytest.approx(number(product["analysis"]["contents"]["N"]), abs=1e-9)


@pytest.mark.parametrize(
    ("name", "salt", "waters", "temperature", "molality", "expected"),
    [  # Molality: CRC Handbook 98th ed. for iron; g anhydrous/100 g of the Wikipedia solubility table for the others.
        ("Ferrous sulphate heptahydrate", "FeSO4", 7, "at 10 C", 1.352, 45.3),
        ("Ferrous sulphate heptahydrate", "FeSO4", 7, "at 20 C", 1.729, 61.5),
        ("Epsom salts", "MgSO4", 7, "at 10 C", 304 / mass("MgSO4"), 91.0),
        ("Epsom salts", "MgSO4", 7, "at 20 C", 351 / mass("MgSO4"), 113.7),
        ("Manganese sulphate monohydrate", "MnSO4", 1, "at 10 C", 597 / mass("MnSO4"), 71.9),
        ("Manganese sulphate monohydrate", "MnSO4", 1, "at 20 C", 629 / mass("MnSO4"), 76.1),
    ],
)
def test_solubility_of_a_hydrate_is_that_of_the_hydrate(
    name: str, salt: str, waters: int, temperature: str, molality: float, expected: float
) -> None:
    converted = hydrate_solubility(molality, salt, waters)
    assert converted == pytest.approx(expected, rel=0.005)
    assert number(PRODUCTS[name]["solubility"][temperature]) == pytest.approx(10 * converted, rel=0.001)


def test_ammonium_sulphate_three_sources_agree() -> None:
    """At 20 °C: CRC 98th ed. in mol/kg, the solubility table and a database of substances in g/100 g."""
    in_g_per_l = (5.688 * mass("(NH4)2SO4"), 754.0, 754.0)
    assert max(in_g_per_l) / min(in_g_per_l) - 1 <= 0.005
    shipped = number(PRODUCTS["Ammonium sulphate"]["solubility"]["at 20 C"])
    assert all(shipped == pytest.approx(value, rel=0.005) for value in in_g_per_l)


@pytest.mark.parametrize("name", [n for n, p in PRODUCTS.items() if "solubility" in p])
def test_cold_water_dissolves_less(name: str) -> None:
    solubility = PRODUCTS[name]["solubility"]
    assert 0 < number(solubility["at 10 C"]) < number(solubility["at 20 C"])


def test_misprints_are_not_used() -> None:
    phosphate = PRODUCTS["Monoammonium phosphate (soluble grade)"]["solubility"]
    assert number(phosphate["at 10 C"]) == pytest.approx(295)  # the misprint is 395
    nitrate = PRODUCTS["Potassium nitrate"]["solubility"]  # 209 g/L is printed for 20 °C in lists whose row is shifted
    assert (number(nitrate["at 10 C"]), number(nitrate["at 20 C"])) == (209, 316)


# Mortvedt (2001), and the older list after Rader (1943); sodium nitrate is 100 by definition in both.
MORTVEDT = {
    "Sodium nitrate": 100, "Ammonium sulphate": 88.3, "Urea": 74.4, "Calcium nitrate (fertiliser grade)": 65,
    "Potassium nitrate": 69.5, "Potassium sulphate": 42.6, "Monoammonium phosphate (soluble grade)": 26.7,
    "Monopotassium phosphate": 8.4,
}  # fmt: skip
OLDER = {
    "Sodium nitrate": 100, "Ammonium sulphate": 69, "Urea": 75, "Calcium nitrate (fertiliser grade)": 69,
    "Potassium nitrate": 74, "Potassium sulphate": 46, "Monoammonium phosphate (soluble grade)": 30,
    "Monopotassium phosphate": 8.4, "Epsom salts": 44,
}  # fmt: skip


def test_salt_index_is_the_higher_of_two_on_the_scale_of_sodium_nitrate() -> None:
    shipped = {name: product["salt index"]["value"] for name, product in PRODUCTS.items() if "salt index" in product}
    lists = [{name: 100 * v / table["Sodium nitrate"] for name, v in table.items()} for table in (MORTVEDT, OLDER)]
    assert shipped == {name: max(table.get(name, 0) for table in lists) for name in shipped}
    assert shipped.keys() == (MORTVEDT.keys() | OLDER.keys()) - {"Sodium nitrate"}


@pytest.mark.parametrize("name", sorted(MORTVEDT.keys() & PRODUCTS.keys()))
def test_note_names_both_salt_indices(name: str) -> None:
    note = PRODUCTS[name]["salt index"]["note"]
    assert "older list" in note
    assert all(f"{table[name]:g}" in note for table in (MORTVEDT, OLDER))


def salt_load(product: dict[str, Any], which: str, method: str = "spray") -> float:
    """g/m² of product, weighted by its salt index; 100 where that is not known."""
    return mass_rate(product, which, method) * float(product.get("salt index", {"value": 100})["value"]) / 100


def test_ammonium_sulphate_may_be_sprayed_at_its_spray_rate_and_not_at_its_dry_rate() -> None:
    product = PRODUCTS["Ammonium sulphate"]
    assert (product["spray"]["usual"], rate(product, "usual")) == ("25 kg/ha", 2.5)
    assert 15 <= rate(product, "low", "dry") < rate(product, "usual", "dry") <= 25
    assert salt_load(product, "usual") <= 5 < salt_load(product, "usual", "dry")
    assert nutrient(product, "N", "usual") <= 1.22 < nutrient(product, "N", "usual", "dry")
    assert salts(product, "usual") <= 50


@pytest.mark.parametrize(
    ("name", "which"),
    [(n, which) for n, p in SPRAYED.items() if p["form"] != "brew" for which in LEVELS if which in p["spray"]],
)
def test_spray_rates_do_not_scorch(name: str, which: str) -> None:
    product = SPRAYED[name]
    assert salt_load(product, which) <= 5
    assert nutrient(product, "N", which) <= 1.23  # 0.25 lb N/1000 ft², printed as 1.22
    assert nutrient(product, "Fe", which) <= 0.34
    if "carrier" in product:
        assert salts(product, which) <= 50
    if {"carrier", "solubility"} <= product.keys():
        assert salts(product, which) <= 0.5 * number(product["solubility"]["at 10 C"])


@pytest.mark.parametrize("name", [n for n, p in SPRAYED.items() if "least" in p.get("carrier", {})])
def test_usual_rate_leaves_room_for_water_at_the_least_carrier_and_keeps_to_50_g_per_litre(name: str) -> None:
    product = SPRAYED[name]
    assert number(product["carrier"]["least"]) <= number(product["carrier"]["usual"])
    assert salts(product, "usual", "least") <= 50
    if product["form"] in ("liquid", "brew"):
        strongest = "high" if "high" in product["spray"] else "usual"
        assert rate(product, strongest) * 10 < number(product["carrier"]["least"])


@pytest.mark.parametrize("name", [n for n, p in PRODUCTS.items() if {"spray", "dry"} <= p.keys()])
def test_spray_rate_is_about_a_tenth_of_the_dry_rate(name: str) -> None:
    """From an eleventh to an eighth: where a law caps the dry rate, it is less than ten times the other."""
    product = PRODUCTS[name]
    assert 0.09 < rate(product, "usual") / rate(product, "usual", "dry") <= 0.125


@pytest.mark.parametrize(
    ("name", "which"), [(n, which) for n, p in PRODUCTS.items() if "dry" in p for which in LEVELS if which in p["dry"]]
)
def test_no_dry_rate_is_above_the_cap_that_the_catalogue_cites(name: str, which: str) -> None:
    """1 lb N/1000 ft² in one dressing, 4.88 g N/m²: a New York handout; Marion County code 19-247 has the same."""
    assert nutrient(PRODUCTS[name], "N", which, "dry") <= LB / THOUSAND_FT2 + 1e-9


@pytest.mark.parametrize("name", PRODUCTS)
def test_rates_rise_from_low_to_high(name: str) -> None:
    product = PRODUCTS[name]
    for method in {"spray", "dry"} & product.keys():
        rates = [0.0, *(rate(product, which, method) for which in LEVELS if which in product[method])]
        assert all(lower < higher for lower, higher in pairwise(rates))


def test_how_often() -> None:
    assert {p["most a year"]["value"] for p in PRODUCTS.values() if p["family"] == "iron" and "most a year" in p} == {8}
    assert PRODUCTS["Compost tea"]["interval"]["value"] == "7 day"
    often = {
        "nitrogen salts": 7, "potassium salts": 14, "liquid feeds": 14, "iron": 14, "seaweed": 14, "humates": 10,
    }  # fmt: skip
    feeds = [p for p in PRODUCTS.values() if {"analysis", "interval"} <= p.keys() and p["form"] != "granule"]
    assert len(feeds) > len(often)
    for product in feeds:
        interval = number(product["interval"]["value"])
        assert interval == often.get(product["family"], interval)
        assert product["family"] in often or 28 <= interval <= 42


@pytest.mark.parametrize("limit", ["interval", "most a year"])
def test_limits_of_a_family_are_the_same_for_each_of_its_products_that_states_them(limit: str) -> None:
    limits: dict[str, set[str]] = {}
    for product in PRODUCTS.values():
        if limit in product:
            limits.setdefault(product["family"], set()).add(str(product[limit]["value"]))
    assert {family: found for family, found in limits.items() if len(found) > 1} == {}


def test_every_kind_of_label_rate_occurs() -> None:
    blocks = [product[method] for product in PRODUCTS.values() for method in {"spray", "dry"} & product.keys()]
    assert {block["usual"].split(" ", 1)[1] for block in blocks} == PER_M2.keys()


JUDGED = {"strong salt", "feed or extract", "live brew", "wetting agent"}
"""Words that no formula gives."""


@pytest.mark.parametrize(
    "name", [n for n, p in PRODUCTS.items() if JUDGED & set(p.get("traits", {"value": []})["value"])]
)
def test_a_judgement_is_not_called_stoichiometry(name: str) -> None:
    traits = PRODUCTS[name]["traits"]
    assert traits["basis"] != "stoichiometry"
    assert re.search(r"judgement|what it is", traits["note"])


@pytest.mark.parametrize("name", [n for n, p in PRODUCTS.items() if "mixing place" in p])
def test_no_place_in_the_order_is_called_published(name: str) -> None:
    """No published order for a tank of fertiliser salts alone was found."""
    assert PRODUCTS[name]["mixing place"]["basis"] in ("common practice", "memory")


def test_salt_indices_that_were_remembered_say_so_and_a_likely_misprint_is_named() -> None:
    remembered = {n for n, p in PRODUCTS.items() if "salt index" in p and p["salt index"]["basis"] == "memory"}
    assert remembered == {"Potassium nitrate", "Monoammonium phosphate (soluble grade)"}
    note = PRODUCTS["Ammonium sulphate"]["salt index"]["note"]
    assert "misprint" in note
    assert "safe side" in note
    assert f"{3.3 * 21:.1f}" in note  # McCarty 2001, as quoted: 3.3 for each per cent of N


def test_what_citric_acid_takes_up() -> None:
    """Acid groups let go at pH 6 by Henderson and Hasselbalch; pK 3.13, 4.76, 6.40 at 25 °C are from memory."""
    note = PRODUCTS["Citric acid"]["spray"]["note"]
    shares, share = [1.0], 1.0
    for pk in (3.13, 4.76, 6.40):
        share *= 10 ** (6 - pk)
        shares.append(share)
    let_go = sum(groups * one for groups, one in enumerate(shares)) / sum(shares)
    amount = 500 / mass("C6H8O7")
    for figure in (f"{amount:.2f} mmol/L", f"{let_go:.2f}", f"{amount * let_go:.1f} meq/L", f"{amount * 3:.1f}"):
        assert figure in note.replace("\n", " "), figure


def test_a_source_can_be_found_by_what_it_says_of_itself() -> None:
    """An address, a doi, a section of a code or a volume of a journal: not "general table of a supplier"."""
    place = re.compile(r"https?://|^doi |\d+:\d+|Regulation \(E|Code \d+-\d+|ECL \d+|repository \w+/\w+|\(\d+\):\d+")
    assert {key: one["where"] for key, one in SOURCES.items() if not place.search(one["where"])} == {}


def test_sources_are_cited_and_cited_sources_exist() -> None:
    text = "\n".join(path.read_text("utf-8") for path in FOLDER.glob("*.yaml") if path.name != "sources.yaml")
    cited = " ".join(re.findall(r"published: (\[[^]]*\]|[\w-]+)", text))
    assert set(re.findall(r"[\w-]+", cited)) - {"short-name"} <= SOURCES.keys()
    on_sheets = "\n".join(path.read_text("utf-8") for path in shipped.templates().rglob("*.yaml"))
    assert {key for key in SOURCES if key not in text + on_sheets} == set()
    assert {source["seen"] for source in SOURCES.values()} == {"seen", "secondary", "memory"}


def test_a_live_brew_is_held_against_all_that_is_not_live() -> None:
    """The brew's own caution is to apply it alone."""
    assert "Apply alone" in PRODUCTS["Compost tea"]["cautions"]["value"]
    brewed = [rule for rule in TRAIT_RULES if "live_brew" in (rule.first, rule.second)]
    assert [(rule.first, rule.second, rule.level) for rule in brewed] == [("live_brew", "not_live", 2)]


def test_a_liquid_of_strong_salts_is_one() -> None:
    """The liquid feed holds potassium nitrate, which is one."""
    assert "potassium nitrate" in PRODUCTS["Liquid NPK 10-4-6"]["analysis"]["note"]
    for name in ("Potassium nitrate", "Liquid NPK 10-4-6"):
        assert "strong salt" in PRODUCTS[name]["traits"]["value"]
