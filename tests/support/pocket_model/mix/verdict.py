"""Whether the visit may go."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.elementwise import or_zero
from wbgen.model.tools.rounding import exceeds

Value = Any
WORDS = ("Go", "Ask first", "Do not mix")


def level_wind(mix: Value, limits: Value) -> Value:
    wind = or_zero(mix.wind)
    return 2.0 if exceeds(wind, limits.stop_wind) else 1.0 if exceeds(wind, limits.ask_wind) else 0.0


def level(level_wind: Value, mix_products: Value) -> Value:
    return float(np.fmax.reduce([level_wind, *mix_products.level]))


def verdict(level: Value) -> Value:
    return "" if level != level else WORDS[int(level)]  # an engine may have no level to give
