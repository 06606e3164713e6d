"""The settings that are worked out: when this season started, and when the grass is first asked for its answer.

A form: each figure is a scalar.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import like, magnitude, only, or_zero, with_unit
from wbgen.model.types import Date, Number, Table, Time

_ONE_DAY: Final = with_unit(1.0, "day")


def season_start(season_month: Number, season_day: Number, start: Table) -> Date:
    """Serial date of the latest start of a season that is not after the as-of date."""
    return dates.season_start_of(only(start.as_of), dates.or_first(season_month), dates.or_first(season_day))


def after_days(after_least: Time) -> Time:
    """How long after a visit a score counts as its answer at the soonest: never on the day of the visit itself.

    >>> from wbgen.units.quantity import FLOAT
    >>> float(after_days(FLOAT.Quantity(0.0, "day")).magnitude)
    1.0
    """
    least = or_zero(after_least)
    return like(least, np.maximum(magnitude(least), _ONE_DAY.to(least.units).magnitude))
