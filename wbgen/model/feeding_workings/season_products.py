"""What each product has brought this season, on all lawns.

One record a product of the catalogue: shape (products,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import count_by, pick, sum_by
from wbgen.model.types import Each, Number, NutrientMass, Table, Text

BLANK_UNLESS = ("product",)


def product(turn: Each[Number], products: Table) -> Each[Text]:
    """Name of the product whose turn it is (from 1), blank where there is none."""
    return pick(products.name, turn - 1)


def lines(product: Each[Text], diary: Table) -> Each[Number]:
    """Number of this season's lines in the diary."""
    return count_by(diary.product, product, diary.season_month > 0)


@of_family("nutrients")
def load_each(product: Each[Text], diary: Table) -> Each[NutrientMass]:
    """Nutrient that the product brought this season, in all."""
    return sum_by(diary.product, product, diary.load_each, diary.season_month > 0)
