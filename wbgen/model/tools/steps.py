"""The steps of making a load, which full loads and the part load share.

Step 1 begins with water, then come acid for the water where there is any, the products in pouring order, and the
topping up. `line` has shape (steps,); `acid` is 1 where there is a step of acid, else 0; `mark` is a scalar that is
blank where there is no such load to make.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, like, magnitude, or_zero, where
from wbgen.model.tools.relations import find, pick
from wbgen.model.values import Each, Mask, Quantity, T, Table

FILL, WEIGH, DISSOLVE, POUR, TOP_UP = "FILL", "WEIGH", "DISSOLVE", "POUR", "TOP UP"
WEIGHED = (WEIGH, DISSOLVE)


def turns(line: Each[float], acid: float) -> Each[float]:
    """As which number a product goes in at a step: 1 for the first one, 0 for the acid of the water.

    >>> turns(np.array([1.0, 2.0, 3.0]), 1.0)
    array([-1.,  0.,  1.])
    """
    return line - 1 - acid


def _is_acid(line: Each[float], acid: float) -> Mask:
    return (turns(line, acid) == 0) & (line > 1)


def action(
    line: Each[float], acid: float, mark: Quantity, mix_products: Table, mix_checks: Table, bucket: Each[Quantity]
) -> Each[str]:
    """What is done in a step; empty for a line past the last step.

    A solid is dissolved where it is known in how much water: `bucket` has that for each product.
    """
    measured_by = of_line(line, acid, mix_products, mix_products.measured_by)
    dissolved = ~blank(of_line(line, acid, mix_products, bucket))
    solid = folded(measured_by) == "mass"
    measure = where(_is_acid(line, acid), WEIGH, where(solid, where(dissolved, DISSOLVE, WEIGH), POUR))
    last = mix_checks.found_products + 2 + acid
    done = where(line == 1, FILL, where(line == last, TOP_UP, where(line < last, measure, "")))
    return where(blank(mark), "", done)


def what(action: Each[str], line: Each[float], acid: float, product: Each[str]) -> Each[str]:
    """What it is done with; empty where nothing is done. `product` is that of each step."""
    water = where(action == FILL, "clean water to begin", "water to the mark")
    put_in = where(_is_acid(line, acid), "citric acid, stir in", product)
    return where(blank(action), "", where((action == FILL) | (action == TOP_UP), water, put_in))


def of_line(line: Each[float], acid: float, mix_products: Table, column: Each[T]) -> Each[T]:
    """What the table of this visit's products has in `column` for the product that goes in at this line."""
    places = find(turns(line, acid), mix_products.pouring_order)
    return pick(column, np.where(places >= 0, places, np.nan))


def weighed(
    action: Each[str], line: Each[float], acid: float, of_acid: Quantity, mix_products: Table, column: Each[Quantity]
) -> Each[Quantity]:
    """What is weighed of the acid or of a product where something is to be weighed, blank elsewhere."""
    amount = where(_is_acid(line, acid), of_acid, of_line(line, acid, mix_products, column))
    return where(np.isin(action, WEIGHED), amount, np.nan)


def poured(
    action: Each[str], line: Each[float], acid: float, mix_products: Table, column: Each[Quantity]
) -> Each[Quantity]:
    """What is poured of a product where something is to be poured, blank elsewhere."""
    return where(action == POUR, of_line(line, acid, mix_products, column), np.nan)


def to_fill(action: Each[str], mark: Quantity, first: Quantity) -> Each[Quantity]:
    """The level (L) of the water: what there is room for to begin with, later the mark."""
    begun = np.maximum(magnitude(or_zero(first)), 0.0)
    return where(action == FILL, like(first, begun), where(action == TOP_UP, mark, np.nan))
