"""What is to be said of each line of the programme: mistakes, and what its label or another line speaks against."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.programme.programme._dates import dates_that, dates_word
from wbgen.model.tools.lines import at, lines_at
from wbgen.model.tools.relations import blank, folded, latest_by, where
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.traits import NEVER, yes
from wbgen.model.tools.words import counts, days, listed, together

Value = Any


def too_often(interval: Value, product_line: Value, products: Value) -> Value:
    """Where the interval is less than the product's least: both, in days."""
    least = at(products.least_interval, product_line).to("day")
    said = "every " + days(interval) + " days, at least " + counts(least.magnitude)
    return where(exceeds(least, interval), said, "")


def most_planned(product: Value, times_planned: Value, product_line: Value, due: Value) -> Value:
    """How often the product's family is meant to go on the lawn that gets most of it, by all lines together."""
    on_a_lawn = latest_by(due.programme_line, lines_at(np.arange(len(product))), due.family_times)
    return where(blank(product_line), np.nan, np.fmax(on_a_lawn, times_planned))


def too_many(most_planned: Value, product_line: Value, products: Value) -> Value:
    """Where a lawn is to get more of the product's family in the season than the label allows: both numbers."""
    most = at(products.most_a_year, product_line)
    said = counts(most_planned) + " times, " + at(products.most_words, product_line) + " a year"
    return where((most > 0) & (most_planned > most), said, "")


def out_of_months(product: Value, applications: Value) -> Value:
    """How many of the line's dates lie in months that the product does not suit."""
    number = dates_that(applications, yes(applications.out_of_month), len(product))
    return where(number > 0, counts(number) + dates_word(number) + "out of its months", "")


def meets(product: Value, applications: Value) -> Value:
    """On how many of the line's dates another line puts something beside it that it must never meet in a tank."""
    number = dates_that(applications, applications.level >= NEVER, len(product))
    return where(number > 0, counts(number) + dates_word(number) + "with something it must not meet", "")


def line_state(
    product_line: Value,
    lawn: Value,
    group: Value,
    scope_key: Value,
    first: Value,
    last: Value,
    every: Value,
    times: Value,
    rate_mass: Value,
    rate_volume: Value,
    method: Value,
) -> Value:
    """What is to be mlisted in the line, all that holds."""
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
    )


def line_verdict(
    line_state: Value, too_often: Value, too_many: Value, out_of_months: Value, meets: Value, over_place: Value
) -> Value:
    """All that is to be said of the line; that it is as planned, where there is nothing."""
    said = together(line_state, too_often, too_many, out_of_months, meets, over_place)
    return where(blank(said), "as planned", said)
