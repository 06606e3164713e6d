"""The steps of making a load, which full loads and the part load share.

Step 1 begins with water, then come the products in pouring order, then the topping up. `line` has shape (steps,),
`mark` is a scalar that is blank where there is no such load to make.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, like, magnitude, or_zero, where
from wbgen.model.tools.relations import find, pick
from wbgen.model.values import Each, Quantity, T, Table, each

FILL, WEIGH, DISSOLVE, POUR, TOP_UP = "FILL", "WEIGH", "DISSOLVE", "POUR", "TOP UP"
WEIGHED, POURED = (WEIGH, DISSOLVE), (POUR,)


def _place(line: Each[float], mark: Quantity, mix_products: Table, mix_checks: Table) -> Each[float]:
    """The place (from 1) of the product that a step is for; blank for a step that is for none."""
    a_product = (line >= 2) & (line <= mix_checks.found_products + 1) & ~blank(mark)
    places = find(line - 1, mix_products.pouring_order)
    return where(a_product & (places >= 0), each(places + 1.0), np.nan)


def action(
    line: Each[float], mark: Quantity, mix_products: Table, mix_checks: Table, bucket: Each[Quantity]
) -> Each[str]:
    """What is done in a step; empty for a line past the last step.

    A solid is dissolved where it is known in how much water: `bucket` has that for each product.
    """
    measured_by = of_step(line, mark, mix_products, mix_checks, mix_products.measured_by)
    dissolved = ~blank(of_step(line, mark, mix_products, mix_checks, bucket))
    measure = where(folded(measured_by) == "mass", where(dissolved, DISSOLVE, WEIGH), POUR)
    last = mix_checks.found_products + 2
    done = where(line == 1, FILL, where(line == last, TOP_UP, where(line < last, measure, "")))
    return where(blank(mark), "", done)


def what(action: Each[str], product: Each[str]) -> Each[str]:
    """What it is done with; empty where nothing is done. `product` is that of each step."""
    water = where(action == FILL, "clean water to begin", "water to the mark")
    return where(blank(action), "", where((action == FILL) | (action == TOP_UP), water, product))


def of_step(line: Each[float], mark: Quantity, mix_products: Table, mix_checks: Table, column: Each[T]) -> Each[T]:
    """What the table of this visit's products has in `column` for the product of each step."""
    return pick(column, _place(line, mark, mix_products, mix_checks) - 1)


def of_line(line: Each[float], mix_products: Table, column: Each[T]) -> Each[T]:
    """What the table of this visit's products has in `column` for the product that goes in at this line."""
    places = find(line - 1, mix_products.pouring_order)
    return pick(column, np.where(places >= 0, places, np.nan))


def measured(
    action: Each[str], wanted: tuple[str, ...], line: Each[float], mix_products: Table, column: Each[Quantity]
) -> Each[Quantity]:
    """The figure in `column` where the step is one of the actions that are wanted, blank elsewhere."""
    return where(np.isin(action, wanted), of_line(line, mix_products, column), np.nan)


def to_fill(action: Each[str], mark: Quantity, first: Quantity) -> Each[Quantity]:
    """The level (L) of the water: what there is room for to begin with, later the mark."""
    begun = np.maximum(magnitude(or_zero(first)), 0.0)
    return where(action == FILL, like(first, begun), where(action == TOP_UP, mark, np.nan))
