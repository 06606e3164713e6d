"""What the lawn shown has had up to the end of each month of the season.

One record a calendar month, in the order of the season: shape (months,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, like, magnitude, or_zero, where
from wbgen.model.types import Each, NutrientPerArea, Table, Text


def month(season_months: Table) -> Each[Text]:
    """The name of the month."""
    return season_months.month


@of_family("nutrients")
def running_each(season_months: Table) -> Each[NutrientPerArea]:
    """Nutrient applied from the season's first month to this one, by area; blank without an area."""
    each = season_months.month_each
    return like(each, where(blank(each), np.nan, np.cumsum(magnitude(or_zero(each)))))
