"""What is due: one record a line of the programme and lawn; `number` counts the records from 1.

Dates are serial numbers. What was done is what the diary says, whatever day it was planned for; visits that were
missed never stack.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.lines import at, lines_at, match
from wbgen.model.tools.order import Days, first_to_reach
from wbgen.model.tools.relations import blank, joined, only, or_zero, ratio, sum_by, where
from wbgen.model.tools.rounding import down, half_up
from wbgen.units.quantity import FLOAT

Value = Any

BLANK_UNLESS = ("programme_line",)


def programme_line(number: Value, plan: Value, programme: Value) -> Value:
    """The line of the programme, its heading row being line 1; blank past the last pair."""
    lines = lines_at(first_to_reach(programme.pairs_up_to, number))
    return np.where(number > plan.pairs_total, np.nan, lines)


def turn_of_line(number: Value, programme_line: Value, programme: Value) -> Value:
    """Which of its line's lawns this is, from 1."""
    return number - at(programme.pairs_up_to - programme.lawns_counted, programme_line)


def lawn_line(programme_line: Value, turn_of_line: Value, programme: Value, lawns: Value, ones: Value) -> Value:
    """The line among the lawns, their heading row being line 1: the one named, or the one whose turn it is."""
    scope = at(programme.scope_key, programme_line)
    of_group = match(scope * only(ones.key_step) + turn_of_line, lawns.group_key)
    of_all = match(turn_of_line, lawns.lawn_number)
    several = np.where(blank(at(programme.group, programme_line)), of_all, of_group)
    return np.where(blank(at(programme.lawn, programme_line)), several, scope)


def lawn(lawn_line: Value, lawns: Value) -> Value:
    """The lawn."""
    return at(lawns.name, lawn_line)


def product(programme_line: Value, programme: Value) -> Value:
    """The product."""
    return at(programme.product, programme_line)


def area(lawn_line: Value, lawns: Value) -> Value:
    """The area (m²) of the lawn; blank where it has none."""
    return at(lawns.area, lawn_line)


def product_line(programme_line: Value, programme: Value) -> Value:
    """The line of the product in the catalogue; blank for an unknown one."""
    return at(programme.product_line, programme_line)


def family_key(lawn_line: Value, product_line: Value, products: Value, ones: Value) -> Value:
    """One number for the lawn and the product's family."""
    return lawn_line * only(ones.key_step) + at(products.family_line, product_line)


def times_planned(programme_line: Value, programme: Value) -> Value:
    """How many visits the line plans."""
    return at(programme.times_planned, programme_line)


def planned_to_date(programme_line: Value, programme: Value) -> Value:
    """How many of them were to be up to the as-of date."""
    return at(programme.planned_to_date, programme_line)


def family_times(family_key: Value, times_planned: Value) -> Value:
    """How many visits all lines together plan of this family on this lawn; blank where there is no family."""
    return np.where(blank(family_key), np.nan, sum_by(family_key, family_key, times_planned))


def product_key(lawn_line: Value, product_line: Value, ones: Value) -> Value:
    """One number for lawn and product, as the diary's keys have it before they count the day."""
    step = only(ones.key_step)
    return (lawn_line * step + product_line) * step


def _done_days(diary: Value) -> Days:
    """The days on which each product was put on each lawn."""
    return Days(joined(diary.lawn_line, diary.product_line), diary.date)


def interval(programme_line: Value, programme: Value) -> Value:
    """The time (day) from one visit to the next; blank where there is one alone."""
    return at(programme.interval, programme_line)


def from_day(programme_line: Value, programme: Value, settings: Value, ones: Value) -> Value:
    """The first day that counts for the line, by its number in the diary's keys."""
    return _since(programme_line, programme, settings) - only(ones.key_day)


def until_day(programme_line: Value, programme: Value, settings: Value, start: Value, ones: Value) -> Value:
    """The last day that counts for the line, by its number in the diary's keys."""
    return _until(programme_line, programme, settings, start) - only(ones.key_day)


def _margin(settings: Value) -> Any:
    return dates.in_days(only(settings.line_margin))


def _since(programme_line: Value, programme: Value, settings: Value) -> Any:
    """The first day that counts for the line."""
    return at(programme.first, programme_line) - _margin(settings)


def _until(programme_line: Value, programme: Value, settings: Value, start: Value) -> Any:
    """The last day that counts for the line."""
    return np.minimum(only(start.as_of), at(programme.last, programme_line) + _margin(settings))


