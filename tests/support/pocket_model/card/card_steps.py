"""The steps of the card."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.relations import pick
from wbgen.model.types import Each, Mass, Number, Table, Text


def what(line: Each[Number], mix_products: Table) -> Each[Text]:
    return pick(mix_products.product, line - 1)


def mass(line: Each[Number], what: Each[Text], mix_products: Table, verdict: Table) -> Each[Mass]:
    return where(blank(what) | (only(verdict.level) == 2), np.nan, pick(mix_products.weigh, line - 1))
