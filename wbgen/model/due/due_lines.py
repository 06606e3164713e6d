"""What is due, line by line of the programme: how its lawns stand.

One record a line of the programme: shape (programme,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import only, where
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.relations import count_by, joined, latest_by, lookup
from wbgen.model.types import Date, Each, Number, Table, Text

BLANK_UNLESS = ("product",)


def product(turn: Each[Number], programme: Table) -> Each[Text]:
    """The product of the line whose turn it is (from 1)."""
    return at(programme.product, lines_of(turn))


def where_words(turn: Each[Number], programme: Table) -> Each[Text]:
    """Where it goes, in words."""
    return at(programme.where_words, lines_of(turn))


def soonest(turn: Each[Number], due: Table) -> Each[Date]:
    """The earliest day on which one of its lawns is due; blank where none is."""
    return -latest_by(due.programme_line, lines_of(turn), -due.next_due)


def _lawns(turn: Each[Number], due: Table, state: str) -> Each[Number]:
    """How many of each line's lawns are in a state."""
    return count_by(due.programme_line, lines_of(turn), due.state == state)


def overdue_lawns(turn: Each[Number], due: Table) -> Each[Number]:
    """The number of lawns on which it is overdue."""
    return _lawns(turn, due, "overdue")


def due_lawns(turn: Each[Number], due: Table) -> Each[Number]:
    """The number of lawns on which it is due within the time that the settings look ahead."""
    return _lawns(turn, due, "due")


def done_lawns(turn: Each[Number], due: Table) -> Each[Number]:
    """The number of lawns on which all of it is done."""
    return _lawns(turn, due, "done")


def missed_lawns(turn: Each[Number], due: Table) -> Each[Number]:
    """The number of lawns on which some of it was missed or skipped, and nothing more is due."""
    return _lawns(turn, due, "missed") + _lawns(turn, due, "skipped")


def why(turn: Each[Number], soonest: Each[Date], due: Table) -> Each[Text]:
    """Why it is not due sooner on the lawn that is due first; the first of several in the order of the lawns."""
    return lookup(joined(lines_of(turn), soonest), joined(due.programme_line, due.next_due), due.due_words)


def fortnight_key(turn: Each[Number], soonest: Each[Date], start: Table, settings: Table, ones: Table) -> Each[Number]:
    """One number that rises with the day, then in the order of the lines; blank for what is later, or not due."""
    ahead = only(start.as_of) + dates.in_days(only(settings.due_time))
    key = (soonest - only(ones.key_day)) * only(ones.key_step) + turn
    return where(soonest <= ahead, key, np.nan)


def from_day(turn: Each[Number], programme: Table, settings: Table, ones: Table) -> Each[Number]:
    """The first day that counts for the line, by its number in the diary's keys."""
    margin = dates.in_days(only(settings.line_margin))
    return at(programme.first, lines_of(turn)) - margin - only(ones.key_day)


def until_day(turn: Each[Number], programme: Table, settings: Table, start: Table, ones: Table) -> Each[Number]:
    """The last day that counts for the line, by its number in the diary's keys."""
    last = at(programme.ends, lines_of(turn)) + dates.in_days(only(settings.line_margin))
    return np.minimum(only(start.as_of), last) - only(ones.key_day)
