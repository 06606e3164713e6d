"""What is due: one record a line of the programme and lawn; `number` counts the records from 1.

One record a line of the programme and lawn: shape (pairs,). Dates are serial numbers. What was done is what the diary
says, whatever day it was planned for; visits that were missed never stack.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, only, or_zero, ratio, where, with_unit
from wbgen.model.tools.lines import at, lines_at, match
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.order import Days, first_to_reach
from wbgen.model.tools.relations import joined, sum_by
from wbgen.model.tools.rounding import down, half_up
from wbgen.model.types import Area, Date, Each, Mass, Money, Number, NutrientPerArea, Table, Text, Time, Volume

BLANK_UNLESS = ("programme_line",)


def programme_line(number: Each[Number], plan: Table, programme: Table) -> Each[Number]:
    """The line of the programme, its heading row being line 1; blank past the last pair."""
    lines = lines_at(first_to_reach(programme.pairs_up_to, number))
    return where(number > plan.pairs_total, np.nan, lines)


def turn_of_line(number: Each[Number], programme_line: Each[Number], programme: Table) -> Each[Number]:
    """Which of its line's lawns this is, from 1."""
    return number - at(programme.pairs_up_to - programme.lawns_counted, programme_line)


def lawn_line(
    programme_line: Each[Number], turn_of_line: Each[Number], programme: Table, lawns: Table, ones: Table
) -> Each[Number]:
    """The line among the lawns, their heading row being line 1: the one named, or the one whose turn it is."""
    scope = at(programme.scope_key, programme_line)
    of_group = match(scope * only(ones.key_step) + turn_of_line, lawns.group_key)
    of_all = match(turn_of_line, lawns.lawn_number)
    several = where(blank(at(programme.group, programme_line)), of_all, of_group)
    return where(blank(at(programme.lawn, programme_line)), several, scope)


def lawn(lawn_line: Each[Number], lawns: Table) -> Each[Text]:
    """The lawn."""
    return at(lawns.name, lawn_line)


def product(programme_line: Each[Number], programme: Table) -> Each[Text]:
    """The product."""
    return at(programme.product, programme_line)


def area(lawn_line: Each[Number], lawns: Table) -> Each[Area]:
    """The area (m²) of the lawn; blank where it has none."""
    return at(lawns.area, lawn_line)


def product_line(programme_line: Each[Number], programme: Table) -> Each[Number]:
    """The line of the product in the catalogue; blank for an unknown one."""
    return at(programme.product_line, programme_line)


def family_key(lawn_line: Each[Number], product_line: Each[Number], products: Table, ones: Table) -> Each[Number]:
    """One number for the lawn and the product's family."""
    return lawn_line * only(ones.key_step) + at(products.family_line, product_line)


def times_planned(programme_line: Each[Number], programme: Table) -> Each[Number]:
    """How many visits the line plans."""
    return at(programme.times_planned, programme_line)


def planned_to_date(programme_line: Each[Number], programme: Table) -> Each[Number]:
    """How many of them were to be up to the as-of date."""
    return at(programme.planned_to_date, programme_line)


def method_key(family_key: Each[Number], programme_line: Each[Number], programme: Table, ones: Table) -> Each[Number]:
    """The key of lawn and family, another one where the line is spread dry."""
    dry = is_dry(at(programme.method, programme_line))
    return family_key + where(dry, only(ones.dry_step), 0.0)


def family_times(method_key: Each[Number], times_planned: Each[Number]) -> Each[Number]:
    """How many visits all lines together plan of this family by this method on this lawn; blank without a family."""
    return where(blank(method_key), np.nan, sum_by(method_key, method_key, times_planned))


def product_key(lawn_line: Each[Number], product_line: Each[Number], ones: Table) -> Each[Number]:
    """One number for lawn and product, as the diary's keys have it before they count the day."""
    step = only(ones.key_step)
    return (lawn_line * step + product_line) * step


def _done_days(diary: Table) -> Days:
    """The days on which each product was put on each lawn."""
    return Days(joined(diary.lawn_line, diary.product_line), diary.date)


