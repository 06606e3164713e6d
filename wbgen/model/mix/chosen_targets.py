"""The nutrients that are wanted of the products, but for nitrogen.

One record a product: shape (mix_products,).
"""

from __future__ import annotations

from wbgen.model.marks import reads_every
from wbgen.model.tools.elementwise import where
from wbgen.model.types import Each, Table, Text


def product(chosen_products: Table) -> Each[Text]:
    """The product of the same line."""
    return chosen_products.product


@reads_every(wanted="other_nutrients")
def fix(chosen_targets: Table) -> Each[Text]:
    """That something other than a number stands as a nutrient that is wanted."""
    return where(chosen_targets.misplaced_wanted_every, "a text stands where a number belongs", "")
