"""What a user's file says of the shed: what was counted there and what was bought."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Literal

from wbgen.files.diagnostics import Report
from wbgen.files.yaml.records import Record
from wbgen.records.catalogue import Catalogue
from wbgen.records.fields import Day, Measure, NumberLeaf, Of, OneOf, Text
from wbgen.records.product import Product
from wbgen.records.product_rules import Check, check_amount
from wbgen.records.site.names import known_product

_Amount = Annotated[Measure, Of("mass", "volume", zero=True)]


class Held(Record):
    """One count or purchase: whole `packs`, an `amount` besides them, or both. A count is of the evening."""

    date: Day
    product: Text
    deed: Annotated[Literal["counted", "bought"], OneOf("counted", "bought")]
    packs: Annotated[float, NumberLeaf(0)] | None = None
    amount: _Amount | None = None
    paid: Annotated[float, NumberLeaf(0)] | None = None
    note: Text | None = None


def check_shelf(shelf: Sequence[Held], catalogue: Catalogue, report: Report) -> None:
    """The products are in the catalogue, solids are weighed and liquids measured, and packs have a known size."""
    for line in shelf:
        product = known_product(line.product, line.place_of("product"), catalogue, report)
        if product is not None:
            _check(line, product, report)


def _check(line: Held, product: Product, report: Report) -> None:
    what = line.product
    if line.packs is None and line.amount is None:
        report.add("shelf-line", line.place, f"{what}: it says not how much", expected="packs: 2, or amount: 3 kg",
                   found="neither", remedy="add one of them, or both")  # fmt: skip
    if line.packs is not None and product.pack is None:
        report.add("shelf-line", line.place_of("packs"), f"{what}: the size of its pack is not known",
                   expected="an amount such as 3 kg", found=f"packs: {line.packs:g}",
                   remedy="write the amount, or give the product a pack")  # fmt: skip
    if line.amount is not None:
        check_amount(Check(product, report), line.amount)
