"""Whether the month suits the product and the grass, and what is to be said of the day."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import only, where, yes
from wbgen.model.tools.growth import is_known, is_slow, is_watched
from wbgen.model.tools.lines import at
from wbgen.model.tools.relations import pick
from wbgen.model.tools.traits import NEVER, NOT_CHECKED
from wbgen.model.tools.words import counts, listed
from wbgen.model.types import (
    Date,
    Each,
    Mask,
    Number,
    Table,
    Text,
)


def out_of_month(month: Each[Number], product_line: Each[Number], products: Table) -> Each[Text]:
    """ "yes" where the product does not suit the month: a hyphen at its place among the twelve signs."""
    suited = at(products.months_suited, product_line)
    unsuited = [
        not np.isnan(number) and signs[int(number) - 1 : int(number)] == "-"
        for signs, number in zip(suited, month, strict=True)
    ]
    return where(np.array(unsuited, dtype=bool), "yes", "")


def month(date: Each[Date]) -> Each[Number]:
    """The number of the calendar month, 1 to 12."""
    return dates.month_of(date)


def closed_month(month: Each[Number], months: Table) -> Each[Text]:
    """ "yes" where the month is closed to feeding."""
    return pick(months.closed, month - 1)


def in_year(date: Each[Date], settings: Table, growth_view: Table) -> Each[Text]:
    """ "yes" where the date lies in this season, whether it is past or to come."""
    return where((date >= only(settings.season_start)) & (date < growth_view.year_end), "yes", "")


def growth_unknown(
    programme_line: Each[Number], month: Each[Number], programme: Table, months: Table, settings: Table
) -> Each[Text]:
    """ "yes" where the line asks for growth and the month has no mean temperature."""
    return where(_asks(programme_line, programme, settings) & ~is_known(month, months), "yes", "")


def _asks(programme_line: Each[Number], programme: Table, settings: Table) -> Mask:
    return yes(at(programme.needs_growth, programme_line)) & is_watched(settings)


def slow_lawns(
    programme_line: Each[Number],
    month: Each[Number],
    growth_unknown: Each[Text],
    programme: Table,
    months: Table,
    settings: Table,
) -> Each[Number]:
    """How many of the line's lawns hardly grow in the month, where it asks for growth and that is known."""
    warm: Each[Number] = at(programme.warm_lawns, programme_line)
    cool = at(programme.lawns_counted, programme_line) - warm
    slow = where(is_slow(pick(months.growth_cool, month - 1), settings), cool, 0.0)
    slow = slow + where(is_slow(pick(months.growth_warm, month - 1), settings), warm, 0.0)
    return where(_asks(programme_line, programme, settings) & ~yes(growth_unknown), slow, 0.0)


def _growth_words(unknown: Each[Text], slow: Each[Number], whole: Each[Number]) -> Each[Text]:
    """That the grass hardly grows, and on how many of the line's lawns if not on all; or that it is not known."""
    part = " on " + counts(slow) + " of " + counts(whole) + " lawns"
    hardly = "; the grass hardly grows" + where(slow == whole, "", part)
    return where(yes(unknown), "; growth not known", where(slow > 0, hardly, ""))


def date_words(
    level: Each[Number],
    out_of_month: Each[Text],
    closed_month: Each[Text],
    growth_unknown: Each[Text],
    slow_lawns: Each[Number],
    programme_line: Each[Number],
    programme: Table,
) -> Each[Text]:
    """What is to be said of the day."""
    met = where(level == NEVER, "; keep apart from others of this day", "; jar test with others of this day")
    unseen = "; too many products this day to hold them against one another"
    return listed(
        where(level > 0, where(level == NOT_CHECKED, unseen, met), "")
        + where(yes(out_of_month), "; out of its months", "")
        + where(yes(closed_month), "; a closed month", "")
        + _growth_words(growth_unknown, slow_lawns, at(programme.lawns_counted, programme_line))
    )
