"""The lawn that the season's view shows, as the split of its nitrogen over the months needs it.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, like, magnitude, only, or_zero, where
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.words import counts
from wbgen.model.types import Date, NitrogenPerArea, Number, Table, Text


def lawn(season_view: Table) -> Text:
    """Name of the lawn shown."""
    return season_view.shown


def lawn_line(lawns: Table, season_view: Table) -> Number:
    """The line of the lawn, the heading row being line 1; blank for an unknown one."""
    return match(season_view.shown, lawns.name)[0]


def grass(lawn_line: Number, lawns: Table) -> Text:
    """Kind of grass of the lawn."""
    return at(lawns.grass, lawn_line)


def group_line(lawn_line: Number, lawns: Table) -> Number:
    """The line of the first lawn of its group; blank for a lawn that is fed on its own."""
    return at(lawns.group_line, lawn_line)


def most_month(lawn_line: Number, lawns: Table, settings: Table) -> NitrogenPerArea:
    """The most nitrogen that it can use in a month at full growth, by area: its own figure, else the usual one."""
    own = at(lawns.most_nitrogen_month, lawn_line)
    return where(blank(own), only(settings.most_nitrogen_month), own)


def ceilings(most_month: NitrogenPerArea, growth_months: Table) -> NitrogenPerArea:
    """The most that it can use in the year, by area: what it can in each month; blank where that is not known."""
    usable = or_zero(growth_months.ceiling)
    return like(usable, where(blank(most_month), np.nan, np.sum(magnitude(usable))))


def target(season_view: Table) -> NitrogenPerArea:
    """What the lawn should get in the year, by area."""
    return season_view.target


def target_words(target: NitrogenPerArea, ceilings: NitrogenPerArea) -> Text:
    """Whether the year's target is more than the lawn can use, in words; nothing where one of the two is not known."""
    if blank(target) or blank(ceilings):
        return ""
    return "more than the grass can use" if exceeds(target, ceilings) else "the grass can use it"


def year_end(settings: Table) -> Date:
    """Serial date of the day on which the next season starts."""
    start = only(settings.season_start)
    year, month = dates.year_of(start), dates.month_of(start)
    return dates.serial(year + 1, month, start - dates.serial(year, month, 1) + 1)


def weights(growth_months: Table) -> Number:
    """The weights of all months together."""
    return float(np.sum(magnitude(or_zero(growth_months.weight))))


def months_unknown(months: Table) -> Number:
    """How many months have no mean temperature, so that their growth is only taken as full."""
    return float(np.sum(blank(months.mean_temperature)))


def split_words(weights: Number, months_unknown: Number) -> Text:
    """Whether there is a month to feed in, and of how many the growth is not known, in words."""
    if not exceeds(weights, 0.0):
        return "not at all: no month is open and grows"
    months = "month" if months_unknown == 1 else "months"
    unknown = f", growth not known of {counts(months_unknown)} {months}" if months_unknown else ""
    return "by growth, days and open months" + unknown


def had(lawn_line: Number, feeding: Table) -> NitrogenPerArea:
    """Nitrogen that it has had this season, by area; blank without an area."""
    return at(feeding.had, lawn_line)


def plan_now(lawn_line: Number, feeding: Table) -> NitrogenPerArea:
    """What the programme meant it to have had by the as-of date, by area."""
    return at(feeding.plan, lawn_line)


def plan_rest(plan_now: NitrogenPerArea, budget_months: Table) -> NitrogenPerArea:
    """What the programme's later dates of this season bring it, by area."""
    year = or_zero(budget_months.planned_nitrogen)
    return like(year, np.sum(magnitude(year))) - plan_now


def forecast(lawn_line: Number, feeding: Table) -> NitrogenPerArea:
    """What it will have had when the season ends, by area, if the rest of the programme is carried out."""
    return at(feeding.forecast, lawn_line)
