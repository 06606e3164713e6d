"""What two products that meet do to one another, by their traits."""

from __future__ import annotations

import numpy as np

from wbgen.model.values import Each, Table

NEVER: int = 2
"""The level of a rule that lets nothing meet; the level below asks for a jar test first."""
NOT_CHECKED: int = 3
"""In place of a level: there are too many to hold them against one another."""


def any_has(trait: Each[float]) -> bool:
    """True where one record at least has the trait (1; 0 or blank where it has not)."""
    return bool(np.any(trait > 0))


def meets_hardness(mix_products: Table) -> bool:
    """Whether a product has what the calcium of hard water may throw down, or brings more calcium."""
    of = mix_products
    parts = [of.trait_calcium, of.trait_phosphate, of.trait_alkaline_humate, of.trait_strongly_alkaline]
    return bool(np.any([any_has(one) for one in parts]))
