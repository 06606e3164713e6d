"""Nitrogen through the season, on the lawn shown.

One record a week: shape (weeks,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import folded, only, ratio
from wbgen.model.tools.order import sum_upto
from wbgen.model.types import Date, Each, NitrogenPerArea, Number, Table


def until(week: Each[Number], settings: Table, start: Table) -> Each[Date]:
    """Serial date up to which is counted: so many steps from the start of the season, at most the as-of date.

    An empty step counts as 0.
    """
    passed = dates.in_days(settings.week) * week
    return np.minimum(settings.season_start + passed, only(start.as_of))


def nitrogen(until: Each[Date], diary: Table, season_view: Table) -> Each[NitrogenPerArea]:
    """Nitrogen applied this season up to the date, by area of the whole lawn; blank without an area."""
    counted = (diary.in_season == "yes") & (folded(diary.lawn) == folded(season_view.shown))
    return ratio(sum_upto(diary.date, diary.load_nitrogen, until, counted), season_view.area)


def target(season_view: Table) -> Each[NitrogenPerArea]:
    """Nitrogen wanted in a year, the same at every date."""
    return season_view.target
