"""Whether a product shares its tank."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank
from wbgen.model.types import Each, Mask, Number


def in_company(product_line: Each[Number]) -> Mask:
    """True, for all records alike, where more than one product of the catalogue is in the mix."""
    known = ~blank(product_line)
    return np.full(known.shape, np.sum(known) > 1)
