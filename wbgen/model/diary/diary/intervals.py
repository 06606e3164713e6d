"""Times of each line of the diary: since the last of its family on the lawn, and its number in the season."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, only, where, with_unit
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.methods import is_dry, way
from wbgen.model.tools.order import Days, below, distinct_upto, is_first, up_to
from wbgen.model.tools.relations import find, joined
from wbgen.model.types import (
    Date,
    Each,
    Number,
    Table,
    Text,
    Time,
)


def _of_family(family: Each[Text], lawn: Each[Text], lawn_line: Each[Number]) -> Each[Text]:
    """The lawn and family of each line as one; blank for a lawn that nobody has."""
    return where(np.isnan(lawn_line), "", joined(family, lawn))


def visit_key(
    product_line: Each[Number], lawn_line: Each[Number], date: Each[Date], products: Table, ones: Table
) -> Each[Number]:
    """One number for lawn, family and day; within a lawn and a family it rises with the day."""
    step = only(ones.key_step)
    days_gone = date - only(ones.key_day)
    return lawn_line * step**2 + at(products.family_line, product_line) * step + days_gone


def keys_below(visit_key: Each[Number]) -> Each[Number]:
    """The number of lines whose key is lower."""
    return below(visit_key)


def keys_up_to(visit_key: Each[Number]) -> Each[Number]:
    """The number of lines whose key is as high or lower."""
    return up_to(visit_key)


def days_since(family: Each[Text], lawn: Each[Text], lawn_line: Each[Number], date: Each[Date]) -> Each[Time]:
    """Days since the latest earlier date on which this family was on this lawn; blank for the first.

    Date − latest earlier date: common practice, no source. `date` are serial numbers, and so are they throughout this
    module.

    >>> front = np.array(["Front"] * 3, dtype=object)
    >>> family = np.array(["iron", "urea", "Iron"], dtype=object)
    >>> days_since(family, front, np.ones(3), np.array([9.0, 12.0, 30.0])).magnitude
    array([nan, nan, 21.])
    """
    of_family = _of_family(family, lawn, lawn_line)
    return with_unit(date - Days(of_family, date).before(of_family, date), "day")


def method_key(visit_key: Each[Number], method: Each[Text], ones: Table) -> Each[Number]:
    """The key of lawn, family and day, another one where the line was spread dry: each method is counted by itself."""
    step = only(ones.dry_step) * only(ones.key_step)
    return visit_key + where(is_dry(method), step, 0.0)


def day_key(
    method_key: Each[Number], family: Each[Text], lawn: Each[Text], method: Each[Text], date: Each[Date]
) -> Each[Number]:
    """The key of a line that is the first of its family, method, lawn and date; blank for those that follow.

    >>> front, iron = np.array(["Front", "front"], dtype=object), np.array(["iron", "iron"], dtype=object)
    >>> day_key(np.array([7.0, 7.0]), iron, front, np.array(["spray", ""], dtype=object), np.array([9.0, 9.0]))
    array([ 7., nan])
    """
    return where(is_first(joined(family, lawn, way(method), date)), method_key, np.nan)


def product_key(product_line: Each[Number], lawn_line: Each[Number], date: Each[Date], ones: Table) -> Each[Number]:
    """One number for lawn, product and day; within a lawn and a product it rises with the day."""
    step = only(ones.key_step)
    return (lawn_line * step + product_line) * step + (date - only(ones.key_day))


def product_first(product_key: Each[Number]) -> Each[Number]:
    """The first line of the same product, lawn and date."""
    return match(product_key, product_key)


def product_day_key(product_key: Each[Number]) -> Each[Number]:
    """The key of a line that is the first of its product, lawn and date; blank for those that follow."""
    return where(is_first(product_key), product_key, np.nan)


def product_keys_up_to(product_key: Each[Number]) -> Each[Number]:
    """The number of lines whose key of lawn, product and day is as high or lower."""
    return up_to(product_key)


def season_before(date: Each[Date], settings: Table) -> Each[Date]:
    """The day on which the season of each date began."""
    month, day = dates.or_first(only(settings.season_month)), dates.or_first(only(settings.season_day))
    return dates.season_start_of(date, month, day)


def number_this_season(
    family: Each[Text],
    lawn: Each[Text],
    lawn_line: Each[Number],
    method: Each[Text],
    date: Each[Date],
    season_before: Each[Date],
) -> Each[Number]:
    """Number of dates with this family on this lawn by this method, from the start of the date's season to the date.

    Several lines on one date are one: common practice, no source.

    >>> lawn, family = np.array(["Front"] * 4, dtype=object), np.array(["iron"] * 4, dtype=object)
    >>> method = np.array(["spray", "spray", "dry", "spray"], dtype=object)
    >>> number_this_season(family, lawn, np.ones(4), method, np.array([9.0, 9.0, 12.0, 30.0]), np.zeros(4))
    array([1., 1., 1., 2.])
    """
    of_family = _of_family(family, lawn, lawn_line)
    of_method = where(blank(of_family), "", joined(of_family, way(method)))
    return distinct_upto(of_method, date, season_before)


def sprayed_number(method: Each[Text], number_this_season: Each[Number]) -> Each[Number]:
    """The number in the season of what was sprayed; blank for what was spread dry, which a mix does not count."""
    return where(is_dry(method), np.nan, number_this_season)


def of_this_mix(lawn: Each[Text], mix_lawns: Table) -> Each[Text]:
    """ "yes" where the lawn is treated in the visit that is being planned."""
    return where(find(lawn, mix_lawns.lawn_used) >= 0, "yes", "")
