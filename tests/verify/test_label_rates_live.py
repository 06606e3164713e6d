"""Every label rate that is accepted lives: from the file through the build and LibreOffice to a clean verification.

Whatever the grammar takes has its figure on Products, in the Programme and in the Mix; what each must be is worked out
here from the definitions of the units, apart from wbgen's own. Products, analyses and rates are drawn, and invented.
"""

from __future__ import annotations

import random
import re
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any, Final

import numpy as np
import openpyxl
import pytest

from support.filled import filled
from support.office import recalculate
from support.planners import EMPTY, SYSTEMS, TODAY
from support.shared import Shared
from support.tier import TIER, others_thorough
from wbgen.build import Planner, build
from wbgen.files.diagnostics import Diagnostic, InputError
from wbgen.model.binding import Model
from wbgen.records.catalogue import load_catalogue
from wbgen.sheets.column import System
from wbgen.verify.verification import verify

AREAS: Final = {"ha": "10000", "m²": "1", "100 m2": "100", "450 m²": "450", "250 sq m": "250", "acre": "4046.8564224",
                "1000 ft²": "92.90304", "100 sq ft": "9.290304", "yd²": "0.83612736"}  # fmt: skip
MASSES: Final = {"g": "1", "kg": "1000", "lb": "453.59237", "oz": "28.349523125"}
VOLUMES: Final = {"mL": "1", "L": "1000", "US fl oz": "29.5735295625", "US pt": "473.176473", "US qt": "946.352946",
                  "US gal": "3785.411784", "imp fl oz": "28.4130625", "imp gal": "4546.09"}  # fmt: skip
"""m², g and mL in each. International yard and pound agreement, 1959; NIST Handbook 44, appendix C; Weights and
Measures Act 1985 (United Kingdom), schedule 1."""
CONTENTS: Final = {"N": "0.2", "P2O5": "0.1", "K2O": "0.15", "Fe": "0.05", "MgO": "0.04", "SO3": "0.08"}
PACK: Final = {"solid": Fraction(2500), "liquid": Fraction(5000)}  # g, mL
DENSITY: Final = Fraction("1.2")
CARRIER: Final = Fraction("0.05")
"""500 L/ha, in L/m²."""
OUNCES: Final = {"mass": 28.349523125 / 92.90304, "volume": 29.5735295625 / 92.90304}
"""One oz and one fl oz per 1000 ft², in g/m² and mL/m²."""
DRAWN: Final = 40 if TIER.thorough else 14


@dataclass(frozen=True)
class Drawn:
    """A product with a rate as a label might print it, and that rate in g/m² or mL/m²."""

    name: str
    form: str
    method: str
    rate: str
    expected: Fraction

    def as_yaml(self) -> str:
        contents = ", ".join(f"{symbol}: {float(share) * 100:g} %" for symbol, share in CONTENTS.items())
        liquid = self.form == "liquid"
        return (
            f"  - name: {self.name}\n    form: {'liquid' if liquid else 'soluble powder'}\n    family: drawn\n"
            f"    analysis: {{per: w/w, contents: {{{contents}}}, basis: invented}}\n"
            + ("    density: {value: 1.2 kg/L, basis: invented}\n" if liquid else "")
            + f'    {self.method}: {{usual: "{self.rate}", basis: invented}}\n'
            + ("    carrier: {usual: 500 L/ha, basis: invented}\n" if self.method == "spray" else "")
            + f"    pack: {{value: {'5 L' if liquid else '2.5 kg'}, basis: invented}}\n"
        )


def drawn(number: int, dice: random.Random) -> Drawn:
    form = dice.choice(["solid", "liquid"])
    method = dice.choice(["spray", "spray", "dry"]) if form == "solid" else "spray"
    text, expected = _rate(form, method, dice)
    return Drawn(f"Drawn {number:02d}", form, method, text, expected)


