"""The products that are chosen.

One record a product: shape (mix_products,).
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, is_word, where
from wbgen.model.types import Each, Table, Text
from wbgen.units.quantity import label


def measured_in(product: Each[Text], mix_products: Table, ones: Table) -> Each[Text]:
    """In what the rate of the product is typed; a question mark for a product that nobody knows."""
    by = mix_products.measured_by
    mass, volume = (label(str(one.units)) for one in (ones.one_mass, ones.one_volume))
    known = where(is_word(by, "mass"), mass, where(is_word(by, "volume"), volume, "?"))
    return where(blank(product), "", known)
