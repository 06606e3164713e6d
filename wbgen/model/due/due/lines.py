"""Which line and lawn it is, how often and when it was done by the diary, and the day an interval later."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.lines import at, lines_at, match
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.order import Days, first_to_reach
from wbgen.model.tools.relations import joined, sum_by
from wbgen.model.tools.rounding import half_up
from wbgen.model.types import Area, Date, Each, Number, Table, Text


def programme_line(number: Each[Number], plan: Table, programme: Table) -> Each[Number]:
    """The line of the programme, its heading row being line 1; blank past the last pair."""
    lines = lines_at(first_to_reach(programme.pairs_up_to, number))
    return where(number > plan.pairs_total, np.nan, lines)


def lawn_line(
    number: Each[Number], programme_line: Each[Number], programme: Table, lawns: Table, ones: Table
) -> Each[Number]:
    """The line among the lawns, their heading row being line 1: the one named, or the one whose turn it is."""
    turn = number - at(programme.pairs_up_to - programme.lawns_counted, programme_line)
    scope = at(programme.scope_key, programme_line)
    of_group = match(scope * only(ones.key_step) + turn, lawns.group_key)
    of_all = match(turn, lawns.lawn_number)
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


def times_planned(programme_line: Each[Number], programme: Table) -> Each[Number]:
    """How many visits the line plans."""
    return at(programme.times_planned, programme_line)


def planned_to_date(programme_line: Each[Number], programme: Table) -> Each[Number]:
    """How many of them were to be up to the as-of date."""
    return at(programme.planned_to_date, programme_line)


def method_key(
    lawn_line: Each[Number],
    product_line: Each[Number],
    programme_line: Each[Number],
    products: Table,
    programme: Table,
    ones: Table,
) -> Each[Number]:
    """One number for the lawn and the product's family, another one where the line is spread dry."""
    dry = is_dry(at(programme.method, programme_line))
    family = at(products.family_line, product_line)
    return lawn_line * only(ones.key_step) + family + where(dry, only(ones.dry_step), 0.0)


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


def _since(programme_line: Each[Number], programme: Table, settings: Table) -> Each[Date]:
    """The first day that counts for the line."""
    return at(programme.first, programme_line) - dates.in_days(only(settings.line_margin))


def _until(programme_line: Each[Number], programme: Table, settings: Table, start: Table) -> Each[Date]:
    """The last day that counts for the line."""
    return np.minimum(only(start.as_of), at(programme.ends, programme_line) + dates.in_days(only(settings.line_margin)))


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


def following(last_done: Each[Date], programme_line: Each[Number], programme: Table) -> Each[Date]:
    """The day it was done last + the interval, in whole days; blank where it never was, or where there is no interval.

    Missed visits never stack. Common practice, no source.
    """
    return last_done + half_up(half_up(at(programme.interval, programme_line).to("day").magnitude, 6))
