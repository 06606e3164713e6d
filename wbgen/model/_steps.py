"""The steps of making a load, which full loads and the part load share.

Step 1 half fills the tank, then come the products in pouring order, then the topping up. `line` has shape (steps,),
`mark` is a scalar that is blank where there is no such load to make.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.relations import blank, find, folded, pick, where

Value = Any

FILL, TOP_UP = "FILL", "TOP UP"


def column_used(line: Value, mark: Value, mix_products: Value, mix_checks: Value) -> Value:
    """The place (from 1) of the product that a step is for; blank for a step that is for none."""
    a_product = (line >= 2) & (line <= mix_checks.found_products + 1) & ~blank(mark)
    places = find(line - 1, mix_products.pouring_order)
    return np.where(a_product & (places >= 0), places + 1.0, np.nan)


def action(line: Value, column_used: Value, mark: Value, mix_products: Value, mix_checks: Value) -> Value:
    """What is done in a step; empty for a line past the last step."""
    measured = where(folded(of_product(column_used, mix_products.measured_by)) == "mass", "WEIGH", "POUR")
    last = mix_checks.found_products + 2
    done = where(line == 1, FILL, where(line == last, TOP_UP, where(line < last, measured, "")))
    return where(blank(mark), "", done)


def what(action: Value, column_used: Value, mix_products: Value) -> Value:
    """What it is done with; empty where nothing is done."""
    product = of_product(column_used, mix_products.product)
    return where(
        action == FILL,
        "clean water, half full",
        where(action == TOP_UP, "clean water to the mark", where(blank(action), "", product)),
    )


def of_product(column_used: Value, column: Value) -> Value:
    """What the table of this visit's products has in `column` for the product of each step."""
    return pick(column, column_used - 1)


def to_fill(action: Value, mark: Value) -> Value:
    """The level (L) of the water: half the mark, later the mark."""
    return where(action == FILL, mark / 2, where(action == TOP_UP, mark, np.nan))
