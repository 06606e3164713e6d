"""Whether a line of the diary counts, and what is odd about it as a record, whatever it came to."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, is_word, magnitude, only, or_zero, where
from wbgen.model.tools.keys import day_key
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.methods import is_not_done
from wbgen.model.tools.rounding import half_up
from wbgen.model.types import Date, Each, Mask, Mass, Number, Table, Text, Volume


def line_key(date: Each[Date], lawn: Each[Text], product: Each[Text], lawns: Table, ones: Table) -> Each[Number]:
    """One number for the lawn, the day and the line, the first of the diary being 1; it rises in that order.

    Blank where there is no date, lawn or product: such a line is in no total. A lawn that is not known is line 0.

    >>> from types import SimpleNamespace
    >>> lawns, ones = SimpleNamespace(name=np.array(["Front"], dtype=object)), SimpleNamespace(key_step=100, key_day=9)
    >>> names = np.array(["Front", "Back", "Front"], dtype=object)
    >>> line_key(np.array([12.0, 12.0, np.nan]), names, names, lawns, ones)
    array([20301.,   302.,    nan])
    """
    whole = ~blank(date) & ~blank(lawn) & ~blank(product)
    key = day_key(or_zero(match(lawn, lawns.name)), date, ones) * only(ones.key_step) + np.arange(len(date)) + 1.0
    return where(whole, key, np.nan)


def not_done_key(
    date: Each[Date], lawn: Each[Text], product: Each[Text], method: Each[Text], lawns: Table, ones: Table
) -> Each[Number]:
    """One number for the lawn and day of a visit that was skipped; higher by a step for one that was put off.

    Blank for a lawn that is not known, and for a line with a product.
    """
    key = day_key(match(lawn, lawns.name), date, ones) + where(is_word(method, "put off"), only(ones.dry_step), 0.0)
    return where(is_not_done(method) & blank(product), key, np.nan)


def _incomplete(named: list[Mask], measured: list[Mask]) -> Mask:
    """True where a line is begun and has nothing for its date, its lawn or its product. A text is something."""
    return np.asarray(np.any([*named, *measured], axis=0) & ~np.all(named, axis=0))


def _stands_twice(
    key: Each[Number],
    product_day_key: Each[Number],
    method: Each[Text],
    weighed: Each[Mass],
    poured: Each[Volume],
    note: Each[Text],
) -> Mask:
    """True where a line says once more what the first of its lawn, product and day says, and no note says why.

    An amount that is not given is 0. Another load of the day has another amount, or a note.
    """
    first = match(key, product_day_key)
    alike = folded(at(method, first)) == folded(method)
    for amount in (weighed, poured):
        more = half_up(or_zero(at(amount, first)) - or_zero(amount), 9)
        alike &= magnitude(more) == 0
    return np.asarray(alike & ~blank(key) & blank(product_day_key) & blank(note))


def flag_record(
    line_key: Each[Number],
    date: Each[Date],
    lawn: Each[Text],
    product: Each[Text],
    product_line: Each[Number],
    lawn_line: Each[Number],
    product_key: Each[Number],
    product_day_key: Each[Number],
    method: Each[Text],
    weighed: Each[Mass],
    poured: Each[Volume],
    note: Each[Text],
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
    lawns: Table,
) -> Each[Text]:
    """What is odd about the line itself.

    What is missing or misplaced, unknown, twice, on an untreated strip, not said, or out of the order of the days.
    """
    rates = misplaced_planned_mass_rate | misplaced_planned_volume_rate
    measures = misplaced_weighed | misplaced_poured | misplaced_water | misplaced_left_over | misplaced_treated_area
    weather = misplaced_air_temperature | misplaced_wind | misplaced_rain
    text = where(misplaced_date | rates | measures | weather, "; a text stands where a number belongs", "")
    by, counts = folded(method), ~blank(line_key)
    nothing = ~(magnitude(weighed) > 0) & ~(magnitude(poured) > 0)
    strip = at(lawns.strip_for, lawn_line)
    twice = _stands_twice(product_key, product_day_key, method, weighed, poured, note)
    of_counted = (
        where(blank(product_line), "; unknown product", "")
        + where(blank(lawn_line), "; unknown lawn", "")
        + where(blank(strip), "", "; an untreated strip of " + strip)
        + where(twice, "; stands twice: delete it, or say in its note why", "")
        + where(is_not_done(method), "; what was not done has no product", "")
        + where((by != "spray") & (by != "dry") & ~is_not_done(method), "; say spray or dry", "")
        + where(nothing, "; nothing weighed or poured", "")
    )
    begun = _incomplete(
        [~blank(date) | misplaced_date, ~blank(lawn), ~blank(product)],
        [~blank(weighed) | misplaced_weighed, ~blank(poured) | misplaced_poured],
    )
    lacking = where(begun & ~is_not_done(method), "; date, lawn or product is missing: not counted", "")
    misplaced = text + where(~blank(text) & ~counts, "; not counted", "")
    return misplaced + where(counts, of_counted, lacking)
