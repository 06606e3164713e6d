"""On which day it goes on, and where it comes on the round."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.lines import at
from wbgen.model.types import Area, Date, Each, Number, Table


def visit_day(lawn_line: Each[Number], next_due: Each[Date], lawns: Table, round_whole: Table) -> Each[Date]:
    """The day it goes on, as a serial number: when it is due, or the first day of the round if that is later.

    On a lawn with a round day it is the first of these from then on. A serial number of 1 is a Sunday (1 January 1900
    by a spreadsheet's count, which has a 29 February 1900), so that its rest by seven is the day of the week.
    """
    day = np.maximum(next_due, only(round_whole.begins))
    wait = (at(lawns.weekday, lawn_line) - day) % 7
    return day + np.nan_to_num(wait)


def round_key(
    number: Each[Number],
    lawn_line: Each[Number],
    area: Each[Area],
    visit_day: Each[Date],
    lawns: Table,
    ones: Table,
    round_whole: Table,
) -> Each[Number]:
    """One number that rises by the day, then in walking order, then in the order of the lines.

    Blank for what is not in the round.
    """
    step = only(ones.key_step)
    key = ((visit_day - only(round_whole.begins)) * step + at(lawns.walk_rank, lawn_line)) * step + number
    return where((visit_day <= only(round_whole.until)) & ~blank(area), key, np.nan)
