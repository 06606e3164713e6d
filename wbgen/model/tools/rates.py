"""How much of a spray was used, and whether a rate is over the highest that a product states."""

from __future__ import annotations

from wbgen.model.tools.elementwise import as_number, blank, or_zero, ratio, where, yes
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import Each, MassPerArea, Number, Table, Text, Volume, VolumePerArea


def share_used(water: Each[Volume], left_over: Each[Volume]) -> Each[Number]:
    """Share of the spray that left the tank: 1 − left over ÷ spray made; 1 where either is blank or 0.

    Common practice, no source.

    >>> import numpy as np
    >>> share_used(np.array([10.0, 10.0, np.nan]), np.array([2.0, np.nan, 2.0]))
    array([0.8, 1. , 1. ])
    """
    return where(blank(ratio(left_over, water)), 1.0, 1 - as_number(ratio(left_over, water)))


def over_high(
    mass: Each[MassPerArea],
    volume: Each[VolumePerArea],
    high_mass: Each[MassPerArea],
    high_volume: Each[VolumePerArea],
    practice: Each[Text],
    settings: Table,
) -> Each[Number]:
    """Where a rate is over its highest: 2, or 1 if that is practice only and the rate not far over it; else 0.

    Far is more than so many times of the settings; where these say none, all of it. Common practice, no source.

    >>> from types import SimpleNamespace
    >>> import numpy as np
    >>> from wbgen.units.quantity import FLOAT
    >>> rates, high = (FLOAT.Quantity(np.array(found), "g/m**2") for found in ([2.0, 3.0, 3.0, 5.0], [2.0] * 4))
    >>> none = FLOAT.Quantity(np.full(4, np.nan), "mL/m**2")
    >>> practice = np.array(["", "", "yes", "yes"], dtype=object)
    >>> over_high(rates, none, high, none, practice, SimpleNamespace(practice_span=2.0))
    array([0., 2., 1., 2.])
    """
    over = exceeds(mass, high_mass) | exceeds(volume, high_volume)
    span = or_zero(as_number(settings.practice_span))
    far = exceeds(mass, high_mass * span) | exceeds(volume, high_volume * span)
    return where(over, where(yes(practice) & ~far, 1.0, 2.0), 0.0)
