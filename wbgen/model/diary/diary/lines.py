"""What each line of the diary came to."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.lines import at as _at
from wbgen.model.tools.lines import match
from wbgen.model.tools.order import below, is_first, up_to
from wbgen.model.tools.relations import (
    as_number,
    blank,
    distinct_upto,
    find,
    folded,
    joined,
    latest_before,
    only,
    or_zero,
    ratio,
    where,
)
from wbgen.trade.families import Member
from wbgen.units.quantity import FLOAT

Value = Any


def product_line(product: Value, products: Value) -> Value:
    """Line of each product in the catalogue, its heading row being line 1; blank for an unknown one."""
    return match(product, products.name)


def lawn_line(lawn: Value, lawns: Value) -> Value:
    """Line of each lawn among the lawns, their heading row being line 1; blank for an unknown one."""
    return match(lawn, lawns.name)


def family(product_line: Value, products: Value) -> Value:
    """Family of the product: text, blank for an unknown product or one without a family."""
    return _at(products.family, product_line)


def area_of_lawn(lawn_line: Value, lawns: Value) -> Value:
    """Area of the whole lawn as it is today."""
    return _at(lawns.area, lawn_line)


def area_counted(treated_area: Value, area_of_lawn: Value) -> Value:
    """Area that the rate is worked out on: the treated area, or the lawn's where none was noted."""
    return where(blank(treated_area), area_of_lawn, treated_area)


def share_used(water: Value, left_over: Value) -> Value:
    """Share of the spray that left the tank: 1 − left over ÷ spray made; 1 where either is blank or 0.

    Common practice, no source.

    >>> share_used(np.array([10.0, 10.0, np.nan]), np.array([2.0, np.nan, 2.0]))
    array([0.8, 1. , 1. ])
    """
    return where(blank(ratio(left_over, water)), 1.0, 1 - as_number(ratio(left_over, water)))


def applied_mass(weighed: Value, share_used: Value) -> Value:
    """Mass of solid product that reached the lawn."""
    return weighed * share_used


def applied_volume(poured: Value, share_used: Value) -> Value:
    """Volume of liquid product that reached the lawn."""
    return poured * share_used


def rate_mass(applied_mass: Value, area_counted: Value) -> Value:
    """Application rate achieved of a solid, mass an area."""
    return ratio(applied_mass, area_counted)


def rate_volume(applied_volume: Value, area_counted: Value) -> Value:
    """Application rate achieved of a liquid, volume an area."""
    return ratio(applied_volume, area_counted)


def against_plan(rate_mass: Value, rate_volume: Value, planned_mass_rate: Value, planned_volume_rate: Value) -> Value:
    """Rate achieved over the planned one, less 1: of the solid where both are there, else of the liquid.

    >>> against_plan(np.array([3.0, np.nan]), np.array([9.0, 1.0]), np.array([2.0, np.nan]), np.array([4.0, 2.0]))
    array([ 0.5, -0.5])
    """
    solid, liquid = as_number(ratio(rate_mass, planned_mass_rate)), as_number(ratio(rate_volume, planned_volume_rate))
    return np.where(blank(solid), liquid, solid) - 1


def label_high_mass(product_line: Value, method: Value, products: Value) -> Value:
    """Highest label rate of a solid by the line's method; a label that gives a dilution has none here."""
    return where(
        folded(method) == "dry",
        _at(products.dry_mass_high, product_line),
        _at(products.spray_mass_high, product_line),
    )


def label_high_volume(product_line: Value, products: Value) -> Value:
    """Highest label rate of a liquid, by any method: liquids have none for spreading dry."""
    return _at(products.spray_volume_high, product_line)


@of_family("nutrients")
def load_each(each: Member, product_line: Value, applied_mass: Value, applied_volume: Value, products: Value) -> Value:
    """Nutrient load of the line, in grams: what was applied, times what is in it.

    A content or a measure that is blank counts as nothing; an unknown product has no load.
    """
    solid = or_zero(applied_mass) * or_zero(_at(products.mass_content_each, product_line))
    liquid = or_zero(applied_volume) * or_zero(_at(products.volume_content_each, product_line))
    grams = f"g_{each.says['symbol']}"
    return where(blank(product_line), np.nan, solid.to(grams) + liquid.to(grams))


