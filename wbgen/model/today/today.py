"""Whether one may spray by the weather, and how many lawns are not shown.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.words import counts
from wbgen.model.types import Table, Text

_STOPS = ("wind", "near_wind", "air", "rain", "ground")
_ASKS = ("wind", "near_wind", "air", "heat", "calm")
_CHECKED = ("wind", "air", "humidity", "rain", "ground")


def spraying(mix_checks: Table, weather: Table) -> Text:
    """Whether one may spray, by what was typed of the weather; what was not checked is said."""
    if _worst(mix_checks, _STOPS) >= 2:
        return "do not, by the weather"
    if _worst(mix_checks, _ASKS) >= 1:
        return "ask first, by the weather"
    if mix_checks.unchecked == 0:
        return "in bounds"
    if all(getattr(weather, f"{name}_says") == "not checked" for name in _CHECKED):
        return "not checked"
    return "in bounds, as far as it was checked"


def _worst(mix_checks: Table, names: tuple[str, ...]) -> float:
    levels = [getattr(mix_checks, f"level_{name}") for name in names]
    return max((float(level) for level in levels if not blank(level)), default=0.0)


def more_lawns(season_share: Table, today_lawns: Table) -> Text:
    """How many lawns the list has no line for."""
    more = float(np.sum(~blank(season_share.away_rank)) - today_lawns.records)
    return f"and {counts(more)} more, on the sheet Feeding" if more > 0 else "all that were measured"
