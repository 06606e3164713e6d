"""What speaks against the visit as a whole: its numbers, the sprayer, the weather, the place, and the tank."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.mix.mix_checks._levels import level_of, said
from wbgen.model.tools.dates import month_of
from wbgen.model.tools.relations import folded, magnitude, or_zero, pick
from wbgen.model.tools.rounding import exceeds, half_up
from wbgen.trade.families import Member

Value = Any


def _is(text: Value, word: str) -> bool:
    return bool(folded(text)[0] == word)


NUMBERS = {
    "date": "date",
    "wanted_carrier": "carrier volume wanted",
    "overlap": "overlap",
    "water_temperature": "water temperature",
    "hardness": "hardness of the water",
    "wind": "wind",
    "air_temperature": "air temperature",
    "humidity": "humidity",
}
"""What is a number of a visit, and how it is called."""


def level_text(mix: Value) -> float:
    """2 where something other than a number stands where one belongs: it is not known what was meant."""
    return level_of(np.any([getattr(mix, f"misplaced_{key}") for key in NUMBERS]), 2.0)


def words_text(mix: Value) -> str:
    """Which of the visit's numbers are none."""
    named = [name for key, name in NUMBERS.items() if getattr(mix, f"misplaced_{key}")]
    return f"; a text where a number belongs: {', '.join(named)}" if named else ""


def level_calibration(mix: Value) -> float:
    """1 where the sprayer was never calibrated."""
    return level_of(_is(mix.calibration, "never calibrated"), 1.0)


def words_calibration(level_calibration: float) -> str:
    """The same in words."""
    return said(level_calibration, "; the sprayer was never calibrated")


def level_water(mix: Value) -> float:
    """2 where the liquids alone overfill a load."""
    loads = (mix.clean_water_full, mix.clean_water_last)
    return level_of(any(magnitude(half_up(water, 9)) < 0 for water in loads), 2.0)


def words_water(level_water: float) -> str:
    """The same in words."""
    return said(level_water, "; no room for water, see the least carrier volume")


def level_heat(mix: Value, settings: Value) -> float:
    """1 in air that is hot and dry, where both are known (Ontario, how weather conditions affect spraying)."""
    return level_of((mix.air_temperature > settings.hot_air) & (mix.humidity < settings.dry_air), 1.0)


def words_heat(level_heat: float) -> str:
    """The same in words."""
    return said(level_heat, "; hot and dry air")


def level_air(mix: Value, settings: Value) -> float:
    """1 in air that is too hot or too cold to spray in any case; common practice, no source."""
    return level_of((mix.air_temperature > settings.hottest_air) | (mix.air_temperature < settings.coldest_air), 1.0)


def words_air(level_air: float) -> str:
    """The same in words."""
    return said(level_air, "; too hot or too cold to spray")


def level_room(mix: Value) -> float:
    """1 where the buckets and the liquids leave no room for water to begin with."""
    begun = (mix.first_fill_full, mix.first_fill_last)
    return level_of(any(magnitude(half_up(water, 9)) <= 0 for water in begun), 1.0)


def words_room(level_room: float) -> str:
    """The same in words."""
    return said(level_room, "; the buckets would overfill the tank, dissolve in the tank or take more water")


def level_iron_heat(mix: Value, mix_nutrients: Value, settings: Value) -> float:
    """1 where iron is delivered in air that is too hot for it."""
    return level_of((mix_nutrients.rate_iron > 0) & (mix.air_temperature > settings.hot_air_iron), 1.0)


def words_iron_heat(level_iron_heat: float) -> str:
    """The same in words."""
    return said(level_iron_heat, "; iron in heat")


def level_rain(mix: Value) -> float:
    """2 where heavy rain is forecast (EPA Ireland on S.I. 31/2014)."""
    return level_of(_is(mix.heavy_rain, "yes"), 2.0)


def words_rain(level_rain: float) -> str:
    """The same in words."""
    return said(level_rain, "; heavy rain is forecast")


def level_ground(mix: Value) -> float:
    """2 where the ground is frozen or waterlogged (EPA Ireland on S.I. 31/2014)."""
    return level_of(_is(mix.wet_ground, "yes"), 2.0)


