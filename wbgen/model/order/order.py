"""How far ahead is bought for, and what that comes to.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.relations import total
from wbgen.model.types import Date, Money, Number, Table, Time


def until(days_ahead: Time, start: Table, growth_view: Table) -> Date:
    """Serial date of the last day: so many from the as-of date on, without a number the last one of the season."""
    ahead = only(start.as_of) + dates.in_days(days_ahead)
    return where(blank(days_ahead), growth_view.year_end - 1, ahead)


def packs(stock: Table) -> Number:
    """Packs of all products."""
    return total(stock.order_packs)


def cost(stock: Table) -> Money:
    """What they cost, as far as prices are known."""
    return total(stock.order_cost)
