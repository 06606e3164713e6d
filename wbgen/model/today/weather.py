"""What the weather that is typed means for spraying: in bounds, to be asked about, forbidden, or not checked.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, is_word
from wbgen.model.types import Date, Number, Speed, Table, Temperature, Text

_SAID = ("in bounds", "ask first", "do not")
_UNKNOWN = "not checked"


def _said(level: Number) -> str:
    """What a level means; nothing where it is none."""
    return _SAID[int(level)] if 0 <= level < len(_SAID) else ""


def date_says(planner_date: Date) -> Text:
    """Whether the date is typed."""
    return "today" if blank(planner_date) else "typed"


def wind_says(wind: Speed, mix_checks: Table) -> Text:
    """What the wind means, and whether there is hardly any."""
    levels = [level for level in (mix_checks.level_wind, mix_checks.level_near_wind) if not blank(level)]
    said = _UNKNOWN if blank(wind) else _said(max(levels, default=0.0))
    return said + (", calm" if mix_checks.level_calm == 1 else "")


def wind_ask(mix_limits: Table) -> Speed:
    """Above which wind it asks first."""
    return mix_limits.ask_wind


def wind_stop(mix_limits: Table) -> Speed:
    """Above which wind it forbids."""
    return mix_limits.stop_wind


def air_says(air_temperature: Temperature, mix_checks: Table) -> Text:
    """What the temperature of the air means."""
    if blank(mix_checks.level_air):
        return ""
    return _UNKNOWN if blank(air_temperature) else _said(mix_checks.level_air)


def air_ask(settings: Table) -> Temperature:
    """Above which temperature it asks first."""
    return settings.hottest_air


def air_stop(settings: Table) -> Temperature:
    """Above which temperature it forbids."""
    return settings.stop_air


def humidity_says(humidity: Number, mix_checks: Table) -> Text:
    """What the humidity of the air means."""
    return _UNKNOWN if blank(humidity) else "hot and dry" if mix_checks.level_heat == 1 else "in bounds"


def rain_says(heavy_rain: Text) -> Text:
    """What the rain that is forecast means."""
    return _answered(heavy_rain)


def ground_says(wet_ground: Text) -> Text:
    """What frozen or waterlogged ground means."""
    return _answered(wet_ground)


def _answered(answer: Text) -> Text:
    return "do not" if is_word(answer, "yes") else "in bounds" if is_word(answer, "no") else _UNKNOWN
