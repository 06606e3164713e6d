"""Texts and the like where a number of a visit's product belongs."""

from __future__ import annotations

from wbgen.model.types import Mask, Table


def own_misplaced(mix_products: Table) -> Mask:
    """Where something other than a number stands as an own rate."""
    return mix_products.misplaced_own_rate_mass | mix_products.misplaced_own_rate_volume