def _rate(form: str, method: str, dice: random.Random) -> tuple[str, Fraction]:
    """A rate that fits the form and the method, and what it comes to."""
    number = Fraction(dice.randint(1, 4000), 10)
    shown = f"{float(number):g}"
    own, to_own = (MASSES, Fraction(1)) if form == "solid" else (VOLUMES, Fraction(1))
    weights = MASSES if form == "solid" else {unit: grams for unit, grams in MASSES.items() if unit != "oz"}
    kinds = ["own", "pack", "nutrient", *(["mass"] if form == "liquid" else [])]
    diluted = ["in water", "stroke", "parts", "share"] if method == "spray" else []
    kind = dice.choice(kinds + diluted)
    area, stroke = dice.choice(list(AREAS)), dice.choice(["/", " per "])
    if kind in ("in water", "stroke"):
        amounts = dice.choice([own, weights])
        amount, water = dice.choice(list(amounts)), dice.choice(["L", "US gal", "imp gal", "mL"])
        of_water = dice.choice(["1", "10", "15", "4.5", "100"])
        litres = Fraction(of_water) * Fraction(VOLUMES[water]) / 1000
        by_volume = number * Fraction(amounts[amount]) / litres / (DENSITY if amounts is not own else 1)
        said = (
            f"{shown} {amount} in {of_water} {water}" if kind == "in water" else f"{shown} {amount}/{of_water} {water}"
        )
        return said, by_volume * CARRIER
    if kind == "parts" and form == "liquid":
        whole = dice.randint(500, 9000)
        said = dice.choice([f"{shown}:{whole}", f"{shown} in {whole}"])
        return said, 1000 * number / whole * CARRIER
    if kind in ("parts", "share"):
        share = Fraction(dice.randint(1, 500), 100)
        by = "w/v" if form == "solid" else "v/v"
        return f"{float(share):g} % {by}", 10 * share * CARRIER
    if kind == "pack":
        return f"{shown} {dice.choice(['packs', 'sachets'])}{stroke}{area}", number * PACK[form] / Fraction(AREAS[area])
    if kind == "nutrient":
        symbol, mass = dice.choice(list(CONTENTS)), dice.choice(list(MASSES))
        content = Fraction(CONTENTS[symbol]) * (DENSITY if form == "liquid" else 1)
        grams = number * Fraction(MASSES[mass]) / Fraction(AREAS[area])
        return f"{shown} {mass} {symbol}{stroke}{area}", grams / content
    if kind == "mass":
        own, to_own = weights, DENSITY
    amount = dice.choice(list(own))
    said = f"{shown} {amount}{stroke}{area}"
    if method == "spray" and dice.random() < 0.2 and area in ("ha", "acre"):
        said = f"{shown} {amount} {area}-1"
    return said, number * Fraction(own[amount]) / Fraction(AREAS[area]) / to_own


def site(products: list[Drawn]) -> str:
    sprayed = [product.name for product in products if product.method == "spray"][:8]
    when = "first: 2026-07-01, last: 2026-07-01, times: 1"
    lines = "".join(f"  - {{product: {one.name}, lawn: Only lawn, method: {one.method}, {when}}}\n" for one in products)
    mixed = "".join(f"    - {{product: {name}}}\n" for name in sprayed)
    return (
        EMPTY + "catalogue: [drawn.yaml]\n"
        "sprayers: [{name: Knapsack, kind: knapsack, brim: 15 L, working: 14 L, passes: 1, carrier volume: 500 L/ha}]\n"
        f"programme:\n{lines}"
        "mix:\n  date: 2026-07-01\n  lawns: [Only lawn]\n  sprayer: Knapsack\n  carrier volume: 500 L/ha\n"
        f"  products:\n{mixed}"
    )


@pytest.fixture(scope="module", params=others_thorough(SYSTEMS, ["us"]))
def planner(request: pytest.FixtureRequest, shared: Shared) -> tuple[list[Drawn], Path, Planner]:
    """What was drawn, the planner of it as LibreOffice saved it, and what the build made."""
    system: System = request.param
    dice = random.Random(f"{TIER.seed} label rates {system}")  # noqa: S311
    products = [drawn(number, dice) for number in range(DRAWN)]

    def make() -> tuple[Path, Planner]:
        folder = shared.folder / f"label-rates-{system}"
        (folder / "saved").mkdir(parents=True)
        (folder / "drawn.yaml").write_text("products:\n" + "".join(one.as_yaml() for one in products), encoding="utf-8")
        (folder / "lawns.yaml").write_text(site(products), encoding="utf-8")
        made = build(folder / "lawns.yaml", folder / "planner.xlsx", system=system, diary_rows=5, today=TODAY)
        return recalculate(folder / "planner.xlsx", folder / "saved"), made

    path, made = shared.once(f"label-rates-{system}", make)
    return products, path, made


@cache
def saved(path: Path) -> openpyxl.Workbook:
    """The workbook with its stored values, loaded once."""
    return openpyxl.load_workbook(path, data_only=True)


