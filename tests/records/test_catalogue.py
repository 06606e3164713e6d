from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from support.marked import MARK, places_of, unmarked
from wbgen.files.diagnostics import Diagnostic, InputError, Place, Report
from wbgen.files.yaml.records import as_data, read_record
from wbgen.files.yaml.tree import load_text
from wbgen.records.basis import Source
from wbgen.records.catalogue import Catalogue, load_catalogue

SOURCES = """\
sources:
  tables: {publisher: Office of Tables, title: Solubilities, year: 1999, where: page 12, seen: secondary}
  book: {author: A. Nother, title: A Book, seen: memory}
"""
POWDER = {
    "name": "Salt",
    "form": "soluble powder",
    "family": "salts",
    "analysis": "{per: w/w, contents: {N: 21 %, SO3: 60 %}, basis: {published: [tables, book]}, note: as sold}",
    "nitrogen": "{ammonium: 15 %, urea: 6 %, basis: stoichiometry}",
    "spray": "{low: 10 kg/ha, usual: 2 g/m², high: 30 kg/ha, basis: common practice}",
    "dry": "{usual: 20 g/m², basis: memory}",
    "carrier": "{least: 400 L/ha, usual: 60 mL/m², basis: invented}",
    "interval": "{value: 4 week, basis: memory}",
    "most a year": "{value: 6, basis: memory}",
    "months": "{value: [3, 4], basis: memory}",
    "solubility": "{at 10 C: 730 g/L, at 20 C: 0.754 kg/L, basis: {published: tables}}",
    "salt index": "{value: 88.3, basis: memory}",
    "traits": "{value: [ammonium, sulphate], basis: stoichiometry}",
    "mixing place": "{value: 3, basis: common practice}",
    "cautions": '{value: ["=Stains"], basis: memory}',
    "pack": "{value: 25 kg, basis: invented}",
    "price": "{value: 24.00, basis: invented}",
}
LIQUID = {
    "name": "Feed",
    "form": "liquid",
    "family": "feeds",
    "analysis": "{per: w/w, contents: {N: 10 %, P: 2 %}, basis: invented}",
    "density": "{value: 1.2 kg/L, basis: invented}",
    "dissolved solids": "{value: 400 g/L, basis: invented}",
    "spray": "{usual: 20 L/ha, basis: invented}",
    "pack": "{value: 5 L, basis: invented}",
}


def product(base: Mapping[str, str] = POWDER, /, **changes: str | None) -> str:
    """A product as text, with some of its keys changed or, by None, left out; _ stands for a space in a key."""
    fields = {**base, **{key.replace("_", " "): value for key, value in changes.items()}}
    lines = [f"{key}: {value}" for key, value in fields.items() if value is not None]
    return "  - " + "\n    ".join(lines) + "\n"


def products(*texts: str) -> str:
    return "products:\n" + "".join(texts)


