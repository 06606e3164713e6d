"""The steps of making the part load at the end: one record a step."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools import steps
from wbgen.model.tools.relations import blank, where

Value = Any


def action(line: Value, card: Value, mix_products: Value, mix_checks: Value) -> Value:
    """What is done: fill, dissolve, weigh or pour, top up."""
    return steps.action(line, card.part_mark, mix_products, mix_checks, mix_products.bucket_last)


def what(action: Value, line: Value, mix_products: Value) -> Value:
    """What it is done with: water, or a product."""
    return steps.what(action, steps.of_line(line, mix_products, mix_products.product))


def to_weigh(action: Value, line: Value, mix_products: Value) -> Value:
    """What to weigh (g)."""
    return steps.measured(action, steps.WEIGHED, line, mix_products, mix_products.weigh_last)


def to_pour(action: Value, line: Value, mix_products: Value) -> Value:
    """What to pour (mL)."""
    return steps.measured(action, steps.POURED, line, mix_products, mix_products.pour_last)


def to_fill(action: Value, card: Value, mix: Value) -> Value:
    """To which level (L) the water goes."""
    return steps.to_fill(action, card.part_mark, mix.first_fill_last)


def dissolve_in(to_weigh: Value, line: Value, mix_products: Value) -> Value:
    """The water (L) in which a solid is dissolved first."""
    return where(blank(to_weigh), np.nan, steps.of_line(line, mix_products, mix_products.bucket_last))


def ticks(action: Value) -> Value:
    """A box to tick."""
    return where(blank(action), "", "☐")
