"""What goes into the tank."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import magnitude, or_zero, where
from wbgen.model.tools.lines import match
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import Each, Mask, Mass, MassPerArea, Number, Table, Text, Volume, VolumePerArea

BLANK_UNLESS = ("product",)


def product_line(product: Each[Text], products: Table) -> Each[Number]:
    return match(product, products.name)


def weigh(own_rate_mass: Each[MassPerArea], mix: Table) -> Each[Mass]:
    return where(magnitude(own_rate_mass) > 0, own_rate_mass * mix.treated_area, np.nan)


def pour_full(own_rate_volume: Each[VolumePerArea], mix: Table) -> Each[Volume]:
    return where(magnitude(own_rate_volume) > 0, own_rate_volume * mix.treated_area, np.nan)


def level(own_rate_mass: Each[MassPerArea], misplaced_own_rate_mass: Mask, limits: Table) -> Each[Number]:
    """2 for a text and over the upper limit, 1 over the lower one."""
    rate = or_zero(own_rate_mass)
    above = where(exceeds(rate, limits.stop_rate), 2.0, where(exceeds(rate, limits.ask_rate), 1.0, 0.0))
    return where(misplaced_own_rate_mass, 2.0, above)
