"""Whether the visit may go."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import or_zero
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import Number, Table, Text

WORDS = ("Go", "Ask first", "Do not mix")


def level_wind(mix: Table, limits: Table) -> Number:
    wind = or_zero(mix.wind)
    return 2.0 if exceeds(wind, limits.stop_wind) else 1.0 if exceeds(wind, limits.ask_wind) else 0.0


def level(level_wind: Number, mix_products: Table) -> Number:
    return float(np.fmax.reduce([level_wind, *mix_products.level]))


def verdict(level: Number) -> Text:
    return "" if level != level else WORDS[int(level)]  # an engine may have no level to give
