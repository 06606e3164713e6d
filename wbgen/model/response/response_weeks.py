"""Week after week of the season on the lawn shown: how it was scored, and what nitrogen it had had by then.

One record a week: shape (weeks,). Dates are serial numbers.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, folded, only, ratio, where
from wbgen.model.tools.means import means_between
from wbgen.model.tools.order import sum_before
from wbgen.model.types import Date, Each, Mask, NitrogenPerArea, Number, Table, Text


def _length(settings: Table) -> float:
    """The days of a week; a blank is 0."""
    return dates.in_days(only(settings.week))


def begins(week: Each[Number], settings: Table, start: Table) -> Each[Date]:
    """The first day of the week, counted from the start of the season; blank where it is after the as-of date."""
    day = only(settings.season_start) + _length(settings) * (week - 1)
    return where(day <= only(start.as_of), day, np.nan)


def _of_lawn(lawn: Each[Text], shown: Text) -> Mask:
    """True for the records of the lawn shown."""
    return (folded(lawn) == folded(shown)) & ~blank(lawn)


def _number(
    scored: Each[Number], begins: Each[Date], scores: Table, settings: Table, start: Table, season_view: Table
) -> Each[Number]:
    counted = _of_lawn(scores.lawn, season_view.shown) & (scores.date <= only(start.as_of)) & ~blank(scores.once_key)
    ones = where(blank(scored), np.nan, 1.0)
    end = begins + _length(settings)
    return sum_before(scores.date, ones, end, counted) - sum_before(scores.date, ones, begins, counted)


def seen_quality(begins: Each[Date], scores: Table, settings: Table, start: Table, season_view: Table) -> Each[Number]:
    """How many scores of quality the week has."""
    return _number(scores.quality, begins, scores, settings, start, season_view)


def seen_colour(begins: Each[Date], scores: Table, settings: Table, start: Table, season_view: Table) -> Each[Number]:
    """How many scores of colour the week has."""
    return _number(scores.colour, begins, scores, settings, start, season_view)


def _mean(
    scored: Each[Number], begins: Each[Date], scores: Table, settings: Table, start: Table, season_view: Table
) -> Each[Number]:
    counted = _of_lawn(scores.lawn, season_view.shown) & (scores.date <= only(start.as_of)) & ~blank(scores.once_key)
    return means_between(scores.date, scored, begins, begins + _length(settings), counted)


def quality(begins: Each[Date], scores: Table, settings: Table, start: Table, season_view: Table) -> Each[Number]:
    """The mean quality of the week's scores; blank where there is none."""
    return _mean(scores.quality, begins, scores, settings, start, season_view)


def colour(begins: Each[Date], scores: Table, settings: Table, start: Table, season_view: Table) -> Each[Number]:
    """The mean colour of the week's scores; blank where there is none."""
    return _mean(scores.colour, begins, scores, settings, start, season_view)


def nitrogen(begins: Each[Date], diary: Table, settings: Table, season_view: Table) -> Each[NitrogenPerArea]:
    """Nitrogen (g N/m²) of this season up to the end of the week, by area of the whole lawn; blank without an area."""
    counted = _of_lawn(diary.lawn, season_view.shown) & (diary.season_month > 0)
    return ratio(sum_before(diary.date, diary.load_nitrogen, begins + _length(settings), counted), season_view.area)
