"""Lawns of this visit, and the spray for each.

One record a lawn of this visit: shape (lawns,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import (
    as_number,
    blank,
    folded,
    is_word,
    like,
    magnitude,
    only,
    or_zero,
    ratio,
    where,
)
from wbgen.model.tools.order import place_of_rank
from wbgen.model.tools.relations import count_by, find, lookup, pick
from wbgen.model.tools.rounding import exceeds, half_up
from wbgen.model.tools.words import amount, counts
from wbgen.model.types import Area, Each, Mask, Number, Table, Text, Time, Volume

BLANK_UNLESS = ("lawn_used",)
NEVER_BLANK = ("walk_turn", "lawn")


def walk_turn(mix: Table, chosen: Table, lawns: Table) -> Each[Number]:
    """The turn on the walk of each lawn of the list, where all of them, or those of its group, are chosen."""
    taken = is_word(mix.which_lawns, "all") | (is_word(mix.which_lawns, "group") & _same(lawns.group, chosen.lawns))
    return where(taken, lawns.walk_rank, np.nan)


def _same(texts: Each[Text], text: Text) -> Mask:
    return folded(texts) == folded(text)[0]


def lawn(
    turn: Each[Number], mix: Table, chosen: Table, chosen_lawns: Table, round_lines: Table, ones: Table
) -> Each[Text]:  # fmt: skip
    """The lawn that is named: one by one, by the tank of the round, or by itself in the first record."""
    alone = where(is_word(mix.which_lawns, "one") & (turn == 1), chosen.lawns, "")
    of_tank = lookup(mix.tank * only(ones.key_step) + turn, round_lines.lawn_place, round_lines.lawn)
    named = where(is_word(mix.which_lawns, "tank"), of_tank, alone)
    return where(is_word(mix.which_lawns, "listed"), chosen_lawns.lawn, named)


def part_treated(mix: Table, chosen_lawns: Table) -> Each[Area]:
    """The part that is treated, of a lawn that is named one by one."""
    return where(is_word(mix.which_lawns, "listed"), chosen_lawns.part_treated, np.nan)


def lawn_used(turn: Each[Number], lawn: Each[Text], walk_turn: Each[Number], mix: Table, lawns: Table) -> Each[Text]:
    """The lawn named; with all lawns or a group chosen, the one whose turn it is on the walk."""
    named = np.logical_or.reduce([is_word(mix.which_lawns, way) for way in ("listed", "one", "tank")])
    return where(named, lawn, pick(lawns.name, place_of_rank(walk_turn, turn)))


def lawn_area(lawn_used: Each[Text], lawns: Table) -> Each[Area]:
    """Area of the whole lawn; blank for an unknown lawn."""
    return lookup(lawn_used, lawns.name, lawns.area)


def treated_area(part_treated: Each[Area], lawn_area: Each[Area]) -> Each[Area]:
    """Area treated: the part that is given, else the whole lawn."""
    return where(blank(part_treated), lawn_area, part_treated)


def lawn_line(treated_area: Each[Area]) -> Each[Number]:
    """Running number, from 1, of the records with a treated area; blank for the others."""
    there = ~blank(treated_area)
    return where(there, np.cumsum(there), np.nan)


def water(treated_area: Each[Area], mix: Table) -> Each[Volume]:
    """Spray for the lawn: area (m²) × carrier volume (L/ha) × (1 + overlap), without what stays in the tank.

    Area times rate is exact; the overlap is common practice, no source.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> mix = SimpleNamespace(carrier_volume=FLOAT("500 L/ha"), overlap=np.nan)
    >>> water(FLOAT.Quantity(np.array([85.0]), "m**2"), mix).to("L").magnitude.round(9)
    array([4.25])
    """
    return treated_area * mix.carrier_volume * (1 + or_zero(as_number(mix.overlap)))


def water_so_far(water: Each[Volume]) -> Each[Volume]:
    """Running sum of the spray, this lawn included; a blank counts as nothing."""
    return like(water, np.cumsum(magnitude(or_zero(water))))


def spray_time(water: Each[Volume], mix: Table, sprayers: Table) -> Each[Time]:
    """Time that the nozzles take; blank for a sprayer whose nozzles were not caught."""
    return ratio(water, lookup(mix.sprayer, sprayers.name, sprayers.total_output))


def lawn_problem(
    lawn_used: Each[Text],
    lawn_area: Each[Area],
    treated_area: Each[Area],
    lawns: Table,
    mix: Table,
    chosen_lawns: Table,
) -> Each[Text]:
    """What keeps the lawn from being treated as it is named, in words. Parts count of lawns named one by one."""
    text_as_part = chosen_lawns.misplaced_part_treated & is_word(mix.which_lawns, "listed")
    unknown = find(lawn_used, lawns.name) < 0
    without = where(unknown, "is not on the sheet Lawns", "has no area")
    twice = count_by(lawn_used, lawn_used) > 1
    larger = where(
        exceeds(treated_area, lawn_area), "has a part larger than the lawn", where(twice, "is named twice", "")
    )
    there = where(text_as_part, "has a text where the number of its part belongs", larger)
    return where(blank(lawn_area), without, there)


def fills_before(water: Each[Volume], water_so_far: Each[Volume], mix: Table) -> Each[Number]:
    """How many tank fills are used up before the lawn begins, the last one not among them."""
    begun = as_number(ratio(water_so_far - water, mix.volume_full))
    return where(blank(water) | blank(mix.loads), np.nan, np.floor(half_up(begun, 9)))


def ends_after(
    fills_before: Each[Number], water: Each[Volume], water_so_far: Each[Volume], treated_area: Each[Area], mix: Table
) -> Each[Area]:
    """After which part of the lawn the next tank fill ends; blank where none ends on it.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> mix = SimpleNamespace(volume_full=FLOAT("14 L"), loads=2.0)
    >>> water, area = FLOAT.Quantity(np.array([9.0, 14.4]), "L"), FLOAT.Quantity(np.array([150.0, 240.0]), "m**2")
    >>> so_far = FLOAT.Quantity(np.array([9.0, 23.4]), "L")
    >>> ends_after(np.array([0.0, 0.0]), water, so_far, area, mix).to("m**2").magnitude.round(1)
    array([ nan, 83.3])
    """
    end = (fills_before + 1) * mix.volume_full
    there = (fills_before + 1 < mix.loads) & exceeds(water_so_far, end)
    return where(there, ratio(end - water_so_far + water, water) * treated_area, np.nan)


def ends_words(
    ends_after: Each[Area], fills_before: Each[Number], water_so_far: Each[Volume], mix: Table
) -> Each[Text]:
    """Which fill ends where on the lawn, and whether it is the only one."""
    unit = mix.treated_area.units
    more = (fills_before + 2 < mix.loads) & exceeds(water_so_far, (fills_before + 2) * mix.volume_full)
    said = "fill " + counts(fills_before + 1) + " after " + amount(ends_after, unit, 0) + where(more, ", then more", "")
    return where(blank(ends_after), "", said)
