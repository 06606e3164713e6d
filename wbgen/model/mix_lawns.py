"""Lawns of this visit: the spray for each, and what its nitrogen comes to."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model import dates
from wbgen.model.relations import blank, folded, like, lookup, magnitude, or_zero, pick, plain, ratio, sum_by, where
from wbgen.model.rounding import exceeds

Value = Any

BLANK_UNLESS = ("lawn_used",)
NEVER_BLANK = ("turn",)


def turn(records: int) -> Value:
    """Place in walking order, from 1."""
    return np.arange(records) + 1.0


def lawn_used(lawn: Value, mix: Value, lawns: Value) -> Value:
    """The lawn named, or with all lawns chosen the one at the same place among the lawns."""
    if str(mix.which_lawns).lower() != "all":
        return lawn
    return pick(lawns.name, np.arange(len(lawn)))


def lawn_area(lawn_used: Value, lawns: Value) -> Value:
    """Area of the whole lawn; blank for an unknown lawn."""
    return lookup(lawn_used, lawns.name, lawns.area)


def treated_area(part_treated: Value, lawn_area: Value) -> Value:
    """Area treated: the part that is given, else the whole lawn."""
    return where(blank(part_treated), lawn_area, part_treated)


def lawn_line(treated_area: Value) -> Value:
    """Running number, from 1, of the records with a treated area; blank for the others."""
    there = ~blank(treated_area)
    return np.where(there, np.cumsum(there), np.nan)


def water(treated_area: Value, mix: Value) -> Value:
    """Spray for the lawn: area × carrier volume × (1 + overlap), without what stays in the tank."""
    return treated_area * mix.carrier_volume * (1 + or_zero(plain(mix.overlap)))


def water_so_far(water: Value) -> Value:
    """Running sum of the spray, this lawn included; a blank counts as nothing."""
    return like(water, np.cumsum(magnitude(or_zero(water))))


def spray_time(water: Value, mix: Value, sprayers: Value) -> Value:
    """Time that the nozzles take; blank for a sprayer whose nozzles were not caught."""
    return ratio(ratio(water, mix.dilution), lookup(mix.sprayer, sprayers.name, sprayers.total_output))


def nitrogen_before(lawn_used: Value, lawn_area: Value, mix: Value, diary: Value, settings: Value) -> Value:
    """Nitrogen on the lawn in the rolling time that ends on the visit, the visit's day left out, by the whole lawn."""
    ago = mix.visit_date - diary.date
    recent = (ago > 0) & (ago < _days(settings.rolling_time))
    return ratio(sum_by(diary.lawn, lawn_used, diary.load_nitrogen, recent), lawn_area)


def _days(time: Value) -> Any:
    return time.to("day").magnitude if hasattr(time, "units") else time


def nitrogen_visit(treated_area: Value, lawn_area: Value, mix_nutrients: Value) -> Value:
    """Nitrogen of this visit, by the whole lawn."""
    return ratio(mix_nutrients.rate_nitrogen * treated_area, lawn_area)


def nitrogen_together(nitrogen_before: Value, nitrogen_visit: Value) -> Value:
    """Nitrogen of the last weeks and of this visit."""
    return nitrogen_before + nitrogen_visit


def growth(lawn_used: Value, lawns: Value, months: Value, mix: Value) -> Value:
    """Growth potential of the lawn's grass in the month of the visit; blank for an unknown lawn."""
    place = dates.month_of(mix.visit_date) - 1
    grass = folded(lookup(lawn_used, lawns.name, lawns.grass))
    found = where(grass == "warm season", pick(months.growth_warm, place), pick(months.growth_cool, place))
    return where(blank(lookup(lawn_used, lawns.name, lawns.name)), np.nan, found)


def nitrogen_ceiling(growth: Value, lawn_used: Value, lawns: Value, settings: Value) -> Value:
    """Nitrogen that the grass can use: the most in a month at full growth, times growth potential.

    The most is the lawn's own, else that of the settings. M. Woods, Monthly maximum N or annual maximum N, 2023.
    """
    own = lookup(lawn_used, lawns.name, lawns.most_nitrogen_month)
    return growth * where(blank(own), settings.most_nitrogen_month, own)


def nitrogen_level(nitrogen_together: Value, nitrogen_visit: Value, nitrogen_ceiling: Value) -> Value:
    """1, ask first, where this visit brings nitrogen and the sum exceeds the ceiling; else 0."""
    over = (magnitude(nitrogen_visit) > 0) & exceeds(nitrogen_together, nitrogen_ceiling)
    return np.where(blank(nitrogen_together), np.nan, np.where(over, 1.0, 0.0))


def lawn_words(lawn_area: Value, nitrogen_level: Value) -> Value:
    """What is to be said of the lawn, in words."""
    much = where(nitrogen_level > 0, "ask first, more nitrogen than it can use", "")
    return where(blank(lawn_area), "this lawn has no area", much)
