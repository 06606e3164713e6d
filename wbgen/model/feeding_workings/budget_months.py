"""What the programme brings the lawn shown in each month of the season.

One record a calendar month, in the order of the season: shape (months,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import like, magnitude, where
from wbgen.model.tools.ground import goes_on
from wbgen.model.tools.relations import sum_by
from wbgen.model.types import Each, NutrientPerArea, Table, Text


def month(season_months: Table) -> Each[Text]:
    """The name of the month."""
    return season_months.month


@of_family("nutrients")
def planned_each(season_months: Table, applications: Table, growth_view: Table) -> Each[NutrientPerArea]:
    """The nutrient (g/m²) of the month's dates that go on the lawn, past and to come; blank for an unknown lawn.

    What goes on all lawns goes on it, and so does what goes on its group.
    """
    planned = sum_by(
        applications.month,
        season_months.month_number,
        applications.brings_each,
        (applications.in_year == "yes") & goes_on(applications, growth_view),
    )
    return like(planned, where(np.isnan(growth_view.lawn_line), np.nan, magnitude(planned)))
