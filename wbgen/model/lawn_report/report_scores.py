"""How the grass looked on the last day that it was scored, and on the one before it.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import like, magnitude, only
from wbgen.model.tools.relations import pick
from wbgen.model.types import Date, Figure, Table
from wbgen.trade.families import Member


def _record(scores: Table, report_workings: Table, start: Table, back: int) -> float:
    """The record (from 0) of the score so many days with a score back from the as-of date; -1 for none."""
    own = (scores.lawn_line == report_workings.lawn_line) & ~np.isnan(scores.once_key)
    places = np.flatnonzero(own & (scores.date <= only(start.as_of)))
    places = places[np.argsort(-scores.date[places], kind="stable")]
    return float(places[back]) if len(places) > back else -1.0


def latest_date(scores: Table, report_workings: Table, start: Table) -> Date:
    """The last day up to the as-of date on which it was scored; blank for none."""
    return pick(scores.date, _record(scores, report_workings, start, 0))


def before_date(scores: Table, report_workings: Table, start: Table) -> Date:
    """The day before that on which it was scored; blank for none."""
    return pick(scores.date, _record(scores, report_workings, start, 1))


@of_family("scored")
def latest_each(each: Member, scores: Table, report_workings: Table, start: Table) -> Figure:
    """The score of the last day."""
    return pick(getattr(scores, each.key), _record(scores, report_workings, start, 0))


@of_family("scored")
def before_each(each: Member, scores: Table, report_workings: Table, start: Table) -> Figure:
    """The score of the day before it."""
    return pick(getattr(scores, each.key), _record(scores, report_workings, start, 1))


@of_family("scored")
def change_each(latest_each: Figure, before_each: Figure) -> Figure:
    """By how much the last is above the one before it."""
    return like(latest_each, magnitude(latest_each) - magnitude(before_each))
