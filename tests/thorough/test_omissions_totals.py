"""Every product of the catalogue, every lawn and every line of the diary reaches the totals of the season."""

from __future__ import annotations

from datetime import date
from typing import Final

import pytest

from thorough.omission_sites import CALM, calm
from thorough.omissions import Changes, Scene, scene
from wbgen.files import shipped
from wbgen.inputs.rows import Cell
from wbgen.records.catalogue import load_catalogue
from wbgen.records.product import Product
from wbgen.sheets.column import System
from wbgen.trade.families import LEVELS
from wbgen.trade.nutrients import NUTRIENTS, counted_form, oxide_factor
from wbgen.units.quantity import FLOAT

SYSTEMS: Final[tuple[System, ...]] = ("metric", "us")
PRODUCTS: Final = load_catalogue([shipped.product_catalogue()], []).products
MEASURED: Final = {"mass": 600.0, "volume": 300.0}
"""Grams of each solid, and millilitres of each liquid, in the diary."""


def grams(product: Product) -> dict[str, float]:
    """What 600 g, or 300 mL, of a product brings of each nutrient, from what the catalogue says of it."""
    found = {nutrient.key: 0.0 for nutrient in NUTRIENTS}
    if product.analysis is None:
        return found
    measured = MEASURED["volume" if product.is_liquid else "mass"]
    if product.is_liquid and product.analysis.per == "w/w":
        assert product.density is not None
        measured *= product.density.value.to("g/mL")
    for symbol, share in product.analysis.contents.items():
        nutrient = counted_form(symbol).nutrient
        part = 1.0 if symbol == nutrient.symbol else float(oxide_factor(nutrient.symbol))
        found[nutrient.key] += measured * share.to("dimensionless") / part
    return found


def line(number: int, product: str, *, liquid: bool, lawn: str = "Front") -> Changes:
    """One line of the diary, in the season."""
    figure = {"poured": "300 mL"} if liquid else {"weighed": "600 g"}
    said = {"date": date(2026, 5, 1), "lawn": lawn, "product": product, "method": "spray", "weighed": None, **figure}
    return {f"diary.{key}@{number}": cell for key, cell in said.items()}


def in_all(found: Scene, table: str, record: int) -> dict[str, float]:
    """Grams of each nutrient in a record of a table of totals."""
    totals = {}
    for nutrient in NUTRIENTS:
        column = f"{table}.load_{nutrient.key}"
        unit = found.inputs.units[table][f"load_{nutrient.key}"]
        totals[nutrient.key] = float(FLOAT.Quantity(found.figures(column)[record], unit).to(f"g_{nutrient.symbol}").m)
    return totals


def agrees(found: Scene) -> bool:
    return bool(found.figure("start.master_check") == "all checks agree")


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("product", PRODUCTS, ids=lambda product: product.name)
def test_each_product_reaches_the_totals(product: Product, system: System) -> None:
    found = calm(system, line(0, product.name, liquid=product.is_liquid))
    assert agrees(found)
    listed = list(found.figures("season_products.product"))
    expected = pytest.approx(grams(product), rel=1e-9)
    assert in_all(found, "season_products", listed.index(product.name)) == expected
    assert in_all(found, "season_grams", 0) == expected
    assert in_all(found, "months_together", 4) == expected
    assert found.figures("season_products.lines")[listed.index(product.name)] == 1
    assert found.figure("season_hectare.visits") == found.figure("facts_now.in_season") == 1