def interval(programme_line: Each[Number], programme: Table) -> Each[Time]:
    """The time (day) from one visit to the next; blank where there is one alone."""
    return at(programme.interval, programme_line)


def from_day(programme_line: Each[Number], programme: Table, settings: Table, ones: Table) -> Each[Number]:
    """The first day that counts for the line, by its number in the diary's keys."""
    return _since(programme_line, programme, settings) - only(ones.key_day)


def until_day(
    programme_line: Each[Number], programme: Table, settings: Table, start: Table, ones: Table
) -> Each[Number]:
    """The last day that counts for the line, by its number in the diary's keys."""
    return _until(programme_line, programme, settings, start) - only(ones.key_day)


def _margin(settings: Table) -> float:
    return dates.in_days(only(settings.line_margin))


def _since(programme_line: Each[Number], programme: Table, settings: Table) -> Each[Date]:
    """The first day that counts for the line."""
    return at(programme.first, programme_line) - _margin(settings)


def _until(programme_line: Each[Number], programme: Table, settings: Table, start: Table) -> Each[Date]:
    """The last day that counts for the line."""
    return np.minimum(only(start.as_of), at(programme.last, programme_line) + _margin(settings))


def done(
    lawn_line: Each[Number],
    product_line: Each[Number],
    programme_line: Each[Number],
    diary: Table,
    programme: Table,
    settings: Table,
    start: Table,
) -> Each[Number]:
    """On how many days the product was put on the lawn, from the line's first date to its last, with the margin.

    Days after the as-of date do not count. 0 for an unknown product.
    """
    key = joined(lawn_line, product_line)
    return _done_days(diary).number(
        key, _since(programme_line, programme, settings), _until(programme_line, programme, settings, start)
    )


def last_done(
    lawn_line: Each[Number],
    product_line: Each[Number],
    programme_line: Each[Number],
    diary: Table,
    programme: Table,
    settings: Table,
    start: Table,
) -> Each[Date]:
    """The latest of those days; blank where there is none."""
    key = joined(lawn_line, product_line)
    return _done_days(diary).latest(
        key, _since(programme_line, programme, settings), _until(programme_line, programme, settings, start)
    )


def following(last_done: Each[Date], interval: Each[Time]) -> Each[Date]:
    """The day it was done last + the interval, in whole days; blank where it never was, or where there is no interval.

    Missed visits never stack. Common practice, no source.

    >>> from wbgen.units.quantity import FLOAT
    >>> following(np.array([100.0, np.nan]), FLOAT.Quantity(np.array([2.0, 2.0]), "week"))
    array([114.,  nan])
    """
    return last_done + half_up(half_up(interval.to("day").magnitude, 6))


def next_due(
    programme_line: Each[Number],
    times_planned: Each[Number],
    done: Each[Number],
    following: Each[Date],
    programme: Table,
    start: Table,
) -> Each[Date]:
    """The day on which it is due next: the first of the line, then an interval after it was done last.

    Blank where it is done as often as planned, where the line is over, and where the next day is past its end.
    """
    first, last = at(programme.first, programme_line), at(programme.last, programme_line)
    found: Each[Date] = where(done == 0, first, where(following <= last, following, np.nan))
    over = (done >= times_planned) | (only(start.as_of) > last)
    return where(over, np.nan, found)


def state(
    done: Each[Number], times_planned: Each[Number], next_due: Each[Date], start: Table, settings: Table
) -> Each[Text]:
    """Whether it is done, missed, overdue, due within the time that the settings look ahead, or later."""
    as_of = only(start.as_of)
    ahead = as_of + dates.in_days(only(settings.due_time))
    coming = where(next_due < as_of, "overdue", where(next_due <= ahead, "due", "later"))
    return where(done >= times_planned, "done", where(blank(next_due), "missed", coming))


def days_late(state: Each[Text], next_due: Each[Date], start: Table) -> Each[Time]:
    """How long it is overdue; blank where it is not."""
    return with_unit(where(state == "overdue", only(start.as_of) - next_due, np.nan), "day")


