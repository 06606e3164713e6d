"""What two products that meet do to one another, by their traits."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import only, or_zero, where, yes
from wbgen.model.values import Each, Table, each

NEVER: int = 2
"""The level of a rule that lets nothing meet; the level below asks for a jar test first."""


def any_has(trait: Each[float]) -> bool:
    """True where one record at least has the trait (1; 0 or blank where it has not)."""
    return bool(np.any(trait > 0))


def level_met(
    first: Each[str], second: Each[str], beside_first: Each[float], beside_second: Each[float], level: float
) -> Each[float]:
    """The rule's `level` where a record has one trait and another record beside it the other, else 0.

    `first` and `second` are texts, "yes" for a trait that the record has; those beside are numbers of other records.
    """
    met = (yes(first) & (beside_second > 0)) | (yes(second) & (beside_first > 0))
    return where(met, only(or_zero(level)), 0.0)


def worst(levels: list[Each[float]]) -> Each[float]:
    """The highest of several levels, record by record."""
    return each(np.maximum.reduce(levels))


def meets_hardness(mix_products: Table) -> bool:
    """Whether a product has what the calcium of hard water may throw down, or brings more calcium."""
    of = mix_products
    parts = [of.trait_calcium, of.trait_phosphate, of.trait_alkaline_humate, of.trait_strongly_alkaline]
    return bool(np.any([any_has(one) for one in parts]))
