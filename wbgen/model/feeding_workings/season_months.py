"""What the lawn shown has had this season, by calendar month.

One record a calendar month, in the order of the season: shape (months,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import folded, only, ratio
from wbgen.model.tools.relations import count_by, pick, sum_by
from wbgen.model.types import Each, Mask, Number, NutrientPerArea, Table, Text


def _counted(diary: Table, shown: Text) -> Mask:
    """True for this season's lines of the lawn shown."""
    return (diary.season_month > 0) & (folded(diary.lawn) == folded(shown)) & (folded(shown) != "")


def month_number(turn: Each[Number], settings: Table) -> Each[Number]:
    """The number of the month in the year, 1 to 12: the season's first month is that in which it starts.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> month_number(np.arange(1.0, 13.0), SimpleNamespace(season_start=45474.0))  # 1 July 2024
    array([ 7.,  8.,  9., 10., 11., 12.,  1.,  2.,  3.,  4.,  5.,  6.])
    """
    first = dates.month_of(only(settings.season_start))
    return (first - 1 + turn - 1) % 12 + 1


def month(month_number: Each[Number], months: Table) -> Each[Text]:
    """Its name."""
    return pick(months.month, month_number - 1)


def visits(month_number: Each[Number], diary: Table, season_view: Table) -> Each[Number]:
    """Number of this season's lines in the diary, of the lawn and the month (1 to 12)."""
    return count_by(diary.season_month, month_number, _counted(diary, season_view.shown))


@of_family("nutrients")
def month_each(month_number: Each[Number], diary: Table, season_view: Table) -> Each[NutrientPerArea]:
    """Nutrient applied this season in the month, by area of the whole lawn; blank without an area."""
    load = sum_by(diary.season_month, month_number, diary.load_each, _counted(diary, season_view.shown))
    return ratio(load, season_view.area)
