"""The steps of making the part load at the end: one record a step.

One record a step: shape (card_steps,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import steps
from wbgen.model.tools.elementwise import blank, where
from wbgen.model.types import Each, Mass, Number, Table, Text, Volume


def action(line: Each[Number], card: Table, mix_products: Table, mix_checks: Table) -> Each[Text]:
    """What is done: fill, dissolve, weigh or pour, top up."""
    return steps.action(line, card.part_mark, mix_products, mix_checks, mix_products.bucket_last)


def what(action: Each[Text], line: Each[Number], mix_products: Table) -> Each[Text]:
    """What it is done with: water, or a product."""
    return steps.what(action, steps.of_line(line, mix_products, mix_products.product))


def to_weigh(action: Each[Text], line: Each[Number], mix_products: Table) -> Each[Mass]:
    """What to weigh (g)."""
    return steps.measured(action, steps.WEIGHED, line, mix_products, mix_products.weigh_last)


def to_pour(action: Each[Text], line: Each[Number], mix_products: Table) -> Each[Volume]:
    """What to pour (mL)."""
    return steps.measured(action, steps.POURED, line, mix_products, mix_products.pour_last)


def to_fill(action: Each[Text], card: Table, mix: Table) -> Each[Volume]:
    """To which level (L) the water goes."""
    return steps.to_fill(action, card.part_mark, mix.first_fill_last)


def dissolve_in(to_weigh: Each[Mass], line: Each[Number], mix_products: Table) -> Each[Volume]:
    """The water (L) in which a solid is dissolved first."""
    return where(blank(to_weigh), np.nan, steps.of_line(line, mix_products, mix_products.bucket_last))


def ticks(action: Each[Text]) -> Each[Text]:
    """A box to tick."""
    return where(blank(action), "", "☐")
