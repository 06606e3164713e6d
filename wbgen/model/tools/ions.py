"""What dissolves in water as ions: how much of their charge acids carry at a pH.

At 25 °C and in little salt: concentrations stand for activities. Sources stand with the constants, in the form
`acid_constants`.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np


def charges(ph: float, pks: Sequence[float]) -> float:
    """How many of its acid groups an acid has let go at a pH, on average; NaN where that cannot be worked out.

    The j-fold charged form is to the uncharged one as the product of the first j constants to that power of the
    hydrogen ions; of these shares the mean charge is taken (Stumm and Morgan, Aquatic Chemistry: from memory). Halfway
    to its first pK an acid with one group has let go half of it; citric acid at pH 6 has let go 2.235 of three.

    >>> charges(4.76, [4.76]), round(charges(6.0, [3.127, 4.759, 6.397]), 3)
    (0.5, 2.235)
    """
    with np.errstate(over="ignore", under="ignore", invalid="ignore", divide="ignore"):
        shares = [np.float64(10.0) ** (groups * ph - sum(pks[:groups])) for groups in range(len(pks) + 1)]
        mean = sum(groups * share for groups, share in enumerate(shares)) / sum(shares)
    return float(mean) if np.isfinite(mean) else np.nan


def free_charge(ph: float, pk_water: float) -> float:
    """Hydroxide less hydrogen ions, in moles of charge a litre; NaN where that cannot be worked out.

    >>> free_charge(7.0, 14.0), round(free_charge(4.0, 14.0), 9)
    (0.0, -0.0001)
    """
    with np.errstate(over="ignore", under="ignore", invalid="ignore"):
        free = np.float64(10.0) ** (ph - pk_water) - np.float64(10.0) ** -ph
    return float(free) if np.isfinite(free) else np.nan
