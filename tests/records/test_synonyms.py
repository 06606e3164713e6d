"""Other names of a product are read as the product; a suggestion never leads to another substance."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from functools import cache
from itertools import permutations
from pathlib import Path

import periodictable
import pytest
from pydantic_core import PydanticCustomError

from support.marked import places_of, unmarked
from wbgen.files.diagnostics import Diagnostic, InputError, Place
from wbgen.files.shipped import product_catalogue
from wbgen.files.yaml.fields import Leaf
from wbgen.files.yaml.nodes import Scalar
from wbgen.records.catalogue import Catalogue, load_catalogue
from wbgen.records.fields import Of
from wbgen.records.product import TraitLeaf
from wbgen.records.site.site import Site, load_site_and_catalogue
from wbgen.trade.nutrients import FORMS
from wbgen.trade.tank_rules import TRAITS
from wbgen.units.label_rates import RATE_KINDS

SHIPPED = load_catalogue([product_catalogue()])
LETTERS = "abcdefghijklmnopqrstuvwxyz"


def load(tmp_path: Path, own: str, **site: str) -> tuple[Site, Catalogue]:
    keys = {
        "site": "{name: Tarn House, units: metric, currency: EUR, season starts: 1 January}",
        "lawns": "[{name: Terrace, grass: cool season, area: 240 m²}]",
        **site,
    }
    (tmp_path / "own.yaml").write_text(own or "products: []\n", encoding="utf-8")
    text = "catalogue: [own.yaml]\n" + "".join(f"{key}: {value}\n" for key, value in keys.items())
    (tmp_path / "lawns.yaml").write_text(text, encoding="utf-8")
    return load_site_and_catalogue(tmp_path / "lawns.yaml", [product_catalogue()])


def findings(tmp_path: Path, own: str, **site: str) -> tuple[Diagnostic, ...]:
    with pytest.raises(InputError) as raised:
        load(tmp_path, own, **site)
    return raised.value.diagnostics


IRON = "Ferrous sulphate heptahydrate"


@pytest.mark.parametrize(
    ("written", "product"),
    [
        ("sulphate of ammonia", "Ammonium sulphate"),
        ("Sulphate of Potash", "Potassium sulphate"),
        ("saltpetre", "Potassium nitrate"),
        ("SALTPETER", "Potassium nitrate"),
        ("Epsom salt", "Epsom salts"),
        ("sulphate of iron", IRON),
        ("iron sulphate", IRON),
        ("Iron sulfate", IRON),
        ("ferrous  sulfate heptahydrate", IRON),
        ("ammonium sulfate", "Ammonium sulphate"),
        ("calcium nitrate", "Calcium nitrate (fertiliser grade)"),
    ],
)
def test_a_common_name_is_read_as_the_product(written: str, product: str) -> None:
    found = SHIPPED.product(written)
    assert found is not None
    assert found.name == product


@pytest.mark.parametrize("written", ["Chile saltpetre", "kieserite", "muriate of potash", "iron", "sulphate", "potash"])
def test_the_name_of_something_else_is_nothing(written: str) -> None:
    assert SHIPPED.product(written) is None
    assert SHIPPED.meant(written) == ""


def test_everything_of_a_site_has_the_products_own_name(tmp_path: Path) -> None:
    site, _ = load(
        tmp_path,
        "",
        mix="{products: [{product: sulphate of ammonia}]}",
        diary="[{date: 2026-03-14, lawn: Terrace, product: saltpetre, method: spray, measured: 600 g}]",
        programme="[{product: iron sulfate, first: 2026-03-01, last: 2026-05-01, times: 2}]",
        shelf="[{date: 2026-03-01, product: EPSOM SALT, deed: counted, packs: 1}]",
        brews="[{product: compost TEA, batch: 5 L, ingredients: [{name: carbamide, amount: 5 g}, "
        "{name: oat flour, amount: 5 g}]}]",
    )
    assert site.mix
    assert [row.product for row in site.mix.products or ()] == ["Ammonium sulphate"]
    assert [row.product for row in site.diary] == ["Potassium nitrate"]
    assert [row.product for row in site.programme] == [IRON]
    assert [row.product for row in site.shelf] == ["Epsom salts"]
    assert [(row.product, [one.name for one in row.ingredients]) for row in site.brews] == [
        ("Compost tea", ["Urea", "oat flour"])
    ]


def test_two_names_of_one_product_are_one_product(tmp_path: Path) -> None:
    mix, places = unmarked("{products: [{product: Urea}, {product: «carbamide}]}")
    found = findings(tmp_path, "", mix=mix)
    assert ([f.code for f in found], places_of(found)) == (["duplicate-name"], [(4, places[0][1] + len("mix: "))])
    brews = "[{product: Compost tea, batch: 5 L}, {product: Tea, batch: 5 L}]"
    own = "products: [{name: compost tea, synonyms: [tea]}]"
    assert [f.code for f in findings(tmp_path, own, brews=brews)] == ["brew"]


def test_an_own_file_may_use_a_common_name_for_a_known_product(tmp_path: Path) -> None:
    _, catalogue = load(tmp_path, "products:\n  - {name: sulphate of iron, price: 21, synonyms: [green crystals]}\n")
    product = catalogue.product("Green crystals")
    assert product is not None
    assert (product.name, product.price and product.price.value) == (IRON, 21)
    assert catalogue.product("iron sulphate") is None  # a field that is given replaces the whole of it


TWO = """\
products:
  - {name: One, form: granule, family: f, dry: 9 g/m², synonyms: [both]}
  - {name: Two, form: granule, family: f, dry: 9 g/m², synonyms: [«BOTH]}
