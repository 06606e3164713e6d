"""The steps of the card."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.relations import pick

Value = Any


def what(line: Value, mix_products: Value) -> Value:
    return pick(mix_products.product, line - 1)


def mass(line: Value, what: Value, mix_products: Value, verdict: Value) -> Value:
    return where(blank(what) | (only(verdict.level) == 2), np.nan, pick(mix_products.weigh, line - 1))
