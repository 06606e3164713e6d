"""The steps of making a load, for all the loads that are alike: one record a step.

One record a step: shape (card_steps,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import steps
from wbgen.model.tools.elementwise import blank, where
from wbgen.model.types import Each, Mass, Number, Table, Text, Volume

MOST_BOXES = 4
_TICKS = "☐ " * MOST_BOXES


def action(line: Each[Number], card: Table, mix_products: Table, mix_checks: Table, mix_water: Table) -> Each[Text]:
    """What is done: fill, dissolve or weigh or pour, top up."""
    return steps.action(line, mix_water.steps_full, card.fill_mark, mix_products, mix_checks, mix_products.bucket_full)


def what(action: Each[Text], line: Each[Number], mix_products: Table, mix_water: Table) -> Each[Text]:
    """What it is done with: water, acid for it, or a product."""
    acid = mix_water.steps_full
    return steps.what(action, line, acid, steps.of_line(line, acid, mix_products, mix_products.product))


def to_weigh(action: Each[Text], line: Each[Number], mix_products: Table, mix_water: Table) -> Each[Mass]:
    """What to weigh (g)."""
    acid = mix_water.steps_full
    return steps.weighed(action, line, acid, mix_water.weigh_full, mix_products, mix_products.weigh_full)


def to_pour(action: Each[Text], line: Each[Number], mix_products: Table, mix_water: Table) -> Each[Volume]:
    """What to pour (mL)."""
    return steps.poured(action, line, mix_water.steps_full, mix_products, mix_products.pour_full)


def to_fill(action: Each[Text], card: Table, mix: Table) -> Each[Volume]:
    """To which level (L) the water goes."""
    return steps.to_fill(action, card.fill_mark, mix.first_fill_full)


def dissolve_in(to_weigh: Each[Mass], line: Each[Number], mix_products: Table, mix_water: Table) -> Each[Volume]:
    """The water (L) in which a solid is dissolved first; acid is stirred into the tank's own."""
    bucket = steps.of_line(line, mix_water.steps_full, mix_products, mix_products.bucket_full)
    return where(blank(to_weigh), np.nan, bucket)


def ticks(action: Each[Text], card: Table) -> Each[Text]:
    """A box to tick for each load; above four, a line for the number of the load."""
    loads = 0 if np.isnan(card.alike) else int(card.alike)
    return where(blank(action), "", _TICKS[: 2 * loads].rstrip() if loads <= MOST_BOXES else f"__ of {loads}")
