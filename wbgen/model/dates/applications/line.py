"""Which line of the programme a date is of, when it is, and what goes on by its line."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, or_zero, where, with_unit
from wbgen.model.tools.lines import at, lines_at, match
from wbgen.model.tools.methods import way as method_in_words
from wbgen.model.tools.order import first_to_reach, ranked
from wbgen.model.tools.relations import latest_by
from wbgen.model.tools.rounding import half_up
from wbgen.model.types import (
    Date,
    Each,
    Number,
    NutrientPerArea,
    Table,
    Text,
    Time,
)


def programme_line(number: Each[Number], plan: Table, programme: Table) -> Each[Number]:
    """The line of the programme that the date is of, its heading row being line 1; blank past the last date."""
    lines = lines_at(first_to_reach(programme.dates_up_to, number))
    return where(number > plan.dates_total, np.nan, lines)


def turn_of_line(number: Each[Number], programme_line: Each[Number], programme: Table) -> Each[Number]:
    """Which of its line's dates this is, from 1."""
    return number - at(programme.dates_up_to - programme.times_planned, programme_line)


def after(programme_line: Each[Number], turn_of_line: Each[Number], programme: Table) -> Each[Time]:
    """How long after the line's first day: an interval for each turn, to the nearest day."""
    apart = or_zero(at(programme.interval, programme_line)).to("day").magnitude
    return with_unit(half_up(half_up((turn_of_line - 1) * apart, 6)), "day")


def date(
    programme_line: Each[Number], turn_of_line: Each[Number], after: Each[Time], programme: Table, due: Table
) -> Each[Date]:
    """The day; later by the line's shift where none of its lawns has had so many visits."""
    had = or_zero(latest_by(due.programme_line, programme_line, due.done))
    shift = where(turn_of_line > had, or_zero(at(programme.shift, programme_line)).to("day").magnitude, 0.0)
    return at(programme.first, programme_line) + after.to("day").magnitude + shift


def product_line(programme_line: Each[Number], programme: Table) -> Each[Number]:
    """The line of the product, the heading row being line 1; blank for an unknown one."""
    return at(programme.product_line, programme_line)


def ground(programme_line: Each[Number], programme: Table) -> Each[Number]:
    """Where it goes: 0 for all lawns, the line of a lawn, or below zero that of the first lawn of a group."""
    line: Each[Number] = at(programme.scope_key, programme_line)
    return where(blank(at(programme.group, programme_line)), line, -line)


def group(ground: Each[Number], lawns: Table) -> Each[Number]:
    """The group that the ground belongs to, as the line of its first lawn; 0 for all lawns.

    A lawn without a group is one by itself.
    """
    of_lawn = match(at(lawns.group, ground), lawns.group)
    return where(ground > 0, where(blank(of_lawn), ground, of_lawn), -ground)


def way(programme_line: Each[Number], programme: Table) -> Each[Text]:
    """Whether it is spread dry; all else counts as sprayed."""
    return method_in_words(at(programme.method, programme_line))


@of_family("nutrients")
def brings_each(programme_line: Each[Number], programme: Table) -> Each[NutrientPerArea]:
    """The nutrient (g/m²) that it brings; blank for an unknown product."""
    return at(programme.by_area_each, programme_line)


def date_rank(date: Each[Date]) -> Each[Number]:
    """Its place in the order of time, from 1; those of one day go in the order of the lines."""
    return ranked(date)
