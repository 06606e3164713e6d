"""The lawns on the card, in walking order: one record a turn.

One record a lawn in walking order: shape (lawns,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, where
from wbgen.model.tools.relations import lookup
from wbgen.model.types import Area, Each, Number, Table, Text, Volume


def lawn(turn: Each[Number], mix_lawns: Table) -> Each[Text]:
    """The lawn whose turn it is; empty past the last."""
    return lookup(turn, mix_lawns.lawn_line, mix_lawns.lawn_used)


def water(turn: Each[Number], mix_lawns: Table, card: Table) -> Each[Volume]:
    """The spray (L) for that lawn, blank where nothing is to be made."""
    return where(blank(card.fill_mark), np.nan, lookup(turn, mix_lawns.lawn_line, mix_lawns.water))


def water_so_far(turn: Each[Number], mix_lawns: Table, card: Table) -> Each[Volume]:
    """The spray (L) for it and the lawns before it, blank where nothing is to be made."""
    return where(blank(card.fill_mark), np.nan, lookup(turn, mix_lawns.lawn_line, mix_lawns.water_so_far))


def area(turn: Each[Number], mix_lawns: Table) -> Each[Area]:
    """The area of it that is treated."""
    return lookup(turn, mix_lawns.lawn_line, mix_lawns.treated_area)


def ends(turn: Each[Number], mix_lawns: Table, card: Table) -> Each[Text]:
    """Which tank fill ends on it, and where; nothing where nothing is to be made."""
    return where(blank(card.fill_mark), "", lookup(turn, mix_lawns.lawn_line, mix_lawns.ends_words))
