"""What the card says of the products of the visit.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.types import Table, Text

SHOWN = 265
"""So many letters of cautions the card has room for: six lines that long words leave at 44 letters."""


def cautions(mix_products: Table, mix_water: Table) -> Text:
    """That on acid for the water, the hazards of each product by name, then what else is said of each.

    Where they are long, first that some may be cut.
    """
    parts = [mix_water.caution_words, *mix_products.hazard_words, *mix_products.caution_words]
    words = "".join(parts).replace("•", " • ")
    told = " ".join(word for word in words.split(" ") if word)
    return ("this may be cut, see the sheet Mix and the labels: " if len(told) > SHOWN else "") + told
