"""A catalogue file of one's own is easy to write: plain values, one basis a file or a product, or none at all."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import pytest
import yaml

from support.marked import places_of, unmarked
from wbgen.files.diagnostics import Diagnostic, InputError
from wbgen.files.shipped import product_catalogue
from wbgen.files.yaml.records import Record
from wbgen.inputs.catalogue_constants import _facts
from wbgen.records.basis import UNSTATED, Basis
from wbgen.records.catalogue import Catalogue, load_catalogue
from wbgen.records.product import Product

SHORT = """\
products:
  - name: My feed
    form: liquid
    family: feeds
    analysis: {per: w/w, N: 12 %, P2O5: 4 %}
    nitrogen: {urea: 12 %}
    active: {what: seaweed solids, share: 2 %}
    density: 1.2 kg/L
    dissolved solids: 400 g/L
    spray: 30 L/ha
    carrier: 600 L/ha
    interval: 14 days
    most a year: 6
    months: [4, 5]
    salt index: 75
    traits: [calcium]
    mixing place: 6
    cautions: [Shake the can, "Strain it: bits"]
    pack: 5 L
    price: 9.50
    hazards: ["Wear gloves: it stings"]
  - name: My salt
    form: soluble powder
    family: salts
    spray: {low: 10 kg/ha, usual: 20 kg/ha}
    dry: 20 g/m²
    dry interval: 28 days
    dry most a year: 6
    solubility: {at 10 C: 700 g/L}
"""


def facts(product: Product) -> Iterator[tuple[str, Basis]]:
    """Each fact of a product that has a basis, with it."""
    for key, value in product:
        if isinstance(value, Record):
            basis = getattr(value, "basis", None)
            assert isinstance(basis, Basis), f"{product.name}: {key} has no basis"
            yield key, basis


def own(tmp_path: Path, text: str, shipped: str = "") -> Catalogue:
    (tmp_path / "own.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "shipped.yaml").write_text(shipped or "products: []\n", encoding="utf-8")
    return load_catalogue([tmp_path / "shipped.yaml"], [tmp_path / "own.yaml"])


def findings(tmp_path: Path, text: str, shipped: str = "") -> tuple[Diagnostic, ...]:
    with pytest.raises(InputError) as raised:
        own(tmp_path, text, shipped)
    return raised.value.diagnostics


def test_every_fact_of_an_own_file_may_be_a_plain_value(tmp_path: Path) -> None:
    feed, salt = own(tmp_path, SHORT).products
    assert feed.analysis and feed.spray and feed.carrier and feed.interval and feed.price  # noqa: PT018 - one question
    assert {key: share.text for key, share in feed.analysis.contents.items()} == {"N": "12 %", "P2O5": "4 %"}
    assert (feed.spray.usual.text, feed.carrier.usual.text) == ("30 L/ha", "600 L/ha")
    assert (feed.interval.value.to("day"), feed.price.value) == (14, 9.5)
    assert (feed.price.place.line, feed.price.place.column, feed.price.place.key) == (20, 12, "products[1].price")
    assert feed.months and feed.months.value == (4, 5)  # noqa: PT018
    assert feed.traits and feed.traits.value == ("calcium",)  # noqa: PT018
    assert feed.cautions and feed.cautions.value == ("Shake the can", "Strain it: bits")  # noqa: PT018
    assert feed.hazards and feed.hazards.value == ("Wear gloves: it stings",)  # noqa: PT018
    assert salt.spray and salt.spray.low and salt.dry and salt.dry.usual.text == "20 g/m²"  # noqa: PT018
    stated = {name for name, _ in facts(feed)} | {name for name, _ in facts(salt)}
    every = {name for name, field in Product.model_fields.items() if any(map(_is_record, get_args(field.annotation)))}
    assert stated == every - {"release"}  # only for slow release nitrogen
    assert {basis for product in (feed, salt) for _, basis in facts(product)} == {Basis(UNSTATED)}


def _is_record(one: object) -> bool:
    return isinstance(one, type) and issubclass(one, Record)


@pytest.mark.parametrize(
    ("head", "product", "fact", "expected"),
    [
        ("", "", "5", UNSTATED),
        ("basis: label", "", "5", "label"),
        ("basis: label", "basis: memory", "5", "memory"),
        ("basis: label", "basis: memory", "{value: 5}", "memory"),
        ("basis: label", "basis: memory", "{value: 5, basis: invented, note: x}", "invented"),
        ("basis: label", "basis: memory", "{value: 5, basis: label}", "label"),
        ("basis: {published: book}", "", "5", "published"),
    ],
)
@pytest.mark.parametrize("where", ["own", "shipped"])
def test_the_nearest_basis_counts(
    tmp_path: Path, head: str, product: str, fact: str, expected: str, where: str
) -> None:
    text = f"""\
{head}
sources: {{book: {{title: T, seen: seen}}}}
products:
  - name: A
    form: liquid
    family: f
    {product}
    spray: 9 L/ha
    pack: 5 L
    price: {fact}
