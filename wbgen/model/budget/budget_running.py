"""What the lawn shown has had up to the end of each month of the season."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.relations import blank, like, magnitude, only, or_zero

Value = Any


@of_family("nutrients")
def running_each(month_number: Value, season_months: Value, settings: Value) -> Value:
    """Nutrient applied from the season's first month to this one, by area; blank without an area.

    The months run from the one in which the season starts; those before it in the year belong to its end.
    """
    each = season_months.month_each
    order = np.argsort((month_number - dates.month_of(only(settings.season_start))) % 12, kind="stable")
    running = np.empty(len(order))
    running[order] = np.cumsum(magnitude(or_zero(each))[order])
    return like(each, np.where(blank(each), np.nan, running))
