"""A hose-end sprayer's jar holds the concentrate; the hose thins it."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.relations import folded

Value = Any


def dilution_of(kind: Value, jar_dilution: Value) -> Any:
    """Litres of spray from a litre in the tank: the jar's dilution for a hose-end sprayer, 1 for any other.

    >>> dilution_of(np.array(["Hose-end", "hose-end", "boom"], dtype=object), np.array([20.0, np.nan, 20.0]))
    array([20.,  1.,  1.])
    """
    jar = (folded(kind) == "hose-end") & (jar_dilution > 0)
    return np.where(jar, jar_dilution, 1.0)
