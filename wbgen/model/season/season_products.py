"""What each product has brought this season, on all lawns."""

from __future__ import annotations

from typing import Any

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import count_by, pick, sum_by

Value = Any

BLANK_UNLESS = ("product",)


def product(turn: Value, products: Value) -> Value:
    """Name of the product whose turn it is (from 1), blank where there is none."""
    return pick(products.name, turn - 1)


def lines(product: Value, diary: Value) -> Value:
    """Number of this season's lines in the diary."""
    return count_by(diary.product, product, diary.in_season == "yes")


@of_family("nutrients")
def load_each(product: Value, diary: Value) -> Value:
    """Nutrient that the product brought this season, in all."""
    return sum_by(diary.product, product, diary.load_each, diary.in_season == "yes")
