"""Times of each line of the diary: since the last of its family on the lawn, and its number in the season.

Of each, the lines above count: a diary is kept in the order of its days, and a line that is not says so. Dates are
serial numbers.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates, keys
from wbgen.model.tools.elementwise import blank, only, or_zero, where, with_unit
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
    product_line: Each[Number], lawn_line: Each[Number], date: Each[Date], products: Table, ones: Table
) -> Each[Number]:
    """One number for lawn, family and day; within a lawn and a family it rises with the day. Blank without a family."""
    of_family = lawn_line * only(ones.key_step) + at(products.family_line, product_line)
    return keys.day_key(of_family, date, ones)


def days_since(
    product_line: Each[Number], lawn: Each[Text], lawn_line: Each[Number], date: Each[Date], products: Table
) -> Each[Time]:
    """Days since the latest earlier date, of the lines above, on which this family was on this lawn; else blank.

    Date − latest earlier date: common practice, no source.

    >>> from types import SimpleNamespace
    >>> front, products = np.array(["Front"] * 3, dtype=object), SimpleNamespace()
    >>> products.family = np.array(["iron", "urea", "Iron"], dtype=object)
    >>> days_since(np.array([2.0, 3.0, 4.0]), front, np.ones(3), np.array([9.0, 12.0, 30.0]), products).magnitude
    array([nan, nan, 21.])
    """
    family = at(products.family, product_line)
    return with_unit(date - day_before(_of_family(family, lawn, lawn_line), date), "day")


def day_key(
    visit_key: Each[Number],
    product_line: Each[Number],
    lawn: Each[Text],
    method: Each[Text],
    date: Each[Date],
    products: Table,
    ones: Table,
) -> Each[Number]:
    """The key of a line that is the first of its family, method, lawn and date; blank for those that follow.

    It is that of lawn, family and day, another one where the line was spread dry.

    >>> from types import SimpleNamespace
    >>> front, iron = np.array(["Front", "front"], dtype=object), np.array(["iron", "iron"], dtype=object)
    >>> method, steps = np.array(["spray", ""], dtype=object), SimpleNamespace(dry_step=5.0, key_step=10.0)
    >>> products = SimpleNamespace(family=iron)
    >>> day_key(np.array([7.0, 7.0]), np.array([2.0, 3.0]), front, method, np.array([9.0, 9.0]), products, steps)
    array([ 7., nan])
    """
    family = at(products.family, product_line)
    key = keys.method_key(visit_key, method, ones)
    return where(is_first(joined(family, lawn, way(method), date)), key, np.nan)


def number_this_season(
    product_line: Each[Number],
    lawn: Each[Text],
    lawn_line: Each[Number],
    method: Each[Text],
    date: Each[Date],
    products: Table,
    settings: Table,
) -> Each[Number]:
    """Number of dates with this family on this lawn by this method, from the start of the date's season to the date.

    Several lines on one date are one, and of the others those above count: common practice, no source.

    >>> from types import SimpleNamespace
    >>> lawn, days = np.array(["Front"] * 4, dtype=object), np.array([46030.0, 46030.0, 46040.0, 46050.0])
    >>> method = np.array(["spray", "spray", "dry", "spray"], dtype=object)
    >>> products = SimpleNamespace(family=np.array(["iron"], dtype=object))
    >>> settings = SimpleNamespace(season_month=1.0, season_day=1.0)
    >>> number_this_season(np.full(4, 2.0), lawn, np.ones(4), method, days, products, settings)
    array([1., 1., 1., 2.])
    """
    family = at(products.family, product_line)
    month, day = dates.or_first(only(settings.season_month)), dates.or_first(only(settings.season_day))
    of_family = _of_family(family, lawn, lawn_line)
    of_method = where(blank(of_family), "", joined(of_family, way(method)))
    return days_so_far(of_method, date, dates.season_start_of(date, month, day))


def mix_family(
    lawn: Each[Text], method: Each[Text], product_line: Each[Number], mix_lawns: Table, products: Table, ones: Table
) -> Each[Number]:
    """The line of the product's family where the lawn is treated in the visit that is being planned, else blank.

    0 for a product without a family; higher by a step for what was spread dry.
    """
    line: Each[Number] = or_zero(at(products.family_line, product_line))
    line = line + where(is_dry(method) & ~blank(product_line), only(ones.dry_step), 0.0)
    return where(find(lawn, mix_lawns.lawn_used) >= 0, line, np.nan)


def product_key(product_line: Each[Number], lawn_line: Each[Number], date: Each[Date], ones: Table) -> Each[Number]:
    """One number a product a lawn a day, which rises with lawn, product and day."""
    return keys.product_key(product_line, lawn_line, date, ones)


def product_day_key(product_key: Each[Number]) -> Each[Number]:
    """The key of a line that is the first of its product, lawn and date; blank for those that follow.

    >>> product_day_key(np.array([7.0, 8.0, 7.0, np.nan]))
    array([ 7.,  8., nan, nan])
    """
    return where(is_first(product_key), product_key, np.nan)


def pair_once(
    lawn_line: Each[Number], product_line: Each[Number], season_month: Each[Number], ones: Table
) -> Each[Number]:
    """The key of lawn and product, on the first line of this season that has it; blank on all others."""
    key: Each[Number] = where(season_month > 0, lawn_line * only(ones.key_step) + product_line, np.nan)
    return where(is_first(key), key, np.nan)
