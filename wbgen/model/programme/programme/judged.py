"""What is to be said of each line of the programme: mistakes, and what its label or another line speaks against."""

from __future__ import annotations

import numpy as np

from wbgen.model.programme.programme._dates import dates_that, dates_word
from wbgen.model.tools.elementwise import blank, folded, where, yes
from wbgen.model.tools.lines import lines_at
from wbgen.model.tools.relations import latest_by, sum_by
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.traits import NEVER, NOT_CHECKED
from wbgen.model.tools.words import counts, days, listed, together
from wbgen.model.types import Date, Each, Mask, MassPerArea, Number, Table, Text, Time, VolumePerArea


def _often(interval: Each[Time], least_interval: Each[Time]) -> Each[Text]:
    """The interval and the product's least, in days."""
    return "every " + days(interval) + " days, at least " + days(least_interval)


def too_often(interval: Each[Time], soonest: Each[Time], least_interval: Each[Time]) -> Each[Text]:
    """Where the interval is less than the product's least by more than the tolerance: both, in days."""
    return where(exceeds(soonest, interval), _often(interval, least_interval), "")


def early(too_often: Each[Text], interval: Each[Time], least_interval: Each[Time]) -> Each[Text]:
    """Where the interval is less than the product's least by no more than the tolerance, which is only noted."""
    little = exceeds(least_interval, interval) & blank(too_often)
    return where(little, "a little often: " + _often(interval, least_interval), "")


def most_planned(
    product: Each[Text], times_planned: Each[Number], product_line: Each[Number], due: Table
) -> Each[Number]:
    """How often the product's family is meant to go on the lawn that gets most of it, by all lines together."""
    on_a_lawn = latest_by(due.programme_line, lines_at(np.arange(len(product))), due.family_times)
    return where(blank(product_line), np.nan, np.fmax(on_a_lawn, times_planned))


def too_many(most_planned: Each[Number], most_a_year: Each[Number], most_words: Each[Text]) -> Each[Text]:
    """Where a lawn is to get more of the product's family in the season than the label allows: both numbers."""
    said = counts(most_planned) + " times, " + most_words + " a year"
    return where((most_a_year > 0) & (most_planned > most_a_year), said, "")


def out_of_months(product: Each[Text], applications: Table) -> Each[Text]:
    """How many of the line's dates lie in months that the product does not suit."""
    number = dates_that(applications, yes(applications.out_of_month), len(product))
    return where(number > 0, counts(number) + dates_word(number) + "out of its months", "")


def slow_dates(product: Each[Text], applications: Table) -> Each[Number]:
    """How many of the line's dates lie in months in which the grass of one of its lawns hardly grows."""
    return dates_that(applications, applications.slow_lawns > 0, len(product))


def unknown_dates(product: Each[Text], applications: Table) -> Each[Number]:
    """How many of the dates of a line that asks for growth lie in months whose growth is not known."""
    return dates_that(applications, yes(applications.growth_unknown), len(product))


def out_of_growth(slow_dates: Each[Number], lawns_counted: Each[Number], applications: Table) -> Each[Text]:
    """How many of the line's dates come when the grass hardly grows, on all of its lawns or on some."""
    lines = lines_at(np.arange(len(slow_dates)))
    lawns = sum_by(applications.programme_line, lines, applications.slow_lawns)
    grass = where(lawns < slow_dates * lawns_counted, "some of the grass", "the grass")
    said = counts(slow_dates) + dates_word(slow_dates) + "when " + grass + " hardly grows"
    return where(slow_dates > 0, said, "")


def meets(product: Each[Text], applications: Table) -> Each[Text]:
    """On how many of the line's dates another product is put beside it that it must never meet in a tank, and on how
    many there are too many to say."""
    number = dates_that(applications, applications.level == NEVER, len(product))
    unseen = dates_that(applications, applications.level == NOT_CHECKED, len(product))
    met = counts(number) + dates_word(number) + "with something it must not meet"
    too_many = "too many products on " + counts(unseen) + " of its days to hold them against one another"
    return together(where(number > 0, met, ""), where(unseen > 0, too_many, ""))


def line_state(
    product_line: Each[Number],
    lawn: Each[Text],
    group: Each[Text],
    scope_key: Each[Number],
    first: Each[Date],
    last: Each[Date],
    every: Each[Time],
    times: Each[Number],
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    method: Each[Text],
    misplaced_shift: Mask,
) -> Each[Text]:
    """What is to be mended in the line, all that holds."""
    both, lost = ~blank(lawn) & ~blank(group), blank(scope_key)
    neither = (folded(method) != "spray") & (folded(method) != "dry")
    return listed(
        where(blank(product_line), "; unknown product", "")
        + where(both, "; give a lawn or a group, not both", "")
        + where(lost & ~both & ~blank(lawn), "; unknown lawn", "")
        + where(lost & ~both & ~blank(group), "; unknown group", "")
        + where(blank(first) | blank(last), "; give first and last date", "")
        + where(last < first, "; ends before it begins", "")
        + where(blank(every) == blank(times), "; say every or times, one of them", "")
        + where(~blank(product_line) & blank(rate_mass) & blank(rate_volume), "; no rate", "")
        + where(neither, "; say spray or dry", "")
        + where(misplaced_shift, "; a text stands where the number of days belongs", "")
    )


def against(
    line_state: Each[Text],
    too_often: Each[Text],
    too_many: Each[Text],
    too_much: Each[Text],
    out_of_months: Each[Text],
    out_of_growth: Each[Text],
    meets: Each[Text],
    over_place: Each[Text],
) -> Each[Text]:
    """All that speaks against the line."""
    return together(line_state, too_often, too_many, too_much, out_of_months, out_of_growth, meets, over_place)


def line_verdict(
    against: Each[Text], unstated: Each[Text], early: Each[Text], unknown_growth: Each[Text]
) -> Each[Text]:
    """All that speaks against the line, or that nothing does; and behind it what is only to be noted.

    What is not stated could not be compared: it is asked about.
    """
    asked = where(blank(unstated), "", "ask first: " + unstated)
    noted = where(blank(early), "", ", " + early) + where(blank(unknown_growth), "", ", " + unknown_growth)
    found = together(against, asked)
    return where(blank(found), "nothing against it here" + noted, together(found, early, unknown_growth))