"""


@pytest.mark.parametrize(
    ("marked", "code", "said"),
    [
        ("products:\n  - {name: Urea, synonyms: [«saltpetre]}\n", "synonym", "Potassium nitrate"),
        ("products:\n  - {name: Urea, synonyms: [«Potassium nitrate]}\n", "synonym", "Potassium nitrate"),
        ("products:\n  - {name: Urea, synonyms: [«urea]}\n", "synonym", "its own name"),
        ("products:\n  - {name: Urea, synonyms: [carbamide, «Carbamide]}\n", "synonym", "twice"),
        ("products:\n  - {name: Urea, synonyms: [«'=x']}\n", "wrong-value", "begins with ="),
        ("products:\n  - {name: Urea, price: 9}\n  - {name: «carbamide, price: 8}\n", "duplicate-name", "already"),
        ("products:\n  - {name: «sulphate of iron, form: soluble powder, family: iron, spray: 9 kg/ha}\n",
         "synonym", f"write name: {IRON}"),
        (TWO, "synonym", "One"),
    ],
)  # fmt: skip
def test_a_name_of_two_products_is_a_finding_in_the_own_file(tmp_path: Path, marked: str, code: str, said: str) -> None:
    text, places = unmarked(marked)
    found = findings(tmp_path, text)
    assert ([f.code for f in found], places_of(found)) == ([code], places)
    assert found[0].place.file.endswith("own.yaml")
    assert said in found[0].render()
    assert found[0].remedy


# Suggestions: the property is that what is offered is spelt otherwise and is nothing else.


@cache
def names() -> dict[str, str]:
    """Every shipped name and synonym, with its product."""
    return {word: p.name for p in SHIPPED.products for word in (p.name, *p.synonyms)}


def slips(text: str, draw: random.Random, number: int) -> Iterator[str]:
    """Texts that are `number` letters away: one left out, put in, exchanged with its neighbour, or another."""
    for _ in range(number):
        at = draw.randrange(len(text))
        text = draw.choice((
            text[:at] + text[at + 1 :],
            text[:at] + draw.choice(LETTERS) + text[at:],
            text[:at] + draw.choice(LETTERS) + text[at + 1 :],
            text[:at] + text[at + 1 : at + 2] + text[at : at + 1] + text[at + 2 :],
        ))  # fmt: skip
        if not text:
            return
    yield text


def drawing() -> random.Random:
    """The same draws every time."""
    return random.Random(20260630)  # noqa: S311 - nothing is kept secret by it


def towards(start: str, goal: str, steps: int) -> Iterator[str]:
    """Texts on the way from one name to another: a few letters of it already those of the other."""
    for n in range(min(len(start), len(goal))):
        for step in range(1, steps + 1):
            yield start[:n] + goal[n : n + step] + start[n + step :]
            yield start[:n] + goal[n : n + step] + start[n:]


def test_a_slip_is_never_taken_for_another_product() -> None:
    """Over all pairs of names and synonyms that are two products, and one and two letters away; drawn."""
    draw = drawing()
    tried: dict[str, set[str]] = {}
    for name in names():
        for number in (1, 2):
            for _ in range(15):
                for slip in slips(name, draw, number):
                    tried.setdefault(slip, set()).add(names()[name])
    for one, other in permutations(names(), 2):
        if names()[one] != names()[other]:
            for slip in draw.sample(sorted(set(towards(one, other, 2))), 1):
                tried.setdefault(slip, set()).add(names()[one])
    offered = {slip: near for slip in tried if not SHIPPED.product(slip) and (near := SHIPPED.meant(slip))}
    assert [(slip, near) for slip, near in offered.items() if near not in tried[slip]] == []
    assert len(offered) > 500  # it offers something


ELEMENTS = [element.name for element in periodictable.elements if element.number > 0]
ACIDS = ("nitrite", "sulphite", "sulphide", "phosphite", "phosphide", "chloride", "chlorate", "carbonate", "oxide",
         "hydroxide", "borate", "bisulphate", "thiosulphate", "pyrophosphate", "polyphosphate", "bicarbonate",
         "nitride", "sulfonate", "chlorite", "iodate", "silicate", "acetate", "citrate", "gluconate")  # fmt: skip
"""Anions; from memory, and not those that the code has: what nobody listed must do as well."""


@pytest.mark.parametrize("ending", ["sulphate", "nitrate", "sulphate heptahydrate", "sulphate monohydrate", "EDTA"])
def test_a_salt_of_another_element_is_never_taken_for_a_product(ending: str) -> None:
    draw = drawing()
    for element in ELEMENTS:
        ours = {product for word, product in names().items() if element in word.casefold()}
        for written in [f"{element} {ending}", *(s for _ in range(10) for s in slips(element, draw, 1))]:
            text = written if " " in written else f"{written} {ending}"
            near = SHIPPED.meant(text)
            assert not near or near in ours | _own_names(element), (text, near)


def _own_names(element: str) -> set[str]:
    """Products whose name has the element by another word."""
    return {"iron": {IRON}}.get(element, set())


@pytest.mark.parametrize("anion", ACIDS)
def test_a_salt_of_another_acid_is_never_taken_for_a_product(anion: str) -> None:
    draw = drawing()
    for name in names():
        for ours in re.findall("sulphate|phosphate|nitrate|sulfate", name):
            for other in [anion, *(s for _ in range(10) for s in slips(anion, draw, 1))]:
                text = name.replace(ours, other)
                if not SHIPPED.product(text):
                    near = SHIPPED.meant(text)
                    assert not near or _letters(other, ours) < _letters(other, anion), (text, near)


def _letters(one: str, other: str) -> int:
    """How many letters two words are apart, counted plainly: one left out, put in, or another."""
    row = list(range(len(other) + 1))
    for i, a in enumerate(one, 1):
        row, above = [i], row
        for j, b in enumerate(other, 1):
            row.append(min(above[j] + 1, row[-1] + 1, above[j - 1] + (a != b)))
    return row[-1]


@pytest.mark.parametrize(
    ("written", "offered"),
    [
        ("Amonium sulfate", "Ammonium sulphate"),
        ("Ammoniumsulphate", "Ammonium sulphate"),
        ("sea-weed extract", "Seaweed extract"),
        ("iron sulphat", IRON),
        ("Pottasium nitrate", "Potassium nitrate"),
        ("Liquid NPK 10 4 6", "Liquid NPK 10-4-6"),
        ("Liquid NPK 10-4-16", ""),
        ("Slow-release granule 24-0-11", ""),
        ("zinc sulphate", ""),
        ("Monopotassium phosphite", ""),
        ("Diammonium phosphate", ""),
        ("Ferrous sulphate monohydrate", ""),
        ("Magnesium sulphate", ""),
        ("MKB", ""),
    ],
)
def test_a_suggestion_is_a_spelling(written: str, offered: str) -> None:
    assert SHIPPED.meant(written) == offered


def test_an_unknown_product_is_told_with_what_it_may_be(tmp_path: Path) -> None:
    mix = "{products: [{product: Zinc sulphate}, {product: iron sulphat}]}"
    zinc, iron = findings(tmp_path, "", mix=mix)
    assert zinc.remedy.startswith("use one of: Humic acid, Compost tea, ")
    assert iron.remedy == f"did you mean {IRON}?"
    assert {zinc.code, iron.code} == {"unknown-product"}
    (own,) = findings(tmp_path, "products:\n  - {name: Iron EDTA chelat powder, price: 9}\n")
    assert own.remedy.startswith("did you mean Iron EDTA chelate powder?")
    others = findings(tmp_path, "products:\n  - {name: Zinc sulphate, price: 9}\n")
    assert not any("did you mean" in other.render() for other in others)


def told(leaf: Leaf, text: str) -> str:
    """What to do about a value that a leaf refuses, or "" where it takes it."""
    try:
        leaf.read(Scalar(Place("a.yaml", 1, 1), text, text))
    except PydanticCustomError as error:
        return str((error.context or {})["remedy"])
    return ""


def test_a_unit_is_never_taken_for_that_of_another_nutrient() -> None:
    """Over every symbol of an element, every symbol that a label has, and one letter away from both."""
    draw = drawing()
    symbols = [element.symbol for element in periodictable.elements if element.number > 0] + list(FORMS)
    offered = 0
    for symbol in [*symbols, *(s for one in FORMS for _ in range(30) for s in slips(one, draw, 1)), "K20", "P205"]:
        remedy = told(Of(*RATE_KINDS), f"1 g {symbol}/m²")
        near = re.search(r"did you mean (?:m|k)?g (\S+)/m²", remedy.translate(str.maketrans("₂₃₅", "235")))
        if near:
            offered += 1
            assert near[1].replace("0", "O").casefold() == symbol.replace("0", "O").casefold(), (symbol, remedy)
    assert offered == 2


@pytest.mark.parametrize(
    ("kind", "written"),
    [("mass", "5 oc"), ("speed", "12 kph"), ("speed", "12 knots"), ("temperature", "18°"), ("area", "240 sq meters"),
     ("nutrient rate", "1 lb nitrogen/1000 ft²"), ("mass", "10 t"), ("mass", "5 stone"), ("time", "14d"),
     ("mass rate", "25 kg/hl"), ("mass rate", "25gm/m2"),],
)  # fmt: skip
def test_a_unit_is_never_taken_for_another_unit(kind: str, written: str) -> None:
    assert "did you mean" not in told(Of(kind), written)


@pytest.mark.parametrize(
    ("kind", "written", "offered"),
    [("mass rate", "25 kgg/m²", "kg/m²"), ("time", "2 weks", "week"), ("mass rate", "25 kg/hectar", "kg/ha"),
     ("mass", "600 gramms", "g"), ("nutrient rate", "1 g K20/m²", "g K₂O/m²"), ("volume", "15 ltrs", "L")],
)  # fmt: skip
def test_a_slip_in_a_unit_is_mended(kind: str, written: str, offered: str) -> None:
    assert told(Of(kind), written) == f"did you mean {offered}?"


@pytest.mark.parametrize("trait", ["zinc", "sulphite", "phosphite", "sodium", "iron", "nitrate", "cadmium"])
def test_a_trait_is_never_taken_for_another(trait: str) -> None:
    remedy = told(TraitLeaf(*TRAITS.values()), trait)
    assert remedy.startswith("use one of: calcium, ")
    assert told(TraitLeaf(*TRAITS.values()), "amonium") == "did you mean ammonium?"
