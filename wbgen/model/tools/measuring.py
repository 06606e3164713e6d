"""What solids and liquids share on their way from a rate to what is measured out."""

from __future__ import annotations

from typing import Any, overload

import numpy as np

from wbgen.model.tools.elementwise import as_number, blank, folded, like, magnitude, or_zero, ratio, where
from wbgen.model.tools.rounding import exceeds, half_up, towards_zero
from wbgen.model.values import Each, Quantity, Table


def rate(
    rate_from: Each[str], own: Each[Quantity], usual: Each[Quantity], wanted: list[Each[Quantity]]
) -> Each[Quantity]:
    """The rate taken, in the unit of `own`: usual, own (0 where it is the other own rate), or for wanted nutrients.

    Two rates leave the sum for wanted nutrients, blank where that is not above 0.
    """
    for_wanted = sum((or_zero(one).to(own.units) for one in wanted), start=like(own, np.zeros(np.shape(own))))
    for_wanted = where(for_wanted > 0, for_wanted, np.nan)
    chosen = where(folded(rate_from) == "own", or_zero(own), for_wanted)
    return where(folded(rate_from) == "usual", usual.to(own.units), chosen)


def concentration(rate: Each[Quantity], carrier_volume: Quantity) -> Each[Quantity]:
    """Rate ÷ carrier volume, blank where the rate is blank or 0."""
    return ratio(where(rate == 0, np.nan, rate), carrier_volume)


@overload
def step(exact: Each[Quantity], fine: Quantity, coarse: Quantity, fine_capacity: Quantity) -> Each[Quantity]: ...
@overload
def step(exact: Quantity, fine: Quantity, coarse: Quantity, fine_capacity: Quantity) -> Quantity: ...
def step(exact: Any, fine: Quantity, coarse: Quantity, fine_capacity: Quantity) -> Any:
    """The fine step where its scale or jug holds what is to be measured, else the coarse one; blank for a blank.

    A scale that is just full still holds it. 0 where the step itself is not given.
    """
    coarser = exceeds(exact, fine_capacity) | blank(fine_capacity)
    return where(blank(exact), np.nan, or_zero(where(coarser, coarse, fine)))


def to_measure(
    exact: Each[Quantity], step: Each[Quantity], high: Each[Quantity], volume: Quantity, mix: Table
) -> Each[Quantity]:
    """The nearest step to `exact`, or the one not above it where the nearest's rate is over the `high` of a label.

    The count of steps is rounded to 9 decimals first, so that a half that is a hair short is still a half.
    Blank where there is no step.
    """
    steps = half_up(as_number(ratio(exact, step)), 9)
    nearest, below = half_up(steps) * step, towards_zero(steps) * step
    laid = ratio(nearest, volume) * mix.carrier_volume * (1 + or_zero(as_number(mix.overlap)))
    return where(exceeds(laid.to(high.units), high), below, nearest)


def solubility_at(
    temperature: Quantity, cold_at: Quantity, mild_at: Quantity, cold: Each[Quantity], mild: Each[Quantity]
) -> Each[Quantity]:
    """The solubility at a temperature, in a straight line through that at the colder and at the milder one.

    Below the colder the line goes on, to 0 at the least; above the milder it stays. Where the milder is not known,
    the colder holds; where the colder is not, nothing is known.

    >>> from wbgen.units.quantity import FLOAT
    >>> at, gram = lambda number: FLOAT.Quantity(number, "degC"), lambda *n: FLOAT.Quantity(np.array(n), "g/L")
    >>> solubility_at(at(15.0), at(10.0), at(20.0), gram(100.0), gram(140.0)).magnitude
    array([120.])
    """
    along = np.minimum(as_number(ratio(temperature - cold_at, mild_at - cold_at)), 1.0)
    line = cold + (mild - cold) * along
    return where(blank(mild), cold, like(line, np.maximum(magnitude(line), 0.0)))
