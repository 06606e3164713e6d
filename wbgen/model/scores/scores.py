"""The scores: one record a lawn and day, as the eye or the mower found it. Dates are serial numbers.

One record a lawn and day scored: shape (scores,). Of two records of one lawn and day the first counts.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, where
from wbgen.model.tools.keys import day_key
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.order import is_first
from wbgen.model.tools.relations import joined
from wbgen.model.tools.words import listed
from wbgen.model.types import Date, Each, Figure, Mask, Number, Table, Text, VolumePerArea
from wbgen.trade.families import Member

BLANK_UNLESS = ("lawn",)


def lawn_line(lawn: Each[Text], lawns: Table) -> Each[Number]:
    """The line of each lawn among the lawns, their heading row being line 1; blank for an unknown one."""
    return match(lawn, lawns.name)


def lawn_day_key(lawn_line: Each[Number], date: Each[Date], ones: Table) -> Each[Number]:
    """One number for lawn and day, as the diary has it; blank without a date or for an unknown lawn."""
    return day_key(lawn_line, date, ones)


def once_key(lawn_day_key: Each[Number]) -> Each[Number]:
    """The key on the first record that has it; blank on those that follow.

    >>> once_key(np.array([7.0, np.nan, 7.0]))
    array([ 7., nan, nan])
    """
    return where(is_first(lawn_day_key), lawn_day_key, np.nan)


def strip_line(lawn_line: Each[Number], date: Each[Date], once_key: Each[Number], lawns: Table) -> Each[Number]:
    """The line in this table of what the lawn's untreated strip was scored that day; blank where it was not.

    A second record of a lawn and day has none.
    """
    found = match(joined(at(lawns.strip_line, lawn_line), date), joined(lawn_line, date))
    return where(blank(once_key), np.nan, found)


@of_family("scored")
def against_each(each: Member, strip_line: Each[Number], scores: Table) -> Each[Figure]:
    """What was scored, less what the strip was scored that day; blank without both."""
    own = getattr(scores, each.key)
    return own - at(own, strip_line)


def score_state(
    date: Each[Date],
    lawn_line: Each[Number],
    lawn_day_key: Each[Number],
    quality: Each[Number],
    colour: Each[Number],
    clippings: Each[VolumePerArea],
    moss: Each[Number],
    misplaced_date: Mask,
    misplaced_quality: Mask,
    misplaced_colour: Mask,
    misplaced_clippings: Mask,
    misplaced_moss: Mask,
) -> Each[Text]:
    """What is to be mended in the record, all that holds."""
    nothing = np.all([blank(one) for one in (quality, colour, clippings, moss)], axis=0)
    text = misplaced_date | misplaced_quality | misplaced_colour | misplaced_clippings | misplaced_moss
    again = ~blank(lawn_day_key) & ~is_first(lawn_day_key)
    return listed(
        where(blank(lawn_line), "; unknown lawn", "")
        + where(blank(date), "; give the date", "")
        + where(nothing, "; nothing scored", "")
        + where(text, "; a text stands where a number belongs", "")
        + where(again, "; this lawn and day stand twice", "")
    )
