"""What the lawn shown has had up to the end of each month of the season.

One record a calendar month: shape (months,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, like, magnitude, only, or_zero, where
from wbgen.model.types import Each, Number, NutrientPerArea, Table


@of_family("nutrients")
def running_each(month_number: Each[Number], season_months: Table, settings: Table) -> Each[NutrientPerArea]:
    """Nutrient applied from the season's first month to this one, by area; blank without an area.

    The months run from the one in which the season starts; those before it in the year belong to its end.
    """
    each = season_months.month_each
    order = np.argsort((month_number - dates.month_of(only(settings.season_start))) % 12, kind="stable")
    running = np.empty(len(order))
    running[order] = np.cumsum(magnitude(or_zero(each))[order])
    return like(each, where(blank(each), np.nan, running))
