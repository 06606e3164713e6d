"""Times of each line of the diary: since the last of its family on the lawn, and its number in the season.

Of each, the lines above count: a diary is kept in the order of its days, and a line that is not says so. Dates are
serial numbers.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates, keys
from wbgen.model.tools.elementwise import blank, only, where, with_unit
from wbgen.model.tools.lines import at
from wbgen.model.tools.methods import is_dry, way
from wbgen.model.tools.order import is_first
from wbgen.model.tools.relations import find, joined
from wbgen.model.tools.so_far import day_before
from wbgen.model.tools.so_far import days_since as days_so_far
from wbgen.model.types import Date, Each, Number, Table, Text, Time


def way_key(lawn_line: Each[Number], date: Each[Date], method: Each[Text], ones: Table) -> Each[Number]:
    """The key of lawn, day and method: the sprays of a lawn and day have one, its dressings another."""
    return keys.day_key(lawn_line, date, ones) + where(is_dry(method), only(ones.dry_step), 0.0)


def visit_first(lawn_line: Each[Number], date: Each[Date]) -> Each[Number]:
    """1 on the first line of each lawn and day, blank on those that follow."""
    key = joined(lawn_line, date)
    return where(is_first(key) & ~blank(key), 1.0, np.nan)


def _of_family(family: Each[Text], lawn: Each[Text], lawn_line: Each[Number]) -> Each[Text]:
    """The lawn and family of each line as one; blank for a lawn that nobody has."""
    return where(np.isnan(lawn_line), "", joined(family, lawn))


def visit_key(
    product_line: Each[Number], lawn_line: Each[Number], date: Each[Date], family: Each[Text], products: Table,
    ones: Table,
) -> Each[Number]:  # fmt: skip
    """One number for lawn, family and day; within a lawn and a family it rises with the day. Blank without a family."""
    of_family = lawn_line * only(ones.key_step) + at(products.family_line, product_line)
    key = keys.day_key(of_family, date, ones)
    return where(blank(family), np.nan, key)


def days_since(family: Each[Text], lawn: Each[Text], lawn_line: Each[Number], date: Each[Date]) -> Each[Time]:
    """Days since the latest earlier date, of the lines above, on which this family was on this lawn; else blank.

    Date − latest earlier date: common practice, no source.

    >>> front = np.array(["Front"] * 3, dtype=object)
    >>> family = np.array(["iron", "urea", "Iron"], dtype=object)
    >>> days_since(family, front, np.ones(3), np.array([9.0, 12.0, 30.0])).magnitude
    array([nan, nan, 21.])
    """
    return with_unit(date - day_before(_of_family(family, lawn, lawn_line), date), "day")


def day_key(
    visit_key: Each[Number], family: Each[Text], lawn: Each[Text], method: Each[Text], date: Each[Date], ones: Table
) -> Each[Number]:
    """The key of a line that is the first of its family, method, lawn and date; blank for those that follow.

    It is that of lawn, family and day, another one where the line was spread dry.

    >>> from types import SimpleNamespace
    >>> front, iron = np.array(["Front", "front"], dtype=object), np.array(["iron", "iron"], dtype=object)
    >>> method, steps = np.array(["spray", ""], dtype=object), SimpleNamespace(dry_step=5.0, key_step=10.0)
    >>> day_key(np.array([7.0, 7.0]), iron, front, method, np.array([9.0, 9.0]), steps)
    array([ 7., nan])
    """
    key = keys.method_key(visit_key, method, ones)
    return where(is_first(joined(family, lawn, way(method), date)), key, np.nan)


def number_this_season(
    family: Each[Text],
    lawn: Each[Text],
    lawn_line: Each[Number],
    method: Each[Text],
    date: Each[Date],
    settings: Table,
) -> Each[Number]:
    """Number of dates with this family on this lawn by this method, from the start of the date's season to the date.

    Several lines on one date are one, and of the others those above count: common practice, no source.

    >>> from types import SimpleNamespace
    >>> lawn, family = np.array(["Front"] * 4, dtype=object), np.array(["iron"] * 4, dtype=object)
    >>> method, settings = np.array(["spray", "spray", "dry", "spray"], dtype=object), SimpleNamespace()
    >>> settings.season_month, settings.season_day = 1.0, 1.0
    >>> number_this_season(family, lawn, np.ones(4), method, np.array([46030.0, 46030.0, 46040.0, 46050.0]), settings)
    array([1., 1., 1., 2.])
    """
    month, day = dates.or_first(only(settings.season_month)), dates.or_first(only(settings.season_day))
    of_family = _of_family(family, lawn, lawn_line)
    of_method = where(blank(of_family), "", joined(of_family, way(method)))
    return days_so_far(of_method, date, dates.season_start_of(date, month, day))


def sprayed_number(method: Each[Text], number_this_season: Each[Number]) -> Each[Number]:
    """The number in the season of what was sprayed; blank for what was spread dry, which a mix does not count."""
    return where(is_dry(method), np.nan, number_this_season)


def of_this_mix(lawn: Each[Text], mix_lawns: Table) -> Each[Text]:
    """ "yes" where the lawn is treated in the visit that is being planned."""
    return where(find(lawn, mix_lawns.lawn_used) >= 0, "yes", "")


def product_day_key(product_line: Each[Number], lawn_line: Each[Number], date: Each[Date], ones: Table) -> Each[Number]:
    """The key of a line that is the first of its product, lawn and date; blank for those that follow."""
    key = keys.product_key(product_line, lawn_line, date, ones)
    return where(is_first(key), key, np.nan)


def pair_once(lawn_line: Each[Number], product_line: Each[Number], in_season: Each[Text], ones: Table) -> Each[Number]:
    """The key of lawn and product, on the first line of this season that has it; blank on all others."""
    key: Each[Number] = where(in_season == "yes", lawn_line * only(ones.key_step) + product_line, np.nan)
    return where(is_first(key), key, np.nan)
