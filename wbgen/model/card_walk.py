"""How to walk, and when to stop. All of it are scalars; blank without a sprayer."""

from __future__ import annotations

from typing import Any

from wbgen.model.relations import lookup, ratio

Value = Any


def _of_sprayer(mix: Value, sprayers: Value, column: Value) -> Value:
    return lookup(mix.sprayer, sprayers.name, column)


def passes(mix: Value, sprayers: Value) -> Value:
    """How often each lawn is passed over."""
    return _of_sprayer(mix, sprayers, sprayers.passes)


def pace_distance(settings: Value) -> Value:
    """The distance that the time is for."""
    return settings.pace_distance


def pace(mix: Value, sprayers: Value, settings: Value) -> Value:
    """The time (s) for the distance of the settings, at the sprayer's ground speed."""
    return ratio(settings.pace_distance, _of_sprayer(mix, sprayers, sprayers.ground_speed))


def nozzle(mix: Value, sprayers: Value) -> Value:
    """The size of the nozzle."""
    return _of_sprayer(mix, sprayers, sprayers.nozzle_size)


def pressure(mix: Value, sprayers: Value) -> Value:
    """The pressure at the nozzle."""
    return _of_sprayer(mix, sprayers, sprayers.pressure)


def stop_wind(limits: Value) -> Value:
    """The wind at which to stop."""
    return limits.stop_wind


def ask_wind(limits: Value) -> Value:
    """The wind above which to ask."""
    return limits.ask_wind


def ask_heat(settings: Value) -> Value:
    """The air temperature above which to ask in any case."""
    return settings.hottest_air


def ask_dry(settings: Value) -> Value:
    """The air temperature above which to ask where the air is dry."""
    return settings.hot_air


def strip(settings: Value) -> Value:
    """How far to keep off watercourses."""
    return settings.watercourse_strip
