"""What the lawn shown has had this season, by calendar month.

One record a calendar month: shape (months,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import folded, ratio
from wbgen.model.tools.relations import count_by, sum_by
from wbgen.model.types import Each, Mask, Number, NutrientPerArea, Table, Text


def _counted(diary: Table, shown: Text) -> Mask:
    """True for this season's lines of the lawn shown."""
    return (diary.in_season == "yes") & (folded(diary.lawn) == folded(shown)) & (folded(shown) != "")


def visits(month_number: Each[Number], diary: Table, season_view: Table) -> Each[Number]:
    """Number of this season's lines in the diary, of the lawn and the month (1 to 12)."""
    return count_by(diary.month, month_number, _counted(diary, season_view.shown))


@of_family("nutrients")
def month_each(month_number: Each[Number], diary: Table, season_view: Table) -> Each[NutrientPerArea]:
    """Nutrient applied this season in the month, by area of the whole lawn; blank without an area."""
    load = sum_by(diary.month, month_number, diary.load_each, _counted(diary, season_view.shown))
    return ratio(load, season_view.area)
