"""On which lawns each line of the programme goes, how often, and how the dates are dealt out."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, like, magnitude, only, or_zero, ratio, where, with_unit
from wbgen.model.tools.growth import is_warm
from wbgen.model.tools.lines import at, lines_at, match
from wbgen.model.tools.relations import count_by, sum_by
from wbgen.model.tools.rounding import down, half_up
from wbgen.model.types import Area, Date, Each, Number, Table, Text, Time, each


def where_words(lawn: Each[Text], group: Each[Text]) -> Each[Text]:
    """Where the line goes: the lawn, the group, or all lawns."""
    return where(~blank(lawn), lawn, where(~blank(group), group, "all lawns"))


def scope_key(lawn: Each[Text], group: Each[Text], lawns: Table) -> Each[Number]:
    """The line of the lawn, or of the group's first lawn; 0 for all lawns.

    Blank for an unknown lawn or group, and where both are given.
    """
    one = where(blank(group), match(lawn, lawns.name), np.nan)
    several = where(blank(group), 0.0, match(group, lawns.group))
    return where(blank(lawn), several, one)


def lawns_counted(
    product: Each[Text], lawn: Each[Text], group: Each[Text], scope_key: Each[Number], lawns: Table
) -> Each[Number]:
    """How many lawns the line goes on; 0 without a product, or where it is not known on which.

    Only lawns that have a name count.
    """
    everywhere = float(np.sum(~blank(lawns.name)))
    several = where(blank(group), everywhere, count_by(lawns.group, group, ~blank(lawns.name)))
    return where(blank(product) | blank(scope_key), 0.0, where(blank(lawn), several, 1.0))


def warm_lawns(
    lawn: Each[Text], group: Each[Text], scope_key: Each[Number], lawns_counted: Each[Number], lawns: Table
) -> Each[Number]:
    """How many of these lawns are of warm-season grass; the others count as of the cool season."""
    warm = is_warm(lawns.grass) & ~blank(lawns.name)
    several = where(blank(group), float(np.sum(warm)), count_by(lawns.group, group, warm))
    one = where(is_warm(at(lawns.grass, where(blank(lawn), np.nan, scope_key))), 1.0, 0.0)
    return where(lawns_counted > 0, where(blank(lawn), several, one), 0.0)


def area_counted(lawn: Each[Text], group: Each[Text], scope_key: Each[Number], lawns: Table) -> Each[Area]:
    """The area (m²) of the lawns that the line goes on; a lawn without an area adds nothing."""
    several = sum_by(lawns.group, group, lawns.area)
    everywhere = like(several, np.full(len(group), np.nansum(magnitude(lawns.area))))
    one = or_zero(at(lawns.area, where(blank(lawn), np.nan, scope_key)))
    found: Each[Area] = where(blank(lawn), where(blank(group), everywhere, several), one)
    return where(blank(scope_key), like(found, 0.0), found)


def times_planned(
    product: Each[Text],
    lawns_counted: Each[Number],
    first: Each[Date],
    last: Each[Date],
    every: Each[Time],
    times: Each[Number],
) -> Each[Number]:
    """How many visits the line plans: those that fit between the dates at the interval, or the number given.

    0 for a line that is not complete. `every` is a time, `times` a number; one of the two is to be given.

    >>> from wbgen.units.quantity import FLOAT
    >>> one, none = np.array(["Urea"], dtype=object), np.array([np.nan])
    >>> week = FLOAT.Quantity(np.array([7.0]), "day")
    >>> times_planned(one, np.array([1.0]), np.array([45419.0]), np.array([45538.0]), week, none)
    array([18.])
    """
    days = every.to("day").magnitude
    at_interval = _whole(ratio(last - first, where(days > 0, days, np.nan))) + 1
    given = where(times >= 1, _whole(times), np.nan)
    found = where(blank(days), given, where(blank(times), at_interval, np.nan))
    complete = ~blank(product) & (lawns_counted > 0) & (last >= first)
    return where(complete, or_zero(found), 0.0)


def _whole(number: Each[Number]) -> Each[Number]:
    """The whole number in a quotient, a hair of floats aside."""
    return down(half_up(number, 6))


def interval(
    first: Each[Date], last: Each[Date], every: Each[Time], times: Each[Number], times_planned: Each[Number]
) -> Each[Time]:
    """The days from one visit to the next: as given, else the visits spread evenly from the first date to the last.

    Blank for a line of one visit, and where nothing is planned.
    """
    days = every.to("day").magnitude
    gaps = _whole(times) - 1
    spread = (last - first) / where(gaps > 0, gaps, np.nan)
    found = where(days > 0, days, spread)
    return with_unit(where(times_planned > 0, found, np.nan), "day")


def ends(last: Each[Date], shift: Each[Time]) -> Each[Date]:
    """The last day on which the line may go on: its last date, later by its shift."""
    return last + or_zero(shift).to("day").magnitude


def dates_up_to(times_planned: Each[Number]) -> Each[Number]:
    """How many dates the lines down to this one plan."""
    return each(np.cumsum(times_planned))


def pairs_up_to(times_planned: Each[Number], lawns_counted: Each[Number]) -> Each[Number]:
    """How many pairs of line and lawn the lines down to this one make; a line without a date makes none."""
    return each(np.cumsum(where(times_planned > 0, lawns_counted, 0.0)))


def planned_to_date(product: Each[Text], applications: Table, start: Table) -> Each[Number]:
    """How many of the line's dates are not after the as-of date."""
    lines = lines_at(np.arange(len(product)))
    return count_by(applications.programme_line, lines, applications.date <= only(start.as_of))
