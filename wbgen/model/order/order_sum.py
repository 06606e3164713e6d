"""What the list of what is to be bought does not say.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.words import counts
from wbgen.model.types import Number, Table, Text


def unpriced(stock: Table) -> Number:
    """How many products are to be bought without a price."""
    return float(np.sum((stock.order_packs > 0) & blank(stock.order_cost)))


def more_words(stock: Table, order_lines: Table) -> Text:
    """How many products there is no room for, in words."""
    more = int(np.sum(~blank(stock.order_key))) - len(order_lines.turn)
    return f"and {counts(float(more))} more, on the sheet Stock" if more > 0 else ""
