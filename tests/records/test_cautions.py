"""The cautions that are shipped: on the products, on Start, on the card, in the README. Read without our own loader.

What each must say follows from what the product holds or is, so that a product of tomorrow is held to it as well.
Hazards are those of the sources named in product_catalogue/sources.yaml.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import combinations
from pathlib import Path
from typing import Any, Final

import pytest
import yaml

from wbgen.model.card.card_products import SHOWN
from wbgen.trade.tank_rules import RISKS, TRAIT_RULES

ROOT = Path(__file__).parents[2]
PRODUCTS: dict[str, dict[str, Any]] = {
    product["name"]: product
    for path in sorted((ROOT / "product_catalogue").glob("*.yaml"))
    if path.name != "sources.yaml"
    for product in yaml.safe_load(path.read_text("utf-8"))["products"]
}
TOLD = ("hazards", "cautions")
STARTER, EXAMPLE = ROOT / "wbgen" / "starter" / "lawns.yaml", ROOT / "output_examples" / "lawns.yaml"
SITES = {path.parent.name: yaml.safe_load(path.read_text("utf-8")) for path in (STARTER, EXAMPLE)}
README = (ROOT / "README.md").read_text("utf-8")


def template(name: str) -> dict[str, Any]:
    found: dict[str, Any] = yaml.safe_load((ROOT / "templates" / f"{name}.yaml").read_text("utf-8"))
    return found


def rows(name: str, table: str) -> list[str]:
    """The cautions that a sheet prints."""
    (found,) = [one for one in template(name)["tables"] if one["key"] == table]
    return [f"{row['subject']}: {row['caution']}" if "subject" in row else row["caution"] for row in found["rows"]]


START, CARD = rows("start", "cautions"), rows("card", "card_cautions")


def per_cent(product: dict[str, Any], block: str, key: str) -> float:
    """A content of the analysis, or a form of nitrogen, in per cent; 0 where it is not stated."""
    found = product.get("analysis", {}).get("contents", {}) if block == "contents" else product.get(block, {})
    return float(str(found.get(key, "0 %")).removesuffix("%"))


def cautions(name: str) -> str:
    """The hazards and the other cautions of a product."""
    return ". ".join(one for key in TOLD for one in PRODUCTS[name].get(key, {"value": []})["value"])


def texts(node: Any) -> list[str]:
    """Every value that is a text, at any depth; not the keys, and not the comments."""
    if isinstance(node, dict):
        return [text for value in node.values() for text in texts(value)]
    if isinstance(node, list):
        return [text for value in node for text in texts(value)]
    return [node] if isinstance(node, str) else []


# What a product is or holds, and the words that its cautions must have, each in one of its spellings.
HAZARDS: Final[dict[str, tuple[Callable[[dict[str, Any]], bool], tuple[str, ...]]]] = {
    # Safety data sheets of iron sulphate (H302, H315, H319); the chelate by the same rule, from memory.
    "iron": (lambda p: per_cent(p, "contents", "Fe") > 0, ("swallowed", "skin", "eyes", "children", "stain")),
    # ICSC 0290, manganese sulphate monohydrate.
    "manganese": (lambda p: per_cent(p, "contents", "Mn") > 0, ("eyes", "dust", "water life")),
    # Regulation (EU) 2019/1148, annex II: potassium, sodium, calcium and calcium ammonium nitrate.
    "nitrate salt": (
        lambda p: p["form"] == "soluble powder" and per_cent(p, "nitrogen", "nitrate") > 0,
        ("explosives precursor",),
    ),
    # A maker's safety data sheet of calcium ammonium nitrate, the double salt (H302, H318).
    "calcium nitrate": (
        lambda p: per_cent(p, "nitrogen", "nitrate") > 0 and per_cent(p, "contents", "Ca") > 0,
        ("eye damage", "swallowed"),
    ),
    # Potassium nitrate: H272.
    "potassium nitrate": (
        lambda p: p["form"] == "soluble powder" and per_cent(p, "nitrogen", "nitrate") > 0
        and per_cent(p, "contents", "K2O") > 0,
        ("oxidiser",),
    ),
    # ECHA's dossier of citric acid: eye irritant, category 2.
    "acid": (lambda p: "acid" in p.get("traits", {"value": []})["value"] and "analysis" not in p, ("eyes",)),
    "alkaline": (lambda p: "alkaline humate" in p.get("traits", {"value": []})["value"], ("eyes",)),
    # Duffy and others on molasses; Pennsylvania DEP on what smells; the rest common practice.
    "brew": (
        lambda p: p["form"] == "brew",
        ("composted", "manure", "molasses", "gloves", "mask", "foul", "play", "food crops", "chloramine", "alone"),
    ),
    "granule": (lambda p: p["form"] == "granule", ("children",)),
}  # fmt: skip
HELD = [(hazard, name) for hazard, (holds, _) in HAZARDS.items() for name, p in PRODUCTS.items() if holds(p)]


def test_every_hazard_has_a_product_and_the_worst_are_all_found() -> None:
    assert {hazard for hazard, _ in HELD} == HAZARDS.keys()
    assert {name for hazard, name in HELD if hazard in ("iron", "calcium nitrate", "manganese", "nitrate salt")} == {
        "Ferrous sulphate heptahydrate", "Iron EDTA chelate powder", "Manganese sulphate monohydrate",
        "Calcium nitrate (fertiliser grade)", "Potassium nitrate",
    }  # fmt: skip


@pytest.mark.parametrize(("hazard", "name"), HELD)
def test_a_product_warns_of_what_it_holds(hazard: str, name: str) -> None:
    said = cautions(name).casefold()
    assert [word for word in HAZARDS[hazard][1] if word not in said] == []


@pytest.mark.parametrize(
    ("name", "key"),
    [(n, key) for n, p in PRODUCTS.items() for key in TOLD if "published" in p.get(key, {}).get("basis", "")],
)
def test_a_published_caution_says_in_its_note_what_is_not(name: str, key: str) -> None:
    """One basis stands for all cautions of a product: what the sources do not say is named."""
    note = PRODUCTS[name][key].get("note", "")
    assert re.search(r"memory|common practice|all of it", note), note


def test_what_hurts_eyes_or_is_harmful_has_a_published_source() -> None:
    grave = re.compile(r"harmful|eye damage|precursor|water life", re.IGNORECASE)
    without = {
        name for name, p in PRODUCTS.items() for key in TOLD
        if grave.search(". ".join(p.get(key, {"value": []})["value"])) and "published" not in p[key]["basis"]
    }  # fmt: skip
    assert without == {"Iron EDTA chelate powder"}  # its note says that it goes by the sulphate
    assert "sulphate" in PRODUCTS["Iron EDTA chelate powder"]["hazards"]["note"]


PERSON = re.compile(
    r"swallow|skin|\beyes?\b|child|breathe|mask|glove|goggle|oxidiser|burn|manure|molasses|foul|food|play areas", re.I
)


@pytest.mark.parametrize("name", PRODUCTS)
def test_what_can_hurt_a_person_is_a_hazard_and_nothing_else_is(name: str) -> None:
    """The card says the hazards of all products of a mix before any other caution."""
    held = {key: PRODUCTS[name].get(key, {"value": []})["value"] for key in TOLD}
    assert [one for one in held["cautions"] if PERSON.search(one)] == []
    assert [one for one in held["hazards"] if not PERSON.search(one)] == []


def said_of(name: str, key: str) -> str:
    listed = [text.rstrip(".") + "." for text in PRODUCTS[name].get(key, {"value": []})["value"]]
    return " ".join(listed)


def told(*names: str) -> str:
    """As the card says the cautions of a mix: hazards first, and a name once."""
    hazards = [f"• {name}: {said_of(name, 'hazards')}" for name in names if said_of(name, "hazards")]
    rest = [(name, said_of(name, "cautions")) for name in names if said_of(name, "cautions")]
    return " ".join(
        [*hazards, *(f"• {said}" if said_of(name, "hazards") else f"• {name}: {said}" for name, said in rest)]
    )


def kept_apart(first: str, second: str) -> bool:
    """A rule says that they are never together."""
    traits = [
        {one.replace(" ", "_") for one in PRODUCTS[name].get("traits", {"value": []})["value"]}
        for name in (first, second)
    ]
    forbidden = [(rule.first, rule.second) for rule in TRAIT_RULES if rule.level == 2]
    return any((a in traits[0] and b in traits[1]) or (b in traits[0] and a in traits[1]) for a, b in forbidden)


def test_the_card_has_room_for_any_two_products_that_may_share_a_tank() -> None:
    """A brew goes on alone, a granule in no tank."""
    others = [name for name, product in PRODUCTS.items() if product["form"] not in ("brew", "granule")]
    assert {name: len(told(name)) for name in PRODUCTS if len(told(name)) > SHOWN} == {}
    pairs = {pair: len(told(*pair)) for pair in combinations(others, 2) if not kept_apart(*pair)}
    assert len(pairs) > 50
    assert {pair: letters for pair, letters in pairs.items() if letters > SHOWN} == {}


@pytest.mark.parametrize("site", SITES)
def test_no_brew_is_fed_sugar(site: str) -> None:
    """Duffy and others: with molasses germs of disease grew again in compost tea, without it they did not."""
    given = [item for brew in SITES[site]["brews"] for item in brew["ingredients"]]
    assert given
    sweet = re.compile(r"molasses|sugar|syrup|treacle|honey", re.IGNORECASE)
    assert [one["name"] for one in given if sweet.search(one["name"])] == []
    (compost,) = [one for one in given if "compost" in one["name"]]
    assert "no manure" in compost["note"]


def test_no_fertiliser_promises_to_control_moss() -> None:
    """Against moss only an authorised product may be used; a feed is for colour. `moss:` of a score is a key."""
    shipped = [*PRODUCTS.values(), *SITES.values()]
    assert [text for text in texts(shipped) if re.search(r"moss", text, re.IGNORECASE)] == []
    sheets = [text for path in (ROOT / "templates").rglob("*.yaml") for text in texts(yaml.safe_load(path.read_text()))]
    promise = re.compile(
        r"(kill|control|suppress|against|rid of|treat)\w*\W+(\w+\W+)?moss|moss[- ](kill|control|treat)", re.I
    )
    assert promise.search("Kills the moss")
    assert promise.search("for moss control")
    assert [text for text in [*sheets, *README.splitlines()] if promise.search(text)] == []


# Each with the words in which a place may say it. Common practice, no source, but for what sources.yaml has on eyes.
# Swallowed: Oregon Poison Center (OHSU), first aid (read). Gas: Washington State Department of Health on mixing bleach
# with ammonia or acids (read in a secondary page).
GENERAL = {
    "backflow": r"air gap|check valve", "drift": r"drift", "bees": r"flower\w*.*(clover|bees)|clover.*flower",
    "dust": r"dust mask|mask", "food containers": r"food|drink", "pressure": r"pressur", "rinse": r"three times",
    "data sheets": r"data sheet", "eyes": r"15 minutes", "gloves": r"gloves before",
    "children": r"children", "label": r"label",
    "swallowed": r"swallowed: (call the )?poison centre at once, show the label",
    "vomiting": r"do not (make them|cause) vomit", "gas": r"bleach or a? ?chlorine cleaner.*gas",
}  # fmt: skip


@pytest.mark.parametrize("caution", GENERAL)
def test_the_usual_cautions_stand_where_a_person_begins_and_where_one_mixes(caution: str) -> None:
    care = README.partition("\n## Care\n")[2].partition("\n## ")[0]
    for place, said in (("Start", "\n".join(START)), ("README", care)):
        assert re.search(GENERAL[caution], said, re.IGNORECASE), place
    if caution not in ("drift", "data sheets"):  # the card has its own line on wind; the sheet is kept with the label
        assert re.search(GENERAL[caution], "\n".join(CARD), re.IGNORECASE), "Card"


def test_the_card_stays_short() -> None:
    """A page at 14 points holds 66 letters a line; the page to spray has room for ten lines beside the rest."""
    assert len(CARD) <= 10
    assert {line: len(line) for line in CARD if len(line) > 72} == {}


@pytest.mark.parametrize("path", [STARTER, EXAMPLE], ids=["starter", "example"])
def test_nothing_of_the_kitchen_weighs_or_measures(path: Path) -> None:
    assert not re.search(r"kitchen|\bjug\b|\bcup\b|spoon\b|jam jar|lemonade|bottle", path.read_text("utf-8"), re.I)


def settings() -> list[dict[str, Any]]:
    """The columns of the sheet Settings that come with a figure."""
    return [column for table in template("settings")["tables"] for column in table["columns"] if "default" in column]


KNOWN = re.compile(r"\(read|read in|no source|from memory|by definition|^the same$|catalogue's columns|\{", re.I)


def test_every_threshold_says_where_it_comes_from() -> None:
    """A published source, or the words common practice, no source; {basis} is that of a risk or of a rule below."""
    found = {column["key"]: column.get("note", "") for column in settings() if column.get("slot") != "stop"}
    assert len(found) > 20
    assert {key: note for key, note in found.items() if not KNOWN.search(note)} == {}
    bases = {one.key: one.basis for one in RISKS} | {f"{one.first}/{one.second}": one.basis for one in TRAIT_RULES}
    assert {key: basis for key, basis in bases.items() if not KNOWN.search(basis)} == {}


def test_the_strip_beside_water_is_the_stricter_of_the_published_ones() -> None:
    """3 m: Irish Farmers Journal on the rules of the CAP (read); 2 m: EPA Ireland and England's rules (read).

    In US units 20 ft: New York, Environmental Conservation Law 17-2103 (read), where nothing guards the water; 25 ft:
    town ordinances of New Jersey (read in secondary pages).
    """
    (strip,) = [column for column in settings() if column["key"] == "watercourse_strip"]
    kept = float(strip["default"]["metric"].removesuffix(" m"))
    assert kept == max(2.0, 3.0)
    assert float(strip["default"]["us"].removesuffix(" ft")) == max(20.0, 25.0)
    said = [float(m) for name in PRODUCTS for m in re.findall(r"(\d+) m from (?:open )?water", cautions(name))]
    assert said
    assert min(said) >= kept