def done(
    lawn_line: Value,
    product_line: Value,
    programme_line: Value,
    diary: Value,
    programme: Value,
    settings: Value,
    start: Value,
) -> Value:
    """On how many days the product was put on the lawn, from the line's first date to its last, with the margin.

    Days after the as-of date do not count. 0 for an unknown product.
    """
    key = joined(lawn_line, product_line)
    return _done_days(diary).number(
        key, _since(programme_line, programme, settings), _until(programme_line, programme, settings, start)
    )


def last_done(
    lawn_line: Value,
    product_line: Value,
    programme_line: Value,
    diary: Value,
    programme: Value,
    settings: Value,
    start: Value,
) -> Value:
    """The latest of those days; blank where there is none."""
    key = joined(lawn_line, product_line)
    return _done_days(diary).latest(
        key, _since(programme_line, programme, settings), _until(programme_line, programme, settings, start)
    )


def following(last_done: Value, interval: Value) -> Value:
    """An interval, in whole days, after it was done last; blank where it never was, or where there is no interval."""
    return last_done + half_up(half_up(interval.to("day").magnitude, 6))


def next_due(
    programme_line: Value, times_planned: Value, done: Value, following: Value, programme: Value, start: Value
) -> Value:
    """The day on which it is due next: the first of the line, then an interval after it was done last.

    Blank where it is done as often as planned, where the line is over, and where the next day is past its end.
    """
    first, last = at(programme.first, programme_line), at(programme.last, programme_line)
    found = np.where(done == 0, first, np.where(following <= last, following, np.nan))
    over = (done >= times_planned) | (only(start.as_of) > last)
    return np.where(over, np.nan, found)


def state(done: Value, times_planned: Value, next_due: Value, start: Value, settings: Value) -> Value:
    """Whether it is done, missed, overdue, due within the time that the settings look ahead, or later."""
    as_of = only(start.as_of)
    ahead = as_of + dates.in_days(only(settings.due_time))
    coming = where(next_due < as_of, "overdue", where(next_due <= ahead, "due", "later"))
    return where(done >= times_planned, "done", where(blank(next_due), "missed", coming))


def days_late(state: Value, next_due: Value, start: Value) -> Value:
    """How long it is overdue; blank where it is not."""
    return FLOAT.Quantity(np.where(state == "overdue", only(start.as_of) - next_due, np.nan), "day")


def to_come(
    programme_line: Value, times_planned: Value, done: Value, next_due: Value, programme: Value, start: Value
) -> Value:
    """How many visits are still to come: those that are left, as far as they fit before the line's end.

    One where the line has no interval, or one of no days.
    """
    apart = at(programme.interval, programme_line).to("day").magnitude
    from_now = np.fmax(next_due, only(start.as_of))
    fitting = down(half_up(ratio(at(programme.last, programme_line) - from_now, apart), 6)) + 1
    left = np.where(blank(fitting), 1.0, np.minimum(times_planned - done, fitting))
    return np.where(blank(next_due), 0.0, left)


def mass_to_come(to_come: Value, programme_line: Value, area: Value, programme: Value) -> Value:
    """The mass (g) of a solid for them; blank without a rate or an area."""
    return (at(programme.rate_mass, programme_line) * area * to_come).to("g")


def volume_to_come(to_come: Value, programme_line: Value, area: Value, programme: Value) -> Value:
    """The volume (mL) of a liquid for them; blank without a rate or an area."""
    return (at(programme.rate_volume, programme_line) * area * to_come).to("mL")


def cost_to_come(product_line: Value, mass_to_come: Value, volume_to_come: Value, products: Value) -> Value:
    """What they cost (currency); blank where there is no price, or nothing is known to come."""
    solid = (mass_to_come * at(products.price_by_mass, product_line)).to("currency")
    liquid = (volume_to_come * at(products.price_by_volume, product_line)).to("currency")
    return where(blank(solid) & blank(liquid), np.nan, or_zero(solid) + or_zero(liquid))


@of_family("nutrients")
def coming_each(to_come: Value, programme_line: Value, product_line: Value, programme: Value) -> Value:
    """The nutrient (g/m²) that they bring; blank for an unknown product."""
    return where(blank(product_line), np.nan, to_come * at(programme.by_area_each, programme_line))


def round_key(
    number: Value,
    lawn_line: Value,
    area: Value,
    next_due: Value,
    lawns: Value,
    ones: Value,
    round: Value,
) -> Value:
    """One number that rises in walking order, then in the order of the lines; blank for what is not in the round."""
    key = at(lawns.walk_rank, lawn_line) * only(ones.key_step) + number
    return np.where((next_due <= only(round.until)) & ~blank(area), key, np.nan)