"""
    if where == "shipped" and expected == UNSTATED:
        (tmp_path / "s.yaml").write_text(text, encoding="utf-8")
        with pytest.raises(InputError) as raised:
            load_catalogue([tmp_path / "s.yaml"])
        assert [f.message for f in raised.value.diagnostics] == ["the key 'basis' is missing"] * 3
        return
    found = own(tmp_path, text) if where == "own" else own(tmp_path, "products: []\n", text)
    assert found.products[0].price
    assert found.products[0].price.basis.kind == expected


def test_a_basis_of_an_own_file_says_nothing_of_the_facts_that_are_shipped(tmp_path: Path) -> None:
    text = "basis: label\nproducts:\n  - {name: Salt, price: 9}\n"
    shipped = """\
products:
  - {name: Salt, form: soluble powder, family: f, spray: {usual: 9 kg/ha, basis: memory},
     pack: {value: 5 kg, basis: invented}, price: {value: 3, basis: invented}}
"""
    (salt,) = own(tmp_path, text, shipped).products
    assert {key: basis.kind for key, basis in facts(salt)} == {"spray": "memory", "pack": "invented", "price": "label"}


@pytest.mark.parametrize(
    ("marked", "said"),
    [
        ("basis: «lable\nproducts: []\n", "label?"),
        ("basis: «lable\nproducts:\n  - {name: A, form: liquid, family: f, spray: 9 L/ha, pack: 5 L, price: 9}\n",
         "label?"),
        ("products:\n  - {name: A, form: liquid, family: f, basis: «lable, spray: {usual: 9 L/ha, basis: label}}\n",
         "label?"),
        ("basis: {published: «bok}\nproducts:\n  - {name: A, form: liquid, family: f, spray: 9 L/ha, pack: 5 L}\n",
         "no source 'bok'"),
        ("basis: {published: «bok}\n", "no source 'bok'"),
        ("products:\n  - {name: A, form: liquid, family: f, spray: 9 L/ha, pack: «5 kgs/m}\n", "pack"),
        ("products:\n  - {name: A, form: liquid, family: f, spray: 9 L/ha, pack: 5 L, «pric: 9}\n", "price?"),
        ("products:\n  - {name: A, form: liquid, family: f, spray: 9 L/ha, pack: 5 L, price: {«valu: 9}}\n", "value?"),
        ("products:\n  - {name: A, form: liquid, family: f, spray: 9 L/ha, pack: 5 L, months: [«13]}\n", "1 to 12"),
        ("products:\n  - {name: A, form: liquid, family: f, spray: 9 L/ha, months: «4}\n", "write [4]"),
    ],
)  # fmt: skip
def test_a_mistake_in_a_short_file_is_told_once_at_its_place(tmp_path: Path, marked: str, said: str) -> None:
    text, places = unmarked(marked)
    found = findings(tmp_path, text)
    assert places_of(found) == places
    assert said in found[0].render()


def test_a_fact_of_an_own_file_without_a_value_is_not_stated(tmp_path: Path) -> None:
    shipped = "basis: memory\nproducts:\n  - {name: S, form: granule, family: f, dry: 9 g/m², interval: 9 days}\n"
    (product,) = own(tmp_path, "products:\n  - {name: s, interval: }\n", shipped).products
    assert product.interval is None
    assert product.dry


FILES = sorted(product_catalogue().glob("*.yaml"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_fact_that_is_shipped_states_its_own_basis(tmp_path: Path, path: Path) -> None:
    """Each in turn without it is a finding; and no file or product lends it one."""
    data = yaml.safe_load(path.read_text("utf-8"))
    assert "basis" not in data
    facts_told = 0
    for product in data.get("products", ()):
        assert "basis" not in product
        stated = [key for key, value in product.items() if key not in ("name", "form", "family", "synonyms", "note")]
        for key in stated:
            bare = {**product, key: {k: v for k, v in product[key].items() if k != "basis"}}
            (tmp_path / "one.yaml").write_text(yaml.safe_dump({"products": [bare]}, allow_unicode=True), "utf-8")
            others = [one for one in FILES if one.stem == "sources"]
            with pytest.raises(InputError) as raised:
                load_catalogue([*others, tmp_path / "one.yaml"])
            assert [f.message for f in raised.value.diagnostics] == ["the key 'basis' is missing"], key
            facts_told += 1
    assert facts_told > 0 or path.stem == "sources"
    assert UNSTATED not in {b.kind for p in load_catalogue([product_catalogue()]).products for _, b in facts(p)}


def test_the_file_that_the_readme_shows_is_sound(tmp_path: Path) -> None:
    readme = (Path(__file__).parents[2] / "README.md").read_text("utf-8")
    (shown,) = re.findall(r"```yaml\n(products:.*?)```", readme, re.DOTALL)
    (tmp_path / "own.yaml").write_text(shown, encoding="utf-8")
    catalogue = load_catalogue([product_catalogue()], [tmp_path / "own.yaml"])
    assert catalogue.product("Spring feed")
    sulphate = catalogue.product("Ammonium sulphate")
    assert sulphate
    assert sulphate.price
    assert (sulphate.price.value, sulphate.price.basis.kind) == (21, UNSTATED)


@pytest.mark.parametrize(
    ("head", "printed"),
    [("", "label or own figure"), ("basis: label\n", "label"), ("basis: memory\n", "from memory")],
)
def test_the_sheet_sources_prints_the_basis_of_an_own_fact(tmp_path: Path, head: str, printed: str) -> None:
    rows = _facts(own(tmp_path, head + SHORT))
    assert {row["basis"] for row in rows} == {printed}
