"""All that speaks against a mix, in one level and in one line of words."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools.elementwise import or_zero
from wbgen.model.types import Number, Text

STOP = 2.0
"""The level at which a mix is forbidden."""


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
    level_own_acid: Number,
    level_low_ph: Number,
    level_high_ph: Number,
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
        level_acid, level_own_acid, level_low_ph, level_high_ph, level_humate, level_weather, level_later,
        level_rain, level_ground,
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
    words_own_acid: Text,
    words_low_ph: Text,
    words_high_ph: Text,
    words_humate: Text,
    words_calibration: Text,
    words_weather: Text,
) -> Text:
    """All that speaks against the mix: what is not known and what meets in the tank first, unchecked weather last."""
    stops = (words_text, words_later, *tank_words_every, words_water, words_rain, words_ground)
    of_place = (words_place_nitrogen, words_place_soluble, words_place_phosphorus, words_place_month)
    air = (words_heat, words_air, words_iron_heat, words_calm)
    water = (words_acid, words_own_acid, words_low_ph, words_high_ph, words_humate)
    return "".join([*stops, *of_place, *words_every, words_room, *air, *water, words_calibration, words_weather])


@reads_every(tank_stopping="trait_rules", stopping="risks")
def stop_words(
    words_text: Text,
    tank_stopping_every: list[Text],
    words_water: Text,
    words_rain: Text,
    words_ground: Text,
    words_place_nitrogen: Text,
    words_place_soluble: Text,
    words_place_phosphorus: Text,
    words_place_month: Text,
    stopping_every: list[Text],
    level_air: Number,
    words_air: Text,
    level_calibration: Number,
    words_calibration: Text,
) -> Text:
    """What forbids the mix, in the same order."""
    of_place = (words_place_nitrogen, words_place_soluble, words_place_phosphorus, words_place_month)
    first = (words_text, *tank_stopping_every, words_water, words_rain, words_ground, *of_place, *stopping_every)
    graded = ((level_air, words_air), (level_calibration, words_calibration))
    return "".join([*first, *(words for level, words in graded if level == STOP)])


@of_family("risks")
def stopping_each(level_each: Number, words_each: Text) -> Text:
    """What is said of a risk that forbids; else empty."""
    return words_each if level_each == STOP else ""


@of_family("trait_rules")
def tank_stopping_each(tank_each: Number, tank_words_each: Text) -> Text:
    """What is said of products that must not meet; else empty."""
    return tank_words_each if tank_each == STOP else ""
