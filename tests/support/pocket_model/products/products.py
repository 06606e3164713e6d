"""Products: what a pack costs."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.elementwise import blank, ratio, where

Value = Any


def price_by_mass(name: Value, price: Value, pack_mass: Value) -> Value:
    return where(blank(name), np.nan, ratio(price, pack_mass))