def figures(path: Path, made: Planner, table: str, key: str, name: str) -> dict[str, Any]:
    """The stored values of a column by what stands in the column of names."""
    sheet = saved(path)[made.layout.placed[table].sheet]
    placed = made.layout.placed[table]

    def cell(column: str, record: int) -> Any:
        row, at = placed.cell(column, record)
        return sheet.cell(row + 1, at + 1).value

    found = [(cell(name, record), cell(key, record)) for record in range(placed.count)]
    return {who: value for who, value in found if who}


def test_the_planner_is_clean_by_four_witnesses(planner: tuple[list[Drawn], Path, Planner]) -> None:
    result = verify(planner[1])
    assert result.clean, result.findings[:5]
    assert all(result.witnesses.values()), result.witnesses


@pytest.mark.parametrize("where", ["products", "programme", "mix_products"])
def test_every_rate_has_its_figure(planner: tuple[list[Drawn], Path, Planner], where: str) -> None:
    products, path, made = planner
    name = {"products": "name"}.get(where, "product")
    per = {"metric": {"mass": 1.0, "volume": 1.0}, "us": OUNCES}[made.book.system]
    tried = 0
    for measure, form in (("mass", "solid"), ("volume", "liquid")):
        if where == "products":
            columns = {"spray": f"spray_{measure}_usual", "dry": "dry_mass_usual"}
        else:
            columns = dict.fromkeys(("spray", "dry"), f"rate_{measure}")
        found = {way: figures(path, made, where, key, name) for way, key in columns.items()}
        for one in products:
            value = found[one.method].get(one.name)
            absent = where == "mix_products" and one.name not in found[one.method]
            if one.form != form or absent or (where == "products" and _diluted(one)):
                continue
            scale = per[measure]
            if where == "products" and one.method == "dry" and made.book.system == "us":
                scale = 453.59237 / 92.90304  # dry rates stand in lb/1000 ft² there
            assert value == pytest.approx(float(one.expected) / scale, rel=1e-9), f"{one.rate} of a {one.form}"
            tried += 1
    assert tried > (2 if where == "mix_products" else 5)


def _diluted(one: Drawn) -> bool:
    """Whether the rate is one only with the carrier volume: it stands in other columns of Products."""
    return one.rate.endswith(("L", "gal", "v")) or re.fullmatch(r"[0-9.]+(:| in )[0-9]+", one.rate) is not None


FACTS: Final = {"density", "pack", "contents"}


def lacking(one: Drawn, method: str, without: set[str]) -> str:
    """The product in the catalogue's words, put on in some way, without some of its facts."""
    said = replace(one, method=method).as_yaml().splitlines(keepends=True)
    words = {"density": "    density:", "pack": "    pack:", "contents": "    analysis:"}
    gone = tuple(words[fact] for fact in without)
    return "".join(line for line in said if not gone or not line.startswith(gone))


def test_a_rate_is_refused_or_has_its_figure_whatever_its_product_states(tmp_path: Path) -> None:
    """Each form of rate for solids and liquids, sprayed and dry, without any of what it may need."""
    dice = random.Random(f"{TIER.seed} facts that lack")  # noqa: S311 - the same draws every time
    taken: list[str] = []
    refused, untold = 0, list[Diagnostic]()
    for number in range(4 * DRAWN + 40):
        one = drawn(number, dice)
        form = dice.choice(["solid", "liquid"])
        missing = {fact for fact in sorted(FACTS) if dice.random() < 0.5}
        text = lacking(replace(one, form=form), dice.choice(["spray", "dry"]), missing)
        (tmp_path / "one.yaml").write_text(f"products:\n{text}", encoding="utf-8")
        try:
            load_catalogue([], [tmp_path / "one.yaml"])
        except InputError as error:
            refused += 1
            untold += [found for found in error.diagnostics if not (found.remedy or found.expected)]
        else:
            taken.append(text)
    assert not untold
    assert refused > 10
    assert len(taken) > 10
    (tmp_path / "own.yaml").write_text("products:\n" + "".join(taken), encoding="utf-8")
    (tmp_path / "lawns.yaml").write_text(EMPTY + "catalogue: [own.yaml]\n", encoding="utf-8")
    model = Model(filled(tmp_path / "lawns.yaml"))
    ways = ("spray_mass", "spray_volume", "diluted_mass", "diluted_volume", "dry_mass")
    there = [~np.isnan(model.column("products", f"{way}_usual").magnitude) for way in ways]
    names = list(model.column("products", "name"))
    own = {text.split("name: ")[1].split("\n")[0]: text for text in taken}
    lost = [own[name] for name, has in zip(names, np.any(there, axis=0), strict=True) if name in own and not has]
    assert not lost, "".join(lost)
