"""Products: what a pack costs."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, ratio, where
from wbgen.model.types import Each, MassPerPack, MoneyPerMass, MoneyPerPack, Text


def price_by_mass(name: Each[Text], price: Each[MoneyPerPack], pack_mass: Each[MassPerPack]) -> Each[MoneyPerMass]:
    return where(blank(name), np.nan, ratio(price, pack_mass))
