"""Whether grass grows enough to be fed nitrogen, by the growth potential of its kind in a month."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, magnitude, only, or_zero, where
from wbgen.model.tools.relations import pick
from wbgen.model.tools.rounding import exceeds, reaches
from wbgen.model.values import Each, Mask, Quantity, Table


def is_warm(grass: Each[str]) -> Mask:
    """True for grass of the warm season; all other counts as of the cool season, also where nobody said.

    >>> is_warm(np.array(["Warm Season", "cool season", ""], dtype=object))
    array([ True, False, False])
    """
    return folded(grass) == "warm season"


def growth_of(grass: Each[str], month: Each[float] | float, months: Table) -> Each[float]:
    """The growth potential of each grass in a month (1 to 12)."""
    found: Each[float] = where(is_warm(grass), pick(months.growth_warm, month - 1), pick(months.growth_cool, month - 1))
    return found


def is_known(month: Each[float] | float, months: Table) -> Mask:
    """True where the month (1 to 12) has a mean temperature; without one its growth is only taken as full."""
    return np.asarray(~blank(pick(months.mean_temperature, month - 1)))


def is_watched(settings: Table) -> bool:
    """Whether nitrogen is held against growth at all: an empty setting asks nothing."""
    return not blank(only(settings.slow_growth))


def is_slow(growth: Each[float], settings: Table) -> Mask:
    """Where grass hardly grows: its growth potential is the limit of the settings or less.

    W. Gelernter and L. Stowell, Turf growth potentials, a tool with many uses: at 10 % or lower it is extremely
    limited.

    >>> from types import SimpleNamespace
    >>> is_slow(np.array([0.1, 0.1001, np.nan]), SimpleNamespace(slow_growth=0.1))
    array([ True, False, False])
    """
    limit = only(settings.slow_growth)
    return ~blank(growth) & ~exceeds(growth, limit) & is_watched(settings)


def asks_for_growth(nitrogen: Each[Quantity] | Quantity, settings: Table) -> Mask:
    """Where one visit brings so much nitrogen (g/m²) that the grass should be growing; any, where nobody said how much.

    Common practice, no source.
    """
    least = or_zero(only(settings.growth_nitrogen))
    return np.asarray((magnitude(nitrogen) > 0) & reaches(nitrogen, least))
