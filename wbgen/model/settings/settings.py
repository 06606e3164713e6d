"""The settings that are worked out: when this season started, when the grass is first asked, and limits of the wind.

A form: each figure is a scalar.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import is_word, like, magnitude, only, or_zero, where, with_unit
from wbgen.model.types import Date, Length, MassPerArea, MassPerVolume, Number, Speed, Table, Text, Time

_ONE_DAY: Final = with_unit(1.0, "day")


def season_start(season_month: Number, season_day: Number, start: Table) -> Date:
    """Serial date of the latest start of a season that is not after the as-of date."""
    return dates.season_start_of(only(start.as_of), dates.or_first(season_month), dates.or_first(season_day))


def soil_mass(root_depth: Length, soil_density: MassPerVolume) -> MassPerArea:
    """The soil, by area, that a soil test speaks of; nothing of it where depth or density is blank."""
    return or_zero(root_depth) * or_zero(soil_density)


def after_days(after_least: Time) -> Time:
    """How long after a visit a score counts as its answer at the soonest: never on the day of the visit itself.

    >>> from wbgen.units.quantity import FLOAT
    >>> float(after_days(FLOAT.Quantity(0.0, "day")).magnitude)
    1.0
    """
    least = or_zero(after_least)
    return like(least, np.maximum(magnitude(least), _ONE_DAY.to(least.units).magnitude))


def _near(diary_wind: Text) -> bool:
    """Whether the diary's winds are of spray height, as they count unless they are said to be forecasts."""
    return not bool(is_word(diary_wind, "forecast at 10 m")[0])


def wind_ask(diary_wind: Text, limits: Table) -> Speed:
    """Above which wind (km/h) of the diary a spray is asked about, by the height of its winds."""
    return where(_near(diary_wind), limits.ask_near_wind, limits.ask_wind)


def wind_stop(diary_wind: Text, limits: Table) -> Speed:
    """From which wind (km/h) of the diary nothing should have been sprayed."""
    return where(_near(diary_wind), limits.stop_near_wind, limits.stop_wind)
