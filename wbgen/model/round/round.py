"""The next round over the lawns: for which days, and how much there is in it.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, like, magnitude, only, or_zero, where
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.traits import NEVER
from wbgen.model.tools.words import counts
from wbgen.model.types import Date, Mask, Number, Table, Text, Time, Volume


def begins(begin: Date, start: Table) -> Date:
    """The first day, as a serial number: the one typed, else the as-of date; what is no date counts as none."""
    return where(blank(begin), only(start.as_of), begin)


def until(begins: Date, length: Time) -> Date:
    """The last day, as a serial number; a round is a day long at least."""
    return begins + np.fmax(length.to("day").magnitude, 1.0) - 1.0


def _in_it(due: Table) -> Mask:
    return ~blank(due.round_key)


def lawns_in(round_lines: Table) -> Number:
    """The number of different lawns among the lines that the sheet has room for."""
    return float(len(set(folded(round_lines.lawn)) - {""}))


def lines_stopped(round_lines: Table) -> Number:
    """The number of lines that must not go on."""
    return float(np.sum(round_lines.line_level > 1))


def dry_words(round_lines: Table) -> Text:
    """What to mind of what is spread dry, where a line of it may go on. Common practice, no source."""
    spread = is_dry(round_lines.method) & (round_lines.line_level < NEVER)
    said = "by its label; else on dry leaf, and water in; not in heat, drought, frost or before heavy rain; "
    return said + "wear gloves; sweep paving" if bool(np.any(spread)) else ""


def lines_in(due: Table) -> Number:
    """The number of pairs of line and lawn in the round."""
    return float(np.sum(_in_it(due)))


def lines_room(round_lines: Table) -> Number:
    """How many of them there is room for."""
    return float(round_lines.records)


def blank_rows(lines_room: Number, lines_in: Number) -> Number:
    """How many rows stay empty."""
    return max(lines_room - lines_in, 0.0)


def room_words(lines_room: Number, lines_in: Number, round_lines: Table, round_products: Table) -> Text:
    """Whether there is room enough for the lines, and for the products that are to be brought, in words."""
    over = lines_in - lines_room
    unlisted = int(np.sum(~blank(round_lines.bring_first))) - round_products.records
    told = []
    if over > 0:
        told.append(f"{counts(over)} lines more than this sheet has room for: choose fewer days, or build anew")
    if unlisted > 0:
        told.append(f"What to bring has no line for {unlisted} of the products: choose fewer days")
    return "; ".join(told) or "room enough"


def water_all(round_lines: Table) -> Volume:
    """The spray (L) for all lawns of the round."""
    return like(round_lines.tank_water, float(np.sum(magnitude(or_zero(round_lines.tank_water)))))
