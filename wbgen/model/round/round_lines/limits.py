"""What speaks against a line of the round on its day: the label, the place, the month, and what the diary has.

A level is 0 go, 1 ask first, 2 do not.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import keys
from wbgen.model.tools.dates import month_of, or_first, season_start_of
from wbgen.model.tools.elementwise import blank, only, or_zero, where, with_unit, yes
from wbgen.model.tools.growth import growth_of, is_known, is_slow, is_watched
from wbgen.model.tools.lines import at
from wbgen.model.tools.methods import is_dry, way
from wbgen.model.tools.order import Days
from wbgen.model.tools.relations import count_by, joined, pick, sum_by
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.words import counts, days, listed
from wbgen.model.types import Date, Each, NitrogenPerArea, Number, Table, Text, Time, each


def nitrogen(programme_line: Each[Number], programme: Table) -> Each[NitrogenPerArea]:
    """The nitrogen (g N/m²) that the line brings; 0 where that is not known."""
    return or_zero(at(programme.by_area_nitrogen, programme_line))


def soluble(programme_line: Each[Number], programme: Table) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) that the line brings; 0 where that is not known."""
    return or_zero(at(programme.soluble_nitrogen, programme_line))


def visit_nitrogen(lawn: Each[Text], day: Each[Date], nitrogen: Each[NitrogenPerArea]) -> Each[NitrogenPerArea]:
    """The nitrogen (g N/m²) of all lines of the round that are for the same lawn and day."""
    return sum_by(joined(lawn, day), joined(lawn, day), nitrogen)


def visit_soluble(lawn: Each[Text], day: Each[Date], soluble: Each[NitrogenPerArea]) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) of them."""
    return sum_by(joined(lawn, day), joined(lawn, day), soluble)


def _family(product_line: Each[Number], products: Table) -> Each[Text]:
    return at(products.family, product_line)


def method_key(spot: Each[Number], day: Each[Date], due: Table, ones: Table) -> Each[Number]:
    """One number for lawn, family, method and day, as the diary has it; blank without a family."""
    return keys.day_key(at(due.method_key, spot), day, ones)


def visit_key(method_key: Each[Number], method: Each[Text], ones: Table) -> Each[Number]:
    """One number for lawn, family and day, as the diary has it for its visits, by either method."""
    return method_key - where(is_dry(method), only(ones.dry_step) * only(ones.key_step), 0.0)


def _visited(diary: Table, products: Table) -> Each[Text]:
    """The lawn and family of each line of the diary as one."""
    return joined(diary.lawn_line, _family(diary.product_line, products))


def _own(spot: Each[Number], product_line: Each[Number], due: Table, products: Table) -> Each[Text]:
    return joined(at(due.lawn_line, spot), _family(product_line, products))


def _before(day: Each[Date]) -> Each[Date]:
    """The last moment that is before the day."""
    return each(np.nextafter(day, -np.inf))


def days_since(
    spot: Each[Number], product_line: Each[Number], day: Each[Date], diary: Table, due: Table, products: Table
) -> Each[Time]:
    """The time from the family's last visit to the lawn before the day; blank where there is none."""
    visits = Days(_visited(diary, products), diary.date)
    last = visits.latest(_own(spot, product_line, due, products), each(np.zeros(len(day))), _before(day))
    return with_unit(day - last, "day")


def number_this_season(
    spot: Each[Number],
    product_line: Each[Number],
    method: Each[Text],
    day: Each[Date],
    diary: Table,
    due: Table,
    products: Table,
    settings: Table,
) -> Each[Number]:
    """The number that this visit of the family, by its method, would have in its season on the lawn; else blank."""
    own = _own(spot, product_line, due, products)
    visits = Days(joined(_visited(diary, products), way(diary.method)), diary.date)
    began = season_start_of(day, or_first(only(settings.season_month)), or_first(only(settings.season_day)))
    number = visits.number(joined(own, way(method)), began, _before(day)) + 1
    return where(blank(own), np.nan, number)


def place_words(
    programme_line: Each[Number],
    nitrogen: Each[NitrogenPerArea],
    soluble: Each[NitrogenPerArea],
    visit_nitrogen: Each[NitrogenPerArea],
    visit_soluble: Each[NitrogenPerArea],
    programme: Table,
    place: Table,
) -> Each[Text]:
    """Which limits of the place the line would help to break; one that brings no nitrogen breaks none of nitrogen."""
    much = exceeds(nitrogen, 0.0) & exceeds(visit_nitrogen, only(place.most_nitrogen))
    quick = exceeds(soluble, 0.0) & exceeds(visit_soluble, only(place.most_soluble))
    brings = exceeds(or_zero(at(programme.by_area_phosphate, programme_line)), 0.0)
    return (
        where(much, "; more nitrogen than allowed", "")
        + where(quick, "; more soluble nitrogen than allowed", "")
        + where(yes(only(place.no_phosphorus)) & brings, "; phosphorus is not allowed", "")
    )


