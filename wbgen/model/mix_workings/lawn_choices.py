"""What the box of the lawns offers: all of them, their groups, and each by itself.

One record a choice: shape (lawn_choices,), twice the lawns and one.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, magnitude, where
from wbgen.model.tools.lines import at, lines_at
from wbgen.model.tools.relations import lookup
from wbgen.model.types import Each, Number, Table, Text, each


def group_head(place: Each[Number], lawns: Table) -> Each[Number]:
    """The record's own place where the lawn of that place is the first of its group; else blank."""
    line = lines_at(place - 1)
    return where(at(lawns.group_line, line) == line, place, np.nan)


def group_number(group_head: Each[Number]) -> Each[Number]:
    """The number of the group that begins here, from 1."""
    begins = ~blank(group_head)
    return where(begins, np.cumsum(begins).astype(float), np.nan)


def choice(place: Each[Number], group_number: Each[Number], lawns: Table) -> Each[Text]:
    """First all lawns, then their groups in the order of their first lawns, then the lawns."""
    groups = float(np.sum(~blank(group_number)))
    of_group = at(lawns.group, lines_at(lookup(place - 1, group_number, place) - 1))
    of_lawn = lookup(place - 1 - groups, lawns.lawn_number, lawns.name)
    names = where(magnitude(place) - 1 <= groups, of_group, of_lawn)
    return where(place == 1, "all", each(np.where(blank(names), "", names).astype(object)))
