"""What the rule of the place speaks against in a line of the programme."""

from __future__ import annotations

from typing import Any

from wbgen.model.programme.programme._dates import dates_that, dates_word
from wbgen.model.tools.lines import at
from wbgen.model.tools.relations import as_number, only, or_zero, ratio, where
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.traits import yes
from wbgen.model.tools.words import counts, listed

Value = Any


def soluble_nitrogen(by_area_nitrogen: Value, product_line: Value, products: Value) -> Value:
    """The nitrogen (g N/m²) of one visit that is not of slow release; 0 where the product holds none."""
    slow = or_zero(at(products.slow_nitrogen, product_line))
    return by_area_nitrogen * or_zero(1 - as_number(ratio(slow, at(products.share_nitrogen, product_line))))


def closed_dates(product: Value, applications: Value) -> Value:
    """How many of the line's dates are in months that are closed to feeding."""
    return dates_that(applications, yes(applications.closed_month), len(product))


def over_place(
    by_area_nitrogen: Value,
    soluble_nitrogen: Value,
    by_area_phosphate: Value,
    closed_dates: Value,
    place: Value,
) -> Value:
    """Where one visit brings more than the place allows, and how many of the line's dates are in closed months."""
    banned = yes(only(place.no_phosphorus)) & exceeds(by_area_phosphate, 0.0)
    return listed(
        where(exceeds(by_area_nitrogen, only(place.most_nitrogen)), "; over the place's nitrogen of one visit", "")
        + where(exceeds(soluble_nitrogen, only(place.most_soluble)), "; over the place's soluble nitrogen", "")
        + where(banned, "; phosphorus is not allowed", "")
        + where(closed_dates > 0, "; " + counts(closed_dates) + dates_word(closed_dates) + "in a closed month", "")
    )
