"""What is due next, for the front sheet: the lines of the programme in the order of their days."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.lines import at, lines_at
from wbgen.model.tools.order import smallest
from wbgen.model.tools.relations import only, where
from wbgen.model.tools.words import counts

Value = Any

BLANK_UNLESS = ("spot",)


def spot(turn: Value, due_lines: Value) -> Value:
    """The line in the table of due lines, its heading row being line 1; blank where fewer are due."""
    return lines_at(smallest(due_lines.fortnight_key, turn))


def soonest(spot: Value, due_lines: Value) -> Value:
    """The earliest day on which one of the line's lawns is due."""
    return at(due_lines.soonest, spot)


def product(spot: Value, due_lines: Value) -> Value:
    """The product."""
    return at(due_lines.product, spot)


def where_words(spot: Value, due_lines: Value) -> Value:
    """Where it goes, in words."""
    return at(due_lines.where_words, spot)


def lawns_due(spot: Value, due_lines: Value) -> Value:
    """The number of lawns on which it is overdue or due."""
    return at(due_lines.overdue_lawns + due_lines.due_lawns, spot)


def words(soonest: Value, start: Value) -> Value:
    """How far off the day is, in words."""
    ahead = soonest - only(start.as_of)
    coming = np.where(ahead == 1, "in 1 day", "in " + counts(ahead) + " days")
    return where(ahead < 0, "overdue", where(ahead == 0, "today", coming))
