"""How to walk, blank without a sprayer, and when to stop, which is the same for all.

A form: each figure is a scalar.
"""

from __future__ import annotations

from collections.abc import Mapping

from wbgen.model.tools.elementwise import blank, magnitude, ratio
from wbgen.model.tools.relations import lookup
from wbgen.model.tools.words import amount
from wbgen.model.types import Each, Length, Number, Pressure, Quantity, T, Table, Text, Time


def _of_sprayer(mix: Table, sprayers: Table, column: Each[T]) -> T:
    return lookup(mix.sprayer, sprayers.name, column)


def passes(mix: Table, sprayers: Table) -> Number:
    """How often each lawn is passed over."""
    return _of_sprayer(mix, sprayers, sprayers.passes)


def pace_distance(settings: Table) -> Length:
    """The distance that the time is for."""
    return settings.pace_distance


def pace(mix: Table, sprayers: Table, settings: Table) -> Time:
    """The time (s) for the distance of the settings, at the sprayer's ground speed."""
    return ratio(settings.pace_distance, _of_sprayer(mix, sprayers, sprayers.ground_speed))


def nozzle(mix: Table, sprayers: Table) -> Text:
    """The size of the nozzle."""
    return _of_sprayer(mix, sprayers, sprayers.nozzle_size)


def pressure(mix: Table, sprayers: Table) -> Pressure:
    """The pressure at the nozzle."""
    return _of_sprayer(mix, sprayers, sprayers.pressure)


def wind_words(limits: Table) -> Text:
    """The wind at which to stop, and the one above which to ask, in whole numbers."""
    return _listed({"stop at ": limits.stop_wind, "ask above ": limits.ask_wind})


def heat_words(settings: Table, mix_nutrients: Table) -> Text:
    """The air temperatures above which to ask: in any case, where the air is dry, and where the mix has iron."""
    limits = {"": settings.hottest_air, "in dry air ": settings.hot_air}
    if magnitude(mix_nutrients.rate_iron) > 0:
        limits["with this iron "] = settings.hot_air_iron
    return _listed(limits)


def _listed(limits: Mapping[str, Quantity]) -> str:
    """Limits that are set, each with its words before it."""
    told = [f"{words}{amount(limit, limit.units, 0)}" for words, limit in limits.items() if not blank(limit)]
    return "; ".join(told)


def strip(settings: Table) -> Length:
    """How far to keep off watercourses."""
    return settings.watercourse_strip