@pytest.mark.parametrize(
    ("product", "measured", "nitrogen"),
    [
        ("Liquid NPK 10-4-6", "600 g", 60),
        ("Liquid NPK 10-4-6", "1 lb", 45.359237),
        ("Ammonium sulphate", "2 pack", 2 * 25_000 * 0.21),
        ("Ammonium sulphate", "1 pack", 25_000 * 0.21),
        ("Liquid NPK 10-4-6", "0.5 pack", 0.5 * 10_000 * 1.2 * 0.1),
    ],
)
@pytest.mark.parametrize("system", SYSTEMS)
def test_a_liquid_that_was_weighed_and_a_number_of_packs_reach_the_totals(
    system: System, product: str, measured: str, nitrogen: float
) -> None:
    text = CALM.replace("product: Ammonium sulphate, method: spray, measured: 262 g", f"product: {product}, "
                        f"method: spray, measured: {measured}")  # fmt: skip
    if product.startswith("Liquid"):
        text = text.replace("planned rate: 2.5 g/m²", "planned rate: 2.5 mL/m²")
    assert in_all(scene(text, system), "season_grams", 0)["nitrogen"] == pytest.approx(nitrogen, rel=1e-9)


@pytest.mark.parametrize("system", SYSTEMS)
def test_an_element_that_is_wanted_is_delivered_as_its_oxide(system: System) -> None:
    wanted = "product: Calcium nitrate (fertiliser grade), wanted: 0.2 g Ca/m²"
    found = scene(CALM.replace("products: [{product: Ammonium sulphate}]", f"products: [{{{wanted}}}]"), system)
    unit = found.inputs.units["mix_nutrients"]["element_calcium_oxide"]
    delivered = FLOAT.Quantity(found.figure("mix_nutrients.element_calcium_oxide"), unit)
    assert delivered.to("g_Ca/m**2").magnitude == pytest.approx(0.2, rel=1e-9)


def test_every_nutrient_is_in_some_product() -> None:
    totals = [grams(product) for product in PRODUCTS]
    assert all(any(one[nutrient.key] > 0 for one in totals) for nutrient in NUTRIENTS)


@pytest.mark.parametrize("system", SYSTEMS)
def test_each_lawn_each_product_and_each_line_that_there_is_room_for_reaches_the_totals(system: System) -> None:
    """All spare records filled, and the diary to its last line: one line a lawn, and a product each."""
    whole = calm(system)
    changes: dict[str, Cell] = {}
    lawns, products, lines = (whole.inputs.records[table] for table in ("lawns", "products", "diary"))
    for record in range(lawns):
        changes |= {f"lawns.name@{record}": f"Lawn {record}", f"lawns.typed_area@{record}": "100 m²"}
        changes |= {f"lawns.target_nitrogen@{record}": "1000 g N/m²"}
    for record in range(products):
        changes |= {f"products.name@{record}": f"Feed {record}", f"products.form@{record}": "granule"}
        changes |= {f"products.stated_nitrogen@{record}": "10 %", f"products.analysis_per@{record}": "w/w"}
        changes |= {f"products.{way}_{level}@{record}": None for way in ("spray", "dry") for level in LEVELS}
    for number in range(lines):
        changes |= line(number, f"Feed {number % products}", liquid=False, lawn=f"Lawn {number % lawns}")
    for table in ("programme", "shelf", "recipes", "ingredients"):
        changes |= {f"{table}.product@{record}": None for record in range(whole.inputs.records[table])}
    changes |= {f"scores.lawn@{record}": None for record in range(whole.inputs.records["scores"])}
    changes |= {"soil_tests.lawn": None}
    changes |= {"chosen_products.product": None, "parts.lawn": None, "settings.diary_warning": None}
    changes |= {f"parts.lawn@{record}": None for record in range(whole.inputs.records["parts"])}
    changes |= {f"points.lawn@{record}": None for record in range(whole.inputs.records["points"])}
    found = whole.changed(changes)
    assert agrees(found)
    for table, records, counted in (
        ("season_products", products, "season_products.lines"),
        ("season_grams", lawns, "season_hectare.visits"),
    ):
        times = [len(range(record, lines, records)) for record in range(records)]
        assert list(found.figures(counted)) == times
        grams_of = [in_all(found, table, record)["nitrogen"] for record in range(records)]
        assert grams_of == pytest.approx([60 * number for number in times], rel=1e-9)
    assert found.figures("facts_now.room") == 0
