"""The steps at the tank, one below the other: those of a full tank, then those of the last part tank.

One record a line: shape (card_list,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, is_word, where
from wbgen.model.tools.relations import pick
from wbgen.model.types import Each, Mass, Number, Quantity, T, Table, Text, Volume, each

BLANK_UNLESS = ("action",)
THEN = "THEN"


def action(line: Each[Number], card: Table, mix: Table, card_steps: Table, part_steps: Table) -> Each[Text]:
    """What is done; between the two tanks, that the last part tank is made then."""
    if blank(card.fill_mark):
        return each(np.full(len(line), "", dtype=object))
    last = where(line == mix.full_steps + 1, THEN, _of(line, mix, card_steps.action, part_steps.action))
    none = blank(card.part_mark) & (line > mix.full_steps)
    return where(none, "", last)


def what(line: Each[Number], action: Each[Text], mix: Table, card_steps: Table, part_steps: Table) -> Each[Text]:
    """What it is done with."""
    return where(
        is_word(action, THEN.lower()), "make the last part tank", _of(line, mix, card_steps.what, part_steps.what)
    )


def to_weigh(line: Each[Number], action: Each[Text], mix: Table, card_steps: Table, part_steps: Table) -> Each[Mass]:
    """What is weighed."""
    return _figure(line, action, mix, card_steps.to_weigh, part_steps.to_weigh)


def to_pour(line: Each[Number], action: Each[Text], mix: Table, card_steps: Table, part_steps: Table) -> Each[Volume]:
    """What is poured."""
    return _figure(line, action, mix, card_steps.to_pour, part_steps.to_pour)


def to_fill(
    line: Each[Number], action: Each[Text], card: Table, mix: Table, card_steps: Table, part_steps: Table
) -> Each[Volume]:
    """To which level the tank is filled."""
    step = _of(line, mix, card_steps.to_fill, part_steps.to_fill)
    return where(is_word(action, THEN.lower()), card.part_mark, step)


def dissolve_in(
    line: Each[Number], action: Each[Text], mix: Table, card_steps: Table, part_steps: Table
) -> Each[Volume]:
    """In how much water it is dissolved first."""
    return _figure(line, action, mix, card_steps.dissolve_in, part_steps.dissolve_in)


def ticks(line: Each[Number], action: Each[Text], mix: Table, card_steps: Table, part_steps: Table) -> Each[Text]:
    """A box to tick for each tank fill."""
    return where(is_word(action, THEN.lower()), "", _of(line, mix, card_steps.ticks, part_steps.ticks))


def _of(line: Each[Number], mix: Table, full: Each[T], last: Each[T]) -> Each[T]:
    of_last = pick(last, line - mix.full_steps - 2)
    return where(line <= mix.full_steps, pick(full, line - 1), of_last)


def _figure(
    line: Each[Number], action: Each[Text], mix: Table, full: Each[Quantity], last: Each[Quantity]
) -> Each[Quantity]:
    return where(is_word(action, THEN.lower()), np.nan, _of(line, mix, full, last))