@of_family("nutrients")
def by_area_each(load_each: Value, area_of_lawn: Value) -> Value:
    """Nutrient load by the area of the whole lawn, whatever part was treated."""
    return ratio(load_each, area_of_lawn)


def in_season(date: Value, settings: Value, start: Value) -> Value:
    """ "yes" where the date lies in this season and not after the as-of date."""
    return where((date >= only(settings.season_start)) & (date <= only(start.as_of)), "yes", "")


def month(date: Value) -> Value:
    """Number of the calendar month, 1 to 12."""
    return dates.month_of(date)


def _of_family(family: Value, lawn: Value, lawn_line: Value) -> Value:
    """The lawn and family of each line as one; blank for a lawn that nobody has."""
    return np.where(np.isnan(lawn_line), "", joined(family, lawn))


def visit_key(product_line: Value, lawn_line: Value, date: Value, products: Value, ones: Value) -> Value:
    """One number for lawn, family and day; within a lawn and a family it rises with the day."""
    step = only(ones.key_step)
    days_gone = date - only(ones.key_day)
    return lawn_line * step**2 + _at(products.family_line, product_line) * step + days_gone


def keys_below(visit_key: Value) -> Value:
    """The number of lines whose key is lower."""
    return below(visit_key)


def keys_up_to(visit_key: Value) -> Value:
    """The number of lines whose key is as high or lower."""
    return up_to(visit_key)


def days_since(family: Value, lawn: Value, lawn_line: Value, date: Value) -> Value:
    """Days since the latest earlier date on which this family was on this lawn; blank for the first.

    `date` are serial numbers, and so are they throughout this module.

    >>> front = np.array(["Front"] * 3, dtype=object)
    >>> family = np.array(["iron", "urea", "Iron"], dtype=object)
    >>> days_since(family, front, np.ones(3), np.array([9.0, 12.0, 30.0])).magnitude
    array([nan, nan, 21.])
    """
    return FLOAT.Quantity(date - latest_before(_of_family(family, lawn, lawn_line), date), "day")


def day_key(visit_key: Value, family: Value, lawn: Value, date: Value) -> Value:
    """The key of a line that is the first of its family, lawn and date; blank for those that follow.

    >>> front, iron = np.array(["Front", "front"], dtype=object), np.array(["iron", "iron"], dtype=object)
    >>> day_key(np.array([7.0, 7.0]), iron, front, np.array([9.0, 9.0]))
    array([ 7., nan])
    """
    return np.where(is_first(joined(family, lawn, date)), visit_key, np.nan)


def product_key(product_line: Value, lawn_line: Value, date: Value, ones: Value) -> Value:
    """One number for lawn, product and day; within a lawn and a product it rises with the day."""
    step = only(ones.key_step)
    return (lawn_line * step + product_line) * step + (date - only(ones.key_day))


def product_first(product_key: Value) -> Value:
    """The first line of the same product, lawn and date."""
    return match(product_key, product_key)


def product_day_key(product_key: Value) -> Value:
    """The key of a line that is the first of its product, lawn and date; blank for those that follow."""
    return np.where(is_first(product_key), product_key, np.nan)


def product_keys_up_to(product_key: Value) -> Value:
    """The number of lines whose key of lawn, product and day is as high or lower."""
    return up_to(product_key)


def season_before(date: Value, settings: Value) -> Value:
    """The day on which the season of each date began."""
    month, day = dates.or_first(only(settings.season_month)), dates.or_first(only(settings.season_day))
    return dates.season_start_of(date, month, day)


def number_this_season(family: Value, lawn: Value, lawn_line: Value, date: Value, season_before: Value) -> Value:
    """Number of dates with this family on this lawn, from the start of the date's own season to the date.

    Several lines on one date are one: common practice, no source.
    """
    return distinct_upto(_of_family(family, lawn, lawn_line), date, season_before)


def of_this_mix(lawn: Value, mix_lawns: Value) -> Value:
    """ "yes" where the lawn is treated in the visit that is being planned."""
    return where(find(lawn, mix_lawns.lawn_used) >= 0, "yes", "")
