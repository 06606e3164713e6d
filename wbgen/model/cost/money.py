"""What the season costs: what was used, what is to come, what is to be bought, what this mix takes.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, ratio
from wbgen.model.tools.relations import total
from wbgen.model.types import Money, Number, Table


def season_cost(diary: Table) -> Money:
    """What this season's lines of the diary cost, so far as prices are known."""
    return total(diary.cost, diary.season_month > 0)


def season_visits(diary: Table) -> Number:
    """The visits of this season: one a lawn and day."""
    return float(np.sum((diary.visit_first == 1) & (diary.season_month > 0)))


def visit_cost(season_cost: Money, season_visits: Number) -> Money:
    """What a visit cost on the average; blank before the first."""
    return ratio(season_cost, season_visits)


def unpriced_lines(diary: Table) -> Number:
    """This season's lines of a known product whose cost is not known."""
    unknown = ~blank(diary.product_line) & blank(diary.cost)
    return float(np.sum(unknown & (diary.season_month > 0)))


def coming_cost(due: Table) -> Money:
    """What the visits to come this season will cost, so far as prices are known."""
    return total(due.season_cost)


def whole_cost(season_cost: Money, coming_cost: Money) -> Money:
    """What the season comes to."""
    return season_cost + coming_cost


def buying_cost(stock: Table) -> Money:
    """What the packs to buy cost."""
    return total(stock.cost_to_buy)


def mix_cost(mix_products: Table) -> Money:
    """What the products of this mix cost, all loads together."""
    return total(mix_products.cost)
