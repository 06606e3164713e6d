"""What all lawns have had this season, by calendar month.

One record a calendar month, in the order of the season: shape (months,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import count_by, pick, sum_by
from wbgen.model.types import Each, Number, NutrientMass, Table, Text


def month_number(season_months: Table) -> Each[Number]:
    """The number of the month in the year, 1 to 12."""
    return season_months.month_number


def month(month_number: Each[Number], months: Table) -> Each[Text]:
    """Its name."""
    return pick(months.month, month_number - 1)


def visits(month_number: Each[Number], diary: Table) -> Each[Number]:
    """Number of this season's lines in the diary, of the month (1 to 12)."""
    return count_by(diary.month, month_number, diary.in_season == "yes")


@of_family("nutrients")
def load_each(month_number: Each[Number], diary: Table) -> Each[NutrientMass]:
    """Nutrient applied this season in the month, on all lawns."""
    return sum_by(diary.month, month_number, diary.load_each, diary.in_season == "yes")
