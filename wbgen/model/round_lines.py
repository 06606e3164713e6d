"""The round, line by line: lawns in walking order, and on each lawn the lines of the programme in their order."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model._lines import at, lines_at
from wbgen.model._order import is_first, smallest
from wbgen.model._traits import NEVER, level_met, worst, yes
from wbgen.model._words import together
from wbgen.model.bind import of_family
from wbgen.model.relations import folded, latest_by, sum_by, where

Value = Any

BLANK_UNLESS = ("spot",)


def spot(turn: Value, due: Value) -> Value:
    """The line in the table of what is due, its heading row being line 1; blank past the last of the round."""
    return lines_at(smallest(due.round_key, turn))


def _of_programme(spot: Value, due: Value, column: Value) -> Value:
    return at(column, at(due.programme_line, spot))


def lawn(spot: Value, due: Value) -> Value:
    """The lawn."""
    return at(due.lawn, spot)


def product(spot: Value, due: Value) -> Value:
    """The product."""
    return at(due.product, spot)


def method(spot: Value, due: Value, programme: Value) -> Value:
    """Whether it is sprayed or spread dry."""
    return _of_programme(spot, due, programme.method)


def area(spot: Value, due: Value) -> Value:
    """The area (m²) of the lawn."""
    return at(due.area, spot)


def rate_mass(spot: Value, due: Value, programme: Value) -> Value:
    """The application rate (g/m²) of a solid."""
    return _of_programme(spot, due, programme.rate_mass)


def rate_volume(spot: Value, due: Value, programme: Value) -> Value:
    """The application rate (mL/m²) of a liquid."""
    return _of_programme(spot, due, programme.rate_volume)


def mass(spot: Value, due: Value) -> Value:
    """The mass (g) of a solid for the lawn."""
    return at(due.round_mass, spot)


def volume(spot: Value, due: Value) -> Value:
    """The volume (mL) of a liquid for the lawn."""
    return at(due.round_volume, spot)


def carrier_volume(spot: Value, due: Value, programme: Value) -> Value:
    """The carrier volume (L/ha) of a spray."""
    return _of_programme(spot, due, programme.carrier_volume)


def lawn_turn(lawn: Value) -> Value:
    """1 on the first line of each lawn, blank on the others."""
    return np.where(is_first(lawn), 1.0, np.nan)


def _sprayed(method: Value) -> Any:
    return folded(method) == "spray"


def lawn_water(lawn: Value, area: Value, method: Value, carrier_volume: Value) -> Value:
    """The spray (L) for the lawn, on the first of its lines: its area times the most carrier volume of its sprays.

    Blank on the lawn's other lines, and where nothing is sprayed.
    """
    most = latest_by(lawn, lawn, carrier_volume, _sprayed(method))
    water = (area * most).to("L")
    return where(is_first(lawn) & (water.magnitude > 0), water, np.nan)


@of_family("traits")
def has_each(spot: Value, method: Value, due: Value, products: Value) -> Value:
    """ "yes" where the product has the trait and is sprayed: what is spread dry shares no tank."""
    return where(yes(at(products.trait_each, at(due.product_line, spot))) & _sprayed(method), "yes", "")


@of_family("traits")
def beside_each(lawn: Value, method: Value, has_each: Value) -> Value:
    """How many other sprays of the lawn have the trait; 0 for what is spread dry."""
    has = yes(has_each)
    return np.where(_sprayed(method), sum_by(lawn, lawn, has.astype(float)) - has, 0.0)


@of_family("trait_rules")
def rule_each(
    has_each_first: Value, has_each_second: Value, beside_each_first: Value, beside_each_second: Value, rules: Value
) -> Value:
    """The rule's level where the line has one trait and another spray of the lawn the other, else 0."""
    return level_met(has_each_first, has_each_second, beside_each_first, beside_each_second, rules.level_each)


def level(rule_every: list[Value]) -> Value:
    """The worst of all rules."""
    return worst(rule_every)


def words(level: Value, spot: Value, due: Value) -> Value:
    """What is to be said of the line."""
    met = where(level >= NEVER, "never in one tank with another line of this lawn", "jar test first")
    return together(where(level > 0, met, ""), where(at(due.state, spot) == "overdue", "overdue", ""))
