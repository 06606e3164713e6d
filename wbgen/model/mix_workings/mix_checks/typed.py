"""What of the inputs speaks against a mix: a text where a number belongs, a date that the diary is past."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from wbgen.model.mix_workings.mix_checks._levels import level_of, said
from wbgen.model.types import Number, Table, Text

CHOSEN = {"tank": "tank of the round", "date": "date", "wanted_carrier": "carrier volume wanted"}
OVERLAP = {"overlap": "overlap"}
OF_THE_WATER = {
    "water_temperature": "water temperature",
    "ph": "pH of the water",
    "alkalinity": "alkalinity of the water",
    "hardness": "hardness of the water",
}
OF_THE_AIR = {"wind": "wind", "air_temperature": "air temperature", "humidity": "humidity"}
"""These four: the inputs of the sheets Mix and Start that are numbers, and how each is called."""


def level_text(chosen: Table, chosen_more: Table, weather: Table) -> Number:
    """2 where something other than a number stands where one belongs: it is not known what was meant."""
    named = _none(chosen, CHOSEN) + _none(chosen_more, OVERLAP | OF_THE_WATER) + _none(weather, OF_THE_AIR)
    return level_of(named != "", 2.0)


def water_texts(chosen_more: Table) -> Text:
    """Which of the water's numbers are none."""
    return _none(chosen_more, OF_THE_WATER)


def words_text(chosen: Table, chosen_more: Table, weather: Table, water_texts: Text) -> Text:
    """Which of the visit's numbers are none."""
    named = _none(chosen, CHOSEN) + _none(chosen_more, OVERLAP) + water_texts + _none(weather, OF_THE_AIR)
    return named.replace(", ", "; a text where a number belongs: ", 1)


def _none(table: Table, numbers: Mapping[str, str]) -> str:
    return "".join(f", {name}" for key, name in numbers.items() if getattr(table, f"misplaced_{key}"))


def level_later(mix: Table, diary: Table) -> Number:
    """1 where the diary has lines of a lawn of the mix after its date: the year may be wrong."""
    later = (diary.mix_family >= 0) & (diary.date > mix.visit_date)
    return level_of(bool(np.any(later)), 1.0)


def words_later(level_later: Number) -> Text:
    """What is said of lines that are later than the mix; else empty."""
    return said(level_later, "; the diary has later lines of these lawns, is the date right?")
