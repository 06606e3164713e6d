"""What all lawns have had this season, by calendar month.

One record a calendar month, in the order of the season: shape (months,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import count_by, sum_by
from wbgen.model.types import Each, Number, NutrientMass, Table, Text


def month(season_months: Table) -> Each[Text]:
    """The name of the month."""
    return season_months.month


def visits(season_months: Table, diary: Table) -> Each[Number]:
    """Number of this season's lines in the diary, of the month (1 to 12)."""
    return count_by(diary.season_month, season_months.month_number)


@of_family("nutrients")
def load_each(season_months: Table, diary: Table) -> Each[NutrientMass]:
    """Nutrient applied this season in the month, on all lawns."""
    return sum_by(diary.season_month, season_months.month_number, diary.load_each)
