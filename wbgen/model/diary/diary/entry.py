"""Whether a line of the diary counts, and what is odd about it as a record, whatever it came to."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, magnitude, or_zero, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.rounding import half_up
from wbgen.model.types import Date, Each, Mask, Mass, Number, Table, Text, Volume


def _mark(condition: Mask) -> Each[Number]:
    """1 where the condition holds, blank elsewhere."""
    return where(condition, 1.0, np.nan)


def counted(date: Each[Date], lawn: Each[Text], product: Each[Text]) -> Each[Number]:
    """1 where there are a date, a lawn and a product; without one of them a line is in no total.

    >>> counted(np.array([9.0, np.nan]), np.array(["Front"] * 2, dtype=object), np.array(["Urea"] * 2, dtype=object))
    array([ 1., nan])
    """
    return _mark(~blank(date) & ~blank(lawn) & ~blank(product))


def incomplete(
    date: Each[Date],
    lawn: Each[Text],
    product: Each[Text],
    weighed: Each[Mass],
    poured: Each[Volume],
    misplaced_date: Mask,
    misplaced_weighed: Mask,
    misplaced_poured: Mask,
) -> Each[Number]:
    """1 where a line is begun and has nothing for its date, its lawn or its product. A text is something."""
    named = [~blank(date) | misplaced_date, ~blank(lawn), ~blank(product)]
    measured = [~blank(weighed) | misplaced_weighed, ~blank(poured) | misplaced_poured]
    return _mark(np.any([*named, *measured], axis=0) & ~np.all(named, axis=0))


def non_numeric(
    misplaced_date: Mask,
    misplaced_weighed: Mask,
    misplaced_poured: Mask,
    misplaced_water: Mask,
    misplaced_left_over: Mask,
    misplaced_planned_mass_rate: Mask,
    misplaced_planned_volume_rate: Mask,
    misplaced_treated_area: Mask,
    misplaced_air_temperature: Mask,
    misplaced_wind: Mask,
    misplaced_rain: Mask,
) -> Each[Number]:
    """1 where something that is no date and no number stands for one."""
    rates = misplaced_planned_mass_rate | misplaced_planned_volume_rate
    measures = misplaced_weighed | misplaced_poured | misplaced_water | misplaced_left_over | misplaced_treated_area
    weather = misplaced_air_temperature | misplaced_wind | misplaced_rain
    return _mark(misplaced_date | rates | measures | weather)


def duplicate(
    product_first: Each[Number],
    product_day_key: Each[Number],
    method: Each[Text],
    weighed: Each[Mass],
    poured: Each[Volume],
    note: Each[Text],
) -> Each[Number]:
    """1 where a line says once more what the first of its lawn, product and day says, and no note says why.

    An amount that is not given is 0. Another load of the day has another amount, or a note.
    """
    alike = folded(at(method, product_first)) == folded(method)
    for amount in (weighed, poured):
        more = half_up(or_zero(at(amount, product_first)) - or_zero(amount), 9)
        alike &= magnitude(more) == 0
    return _mark(alike & ~blank(product_first) & blank(product_day_key) & blank(note))


def strip_of(lawn_line: Each[Number], lawns: Table) -> Each[Text]:
    """The lawn that is left unfed here, for comparison; blank where the line's lawn is no strip of another."""
    return at(lawns.strip_for, lawn_line)


def flag_record(
    counted: Each[Number],
    incomplete: Each[Number],
    non_numeric: Each[Number],
    product_line: Each[Number],
    lawn_line: Each[Number],
    duplicate: Each[Number],
    strip_of: Each[Text],
    method: Each[Text],
    weighed: Each[Mass],
    poured: Each[Volume],
) -> Each[Text]:
    """What is odd about the line itself: what is missing or misplaced, unknown, twice, on a strip, or not said."""
    by, counts = folded(method), counted == 1
    nothing = ~(magnitude(weighed) > 0) & ~(magnitude(poured) > 0)
    begun = (incomplete == 1) | (non_numeric == 1)
    of_counted = (
        where(blank(product_line), "; unknown product", "")
        + where(blank(lawn_line), "; unknown lawn", "")
        + where(duplicate == 1, "; stands twice: delete it, or say in its note why", "")
        + where(blank(strip_of), "", "; an untreated strip of " + strip_of)
        + where((by != "spray") & (by != "dry"), "; say spray or dry", "")
        + where(nothing, "; nothing weighed or poured", "")
    )
    return (
        where(incomplete == 1, "; date, lawn or product is missing", "")
        + where(non_numeric == 1, "; a text stands where a number belongs", "")
        + where(counts, of_counted, where(begun, "; not counted", ""))
    )
