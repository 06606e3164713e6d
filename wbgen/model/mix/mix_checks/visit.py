"""What speaks against the visit as a whole: its numbers, the sprayer, the weather, the place, and the tank."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.mix.mix_checks._levels import level_of, said
from wbgen.model.tools.dates import month_of
from wbgen.model.tools.elementwise import blank, folded, is_word, magnitude, or_zero
from wbgen.model.tools.relations import pick, total
from wbgen.model.tools.rounding import exceeds, half_up
from wbgen.model.tools.weather import heat_unchecked
from wbgen.model.types import Number, Table, Text, Volume
from wbgen.trade.families import Member


def _is(text: Text, word: str) -> bool:
    return bool(folded(text)[0] == word)


OF_THE_VISIT = {"date": "date", "wanted_carrier": "carrier volume wanted", "overlap": "overlap"}
OF_THE_WATER = {
    "water_temperature": "water temperature",
    "ph": "pH of the water",
    "alkalinity": "alkalinity of the water",
    "hardness": "hardness of the water",
}
OF_THE_AIR = {"wind": "wind", "air_temperature": "air temperature", "humidity": "humidity"}
"""These three: the inputs of the sheet Mix that are numbers, and how each is called."""


def level_text(mix: Table) -> Number:
    """2 where something other than a number stands where one belongs: it is not known what was meant."""
    keys = [*OF_THE_VISIT, *OF_THE_WATER, *OF_THE_AIR]
    return level_of(np.any([getattr(mix, f"misplaced_{key}") for key in keys]), 2.0)


def water_texts(mix: Table) -> Text:
    """Which of the water's numbers are none."""
    return _none(mix, OF_THE_WATER)


def words_text(mix: Table, water_texts: Text) -> Text:
    """Which of the visit's numbers are none."""
    named = _none(mix, OF_THE_VISIT) + water_texts + _none(mix, OF_THE_AIR)
    return named.replace(", ", "; a text where a number belongs: ", 1)


def _none(mix: Table, numbers: Mapping[str, str]) -> str:
    return "".join(f", {name}" for key, name in numbers.items() if getattr(mix, f"misplaced_{key}"))


def level_calibration(mix: Table) -> Number:
    """1 where the sprayer was never calibrated, 2 where nobody said how a hose-end sprayer's jar is thinned."""
    if _is(mix.calibration, "no jar dilution"):
        return 2.0
    return level_of(_is(mix.calibration, "never calibrated"), 1.0)


def words_calibration(level_calibration: Number) -> Text:
    """What is said of a sprayer that was never calibrated, or of a jar; else empty."""
    if level_calibration > 1:
        return "; the dilution of the hose-end sprayer's jar is not given"
    return said(level_calibration, "; the sprayer was never calibrated")


def level_water(mix: Table) -> Number:
    """2 where the liquids alone overfill a load."""
    loads = (mix.clean_water_full, mix.clean_water_last)
    return level_of(any(magnitude(half_up(water, 9)) < 0 for water in loads), 2.0)


def words_water(level_water: Number) -> Text:
    """What is said where the liquids leave no room for water; else empty."""
    return said(level_water, "; no room for water, see the least carrier volume")


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


def level_room(mix: Table, mix_products: Table) -> Number:
    """1 where the buckets of dissolved solids take all the room that the liquids leave; 0 where there is no bucket."""
    loads = ((mix.clean_water_full, mix_products.bucket_full), (mix.clean_water_last, mix_products.bucket_last))
    return level_of(any(_overfilled(water, total(buckets)) for water, buckets in loads), 1.0)


def _overfilled(water: Volume, buckets: Volume) -> bool:
    return bool(magnitude(buckets) > 0 and magnitude(half_up(water - buckets, 9)) <= 0)


def words_room(level_room: Number) -> Text:
    """What is said where the buckets would overfill the tank; else empty."""
    return said(level_room, "; the buckets would overfill the tank, dissolve in the tank or take more water")


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
    answers = [not (_is(text, "yes") or _is(text, "no")) for text in (mix.heavy_rain, mix.wet_ground)]
    return float(sum([bool(blank(mix.wind)), heat_unchecked(mix, settings), *answers]))


def level_weather(unchecked: Number) -> Number:
    """1 where some of the weather was not checked: that is not go."""
    return level_of(unchecked > 0, 1.0)


def words_weather(unchecked: Number, mix: Table) -> Text:
    """What is said where some of the weather was not checked; which of it, the verdict's next line says."""
    none = blank(mix.wind) and blank(mix.air_temperature) and blank(mix.heavy_rain) and blank(mix.wet_ground)
    return said(unchecked, "; the weather was not checked" if none else "; not all of the weather was checked")


def level_later(mix: Table, diary: Table) -> Number:
    """1 where the diary has lines of a lawn of the mix after its date: the year may be wrong."""
    later = is_word(diary.of_this_mix, "yes") & (diary.date > mix.visit_date)
    return level_of(bool(np.any(later)), 1.0)


def words_later(level_later: Number) -> Text:
    """What is said of lines that are later than the mix; else empty."""
    return said(level_later, "; the diary has later lines of these lawns, is the date right?")


def level_rain(mix: Table) -> Number:
    """2 where heavy rain is forecast (EPA Ireland on S.I. 31/2014)."""
    return level_of(_is(mix.heavy_rain, "yes"), 2.0)


