"""How to walk, blank without a sprayer, and when to stop, which is the same for all.

A form: each figure is a scalar.
"""

from __future__ import annotations

from collections.abc import Mapping

from wbgen.model.tools.elementwise import blank, folded, magnitude, or_zero, ratio
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


def wind_words(limits: Table, settings: Table) -> Text:
    """The wind where the spray is, at which to stop, and those above and below which to ask, to a decimal."""
    winds = {"stop at ": limits.stop_near_wind, "ask above ": limits.ask_near_wind, "ask below ": settings.calm_wind}
    return _listed(winds, 1)


def heat_words(settings: Table, mix_nutrients: Table) -> Text:
    """The air temperatures above which to ask: in any case, in dry air, and where the mix has iron; and to stop."""
    limits = {"": settings.hottest_air, "in dry air ": settings.hot_air}
    if magnitude(mix_nutrients.rate_iron) > 0:
        limits["with this iron "] = settings.hot_air_iron
    return _listed(limits | {"stop above ": settings.stop_air}, 0)


def _listed(limits: Mapping[str, Quantity], digits: int) -> str:
    """Limits that are set, each with its words before it."""
    told = [f"{words}{amount(limit, limit.units, digits)}" for words, limit in limits.items() if not blank(limit)]
    return "; ".join(told)


def water_in(mix: Table, settings: Table) -> Text:
    """That the mix is to be watered in, and with how much, where the limits were widened for it; else empty."""
    watering = or_zero(settings.watering)
    words = f"WATER IN within an hour: {amount(watering, watering.units, 2)}"
    return words if folded(mix.watered_in)[0] == "yes" else ""


def strip(settings: Table) -> Length:
    """How far to keep off watercourses."""
    return settings.watercourse_strip
