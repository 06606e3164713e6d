"""What else is to be said of the round, and by when a brew is to be begun.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.words import counts, in_words
from wbgen.model.types import Table, Text


def words(round_whole: Table, round_lines: Table, today_tanks: Table) -> Text:
    """What of the round is not among the tanks shown: more tanks, what is spread dry, what must not go on."""
    whole = round_whole
    if whole.lines_in == 0:
        return "nothing is due in the round of the sheet Round"
    more, dry = whole.tanks_in - today_tanks.records, int(np.sum(is_dry(round_lines.method)))
    told = [
        f"{counts(more)} more tanks, on the sheet Round" if more > 0 else "",
        f"{dry} lines spread dry" if dry else "",
        f"{counts(whole.lines_stopped)} lines must not go on" if whole.lines_stopped > 0 else "",
        "" if whole.room_words == "room enough" else "not all of it has room",
    ]
    return "; ".join(one for one in told if one)


def brewing(recipes: Table, months: Table) -> Text:
    """Whether there is something to brew for a day of the round or after it, and by when it is to be begun."""
    if np.all(blank(recipes.goes_on)):
        return "nothing to brew"
    if np.all(blank(recipes.begin)):
        return "say how long it brews, sheet Brewing"
    first, late = np.fmin.reduce(recipes.to_start), np.fmin.reduce(recipes.begun_now)
    if blank(first):
        return f"the start is past: begun now, ready on {in_words(late, months)}, sheet Brewing"
    another = "" if blank(late) else "; another start is past"
    return f"start by {in_words(first, months)}, sheet Brewing{another}"
