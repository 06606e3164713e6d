"""Nitrogen through the season, on the lawn shown.

One record a week: shape (weeks,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import as_number, blank, folded, like, magnitude, only, ratio, where
from wbgen.model.tools.ground import goes_on
from wbgen.model.tools.order import sum_upto
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import Date, Each, NitrogenPerArea, Number, Table


def until(week: Each[Number], settings: Table, start: Table) -> Each[Date]:
    """Serial date up to which is counted: so many steps from the start of the season, at most the as-of date.

    An empty step counts as 0.
    """
    passed = dates.in_days(settings.week) * week
    return np.minimum(settings.season_start + passed, only(start.as_of))


def nitrogen(until: Each[Date], diary: Table, season_view: Table) -> Each[NitrogenPerArea]:
    """Nitrogen applied this season up to the date, by area of the whole lawn; blank without an area."""
    counted = (diary.season_month > 0) & (folded(diary.lawn) == folded(season_view.shown))
    return ratio(sum_upto(diary.date, diary.load_nitrogen, until, counted), season_view.area)


def target(season_view: Table) -> Each[NitrogenPerArea]:
    """Nitrogen wanted in a year, the same at every date."""
    return season_view.target


def week_end(week: Each[Number], settings: Table, growth_view: Table) -> Each[Date]:
    """Serial date on which the week ends, at most the day on which the next season starts."""
    passed = dates.in_days(settings.week) * week
    return np.minimum(settings.season_start + passed, growth_view.year_end)


def plan(week_end: Each[Date], applications: Table, growth_view: Table) -> Each[NitrogenPerArea]:
    """Nitrogen (g/m²) of the programme's dates of this season up to the week's end; blank for an unknown lawn."""
    counted = (applications.in_year == "yes") & goes_on(applications, growth_view)
    brought = sum_upto(applications.date, applications.brings_nitrogen, week_end, counted)
    return like(brought, where(blank(growth_view.lawn_line), np.nan, magnitude(brought)))


def ahead(week_end: Each[Date], start: Table) -> Each[Date]:
    """Serial date of the forecast: the week's end, the as-of date for weeks that are past."""
    return np.maximum(week_end, only(start.as_of))


def forecast(plan: Each[NitrogenPerArea], growth_view: Table) -> Each[NitrogenPerArea]:
    """What the lawn will have had (g/m²), in the steps in which the plan goes on from the as-of date.

    What it had, and of what is still to come this season as great a share as the plan brings of its own rest by then;
    all of it where the plan brings nothing more. Common practice, no source.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> lawn = {"had": 2.0, "forecast": 5.0, "plan_now": 3.0, "plan_rest": 4.0}
    >>> view = SimpleNamespace(**{key: FLOAT.Quantity(value, "g_N/m**2") for key, value in lawn.items()})
    >>> forecast(FLOAT.Quantity(np.array([1.0, 3.0, 5.0, 7.0]), "g_N/m**2"), view).magnitude
    array([2. , 2. , 3.5, 5. ])
    """
    rest = growth_view.plan_rest
    share = np.maximum(as_number(ratio(plan - growth_view.plan_now, rest)), 0.0)
    return growth_view.had + (growth_view.forecast - growth_view.had) * where(exceeds(rest, 0 * rest), share, 1.0)