def words_rain(level_rain: Number) -> Text:
    """What is said of heavy rain that is forecast; else empty."""
    return said(level_rain, "; heavy rain is forecast")


def level_ground(mix: Table) -> Number:
    """2 where the ground is frozen or waterlogged (EPA Ireland on S.I. 31/2014)."""
    return level_of(_is(mix.wet_ground, "yes"), 2.0)


def words_ground(level_ground: Number) -> Text:
    """What is said of frozen or waterlogged ground; else empty."""
    return said(level_ground, "; the ground is frozen or waterlogged")


def level_place_nitrogen(mix_nutrients: Table, place: Table) -> Number:
    """2 where the visit brings more nitrogen than the rule of the place allows."""
    return level_of(exceeds(mix_nutrients.rate_nitrogen, place.most_nitrogen), 2.0)


def words_place_nitrogen(level_place_nitrogen: Number, place: Table) -> Text:
    """What is said of more nitrogen than the place allows in one visit, with its rule; else empty."""
    return said(level_place_nitrogen, f"; more nitrogen in one visit than allowed: {place.rule_words}")


def level_place_soluble(mix: Table, place: Table) -> Number:
    """2 where the visit brings more soluble nitrogen than the rule of the place allows."""
    return level_of(exceeds(mix.soluble_nitrogen, place.most_soluble), 2.0)


def words_place_soluble(level_place_soluble: Number, place: Table) -> Text:
    """What is said of more soluble nitrogen than the place allows, with its rule; else empty."""
    return said(level_place_soluble, f"; more soluble nitrogen in one visit than allowed: {place.rule_words}")


def level_place_phosphorus(mix_nutrients: Table, place: Table) -> Number:
    """2 where the visit brings phosphate to a place that allows none."""
    return level_of(_is(place.no_phosphorus, "yes") and exceeds(mix_nutrients.rate_phosphate, 0.0), 2.0)


def words_place_phosphorus(level_place_phosphorus: Number, place: Table) -> Text:
    """What is said of phosphorus where the place allows none, with its rule; else empty."""
    return said(level_place_phosphorus, f"; phosphorus is not allowed: {place.rule_words}")


def level_place_month(mix: Table, months: Table) -> Number:
    """2 where the visit falls into a month that is closed to feeding."""
    return level_of(_is(pick(months.closed, month_of(mix.visit_date) - 1), "yes"), 2.0)


def words_place_month(level_place_month: Number) -> Text:
    """What is said of a month that is closed to feeding; else empty."""
    return said(level_place_month, "; this month is closed to feeding")


@of_family("trait_rules")
def tank_each(mix_products: Table) -> Number:
    """The level at which two products of this tank break the rule; 0 where none do."""
    return np.max(or_zero(mix_products.rule_each), initial=0.0)


@of_family("trait_rules")
def tank_words_each(tank_each: Number, each: Member) -> Text:
    """What is said of two products that break the rule, with its reason; else empty."""
    never, jar = "must not share a tank,", "jar test first,"
    start = f"{each.name} {never}" if tank_each > 1 else f"{each.name}, {jar}"
    return said(tank_each, f"; {start} {each.says['reason']}")


@reads_every(level="risks", tank="trait_rules")
def worst(
    level_every: list[Number],
    level_text: Number,
    level_calibration: Number,
    level_water: Number,
    level_room: Number,
    level_heat: Number,
    level_air: Number,
    level_iron_heat: Number,
    level_calm: Number,
    level_acid: Number,
    level_humate: Number,
    level_weather: Number,
    level_later: Number,
    level_rain: Number,
    level_ground: Number,
    level_place_nitrogen: Number,
    level_place_soluble: Number,
    level_place_phosphorus: Number,
    level_place_month: Number,
    tank_every: list[Number],
) -> Number:
    """The worst of all these levels."""
    single = (
        level_text, level_calibration, level_water, level_room, level_heat, level_air, level_iron_heat, level_calm,
        level_acid, level_humate, level_weather, level_later, level_rain, level_ground,
    )  # fmt: skip
    of_place = (level_place_nitrogen, level_place_soluble, level_place_phosphorus, level_place_month)
    return float(np.max(or_zero(np.array([*level_every, *single, *of_place, *tank_every], dtype=float))))


@reads_every(tank_words="trait_rules", words="risks")
def words(
    words_text: Text,
    words_later: Text,
    tank_words_every: list[Text],
    words_water: Text,
    words_rain: Text,
    words_ground: Text,
    words_place_nitrogen: Text,
    words_place_soluble: Text,
    words_place_phosphorus: Text,
    words_place_month: Text,
    words_every: list[Text],
    words_room: Text,
    words_heat: Text,
    words_air: Text,
    words_iron_heat: Text,
    words_calm: Text,
    words_acid: Text,
    words_humate: Text,
    words_calibration: Text,
    words_weather: Text,
) -> Text:
    """All that speaks against the mix: what is not known and what meets in the tank first, unchecked weather last."""
    stops = (words_text, words_later, *tank_words_every, words_water, words_rain, words_ground)
    of_place = (words_place_nitrogen, words_place_soluble, words_place_phosphorus, words_place_month)
    air = (words_heat, words_air, words_iron_heat, words_calm)
    water = (words_acid, words_humate)
    return "".join([*stops, *of_place, *words_every, words_room, *air, *water, words_calibration, words_weather])
