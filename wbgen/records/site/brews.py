"""What a user's file says of brews: what a batch is, how long it takes, and from what it is made."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

from wbgen.files.accepted import as_read
from wbgen.files.diagnostics import Report
from wbgen.files.yaml.records import Record
from wbgen.records.catalogue import Catalogue
from wbgen.records.fields import Measure, Of, Share, Text, Volume
from wbgen.records.product_rules import Check, check_amount
from wbgen.records.site.names import known_product


class Ingredient(Record):
    """What one batch takes of an ingredient: a mass or a volume."""

    name: Text
    amount: Annotated[Measure, Of("mass", "volume")]
    note: Text | None = None


class Brew(Record):
    """One recipe: the product that it makes, a `batch` of it, the `extra` that is brewed beyond what is needed."""

    product: Text
    batch: Volume
    brewing: Annotated[Measure, Of("time")] | None = None
    use_within: Annotated[Measure, Of("time")] | None = None
    extra: Share | None = None
    ingredients: tuple[Ingredient, ...] = ()


def check_brews(brews: Sequence[Brew], catalogue: Catalogue, report: Report) -> None:
    """The products are in the catalogue, are measured by volume, and have one recipe each; an ingredient that is in
    the catalogue is weighed or measured by volume as it is there."""
    seen: dict[str, Brew] = {}
    for brew in brews:
        product = known_product(brew.product, brew.place_of("product"), catalogue, report)
        if product is not None and not product.is_liquid:
            report.add("brew", brew.place_of("product"), f"{brew.product} is weighed, a brew is measured by volume",
                       expected="a liquid or a brew", found=f"form: {product.form}",
                       remedy="name a liquid product, or correct its form")  # fmt: skip
        for ingredient in brew.ingredients:
            if known_one := catalogue.product(ingredient.name):
                check_amount(Check(known_one, report), ingredient.amount)
        first = seen.setdefault(as_read(brew.product), brew)
        if first is not brew:
            report.add("brew", brew.place, f"{brew.product} has a recipe already", expected="one recipe a brew",
                       found=f"another in line {first.place.line}", remedy="keep one of the two")  # fmt: skip
