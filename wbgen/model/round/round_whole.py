"""The whole of the round: tanks, lawns and lines, and whether there is room for them.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, only, where
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.relations import total
from wbgen.model.tools.traits import NEVER
from wbgen.model.tools.words import counts
from wbgen.model.types import Date, Mask, Number, Table, Text, Volume


def begins(round: Table, start: Table) -> Date:
    """The first day, as a serial number: the one typed, else the as-of date; what is no date counts as none."""
    return where(blank(round.begin), only(start.as_of), round.begin)


def until(begins: Date, round: Table) -> Date:
    """The last day, as a serial number; a round is a day long at least."""
    return begins + np.fmax(round.length.to("day").magnitude, 1.0) - 1.0


def sprayer(round: Table, sprayers: Table) -> Text:
    """The sprayer of the lawns that have none: the one typed, else the first of the list."""
    return where(blank(round.sprayer), str(sprayers.name[0]), round.sprayer)


def _in_it(due: Table) -> Mask:
    return ~blank(due.round_key)


def lawns_in(round_lines: Table) -> Number:
    """The number of different lawns among the lines that the sheet has room for."""
    return float(len(set(folded(round_lines.lawn)) - {""}))


def lines_stopped(round_lines: Table) -> Number:
    """The number of lines that must not go on."""
    return float(np.sum(round_lines.line_level > 1))


def tanks_in(round_lines: Table) -> Number:
    """The number of tanks that the lines are put together into."""
    return float(np.max(np.nan_to_num(round_lines.tank), initial=0.0))


def dry_words(round_lines: Table) -> Text:
    """What to mind of what is spread dry, where a line of it may go on. Common practice, no source."""
    spread = is_dry(round_lines.method) & (round_lines.line_level < NEVER)
    said = "by its label; else on dry leaf, and water in; not in heat, drought, frost or before heavy rain; "
    return said + "wear gloves; sweep paving" if bool(np.any(spread)) else ""


def lines_in(due: Table) -> Number:
    """The number of pairs of line and lawn in the round."""
    return float(np.sum(_in_it(due)))


def room_words(
    lines_in: Number, tanks_in: Number, round_lines: Table, round_products: Table,
    round_tanks: Table,
) -> Text:  # fmt: skip
    """Whether there is room enough for the lines, the tanks, and the products that are to be brought, in words."""
    over = lines_in - round_lines.records
    unlisted = int(np.sum(~blank(round_lines.bring_first))) - round_products.records
    told = []
    if over > 0:
        told.append(f"{counts(over)} lines more than this sheet has room for: choose fewer days, or build anew")
    if tanks_in > round_tanks.records:
        beyond = counts(tanks_in - round_tanks.records)
        told.append(f"{beyond} tanks more than Tanks has lines for: choose fewer days")
    if unlisted > 0:
        told.append(f"What to bring has no line for {unlisted} of the products: choose fewer days")
    return "; ".join(told) or "room enough"


def water_all(round_tanks: Table) -> Volume:
    """The spray (L) of all tanks."""
    return total(round_tanks.water)
