"""The lines of the diary that have a flag, from the last line up.

One record a line with a flag: shape (flagged_lines,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, where
from wbgen.model.tools.relations import pick
from wbgen.model.types import Date, Each, Number, Table, Text, each

BLANK_UNLESS = ("spot",)


def spot(turn: Each[Number], diary: Table) -> Each[Number]:
    """The number of the line, from the last one with a flag back; blank where there are fewer.

    >>> from types import SimpleNamespace
    >>> spot(np.array([1.0, 2.0, 3.0]), SimpleNamespace(flag_line=np.array([1.0, -2.0, 3.0])))
    array([ 3.,  1., nan])
    """
    flagged = np.sort(diary.flag_line[diary.flag_line > 0])[::-1]
    return pick(each(flagged), turn - 1)


def line(spot: Each[Number]) -> Each[Number]:
    """The number of the line, the first of the diary being 1."""
    return spot


def where_words(spot: Each[Number], diary: Table) -> Each[Text]:
    """The lawn and the product as they are written in the line, with a colon between where both are there.

    No text ends in a blank: some programs drop it when they store what a formula gave.
    """
    lawn, product = pick(diary.lawn, spot - 1), pick(diary.product, spot - 1)
    return lawn + where(blank(lawn) | blank(product), "", ": ") + product


def date(spot: Each[Number], diary: Table) -> Each[Date]:
    """The date of the line; blank where none stands, or a text."""
    return pick(diary.date, spot - 1)


def flags(spot: Each[Number], diary: Table) -> Each[Text]:
    """All that is to be said of the line."""
    return pick(diary.flags, spot - 1)
