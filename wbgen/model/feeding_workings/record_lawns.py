"""How many lines of the diary each lawn has in the span of the sheet Spray record, and where their keys begin.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.lines import lines_of
from wbgen.model.tools.relations import count_by, pick
from wbgen.model.types import Each, Number, Table, Text, each


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def lines(turn: Each[Number], diary: Table, record: Table) -> Each[Number]:
    """Its lines from the first day to the last, both included."""
    within = (diary.date >= record.first_day) & (diary.date <= record.last_day)
    return count_by(diary.lawn_line, lines_of(turn), within)


def up_to(lines: Each[Number]) -> Each[Number]:
    """Those of it and of the lawns above it."""
    return each(np.cumsum(lines))


def offset(turn: Each[Number], lines: Each[Number], up_to: Each[Number], diary: Table, record: Table) -> Each[Number]:
    """How many keys are lower than those of its lines, less the lines of the lawns above it.

    Those of unknown lawns, of the lawns above it, and its own of earlier days are lower.
    """
    line, known = lines_of(turn), ~blank(diary.line_key)
    place = np.where(blank(diary.lawn_line), 0.0, diary.lawn_line)
    lower = [
        np.count_nonzero(known & ((place < one) | ((place == one) & (diary.date < record.first_day)))) for one in line
    ]
    return each(np.array(lower, dtype=float)) - (up_to - lines)