def often_words(programme_line: Each[Number], number_this_season: Each[Number], programme: Table) -> Each[Text]:
    """Which visit of the season it would be, where that is more than the number of a year."""
    most, words = at(programme.most_a_year, programme_line), at(programme.most_words, programme_line)
    said = "; number reached, this is number " + counts(number_this_season) + ", " + words
    return where((most > 0) & (number_this_season > most), said, "")


def stop_words(
    day: Each[Date],
    place_words: Each[Text],
    often_words: Each[Text],
    iron_stops: Each[Text],
    programme_line: Each[Number],
    programme: Table,
    months: Table,
    place: Table,
) -> Each[Text]:
    """Everything for which the line must not go on; the rule of the place is named once."""
    over, level = at(programme.over_label, programme_line), at(programme.over_level, programme_line)
    closed = yes(pick(months.closed, month_of(day) - 1))
    ruled = where(blank(place_words), "", place_words + f" by: {only(place.rule_words)}")
    return listed(
        where(closed, "; a closed month", "")
        + ruled
        + where(level == 2, "; " + over, "")
        + iron_stops
        + where(yes(at(programme.number_binds, programme_line)), often_words, "")
    )


def _by_how_much(programme_line: Each[Number], days_since: Each[Time], programme: Table) -> Each[Text]:
    """The time since and the least interval, in whole days or tenths."""
    return days(days_since) + " days, at least " + days(at(programme.least_interval, programme_line))


def soon_words(programme_line: Each[Number], days_since: Each[Time], programme: Table) -> Each[Text]:
    """By how much the family comes too soon: sooner than the least interval, by more than the tolerance."""
    soon = exceeds(at(programme.soonest, programme_line), days_since)
    return where(soon, "; too soon, " + _by_how_much(programme_line, days_since, programme), "")


def early_words(
    programme_line: Each[Number], days_since: Each[Time], soon_words: Each[Text], programme: Table
) -> Each[Text]:
    """By how little the family comes too soon, where nobody is asked about it."""
    early = exceeds(at(programme.least_interval, programme_line), days_since) & blank(soon_words)
    return where(early, "; a little early, " + _by_how_much(programme_line, days_since, programme), "")


def growth(
    spot: Each[Number],
    programme_line: Each[Number],
    day: Each[Date],
    due: Table,
    lawns: Table,
    programme: Table,
    months: Table,
    settings: Table,
) -> Each[Text]:
    """Whether the lawn's grass grows in the month, for what asks for it: hardly any, enough, or not known."""
    month = month_of(day)
    found = growth_of(at(lawns.grass, at(due.lawn_line, spot)), month, months)
    known = where(is_known(month, months), where(is_slow(found, settings), "hardly any", "enough"), "not known")
    return where(yes(at(programme.needs_growth, programme_line)) & is_watched(settings), known, "")


def ask_words(
    product_line: Each[Number],
    lawn: Each[Text],
    day: Each[Date],
    twice_words: Each[Text],
    soon_words: Each[Text],
    often_words: Each[Text],
    growth: Each[Text],
    nitrogen_asks: Each[Text],
    iron_asks: Each[Text],
    programme_line: Each[Number],
    products: Table,
    programme: Table,
    lawns: Table,
) -> Each[Text]:
    """Everything that is to be asked about before the line goes on."""
    salts, unstated = (at(one, programme_line) for one in (programme.salts_words, programme.unstated))
    over, level = at(programme.over_label, programme_line), at(programme.over_level, programme_line)
    unsuited = [
        month == month and signs[int(month) - 1 : int(month)] == "-"
        for signs, month in zip(at(products.months_suited, product_line), month_of(day), strict=True)
    ]
    return listed(
        twice_words
        + soon_words
        + where(yes(at(programme.number_binds, programme_line)), "", often_words)
        + where(level == 1, "; " + over, "")
        + nitrogen_asks
        + iron_asks
        + where(blank(salts), "", "; " + salts)
        + where(blank(unstated), "", "; " + unstated)
        + where(np.array(unsuited), "; out of its months", "")
        + where(growth == "hardly any", "; the grass hardly grows", "")
        + where(count_by(lawns.strip, lawn) > 0, "; an untreated strip", "")
    )


def line_level(stop_words: Each[Text], ask_words: Each[Text]) -> Each[Number]:
    """2 for what must not go on, 1 where it is to be asked first, else 0."""
    return where(blank(stop_words), where(blank(ask_words), 0.0, 1.0), 2.0)
