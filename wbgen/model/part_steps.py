"""The steps of making the part load at the end: one record a step."""

from __future__ import annotations

from typing import Any

from wbgen.model import _steps
from wbgen.model.relations import blank, plain, ratio, where

Value = Any


def column_used(line: Value, card: Value, mix_products: Value, mix_checks: Value) -> Value:
    """The place (from 1) of the product of each step among the products of this visit."""
    return _steps.column_used(line, card.part_mark, mix_products, mix_checks)


def action(line: Value, column_used: Value, card: Value, mix_products: Value, mix_checks: Value) -> Value:
    """What is done: fill, weigh or pour, top up."""
    return _steps.action(line, column_used, card.part_mark, mix_products, mix_checks)


def what(action: Value, column_used: Value, mix_products: Value) -> Value:
    """What it is done with: water, or a product."""
    return _steps.what(action, column_used, mix_products)


def to_weigh(column_used: Value, mix_products: Value) -> Value:
    """What to weigh (g) for the part load."""
    return _steps.of_product(column_used, mix_products.weigh_last)


def to_pour(column_used: Value, mix_products: Value) -> Value:
    """What to pour (mL) for the part load."""
    return _steps.of_product(column_used, mix_products.pour_last)


def to_fill(action: Value, card: Value) -> Value:
    """To which mark (L) the water goes."""
    return _steps.to_fill(action, card.part_mark)


def dissolve_in(column_used: Value, to_weigh: Value, mix_products: Value) -> Value:
    """The water (L) in which a solid is dissolved first: that of a full load, in the proportion of what is weighed."""
    bucket = _steps.of_product(column_used, mix_products.bucket)
    return bucket * plain(ratio(to_weigh, _steps.of_product(column_used, mix_products.weigh_full)))


def ticks(action: Value) -> Value:
    """A box to tick."""
    return where(blank(action), "", "☐")