def load(tmp_path: Path, text: str, own: str = "") -> Catalogue:
    (tmp_path / "sources.yaml").write_text(SOURCES, encoding="utf-8")
    (tmp_path / "a.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "own.txt").write_text(own, encoding="utf-8")
    return load_catalogue([tmp_path], [tmp_path / "own.txt"] if own else [])


def findings(tmp_path: Path, text: str, own: str = "") -> tuple[Diagnostic, ...]:
    with pytest.raises(InputError) as raised:
        load(tmp_path, text, own)
    return raised.value.diagnostics


def test_a_product_keeps_its_facts_as_written_with_their_basis_and_place(tmp_path: Path) -> None:
    catalogue = load(tmp_path, products(product(), product(LIQUID)))
    salt = catalogue.product("SALT")
    assert salt is not None
    assert salt.analysis is not None
    assert salt.spray is not None
    assert salt.solubility is not None
    assert salt.solubility.at_20_C is not None
    assert salt.cautions is not None
    share = salt.analysis.contents["SO3"]
    assert (share.text, share.magnitude, share.kind) == ("60 %", 60.0, "share")
    path = str(tmp_path / "a.yaml")
    assert share.place == Place(path, 5, 51, "products[1].analysis.contents.SO3")
    assert salt.place_of("family") == Place(path, 4, 13, "products[1].family")
    assert salt.spray.place_of("high") == salt.spray.high.place if salt.spray.high else False
    assert (salt.spray.usual.text, salt.spray.usual.to("kg/ha")) == ("2 g/m²", 20.0)
    assert salt.solubility.at_20_C.to("g/L") == 754
    assert salt.cautions.value == ("=Stains",)
    assert (salt.is_liquid, catalogue.products[1].is_liquid) == (False, True)
    assert (salt.density, salt.release, salt.note) == (None, None, None)
    assert catalogue.basis_text(salt.analysis.basis) == (
        "Office of Tables, Solubilities, 1999, page 12 (read in a page that quotes it); A. Nother, A Book (from memory)"
    )
    assert catalogue.product("Feed") is catalogue.products[1]
    assert catalogue.product("Fee") is None


def test_records_cannot_be_changed(tmp_path: Path) -> None:
    salt = load(tmp_path, products(product())).products[0]
    with pytest.raises(ValueError, match="frozen"):
        salt.name = "Other"


WRONG = {
    "unknown key": (product(pric="«{value: 5, basis: memory}", price=None).replace("pric: «", "«pric: "), "price?"),
    "unknown key of a fact": (product(price="{value: 5, «base: memory}"), "basis?"),
    "unknown key, value wrong too": (
        product(pric="{value: «x, basis: memory}", price=None).replace("pric:", "«pric:"), "number"),
    "missing key": (product(price="«{basis: memory}"), "'value' is missing"),
    "missing form": (product(form=None).replace("- name", "- «name"), "'form' is missing"),
    "blank form": (product(form="").replace("- name", "- «name"), "'form' is missing"),
    "no mapping": ("  - «Salt\n", "found: 'Salt'"),
    "list for a number": (product(price="«[5]", basis="memory"), "found: a list"),
    "mapping for a number": (product(price="{value: «{a: 5}, basis: memory}"), "found: keys and values"),
    "bare fact": (product(salt_index="«88.3"), "'basis' is missing"),
    "bare solubility": (product(solubility="«88 g/L"), "keys and values such as at 10 C"),
    "form": (product(form="«soluble powde"), "soluble powder?"),
    "trait": (product(traits="{value: [«amonium], basis: memory}"), "ammonium?"),
    "list": (product(months="{value: «3, basis: memory}"), "list"),
    "text for a list item": (product(cautions="{value: [«[a]], basis: memory}"), "text"),
    "month": (product(months="{value: [3, «13, «0, «3.0, «mar], basis: memory}"), "from 1 to 12"),
    "number": (product(price="{value: «24 EUR, basis: memory}"), "number"),
    "negative price": (product(price="{value: «-1, basis: memory}"), "0 or more"),
    "index": (product(salt_index="{value: «1000.5, basis: memory}"), "found: '1000.5'\n  do: write at most 1000"),
    "number in quotes": (product(salt_index="{value: «'5', basis: memory}"), "without quotes"),
    "below 0 for a share": (product(analysis="{per: w/w, contents: {N: «-1 %}, basis: memory}", nitrogen=None),
                            "0 or more"),
    "misspelt unit": (product(pack="{value: «25 kgg, basis: memory}"), "did you mean kg?"),
    "no times": (product(most_a_year="{value: «0, basis: memory}"), "1 or more"),
    "truth": (product(price="{value: «true, basis: memory}"), "number"),
    "unit": (product(interval="{value: «28 dys, basis: memory}"), "time"),
    "kind": (product(interval="{value: «28 kg, basis: memory}"), "which is a mass"),
    "no unit": (product(pack="{value: «25, basis: memory}"), "mass"),
    "negative rate": (product(dry="{usual: «-20 g/m², basis: memory}"), "more than 0"),
    "zero rate": (product(dry="{usual: «0 g/m², basis: memory}"), "more than 0"),
    "nutrient": (product(analysis="{per: w/w, contents: {N: 21 %, «SO2: 60 %}, basis: memory}"), "use one of: N, P2O5"),
    "nutrient's case": (product(analysis="{per: w/w, contents: {N: 21 %, «k20: 60 %}, basis: memory}"), "mean K2O?"),
    "contents": (product(analysis="{per: w/w, contents: «[N], basis: memory}"), "this must be keys and values\n"),
    "share": (product(analysis="{per: w/w, contents: {N: «21}, basis: memory}"), "share"),
    "no basis": (product(price="«{value: 5}"), "'basis' is missing"),
    "basis": (product(price="{value: 5, basis: «memry}"), "memory?"),
    "basis by key": (product(price="{value: 5, basis: «{publishd: book}}"), "published?"),
    "basis empty": (product(price="{value: 5, basis: «{published: []}}"), "name a source"),
    "source": (product(price="{value: 5, basis: {published: «bok}}"), "book?"),
    "one of two sources": (product(price="{value: 5, basis: {published: [book, «x]}}"), "no source 'x'"),
    "word trapped once": (product(price="{value: «010, basis: memory}"), "base of 8"),
    "name twice": (product() + product(name="«sALT"), "there already"),
    "family in two ways": (product() + product(name="Other", family="«Salts"), "two ways"),
    "text too long": (product(cautions="{value: [«" + "x" * 2001 + "], basis: memory}"), "too long"),
    "text empty": (product(cautions="{value: [«' '], basis: memory}"), "empty"),
}  # fmt: skip

NAMES = ["Iron*", "What?", "a~b", "=SUM(1)", "<5", ">5", "+a", "-a", "'@a'", "''''", "' a'", "a  b", "5", "'1e5'",
         "inf", "'TRUE'", "''", "1/2", '"a\\u200bb"', "x" * 61]  # fmt: skip

RULES = {
    "w/v on a solid": (product(analysis="{per: «w/v, contents: {N: 21 %}, basis: memory}"), "never by volume"),
    "w/w liquid without density": (product(LIQUID, density=None).replace("per: ", f"per: {MARK}"), "density"),
    "no contents": (product(analysis="{per: w/w, contents: «{}, basis: memory}", nitrogen=None), "no contents"),
    "oxide and element": (
        product(analysis="{per: w/w, contents: {N: 21 %, SO3: 6 %, S: «5 %}, basis: memory}"), "oxide and as element"),
    "above the whole": (product(analysis="{per: w/w, contents: «{N: 41 %, SO3: 60 %}, basis: memory}"), "101 %"),
    "w/v above the whole": (
        product(LIQUID, analysis="{per: w/v, contents: «{N: 121 %}, basis: memory}"), "at most 120 %"),
    "w/w above the whole": (
        product(LIQUID, analysis="{per: w/w, contents: «{N: 101 %}, basis: memory}"), "at most 100 %"),
    "forms without an analysis": (product(analysis=None).replace("nitrogen: ", "nitrogen: «"), "whole nitrogen"),
    "forms above N": (product(nitrogen="«{ammonium: 15 %, nitrate: 6.1 %, basis: memory}"), "21.1 %"),
    "forms without N": (
        product(analysis="{per: w/w, contents: {SO3: 60 %}, basis: memory}").replace("nitrogen: ", "nitrogen: «"),
        "whole nitrogen"),
    "no forms": (product(nitrogen="«{basis: memory}"), "no form of nitrogen"),
    "release without slow release": (product(release="«{value: 90 day, basis: memory}"), "only for slow release"),
    "release with none of it": (
        product(release="«{value: 90 day, basis: memory}", nitrogen="{slow release: 0 %, basis: memory}"), "only for"),
    "slow release without release": (product(nitrogen="{slow release: «5 %, basis: memory}"), "release time"),
    "low above usual": (product(spray="{low: 3 g/m², usual: «25 kg/ha, basis: memory}"), "must rise"),
    "usual above high": (product(spray="{usual: 2.6 g/m², high: «25 kg/ha, basis: memory}"), "must rise"),
    "low above high": (product(spray="{low: 1 kg/ha, usual: 9 kg/ha, high: «8 kg/ha, basis: memory}"), "must rise"),
    "rates of two kinds": (product(spray="{usual: 9 kg/ha, high: «2 g N/m², basis: memory}"), "one kind"),
    "solid by volume": (product(spray="{usual: «9 L/ha, basis: memory}"), "no rate by volume"),
    "solid by volume, diluted": (product(spray="{usual: «30 mL in 10 L, basis: memory}"), "no rate by volume"),
    "liquid by mass": (
        product(LIQUID, density=None, analysis=None, spray="{usual: «9 kg/ha, basis: memory}"), "needs its density"),
    "liquid by mass, diluted": (
        product(LIQUID, density=None, analysis=None, spray="{usual: «20 g in 10 L, basis: memory}"), "its density"),
    "packs without a pack": (product(pack=None, price=None, spray="{usual: «1 pack/ha, basis: memory}"), "pack"),
    "nutrient not contained": (product(spray="{usual: «0.2 g Fe/m², basis: memory}"), "a nutrient of: N, SO3"),
    "nutrient of nothing": (
        product(LIQUID, analysis=None, spray="{usual: «0.2 g Fe/m², basis: memory}"), "a nutrient of: none"),
    "nutrient of 0": (
        product(analysis="{per: w/w, contents: {N: 0 %}, basis: memory}", nitrogen=None,
                spray="{usual: «0.2 g N/m², basis: memory}"), "states no N"),
    "dry dilution": (product(dry="{usual: «20 g in 10 L, basis: memory}"), "no dilution"),
    "no rate": (product(spray=None, dry=None, carrier=None).replace("- name", "- «name"), "expected: spray or dry"),
    "no rate of a granule": (
        product(form="granule", spray=None, dry=None, carrier=None).replace("- name", "- «name"), "expected: dry"),
    "no rate of a liquid": (product(LIQUID, spray=None).replace("- name", "- «name"), "expected: spray\n"),
    "granule sprayed": (product(form="granule").replace("spray: ", "spray: «"), "not sprayed"),
    "liquid dry": (product(LIQUID, dry="«{usual: 9 L/ha, basis: memory}"), "not spread dry"),
    "brew dry": (product(LIQUID, form="brew", dry="«{usual: 9 L/ha, basis: memory}"), "a brew is not"),
    "carrier without spray": (product(spray=None).replace("carrier: ", "carrier: «"), "only for a spray"),
    "least above usual": (product(carrier="{least: 700 L/ha, usual: «60 mL/m², basis: memory}"), "must rise"),
    "density of a solid": (product(density="«{value: 1.2 kg/L, basis: memory}"), "only for liquids"),
    "dissolved solids of a solid": (product(dissolved_solids="«{value: 12 g/L, basis: memory}"), "only for liquids"),
    "density in the wrong unit": (product(LIQUID, density="{value: «1200 kg/L, basis: memory}"), "cannot be right"),
    "solubility of a liquid": (product(LIQUID, solubility="«{at 10 C: 9 g/L, basis: memory}"), "only for solids"),
    "no solubility": (product(solubility="«{basis: memory}"), "no solubility"),
    "less soluble when warmer": (
        product(solubility="{at 10 C: 0.8 kg/L, at 20 C: «799 g/L, basis: memory}"), "must rise"),
    "price without pack": (product(pack=None).replace("price: ", "price: «"), "size of a pack"),
    "solid packed by volume": (product(pack="{value: «5 L, basis: memory}"), "not packed by volume"),
    "liquid packed by mass": (
        product(LIQUID, density=None, analysis=None, pack="{value: «5 kg, basis: memory}"), "needs its density"),
    "month twice": (product(months="{value: «[3, 4, 3], basis: memory}"), "twice"),
    "trait twice": (product(traits="{value: «[acid, acid], basis: memory}"), "twice"),
    "no month": (product(months="{value: «[], basis: memory}"), "no month"),
}  # fmt: skip


@pytest.mark.parametrize("case", [*WRONG, *RULES])
def test_a_mistake_is_told_at_its_place_and_alone(tmp_path: Path, case: str) -> None:
    marked, said = {**WRONG, **RULES}[case]
    text, places = unmarked(products(marked))
    found = findings(tmp_path, text)
    assert places_of(found) == places
    assert {finding.place.file for finding in found} == {str(tmp_path / "a.yaml")}
    assert said in "\n".join(finding.render() for finding in found)
    assert {finding.code == "product-rule" for finding in found} == {case in RULES}


RIGHT = {
    "all of it": product(LIQUID, analysis="{per: w/v, contents: {N: 120 %}, basis: memory}"),
    "w/v without density": product(LIQUID, density=None, analysis="{per: w/v, contents: {N: 120 %}, basis: memory}"),
    "lightest": product(LIQUID, density="{value: 500 g/L, basis: memory}"),
    "heaviest": product(LIQUID, density="{value: 2.5 kg/L, basis: memory}"),
    "solubility at 10 C alone": product(solubility="{at 10 C: 730 g/L, basis: memory}"),
    "solubility at 20 C alone": product(solubility="{at 20 C: 730 g/L, basis: memory}"),
    "liquid packed by mass with density": product(LIQUID, pack="{value: 5 kg, basis: memory}"),
    "forms that add up to N": product(
        analysis="{per: w/w, contents: {N: 0.3 %}, basis: memory}", nitrogen="{ammonium: 0.1 %, urea: 0.2 %, "
        "basis: memory}"),
    "shares that add up to the whole": product(
        analysis="{per: w/w, contents: {N: 33.3 %, P2O5: 33.3 %, K2O: 33.4 %}, basis: memory}"),
    "equal rates": product(spray="{low: 2.5 g/m², usual: 25 kg/ha, high: 2.5 g/m², basis: memory}"),
    "equal rates in US units": product(dry="{low: 0.7 lb/1000 ft², usual: 11.2 oz/1000 ft², basis: memory}"),
    "a note explains solubility": product(
        solubility="{at 10 C: 800 g/L, at 20 C: 799 g/L, basis: memory, note: another hydrate}"),
    "granule": product(form="granule", spray=None, carrier=None),
    "brew without analysis": product(LIQUID, form="brew", analysis=None, density=None),
    "rate by nutrient": product(spray="{usual: 0.5 g N/m², basis: memory}"),
    "rate by pack": product(spray="{usual: 1 pack/ha, basis: memory}"),
    "liquid by mass with density": product(LIQUID, spray="{usual: 20 kg/ha, basis: memory}"),
    "slow release": product(
        nitrogen="{slow release: 5 %, basis: memory}", release="{value: 90 day, basis: memory}"),
    "index of 0": product(salt_index="{value: 0, basis: memory}"),
    "index of 1000": product(salt_index="{value: 1000, basis: memory}"),
    "longest text": product(note="x" * 2000),
    "blank is not stated": product(price=""),
}  # fmt: skip


@pytest.mark.parametrize("case", RIGHT)
def test_what_is_right_passes(tmp_path: Path, case: str) -> None:
    assert len(load(tmp_path, products(RIGHT[case])).products) == 1


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("key", ["name", "family"])
def test_a_name_that_a_spreadsheet_would_misread_is_refused(tmp_path: Path, name: str, key: str) -> None:
    fields = {**POWDER, key: MARK + name}
    text, places = unmarked(products(product(fields)))
    found = findings(tmp_path, text)
    assert [finding.code for finding in found] == ["wrong-value"]
    assert places_of(found) == places


@pytest.mark.parametrize("name", ["Ammonium sulphate", "3-0-0 salt", "Mix (no. 2)", "Kalk & Magnesium", "Ü", "x" * 60])
def test_a_name_of_ordinary_characters_is_taken(tmp_path: Path, name: str) -> None:
    assert load(tmp_path, products(product(name=name))).products[0].name == name


def test_every_mistake_of_every_product_and_file_is_told_at_once(tmp_path: Path) -> None:
    text, places = unmarked(
        products(
            product(form="«x", months="{value: [«13], basis: memory}"),
            product(name="B", analysis="{per: «w/v, contents: {N: 9 %}, basis: {published: «none}}", nitrogen=None),
            product(name="C", spray="{low: 3 g/m², usual: «2 g/m², basis: memory}"),
        )
    )
    own, own_places = unmarked("products:\n  - name: D\n    form: «yes\n    family: «[a]\n  - name: d\n")
    found = findings(tmp_path, text, own)
    assert places_of(tuple(f for f in found if f.place.file.endswith("a.yaml"))) == places
    assert places_of(tuple(f for f in found if f.place.file.endswith("own.txt"))) == [*own_places, (5, 11)]


def test_an_own_file_overrides_single_fields_and_adds_products(tmp_path: Path) -> None:
    own = """\
products:
  - name: SALT
    price: {value: 30, basis: invented}
    dry:
    analysis: {per: w/w, contents: {N: 22 %}, basis: memory}
    note: mine
"""
    catalogue = load(tmp_path, products(product(), product(LIQUID)), own + product(LIQUID, name="New"))
    assert [p.name for p in catalogue.products] == ["Salt", "Feed", "New"]
    salt = catalogue.products[0]
    assert salt.price is not None
    assert salt.price.value == 30
    assert salt.price.place == Place(str(tmp_path / "own.txt"), 3, 12, "products[1].price")
    assert salt.analysis is not None
    assert set(salt.analysis.contents) == {"N"}
    assert (salt.dry, salt.note) == (None, "mine")
    assert salt.pack is not None
    assert salt.pack.value.place.file == str(tmp_path / "a.yaml")


def test_an_override_that_breaks_a_rule_is_told_in_the_own_file(tmp_path: Path) -> None:
    own, places = unmarked("products:\n  - {name: salt, nitrogen: «{ammonium: 30 %, basis: memory}}\n")
    found = findings(tmp_path, products(product()), own)
    assert places_of(found) == places
    assert found[0].place.file == str(tmp_path / "own.txt")


def test_an_own_file_names_a_product_once(tmp_path: Path) -> None:
    own, places = unmarked("products:\n  - {name: salt}\n  - {name: «SALT}\n")
    found = findings(tmp_path, products(product()), own)
    assert ([f.code for f in found], places_of(found)) == (["duplicate-name"], places)


def test_an_override_of_a_product_that_is_not_known_names_the_nearest(tmp_path: Path) -> None:
    own, places = unmarked("products:\n  - {name: «Slat, price: {value: 5, basis: memory}}\n")
    found = findings(tmp_path, products(product()), own)
    assert ([f.code for f in found], places_of(found)) == (["unknown-product"], places)
    assert found[0].remedy.startswith("did you mean Salt?")


def test_an_own_product_without_a_name_is_told(tmp_path: Path) -> None:
    own, places = unmarked("products:\n  - «price: {value: 5, basis: memory}\n")
    found = findings(tmp_path, products(product()), own)
    assert places_of(found) == places * 3  # the name, the form and the family are missing
    assert {f.code for f in found} == {"missing-key"}


def test_a_wrong_source_is_not_an_unknown_one_as_well(tmp_path: Path) -> None:
    text, places = unmarked("sources: {mine: {title: T, seen: «read}}\n")
    price = "{value: 5, basis: {published: mine}}"
    found = findings(tmp_path, text + products(product(price=price)))
    assert ([f.code for f in found], places_of(found)) == (["unknown-word"], places)


def test_own_files_override_each_other_in_their_order(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(products(product()) + SOURCES, encoding="utf-8")
    own = [tmp_path / "1.own", tmp_path / "2.own"]
    for number, path in enumerate(own, 7):
        path.write_text(f"products: [{{name: Salt, price: {{value: {number}, basis: memory}}}}]", encoding="utf-8")
    assert [p.price.value for p in load_catalogue([tmp_path / "a.yaml"], own).products if p.price] == [8]
    assert [p.price.value for p in load_catalogue([tmp_path / "a.yaml"], own[::-1]).products if p.price] == [7]


@pytest.mark.parametrize(
    ("marked", "code"),
    [
        ("«", "empty-file"),
        ("«null", "empty-file"),
        ("«[]", "wrong-shape"),
        ("products: «5", "wrong-shape"),
        ("«product:\n  - {}\n", "unknown-key"),
        ("sources: «[a]", "wrong-shape"),
        ("sources: {«tables: {title: T, seen: seen}}", "duplicate-name"),
        ("sources: {new: {title: T, seen: «read}}", "unknown-word"),
        ("sources: {new: «{seen: seen}}", "missing-key"),
        ("sources: {new: {title: T, seen: seen, year: «20}}", "wrong-value"),
    ],
)
def test_a_file_of_another_shape_is_refused(tmp_path: Path, marked: str, code: str) -> None:
    text, places = unmarked(marked)
    (tmp_path / "z.yaml").write_text(text, encoding="utf-8")
    found = [f for f in findings(tmp_path, products(product())) if f.place.file.endswith("z.yaml")]
    assert code in [f.code for f in found]
    assert places_of(tuple(found))[:1] == places


def test_a_file_without_anything_is_called_empty_and_one_without_keys_not(tmp_path: Path) -> None:
    for text, said in (("", "the file is empty"), ("5", "the file must begin with a key")):
        (tmp_path / "z.yaml").write_text(text, encoding="utf-8")
        (found,) = (f for f in findings(tmp_path, products(product())) if f.place.file.endswith("z.yaml"))
        assert (found.message, found.found) == (said, "'5'" if text else "")


def test_a_record_is_made_by_read_record_only() -> None:
    node = load_text("{title: T, seen: seen}", "a.yaml", Report())
    assert node is not None
    assert read_record(Source, node, Report()) is not None
    with pytest.raises(TypeError, match="read_record"):
        Source.model_validate(as_data(node))


def test_a_file_that_is_not_there_is_a_finding(tmp_path: Path) -> None:
    with pytest.raises(InputError) as raised:
        load_catalogue([tmp_path / "none.yaml"])
    assert [finding.code for finding in raised.value.diagnostics] == ["unreadable-file"]


def test_the_catalogue_that_belongs_to_the_planner_is_without_findings() -> None:
    catalogue = load_catalogue([Path(__file__).parents[2] / "product_catalogue"])
    assert catalogue.products
    assert all(catalogue.basis_text(p.analysis.basis) for p in catalogue.products if p.analysis)


def test_the_catalogue_says_nothing_of_a_place() -> None:
    """When a feed suits a lawn is the place's, by its growth: what is late in one place is right in another."""
    catalogue = load_catalogue([Path(__file__).parents[2] / "product_catalogue"])
    assert [product.name for product in catalogue.products if product.months] == []


def test_what_is_spread_dry_has_an_interval_and_a_number_of_its_own() -> None:
    catalogue = load_catalogue([Path(__file__).parents[2] / "product_catalogue"])
    both = [product for product in catalogue.products if product.dry and product.spray]
    assert len(both) >= 5
    for product in both:
        assert product.dry_interval, product.name
        assert product.dry_interval.value.to("day") >= 28, product.name
        assert product.dry_most_a_year, product.name
