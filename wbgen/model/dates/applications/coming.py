"""What is still to come by the diary, and the days for which the stock does not last.

The dates of a line count from the first of its lawns that is due, as if all of them went on together.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.order import sum_upto
from wbgen.model.tools.relations import keys_of
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import Area, Date, Each, Mass, Number, Quantity, Table, Time, Volume, each


def coming_day(after: Each[Time], programme_line: Each[Number], due_lines: Table, start: Table) -> Each[Date]:
    """The day: as far from the line's next due as the planned date is from the line's first, without a shift.

    What is overdue counts as of the as-of date; blank where nothing of the line is due any more.
    """
    soonest = at(due_lines.soonest, programme_line)
    return np.maximum(soonest, only(start.as_of)) + after.to("day").magnitude


def _ground(programme_line: Each[Number], turn_of_line: Each[Number], due: Table) -> Each[Area]:
    """The area of the line's lawns on which it is still to come so many times."""
    area = 0 * due.area[:1]
    found = [
        np.sum(due.area.magnitude[(due.programme_line == line) & (due.to_come >= turn) & ~blank(due.area)])
        for line, turn in zip(programme_line, turn_of_line, strict=True)
    ]
    return each(np.array(found, dtype=float)) * area.units


def coming_mass(
    coming_day: Each[Date], programme_line: Each[Number], turn_of_line: Each[Number], programme: Table, due: Table
) -> Each[Mass]:
    """The mass that goes on that day; blank for a liquid, and where nothing more is due."""
    mass = at(programme.rate_mass, programme_line) * _ground(programme_line, turn_of_line, due)
    return where(blank(coming_day), np.nan, mass)


def coming_volume(
    coming_day: Each[Date], programme_line: Each[Number], turn_of_line: Each[Number], programme: Table, due: Table
) -> Each[Volume]:
    """The volume that goes on that day; blank for a solid, and where nothing more is due."""
    volume = at(programme.rate_volume, programme_line) * _ground(programme_line, turn_of_line, due)
    return where(blank(coming_day), np.nan, volume)


def short_day(
    product_line: Each[Number],
    coming_day: Each[Date],
    coming_mass: Each[Mass],
    coming_volume: Each[Volume],
    stock: Table,
) -> Each[Date]:
    """The day again, where what is on hand does not last for all of the product up to and with it."""
    solid = exceeds(
        _so_far(product_line, coming_day, coming_mass), _there(at(stock.on_hand_mass, product_line), coming_mass)
    )
    liquid = exceeds(
        _so_far(product_line, coming_day, coming_volume), _there(at(stock.on_hand_volume, product_line), coming_volume)
    )
    return where(~blank(product_line) & (solid | liquid), coming_day, np.nan)


def _there(on_hand: Each[Quantity], unit_of: Each[Quantity]) -> Each[Quantity]:
    """What is on hand, nothing where it is unknown or less."""
    return np.maximum(where(blank(on_hand), 0.0, on_hand.to(unit_of.units)), 0.0 * unit_of.units)


def _so_far(product: Each[Number], day: Each[Date], amount: Each[Quantity]) -> Each[Quantity]:
    """What goes on of each record's product up to its day and with it; blank where the record has none."""
    keys = np.array(keys_of(product), dtype=object)
    found = np.full(len(keys), np.nan)
    for key in set(keys.tolist()) - {None}:
        own = keys == key
        found[own] = sum_upto(day[own], amount[own].magnitude, day[own])
    return where(blank(amount), np.nan, found * amount.units)
