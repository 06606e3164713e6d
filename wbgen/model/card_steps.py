"""The steps of making a load, for all the loads that are alike: one record a step."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model import _steps
from wbgen.model.relations import blank, or_zero, where

Value = Any

_TICKS = "☐ " * 20


def column_used(line: Value, card: Value, mix_products: Value, mix_checks: Value) -> Value:
    """The place (from 1) of the product of each step among the products of this visit."""
    return _steps.column_used(line, card.fill_mark, mix_products, mix_checks)


def action(line: Value, column_used: Value, card: Value, mix_products: Value, mix_checks: Value) -> Value:
    """What is done: fill, weigh or pour, top up."""
    return _steps.action(line, column_used, card.fill_mark, mix_products, mix_checks)


def what(action: Value, column_used: Value, mix_products: Value) -> Value:
    """What it is done with: water, or a product."""
    return _steps.what(action, column_used, mix_products)


def to_weigh(column_used: Value, mix_products: Value) -> Value:
    """What to weigh (g) for one load."""
    return _steps.of_product(column_used, mix_products.weigh_full)


def to_pour(column_used: Value, mix_products: Value) -> Value:
    """What to pour (mL) for one load."""
    return _steps.of_product(column_used, mix_products.pour_full)


def to_fill(action: Value, card: Value) -> Value:
    """To which mark (L) the water goes."""
    return _steps.to_fill(action, card.fill_mark)


def dissolve_in(column_used: Value, to_weigh: Value, mix_products: Value) -> Value:
    """The water (L) in which a solid is dissolved first."""
    return where(blank(to_weigh), np.nan, _steps.of_product(column_used, mix_products.bucket))


def ticks(action: Value, card: Value) -> Value:
    """A box to tick for each load, twenty at most."""
    return where(blank(action), "", _TICKS[: 2 * int(or_zero(card.alike))])
