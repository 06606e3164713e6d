"""What nitrogen each month should bring the lawn shown, beside what it can use, what is planned and what it had.

One record a calendar month, in the order of the season: shape (months,). The target of the year is split in proportion
to growth and days over the months that are open: common practice, no source.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, like, only, where, yes
from wbgen.model.tools.growth import growth_of
from wbgen.model.tools.relations import pick
from wbgen.model.tools.rounding import exceeds, half_up
from wbgen.model.types import Each, NitrogenPerArea, Number, Table, Text, each


def month(season_months: Table) -> Each[Text]:
    """The name of the month."""
    return season_months.month


def days(season_months: Table, settings: Table) -> Each[Number]:
    """The days of the month in this season: a month before that of the start is one of the next year."""
    start, month_number = only(settings.season_start), season_months.month_number
    year = dates.year_of(start) + (month_number < dates.month_of(start))
    return dates.serial(year, month_number + 1, 1) - dates.serial(year, month_number, 1)


def closed(season_months: Table, months: Table) -> Each[Text]:
    """ "yes" where there is no feeding in the month."""
    return pick(months.closed, season_months.month_number - 1)


def growth(season_months: Table, months: Table, growth_view: Table) -> Each[Number]:
    """Growth potential of the lawn's grass, 0 to 1; that of cool-season grass where no other is said."""
    number = season_months.month_number
    return growth_of(each(np.full(len(number), str(growth_view.grass), dtype=object)), number, months)


def weight(growth: Each[Number], days: Each[Number], closed: Each[Text]) -> Each[Number]:
    """What the month counts for in the split: growth potential × days, nothing where it is closed.

    Common practice, no source.

    >>> weight(np.array([0.5, 1.0]), np.array([30.0, 31.0]), np.array(["", "yes"], dtype=object))
    array([15.,  0.])
    """
    return where(yes(closed), 0.0, growth * days)


def should(weight: Each[Number], growth_view: Table, season_view: Table) -> Each[NitrogenPerArea]:
    """The month's share of the yearly target (g/m²): target × its weight ÷ Σ weights.

    Blank without a target, and where no month counts. Common practice, no source.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> weights, lawn = np.array([15.0, 45.0]), SimpleNamespace(target=FLOAT("8 g_N/m**2"))
    >>> should(weights, SimpleNamespace(weights=60.0), lawn).magnitude
    array([2., 6.])
    """
    weights = growth_view.weights
    return season_view.target * (weight / (weights if half_up(weights, 9) else np.nan))


def ceiling(growth: Each[Number], closed: Each[Text], growth_view: Table) -> Each[NitrogenPerArea]:
    """The most that the grass can use in the month (g/m²): the most at full growth (g/m²) × growth potential.

    Nothing where it is closed. M. Woods, Monthly maximum N or annual maximum N, 2023.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> lawn = SimpleNamespace(most_month=FLOAT("3 g_N/m**2"))
    >>> ceiling(np.array([0.5, 0.5]), np.array(["", "yes"], dtype=object), lawn).magnitude
    array([1.5, 0. ])
    """
    most = growth_view.most_month * growth
    return where(yes(closed) & ~blank(most), 0.0, most)


def planned(budget_months: Table) -> Each[NitrogenPerArea]:
    """What the dates of the programme bring in the month, by area."""
    return budget_months.planned_nitrogen


def applied(season_months: Table) -> Each[NitrogenPerArea]:
    """What the lawn has had in the month, by area; blank without an area."""
    return season_months.month_nitrogen


def words(
    closed: Each[Text],
    should: Each[NitrogenPerArea],
    planned: Each[NitrogenPerArea],
    applied: Each[NitrogenPerArea],
    ceiling: Each[NitrogenPerArea],
) -> Each[Text]:
    """What does not fit in the month, in words; nothing where all does.

    In a closed month all nitrogen is too much; in an open one what is over its ceiling, if that is known.
    """
    shut = yes(closed)
    found = []
    for month in range(len(closed)):
        if shut[month]:
            parts, limit = {"planned": planned, "fed": applied}, like(planned, np.zeros(len(closed)))
        else:
            parts, limit = {"by growth": should, "planned": planned, "applied": applied}, ceiling
        too_much = [word for word, nitrogen in parts.items() if exceeds(nitrogen, limit)[month]]
        opening = "closed, yet " if shut[month] else "over max. N use: "
        found.append(opening + ", ".join(too_much) if too_much else "")
    return each(np.array(found, dtype=object))