def words_ground(level_ground: float) -> str:
    """The same in words."""
    return said(level_ground, "; the ground is frozen or waterlogged")


def level_place_nitrogen(mix_nutrients: Value, place: Value) -> float:
    """2 where the visit brings more nitrogen than the rule of the place allows."""
    return level_of(exceeds(mix_nutrients.rate_nitrogen, place.most_nitrogen), 2.0)


def words_place_nitrogen(level_place_nitrogen: float, place: Value) -> str:
    """The same in words, with the rule."""
    return said(level_place_nitrogen, f"; more nitrogen in one visit than allowed: {place.rule_words}")


def level_place_soluble(mix: Value, place: Value) -> float:
    """2 where the visit brings more soluble nitrogen than the rule of the place allows."""
    return level_of(exceeds(mix.soluble_nitrogen, place.most_soluble), 2.0)


def words_place_soluble(level_place_soluble: float, place: Value) -> str:
    """The same in words, with the rule."""
    return said(level_place_soluble, f"; more soluble nitrogen in one visit than allowed: {place.rule_words}")


def level_place_phosphorus(mix_nutrients: Value, place: Value) -> float:
    """2 where the visit brings phosphate to a place that allows none."""
    return level_of(_is(place.no_phosphorus, "yes") and exceeds(mix_nutrients.rate_phosphate, 0.0), 2.0)


def words_place_phosphorus(level_place_phosphorus: float, place: Value) -> str:
    """The same in words, with the rule."""
    return said(level_place_phosphorus, f"; phosphorus is not allowed: {place.rule_words}")


def level_place_month(mix: Value, months: Value) -> float:
    """2 where the visit falls into a month that is closed to feeding."""
    return level_of(_is(pick(months.closed, month_of(mix.visit_date) - 1), "yes"), 2.0)


def words_place_month(level_place_month: float) -> str:
    """The same in words."""
    return said(level_place_month, "; this month is closed to feeding")


@of_family("trait_rules")
def tank_each(mix_products: Value) -> Value:
    """The level at which two products of this tank break the rule; 0 where none do."""
    return np.max(or_zero(mix_products.rule_each), initial=0.0)


@of_family("trait_rules")
def tank_words_each(tank_each: Value, each: Member) -> str:
    """The same in words."""
    never, jar = "must not share a tank,", "jar test first,"
    start = f"{each.name} {never}" if tank_each > 1 else f"{each.name}, {jar}"
    return said(tank_each, f"; {start} {each.says['reason']}")


@reads_every(level="risks", tank="trait_rules")
def worst(
    level_every: list[Value],
    level_text: float,
    level_calibration: float,
    level_water: float,
    level_room: float,
    level_heat: float,
    level_air: float,
    level_iron_heat: float,
    level_rain: float,
    level_ground: float,
    level_place_nitrogen: float,
    level_place_soluble: float,
    level_place_phosphorus: float,
    level_place_month: float,
    tank_every: list[Value],
) -> float:
    """The worst of all these levels; what was not checked is passed over."""
    single = (
        level_text, level_calibration, level_water, level_room, level_heat, level_air, level_iron_heat, level_rain,
        level_ground,
    )  # fmt: skip
    of_place = (level_place_nitrogen, level_place_soluble, level_place_phosphorus, level_place_month)
    return float(np.max(or_zero(np.array([*level_every, *single, *of_place, *tank_every], dtype=float))))


@reads_every(tank_words="trait_rules", words="risks")
def words(
    words_text: str,
    tank_words_every: list[str],
    words_water: str,
    words_rain: str,
    words_ground: str,
    words_place_nitrogen: str,
    words_place_soluble: str,
    words_place_phosphorus: str,
    words_place_month: str,
    words_every: list[str],
    words_room: str,
    words_heat: str,
    words_air: str,
    words_iron_heat: str,
    words_calibration: str,
) -> str:
    """Everything that speaks against the mix: what is not known and what meets in the tank first, calibration last."""
    stops = (words_text, *tank_words_every, words_water, words_rain, words_ground)
    of_place = (words_place_nitrogen, words_place_soluble, words_place_phosphorus, words_place_month)
    return "".join(
        [*stops, *of_place, *words_every, words_room, words_heat, words_air, words_iron_heat, words_calibration]
    )
