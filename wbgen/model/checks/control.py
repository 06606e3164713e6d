"""The same total of this season, added up four ways."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import like, magnitude, or_zero
from wbgen.model.tools.rounding import half_up

Value = Any


def _total(loads: Value) -> Value:
    """Sum of a column, blanks passed over."""
    return like(loads, float(np.sum(magnitude(or_zero(loads)))))


@of_family("nutrients")
def diary_each(diary: Value) -> Value:
    """Nutrient of all this season's lines."""
    return _total(like(diary.load_each, np.where(diary.in_season == "yes", magnitude(diary.load_each), 0.0)))


@of_family("nutrients")
def lawns_each(season_grams: Value) -> Value:
    """The same, added up by lawn."""
    return _total(season_grams.load_each)


@of_family("nutrients")
def products_each(season_products: Value) -> Value:
    """The same, added up by product."""
    return _total(season_products.load_each)


@of_family("nutrients")
def months_each(months_together: Value) -> Value:
    """The same, added up by calendar month."""
    return _total(months_together.load_each)


@of_family("nutrients")
def agree_each(diary_each: Value, lawns_each: Value, products_each: Value, months_each: Value) -> Value:
    """ "yes" where no total differs from the diary's, to six decimals of the diary's unit, else "no"."""
    differences = [(total - diary_each).to(diary_each.units) for total in (lawns_each, products_each, months_each)]
    return "yes" if all(magnitude(half_up(one, 6)) == 0 for one in differences) else "no"
