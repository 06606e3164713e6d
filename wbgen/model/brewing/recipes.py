"""The recipes: one record a brew; how much of it the round needs, in what batches, and when to begin.

One record a brew: shape (recipes,). Dates are serial numbers, the time of day being their fraction.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.dates import in_days
from wbgen.model.tools.elementwise import as_number, blank, magnitude, only, or_zero, ratio, where
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.relations import count_by, latest_by, sum_by
from wbgen.model.tools.rounding import half_up, up
from wbgen.model.tools.words import amount, in_words, listed
from wbgen.model.types import Date, Each, Mask, Number, Table, Text, Time, Volume

BLANK_UNLESS = ("product",)


def product_line(product: Each[Text], products: Table) -> Each[Number]:
    """The line of each product in the catalogue, its heading row being line 1; blank for an unknown one."""
    return match(product, products.name)


def needed(product: Each[Text], round_lines: Table) -> Each[Volume]:
    """The volume (L) that the round takes; 0 where it takes none."""
    return sum_by(round_lines.product, product, round_lines.volume).to("L")


def wanted(needed: Each[Volume], extra: Each[Number]) -> Each[Volume]:
    """The volume (L) to brew: with what is brewed beyond the need, as a share of it."""
    return needed * (1 + as_number(or_zero(extra)))


def batches(wanted: Each[Volume], batch: Each[Volume]) -> Each[Number]:
    """The whole batches; one that is filled exactly is no reason for another. Blank without a batch to speak of."""
    return up(half_up(as_number(ratio(wanted, batch)), 9))


def each_batch(wanted: Each[Volume], batches: Each[Number]) -> Each[Volume]:
    """The volume (L) of each of them, all alike; blank where there are none."""
    return ratio(wanted, batches)


def _days(product: Each[Text], round_lines: Table, sign: int) -> Each[Date]:
    """The latest day (1), or the earliest with its sign turned (-1), on which the round puts some of it on."""
    some = magnitude(round_lines.volume) > 0
    return latest_by(round_lines.product, product, sign * round_lines.day, some)


def goes_on(
    product: Each[Text], wanted: Each[Volume], round_lines: Table, due: Table, round_whole: Table
) -> Each[Date]:
    """The first day on which the round puts some of it on; where it takes none, the next day that is due after it."""
    after = (due.next_due > only(round_whole.until)) & (magnitude(due.volume_to_come) > 0)
    next_due = -latest_by(due.product, product, -due.next_due, after)
    return where(magnitude(wanted) > 0, -_days(product, round_lines, -1), next_due)


def begin(goes_on: Each[Date], brewing_time: Each[Time], settings: Table) -> Each[Date]:
    """When to begin, so that it is ready at the hour of use on that day; blank where there is no such day."""
    begun = ready(goes_on, settings) - in_days(brewing_time)
    return where(blank(brewing_time), np.nan, begun)


def to_start(begin: Each[Date], start: Table) -> Each[Date]:
    """When to begin, where that is not past on the as-of date."""
    return where(begin >= only(start.as_of), begin, np.nan)


def begun_now(begin: Each[Date], brewing_time: Each[Time], settings: Table, start: Table) -> Each[Date]:
    """Where the start is past: when a brew is ready that is begun on the as-of date at the hour of use."""
    today = only(start.as_of)
    return where(begin < today, ready(today, settings) + in_days(brewing_time), np.nan)


def start_words(
    product: Each[Text], brewing_time: Each[Time], begin: Each[Date], goes_on: Each[Date], wanted: Each[Volume],
    round_lines: Table, settings: Table, start: Table, months: Table,
) -> Each[Text]:  # fmt: skip
    """Whether that is past, on the as-of date, or later, and whether one brew will do.

    Blank where nothing is to be begun.
    """
    today = only(start.as_of)
    begun = in_words(begun_now(begin, brewing_time, settings, start), months)
    past = "the start is past, unless it brews already: begun now, it is ready on " + begun
    ahead = where(begin < today + 1, "start now", "in time")
    again = where(_days(product, round_lines, 1) > goes_on, "; it goes on on several days: choose a shorter round", "")
    other = where(magnitude(wanted) > 0, again, "; for how much, choose the round of that day")
    return where(blank(begin), "", where(begin < today, past, ahead) + other)


def coming(product: Each[Text], extra: Each[Number], stock: Table) -> Each[Volume]:
    """The volume (L) to brew for the rest of the programme, with what is brewed beyond the need."""
    return sum_by(stock.product, product, stock.needed_volume).to("L") * (1 + as_number(or_zero(extra)))


def ready(goes_on: Each[Date], settings: Table) -> Each[Date]:
    """When it is ready: at the hour of use on that day; blank where there is no such day."""
    return goes_on + in_days(only(settings.use_time))


def use_by(ready: Each[Date], use_within: Each[Time]) -> Each[Date]:
    """Until when it is to be used; blank where that is not said."""
    return where(blank(use_within), np.nan, ready + in_days(use_within))


def recipe_state(
    product: Each[Text],
    product_line: Each[Number],
    batch: Each[Volume],
    use_within: Each[Time],
    products: Table,
    settings: Table,
    misplaced_batch: Mask,
    misplaced_brewing_time: Mask,
    misplaced_use_within: Mask,
    misplaced_extra: Mask,
) -> Each[Text]:
    """What is to be mended in the recipe, all that holds."""
    by_mass = ~blank(product_line) & (at(products.measured_by, product_line) != "volume")
    text = misplaced_batch | misplaced_brewing_time | misplaced_use_within | misplaced_extra
    return listed(
        where(blank(product_line), "; unknown product", "")
        + where(by_mass, "; a brew is measured by volume", "")
        + where(magnitude(or_zero(batch)) == 0, "; how much is a batch", "")
        + where(count_by(product, product) > 1, "; this product stands twice", "")
        + where(text, "; a text stands where a number belongs", "")
        + _kept_long(use_within, settings.brew_life)
    )


def _kept_long(use_within: Each[Time], brew_life: Time) -> Each[Text]:
    """Asked where a recipe keeps the brew longer than the setting; nothing without one."""
    over = half_up(magnitude((use_within - brew_life).to("h")), 9) > 0
    return where(over, f"; kept for more than {amount(brew_life, 'h', 1)}, ask whether it still is fit for use", "")
