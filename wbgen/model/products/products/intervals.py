"""How soon each product may come again, by each of its methods, without being too soon."""

from __future__ import annotations

from wbgen.model.tools.elementwise import or_zero, where
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import Each, Table, Time


def soonest(least_interval: Each[Time], settings: Table) -> Each[Time]:
    """The interval (days) below which a spray is too soon: a tolerance (days) short of the least, of long ones.

    From there to the least interval it is only noted. Of an interval that is short a day is much, and none is let pass.
    Common practice, no source.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> settings = SimpleNamespace(interval_from=FLOAT("7 day"), interval_tolerance=FLOAT("1 day"))
    >>> soonest(FLOAT.Quantity(np.array([6.0, 7.0, 28.0]), "day"), settings).magnitude
    array([ 6.,  6., 27.])
    """
    return _soonest(least_interval, settings)


def dry_soonest(dry_least_interval: Each[Time], settings: Table) -> Each[Time]:
    """The same of spreading it dry."""
    return _soonest(dry_least_interval, settings)


def _soonest(least: Each[Time], settings: Table) -> Each[Time]:
    long = ~exceeds(or_zero(settings.interval_from), least)
    return least - where(long, or_zero(settings.interval_tolerance), 0.0 * settings.interval_tolerance.units)
