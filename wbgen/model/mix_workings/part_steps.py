"""The steps of making the part load at the end: one record a step.

One record a step: shape (card_steps,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import steps
from wbgen.model.tools.elementwise import blank, where
from wbgen.model.types import Each, Mass, Number, Table, Text, Volume


def action(line: Each[Number], card: Table, mix_products: Table, mix_checks: Table, mix_water: Table) -> Each[Text]:
    """What is done: fill, dissolve or weigh or pour, top up."""
    return steps.action(line, mix_water.steps_last, card.part_mark, mix_products, mix_checks, mix_products.bucket_last)


def what(action: Each[Text], line: Each[Number], mix_products: Table, mix_water: Table) -> Each[Text]:
    """What it is done with: water, acid for it, or a product."""
    acid = mix_water.steps_last
    return steps.what(action, line, acid, steps.of_line(line, acid, mix_products, mix_products.product))


def to_weigh(action: Each[Text], line: Each[Number], mix_products: Table, mix_water: Table) -> Each[Mass]:
    """What to weigh (g)."""
    acid = mix_water.steps_last
    return steps.weighed(action, line, acid, mix_water.weigh_last, mix_products, mix_products.weigh_last)


def to_pour(action: Each[Text], line: Each[Number], mix_products: Table, mix_water: Table) -> Each[Volume]:
    """What to pour (mL)."""
    return steps.poured(action, line, mix_water.steps_last, mix_products, mix_products.pour_last)


def to_fill(action: Each[Text], card: Table, mix: Table) -> Each[Volume]:
    """To which level (L) the water goes."""
    return steps.to_fill(action, card.part_mark, mix.first_fill_last)


def dissolve_in(to_weigh: Each[Mass], line: Each[Number], mix_products: Table, mix_water: Table) -> Each[Volume]:
    """The water (L) in which a solid is dissolved first; acid is stirred into the tank's own."""
    bucket = steps.of_line(line, mix_water.steps_last, mix_products, mix_products.bucket_last)
    return where(blank(to_weigh), np.nan, bucket)


def ticks(action: Each[Text]) -> Each[Text]:
    """A box to tick."""
    return where(blank(action), "", "☐")
