"""This mix against its limits: what is found, the caution, the most, and how far a bar goes to either.

A form: each figure is a scalar.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import as_number, blank, magnitude, or_zero, ratio, where
from wbgen.model.tools.relations import pick
from wbgen.model.types import Figure, NitrogenPerArea, Number, Speed, Table, Temperature


@of_family("shown_limits")
def found_each(mix_checks: Table) -> Figure:
    """What is found of a risk."""
    return mix_checks.found_each


@of_family("shown_limits")
def ask_each(mix_checks: Table) -> Figure:
    """Above which it asks first."""
    return mix_checks.ask_each


@of_family("shown_limits")
def stop_each(mix_checks: Table) -> Figure:
    """Above which it forbids."""
    return mix_checks.stop_each


@of_family("shown_limits")
def bar_each(found_each: Figure, ask_each: Figure) -> Number:
    """How far it is to the caution: 1 there and beyond."""
    return _bar(found_each, ask_each)


@of_family("shown_limits")
def beyond_each(found_each: Figure, ask_each: Figure, stop_each: Figure) -> Number:
    """How far it is from the caution to the most: 0 up to the caution, 1 at the most."""
    return _beyond(found_each, ask_each, stop_each)


def found_rolling(visit_lawns: Table) -> NitrogenPerArea:
    """The nitrogen of the last days with this mix, on the lawn that is nearest to what it can use."""
    return pick(visit_lawns.nitrogen_together, _nearest(visit_lawns))


def ask_rolling(visit_lawns: Table) -> NitrogenPerArea:
    """What that lawn can use."""
    return pick(visit_lawns.nitrogen_ceiling, _nearest(visit_lawns))


def bar_rolling(found_rolling: NitrogenPerArea, ask_rolling: NitrogenPerArea) -> Number:
    """How far it is to that."""
    return _bar(found_rolling, ask_rolling)


def beyond_rolling(found_rolling: NitrogenPerArea, ask_rolling: NitrogenPerArea) -> Number:
    """1 beyond that; it has no most."""
    return _beyond(found_rolling, ask_rolling, np.nan)


def found_wind(mix: Table) -> Speed:
    """The wind that is expected."""
    return mix.wind


def ask_wind(mix_checks: Table, limits: Table) -> Speed:
    """Above which wind it asks first, at the height that the wind is of."""
    return where(blank(mix_checks.found_near_wind), limits.ask_wind, limits.ask_near_wind)


def stop_wind(mix_checks: Table, limits: Table) -> Speed:
    """From which wind on it forbids, at the height that the wind is of."""
    return where(blank(mix_checks.found_near_wind), limits.stop_wind, limits.stop_near_wind)


def bar_wind(found_wind: Speed, ask_wind: Speed) -> Number:
    """How far it is to the caution."""
    return _bar(found_wind, ask_wind)


def beyond_wind(found_wind: Speed, ask_wind: Speed, stop_wind: Speed) -> Number:
    """How far it is from the caution to the most."""
    return _beyond(found_wind, ask_wind, stop_wind)


def found_air(mix: Table) -> Temperature:
    """The temperature of the air that is expected."""
    return mix.air_temperature


def ask_air(mix_nutrients: Table, settings: Table) -> Temperature:
    """Above which temperature it asks first; with iron, the lower of two."""
    hottest, with_iron = settings.hottest_air, settings.hot_air_iron
    lower = mix_nutrients.rate_iron > 0 and with_iron < hottest
    return with_iron if lower else hottest


def stop_air(settings: Table) -> Temperature:
    """Above which temperature it forbids."""
    return settings.stop_air


def bar_air(found_air: Temperature, ask_air: Temperature, settings: Table) -> Number:
    """How far it is from the coldest air in which to spray to the caution."""
    return _part(found_air, settings.coldest_air, ask_air)


def beyond_air(found_air: Temperature, ask_air: Temperature, stop_air: Temperature) -> Number:
    """How far it is from the caution to the most."""
    return _beyond(found_air, ask_air, stop_air)


def found_rounding(mix_products: Table) -> Number:
    """The greatest error of measuring, too much or too little."""
    errors = np.abs(magnitude(as_number(mix_products.rounding_error)))
    return np.nan if np.all(np.isnan(errors)) else float(np.nanmax(errors))


def ask_rounding(settings: Table) -> Number:
    """Above which error it asks first."""
    return settings.rounding_tolerance


def bar_rounding(found_rounding: Number, ask_rounding: Number) -> Number:
    """How far it is to the caution."""
    return _bar(found_rounding, ask_rounding)


def beyond_rounding(found_rounding: Number, ask_rounding: Number) -> Number:
    """1 beyond the caution; it has no most."""
    return _beyond(found_rounding, ask_rounding, np.nan)


def _nearest(visit_lawns: Table) -> float:
    shares = magnitude(visit_lawns.nitrogen_share)
    return np.nan if np.all(np.isnan(shares)) else float(np.nanargmax(shares))


def _bar(found: Any, ask: Any) -> float:
    """
    >>> _bar(3.0, 4.0), _bar(5.0, 4.0), _bar(np.nan, 4.0), _bar(3.0, 0.0)
    (0.75, 1.0, nan, nan)
    """
    if blank(found) or not magnitude(or_zero(ask)) > 0:
        return np.nan
    return min(1.0, float(magnitude(as_number(ratio(found, ask)))))


def _beyond(found: Any, ask: Any, stop: Any) -> float:
    """
    >>> _beyond(5.0, 4.0, 8.0), _beyond(9.0, 4.0, 8.0), _beyond(3.0, 4.0, 8.0), _beyond(5.0, 4.0, np.nan)
    (0.25, 1.0, 0.0, 1.0)
    """
    if blank(found) or blank(ask):
        return np.nan
    if blank(stop) or not stop > ask:
        return 1.0 if found > ask else 0.0
    return _part(found, ask, stop)


def _part(found: Any, low: Any, high: Any) -> float:
    """How far a figure is from the lower to the higher, within 0 and 1; blank where there is no span."""
    if blank(found) or blank(low) or blank(high) or not high > low:
        return np.nan
    return min(1.0, max(0.0, float(as_number(ratio(found - low, high - low)))))
