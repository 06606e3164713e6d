"""What of a line is still to come on a lawn: visits, amounts, cost, nutrients."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, only, or_zero, ratio, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.rounding import down, half_up
from wbgen.model.types import Area, Date, Each, Mass, Money, Number, NutrientPerArea, Table, Volume


def to_come(
    programme_line: Each[Number],
    times_planned: Each[Number],
    done: Each[Number],
    next_due: Each[Date],
    programme: Table,
    start: Table,
) -> Each[Number]:
    """How many visits are still to come: those that are left, as far as they fit before the line's end.

    One where the line has no interval, or one of no days.
    """
    apart = at(programme.interval, programme_line).to("day").magnitude
    from_now = np.fmax(next_due, only(start.as_of))
    fitting = down(half_up(ratio(at(programme.ends, programme_line) - from_now, apart), 6)) + 1
    left = where(blank(fitting), 1.0, np.minimum(times_planned - done, fitting))
    return where(blank(next_due), 0.0, left)


def season_to_come(
    to_come: Each[Number],
    next_due: Each[Date],
    programme_line: Each[Number],
    programme: Table,
    growth_view: Table,
    start: Table,
) -> Each[Number]:
    """How many of the visits to come are due before the next season starts."""
    apart = at(programme.interval, programme_line).to("day").magnitude
    from_now = np.fmax(next_due, only(start.as_of))
    before = only(growth_view.year_end) - 1 - from_now
    fitting = down(half_up(ratio(before, apart), 6)) + 1
    inside = where(blank(fitting), np.minimum(to_come, 1.0), np.minimum(to_come, fitting))
    return where(blank(next_due) | (before <= -1), 0.0, inside)


def season_cost(cost_to_come: Each[Money], season_to_come: Each[Number], to_come: Each[Number]) -> Each[Money]:
    """What these cost (currency): their share of the cost of all to come; blank where that is not known."""
    share = or_zero(ratio(season_to_come, to_come))
    return where(blank(cost_to_come), np.nan, cost_to_come * share)


def mass_to_come(to_come: Each[Number], programme_line: Each[Number], area: Each[Area], programme: Table) -> Each[Mass]:
    """The mass (g) of a solid for them; blank without a rate or an area."""
    return (at(programme.rate_mass, programme_line) * area * to_come).to("g")


def volume_to_come(
    to_come: Each[Number], programme_line: Each[Number], area: Each[Area], programme: Table
) -> Each[Volume]:
    """The volume (mL) of a liquid for them; blank without a rate or an area."""
    return (at(programme.rate_volume, programme_line) * area * to_come).to("mL")


def cost_to_come(
    product_line: Each[Number], mass_to_come: Each[Mass], volume_to_come: Each[Volume], products: Table
) -> Each[Money]:
    """What they cost (currency); blank where there is no price, or nothing is known to come."""
    solid = (mass_to_come * at(products.price_by_mass, product_line)).to("currency")
    liquid = (volume_to_come * at(products.price_by_volume, product_line)).to("currency")
    return where(blank(solid) & blank(liquid), np.nan, or_zero(solid) + or_zero(liquid))


@of_family("nutrients")
def coming_each(
    season_to_come: Each[Number], programme_line: Each[Number], product_line: Each[Number], programme: Table
) -> Each[NutrientPerArea]:
    """The nutrient (g/m²) that those of this season bring; blank for an unknown product."""
    return where(blank(product_line), np.nan, season_to_come * at(programme.by_area_each, programme_line))
