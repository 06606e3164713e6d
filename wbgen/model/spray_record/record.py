"""The span of the record, and how many lines of the diary it has.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.relations import total
from wbgen.model.tools.words import counts
from wbgen.model.types import Date, Number, Table, Text


def first_day(begin: Date, settings: Table) -> Date:
    """The day from which on is told: the one that is typed, or the start of the season."""
    return where(blank(begin), only(settings.season_start), begin)


def last_day(until: Date, start: Table) -> Date:
    """The last day that is told: the one that is typed, or the as-of date."""
    return where(blank(until), only(start.as_of), until)


def astray(first_day: Date, last_day: Date, diary: Table) -> Number:
    """Lines of the span whose lawn is not on the sheet Lawns."""
    within = (diary.date >= first_day) & (diary.date <= last_day) & ~blank(diary.line_key)
    return float(np.count_nonzero(within & blank(diary.lawn_line)))


def lines(astray: Number, record_lawns: Table, record_lines: Table) -> Text:
    """How many lines there are, how many of them stand below, and how many cannot."""
    found, room = float(total(record_lawns.lines)), float(len(record_lines.turn))
    if found == 0:
        said = "none in the diary between these days"
    elif found > room:
        more = f"{counts(found - room)} more do not stand here: choose a shorter time"
        said = f"{counts(found)} in the diary: the first {counts(room)} below, {more}"
    else:
        said = f"{counts(found)} in the diary, all of them below"
    lost = f"; {counts(astray)} of an unknown lawn not among them: mend the diary"
    return said + (lost if astray else "")
