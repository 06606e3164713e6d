"""What the season costs: what was used, what is to come, what is to be bought, what this mix takes. All are scalars."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.relations import blank, like, magnitude, or_zero, ratio

Value = Any


def _total(costs: Value, counted: Any = True) -> Value:
    """The sum of a column where `counted` holds, blanks passed over."""
    return like(costs, float(np.sum(magnitude(or_zero(costs)), where=counted)))


def season_cost(diary: Value) -> Value:
    """What this season's lines of the diary cost, so far as prices are known."""
    return _total(diary.cost, diary.in_season == "yes")


def season_visits(diary: Value) -> Value:
    """The visits of this season: one a lawn and day."""
    return float(np.sum((diary.visit_first == 1) & (diary.in_season == "yes")))


def visit_cost(season_cost: Value, season_visits: Value) -> Value:
    """What a visit cost on the average; blank before the first."""
    return ratio(season_cost, season_visits)


def unpriced_lines(diary: Value) -> Value:
    """This season's lines of a known product whose cost is not known."""
    unknown = ~blank(diary.product_line) & blank(diary.cost)
    return float(np.sum(unknown & (diary.in_season == "yes")))


def coming_cost(due: Value) -> Value:
    """What the visits to come will cost, so far as prices are known."""
    return _total(due.cost_to_come)


def whole_cost(season_cost: Value, coming_cost: Value) -> Value:
    """What the season comes to."""
    return season_cost + coming_cost


def buying_cost(stock: Value) -> Value:
    """What the packs to buy cost."""
    return _total(stock.cost_to_buy)


def mix_cost(mix_products: Value) -> Value:
    """What the products of this mix cost, all loads together."""
    return _total(mix_products.cost)