def to_come(
    programme_line: Each[Number],
    times_planned: Each[Number],
    done: Each[Number],
    next_due: Each[Date],
    programme: Table,
    start: Table,
) -> Each[Number]:
    """How many visits are still to come: those that are left, as far as they fit before the line's end.

    One where the line has no interval, or one of no days.
    """
    apart = at(programme.interval, programme_line).to("day").magnitude
    from_now = np.fmax(next_due, only(start.as_of))
    fitting = down(half_up(ratio(at(programme.last, programme_line) - from_now, apart), 6)) + 1
    left = where(blank(fitting), 1.0, np.minimum(times_planned - done, fitting))
    return where(blank(next_due), 0.0, left)


def season_to_come(
    to_come: Each[Number], next_due: Each[Date], interval: Each[Time], growth_view: Table, start: Table
) -> Each[Number]:
    """How many of the visits to come are due before the next season starts."""
    apart = interval.to("day").magnitude
    from_now = np.fmax(next_due, only(start.as_of))
    before = only(growth_view.year_end) - 1 - from_now
    fitting = down(half_up(ratio(before, apart), 6)) + 1
    inside = where(blank(fitting), np.minimum(to_come, 1.0), np.minimum(to_come, fitting))
    return where(blank(next_due) | (before <= -1), 0.0, inside)


def season_cost(cost_to_come: Each[Money], season_to_come: Each[Number], to_come: Each[Number]) -> Each[Money]:
    """What these cost (currency): their share of the cost of all to come; blank where that is not known."""
    share = or_zero(ratio(season_to_come, to_come))
    return where(blank(cost_to_come), np.nan, cost_to_come * share)


def mass_to_come(to_come: Each[Number], programme_line: Each[Number], area: Each[Area], programme: Table) -> Each[Mass]:
    """The mass (g) of a solid for them; blank without a rate or an area."""
    return (at(programme.rate_mass, programme_line) * area * to_come).to("g")


def volume_to_come(
    to_come: Each[Number], programme_line: Each[Number], area: Each[Area], programme: Table
) -> Each[Volume]:
    """The volume (mL) of a liquid for them; blank without a rate or an area."""
    return (at(programme.rate_volume, programme_line) * area * to_come).to("mL")


def cost_to_come(
    product_line: Each[Number], mass_to_come: Each[Mass], volume_to_come: Each[Volume], products: Table
) -> Each[Money]:
    """What they cost (currency); blank where there is no price, or nothing is known to come."""
    solid = (mass_to_come * at(products.price_by_mass, product_line)).to("currency")
    liquid = (volume_to_come * at(products.price_by_volume, product_line)).to("currency")
    return where(blank(solid) & blank(liquid), np.nan, or_zero(solid) + or_zero(liquid))


@of_family("nutrients")
def coming_each(
    season_to_come: Each[Number], programme_line: Each[Number], product_line: Each[Number], programme: Table
) -> Each[NutrientPerArea]:
    """The nutrient (g/m²) that those of this season bring; blank for an unknown product."""
    return where(blank(product_line), np.nan, season_to_come * at(programme.by_area_each, programme_line))


def visit_day(lawn_line: Each[Number], next_due: Each[Date], lawns: Table, round_whole: Table) -> Each[Date]:
    """The day it goes on, as a serial number: when it is due, or the first day of the round if that is later.

    On a lawn with a round day it is the first of these from then on. A serial number of 1 is a Sunday (1 January 1900
    by a spreadsheet's count, which has a 29 February 1900), so that its rest by seven is the day of the week.
    """
    day = np.maximum(next_due, only(round_whole.begins))
    wait = (at(lawns.weekday, lawn_line) - day) % 7
    return day + np.nan_to_num(wait)


def round_key(
    number: Each[Number],
    lawn_line: Each[Number],
    area: Each[Area],
    visit_day: Each[Date],
    lawns: Table,
    ones: Table,
    round_whole: Table,
) -> Each[Number]:
    """One number that rises by the day, then in walking order, then in the order of the lines.

    Blank for what is not in the round.
    """
    step = only(ones.key_step)
    key = ((visit_day - only(round_whole.begins)) * step + at(lawns.walk_rank, lawn_line)) * step + number
    return where((visit_day <= only(round_whole.until)) & ~blank(area), key, np.nan)
