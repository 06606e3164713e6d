"""The first tanks of the round.

One record a tank: shape (today_tanks,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import where
from wbgen.model.tools.lines import at
from wbgen.model.tools.words import counts
from wbgen.model.types import Date, Each, Number, Table, Text, Volume, each

BLANK_UNLESS = ("day",)


def day(turn: Each[Number], round_tanks: Table) -> Each[Date]:
    """The day, as a serial number."""
    return at(round_tanks.day, turn + 1)


def lawns_words(turn: Each[Number], round_tanks: Table, round_lines: Table) -> Each[Text]:
    """The first of its lawns, and how many more."""
    return _first(turn, round_tanks, round_lines.lawn, round_tanks.lawns_count)


def products_words(turn: Each[Number], round_tanks: Table, round_lines: Table) -> Each[Text]:
    """The first of its products, and how many more."""
    return _first(turn, round_tanks, round_lines.product, round_tanks.products_count)


def _first(turn: Each[Number], round_tanks: Table, names: Each[Text], number: Each[Number]) -> Each[Text]:
    more = at(number, turn + 1) - 1
    return at(names, at(round_tanks.spot, turn + 1)) + where(more > 0, " and " + counts(more) + " more", "")


def water(turn: Each[Number], round_tanks: Table) -> Each[Volume]:
    """Its spray (L)."""
    return at(round_tanks.water, turn + 1)


def fills(turn: Each[Number], round_tanks: Table) -> Each[Number]:
    """How many fills that is."""
    return at(round_tanks.fills, turn + 1)


def words(turn: Each[Number], round_tanks: Table) -> Each[Text]:
    """The first that the round knows of it, and whether there is more."""
    return each(np.array([_short(one) for one in at(round_tanks.words, turn + 1)], dtype=object))


def _short(words: str) -> str:
    first, more, _ = words.replace("nothing against it here; ", "").partition("; ")
    return first + (", and more" if more else "")
