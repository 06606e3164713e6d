"""How the grass answered: the scores before and after each line of the diary that has both, and what went out with it.

One record an answered line, the last of the diary first: shape (answers,). A score before is the last one up to the day
of the line, a score after the first one from some days on; both are of the line's own lawn.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.keys import day_key
from wbgen.model.tools.lines import at, lines_of, match
from wbgen.model.tools.order import Days, is_first, place_of_rank
from wbgen.model.tools.relations import count_by, joined, pick, sum_by
from wbgen.model.types import Date, Each, Figure, Number, Table, Text
from wbgen.trade.families import Member

BLANK_UNLESS = ("line",)
NEVER_BLANK = ("line",)

_LAST_WITH_A_BIT: Final = 49.0
"""48 bits keep a sum of them within the fifteen digits that spreadsheets hold."""


def line(turn: Each[Number], diary: Table) -> Each[Number]:
    """The number of the answered line whose turn it is (from 1), the last of the diary first; blank past them all."""
    return -pick(-diary.answered, place_of_rank(-diary.answered, turn))


def product_line(line: Each[Number], diary: Table) -> Each[Number]:
    """The line of its product in the catalogue."""
    return at(diary.product_line, lines_of(line))


def lawn_line(line: Each[Number], diary: Table) -> Each[Number]:
    """The line of its lawn."""
    return at(diary.lawn_line, lines_of(line))


def _day(line: Each[Number], diary: Table) -> Each[Date]:
    return at(diary.date, lines_of(line))


def month(line: Each[Number], diary: Table) -> Each[Number]:
    """The month (1 to 12) that it was in."""
    return dates.month_of(_day(line, diary))


def in_season(line: Each[Number], diary: Table) -> Each[Text]:
    """ "yes" where it counts this season."""
    return where(at(diary.season_month, lines_of(line)) > 0, "yes", "")


def lawn_day_key(line: Each[Number], lawn_line: Each[Number], diary: Table, ones: Table) -> Each[Number]:
    """One number for lawn and day, as the scores have it."""
    return day_key(lawn_line, _day(line, diary), ones)


def visit_first(lawn_day_key: Each[Number]) -> Each[Number]:
    """1 on the first record of each lawn and day, blank on those that follow."""
    return where(is_first(lawn_day_key), 1.0, np.nan)


def _scored(lawn_line: Each[Number], day: Each[Date], scores: Table) -> Each[Number]:
    """The line of the first score of a lawn and day."""
    return match(joined(lawn_line, day), joined(scores.lawn_line, scores.date))


def scored_before(line: Each[Number], lawn_line: Each[Number], diary: Table, scores: Table) -> Each[Number]:
    """The line of the lawn's last score up to the day."""
    day = _day(line, diary)
    return _scored(lawn_line, Days(scores.lawn_line, scores.date).latest(lawn_line, day * 0, day), scores)


def scored_after(
    line: Each[Number], lawn_line: Each[Number], diary: Table, scores: Table, settings: Table
) -> Each[Number]:
    """The line of the lawn's first score of those days in which the answer shows."""
    since, until = (
        _day(line, diary) + dates.in_days(only(time)) for time in (settings.after_days, settings.after_time)
    )
    return _scored(lawn_line, Days(scores.lawn_line, scores.date).earliest(lawn_line, since, until), scores)


@of_family("scored")
def change_each(each: Member, scored_before: Each[Number], scored_after: Each[Number], scores: Table) -> Each[Figure]:
    """What was scored after the line, less what was scored before it; blank without both."""
    scored = getattr(scores, each.key)
    return at(scored, scored_after) - at(scored, scored_before)


def bit(product_line: Each[Number]) -> Each[Number]:
    """A number of its own for each product, two to the power of its place.

    Blank for a product that stands too far down the catalogue to have one.
    """
    has = product_line <= _LAST_WITH_A_BIT
    return where(has, 2.0 ** (where(has, product_line, 2.0) - 2), np.nan)


def alone(bit: Each[Number], lawn_day_key: Each[Number]) -> Each[Number]:
    """1 on the line of a product that was the only one of its visit, else blank."""
    return where(~blank(bit) & (count_by(lawn_day_key, lawn_day_key) == 1), 1.0, np.nan)


def mix_key(visit_first: Each[Number], lawn_day_key: Each[Number], bit: Each[Number]) -> Each[Number]:
    """The products of a visit as one number, the sum of their own, once a visit; blank where none has one."""
    mix = sum_by(lawn_day_key, lawn_day_key, bit)
    return where((visit_first == 1) & (mix > 0), mix, np.nan)


def mix_once(mix_key: Each[Number]) -> Each[Number]:
    """Each mix on the first record that has it; blank on those that follow."""
    return where(is_first(mix_key), mix_key, np.nan)
