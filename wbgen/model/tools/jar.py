"""A hose-end sprayer's jar holds the concentrate; the hose thins it."""

from __future__ import annotations

from wbgen.model.tools.elementwise import folded, where
from wbgen.model.values import Each


def dilution_of(kind: Each[str], jar_dilution: Each[float]) -> Each[float]:
    """Litres of spray from a litre in the tank: the jar's dilution for a hose-end sprayer, 1 for any other.

    >>> import numpy as np
    >>> dilution_of(np.array(["Hose-end", "hose-end", "boom"], dtype=object), np.array([20.0, np.nan, 20.0]))
    array([20.,  1.,  1.])
    """
    jar = (folded(kind) == "hose-end") & (jar_dilution > 0)
    return where(jar, jar_dilution, 1.0)
