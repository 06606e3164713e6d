"""Texts and the like where a number of a visit's product belongs."""

from __future__ import annotations

from typing import Any

Value = Any


def own_misplaced(mix_products: Value) -> Any:
    """Where something other than a number stands as an own rate."""
    return mix_products.misplaced_own_rate_mass | mix_products.misplaced_own_rate_volume
