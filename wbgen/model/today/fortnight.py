"""What is due next, for the front sheet: the lines of the programme in the order of their days.

One record a line of the programme that is due: shape (fortnight,).
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.lines import at, lines_at
from wbgen.model.tools.order import place_of_rank
from wbgen.model.tools.rounding import half_up
from wbgen.model.tools.words import counts
from wbgen.model.types import Date, Each, Number, Table, Text

BLANK_UNLESS = ("spot",)


def spot(turn: Each[Number], due_lines: Table) -> Each[Number]:
    """The line in the table of due lines, its heading row being line 1; blank where fewer are due."""
    return lines_at(place_of_rank(due_lines.fortnight_key, turn))


def soonest(spot: Each[Number], due_lines: Table) -> Each[Date]:
    """The earliest day on which one of the line's lawns is due."""
    return at(due_lines.soonest, spot)


def product(spot: Each[Number], due_lines: Table) -> Each[Text]:
    """The product."""
    return at(due_lines.product, spot)


def where_words(spot: Each[Number], due_lines: Table) -> Each[Text]:
    """Where it goes, in words."""
    return at(due_lines.where_words, spot)


def lawns_due(spot: Each[Number], due_lines: Table) -> Each[Number]:
    """The number of lawns on which it is overdue or due."""
    return at(due_lines.overdue_lawns + due_lines.due_lawns, spot)


def words(spot: Each[Number], soonest: Each[Date], due_lines: Table, start: Table) -> Each[Text]:
    """How far off the day is, or how long it is past, in words; and why it is not sooner."""
    ahead = half_up(soonest - only(start.as_of), 1)
    coming = where(ahead == 1, "in 1 day", "in " + counts(ahead) + " days")
    late = "overdue, " + counts(-ahead) + where(ahead == -1, " day", " days")
    why = at(due_lines.why, spot)
    return where(ahead < 0, late, where(ahead == 0, "today", coming)) + where(blank(why), "", ", " + why)
