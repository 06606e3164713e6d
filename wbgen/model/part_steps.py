"""The steps of making the part load at the end: one record a step."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model import _steps
from wbgen.model.relations import blank, where

Value = Any


def action(line: Value, card: Value, mix_products: Value, mix_checks: Value) -> Value:
    """What is done: fill, dissolve, weigh or pour, top up."""
    return _steps.action(line, card.part_mark, mix_products, mix_checks, mix_products.bucket_last)


def what(action: Value, line: Value, mix_products: Value) -> Value:
    """What it is done with: water, or a product."""
    return _steps.what(action, _steps.of_line(line, mix_products, mix_products.product))


def to_weigh(action: Value, line: Value, mix_products: Value) -> Value:
    """What to weigh (g)."""
    return _steps.measured(action, _steps.WEIGHED, line, mix_products, mix_products.weigh_last)


def to_pour(action: Value, line: Value, mix_products: Value) -> Value:
    """What to pour (mL)."""
    return _steps.measured(action, _steps.POURED, line, mix_products, mix_products.pour_last)


def to_fill(action: Value, card: Value, mix: Value) -> Value:
    """To which level (L) the water goes."""
    return _steps.to_fill(action, card.part_mark, mix.first_fill_last)


def dissolve_in(to_weigh: Value, line: Value, mix_products: Value) -> Value:
    """The water (L) in which a solid is dissolved first."""
    return where(blank(to_weigh), np.nan, _steps.of_line(line, mix_products, mix_products.bucket_last))


def ticks(action: Value) -> Value:
    """A box to tick."""
    return where(blank(action), "", "☐")
