"""What of the weather speaks against a mix, and what of it was not checked."""

from __future__ import annotations

from wbgen.model.mix_workings.mix_checks._levels import is_said, level_of, said
from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.weather import heat_unchecked
from wbgen.model.types import Number, Table, Text


def level_heat(mix: Table, settings: Table) -> Number:
    """1 in air that is hot and dry, where both are known (Ontario, how weather conditions affect spraying)."""
    return level_of((mix.air_temperature > settings.hot_air) & (mix.humidity < settings.dry_air), 1.0)


def words_heat(level_heat: Number) -> Text:
    """What is said of hot and dry air; else empty."""
    return said(level_heat, "; hot and dry air")


def level_air(mix: Table, settings: Table) -> Number:
    """1 in air that is too hot or too cold to spray in any case, 2 in great heat; common practice, no source."""
    if mix.air_temperature > settings.stop_air:
        return 2.0
    return level_of((mix.air_temperature > settings.hottest_air) | (mix.air_temperature < settings.coldest_air), 1.0)


def words_air(level_air: Number) -> Text:
    """What is said of air too hot or too cold to spray in; else empty."""
    return said(level_air, "; too hot to mix: do not" if level_air > 1 else "; too hot or too cold to spray")


def level_iron_heat(mix: Table, mix_nutrients: Table, settings: Table) -> Number:
    """1 where iron is delivered in air that is too hot for it."""
    return level_of((mix_nutrients.rate_iron > 0) & (mix.air_temperature > settings.hot_air_iron), 1.0)


def words_iron_heat(level_iron_heat: Number) -> Text:
    """What is said of iron in heat; else empty."""
    return said(level_iron_heat, "; iron in heat")


def level_calm(mix: Table, settings: Table) -> Number:
    """1 in air that hardly moves (Ontario, how weather conditions affect spraying)."""
    return level_of(mix.wind < settings.calm_wind, 1.0)


def words_calm(level_calm: Number) -> Text:
    """What is said of still air; else empty."""
    return said(level_calm, "; hardly any wind, fine drops may hang and travel")


def unchecked(mix: Table, settings: Table) -> Number:
    """How many of wind, heat, rain and ground were not checked (0 to 4); rain and ground are checked by yes or no.

    Heat is checked by the temperature, and by the humidity too where the air is so hot that its dryness matters.
    """
    answers = [not (is_said(text, "yes") or is_said(text, "no")) for text in (mix.heavy_rain, mix.wet_ground)]
    return float(sum([bool(blank(mix.wind)), heat_unchecked(mix, settings), *answers]))


def level_weather(unchecked: Number) -> Number:
    """1 where some of the weather was not checked: that is not go."""
    return level_of(unchecked > 0, 1.0)


def words_weather(unchecked: Number, mix: Table) -> Text:
    """What is said where some of the weather was not checked; which of it, the verdict's next line says."""
    none = blank(mix.wind) and blank(mix.air_temperature) and blank(mix.heavy_rain) and blank(mix.wet_ground)
    return said(unchecked, "; the weather was not checked" if none else "; not all of the weather was checked")


def level_rain(mix: Table) -> Number:
    """2 where heavy rain is forecast (EPA Ireland on S.I. 31/2014)."""
    return level_of(is_said(mix.heavy_rain, "yes"), 2.0)


def words_rain(level_rain: Number) -> Text:
    """What is said of heavy rain that is forecast; else empty."""
    return said(level_rain, "; heavy rain is forecast")


def level_ground(mix: Table) -> Number:
    """2 where the ground is frozen or waterlogged (EPA Ireland on S.I. 31/2014)."""
    return level_of(is_said(mix.wet_ground, "yes"), 2.0)


def words_ground(level_ground: Number) -> Text:
    """What is said of frozen or waterlogged ground; else empty."""
    return said(level_ground, "; the ground is frozen or waterlogged")
