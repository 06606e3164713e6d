"""The calendar: how many dates each line of the programme has in each week of the season.

One record a line of the programme: shape (programme,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import only, where, with_unit
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.relations import count_by
from wbgen.model.types import Each, Number, Table, Text

BLANK_UNLESS = ("product",)


def product(turn: Each[Number], programme: Table) -> Each[Text]:
    """The product of the line whose turn it is (from 1)."""
    return at(programme.product, lines_of(turn))


def where_words(turn: Each[Number], programme: Table) -> Each[Text]:
    """Where it goes, in words."""
    return at(programme.where_words, lines_of(turn))


@of_family("weeks")
def count_each(turn: Each[Number], applications: Table, calendar_weeks: Table) -> Each[Number]:
    """The number of dates in the week; blank where there is none."""
    begins = only(calendar_weeks.begins_each)
    within = (applications.date >= begins) & (applications.date < begins + with_unit(1, "week").m_as("day"))
    number = count_by(applications.programme_line, lines_of(turn), within)
    return where(number > 0, number, np.nan)
