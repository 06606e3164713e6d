"""What an empty box of the log takes, in words.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.methods import is_of_the_diarys_height
from wbgen.model.tools.words import amount
from wbgen.model.types import Table, Text


def _no_number(misplaced: bool) -> str:
    """What is said before it where the box holds a text, which is not taken."""
    return "not a number; " if misplaced else ""


def who_taken(mix: Table) -> Text:
    """Who does it by the sheet Mix, or that nobody is named."""
    return "nobody: choose one" if blank(mix.who) else f"{mix.who}, of the sheet Mix"


def left_over_taken(mix: Table, misplaced_left_over: bool) -> Text:
    """What is left over by the plan."""
    if not mix.remainder > 0:
        return _no_number(misplaced_left_over) + "nothing"
    return _no_number(misplaced_left_over) + amount(mix.remainder, mix.remainder.units, 1) + ", as planned"


def air_taken(mix: Table, misplaced_air_temperature: bool) -> Text:
    """The temperature that was typed for the visit, or what it means that none was."""
    if blank(mix.air_temperature):
        return _no_number(misplaced_air_temperature) + "not noted: then it is not judged"
    return (
        _no_number(misplaced_air_temperature)
        + amount(mix.air_temperature, mix.air_temperature.units, 0)
        + ", of the sheet Today"
    )


def wind_taken(mix: Table, settings: Table, misplaced_wind: bool) -> Text:
    """The wind that was typed for the visit, where it is of the height of the diary's, or why it is not taken."""
    if blank(mix.wind):
        return _no_number(misplaced_wind) + "not noted: then it is not judged"
    if not is_of_the_diarys_height(mix.wind_height, settings.diary_wind):
        return _no_number(misplaced_wind) + "not noted: that of Today is of another height"
    return _no_number(misplaced_wind) + amount(mix.wind, mix.wind.units, 0) + ", of the sheet Today"


def rain_taken(misplaced_rain: bool) -> Text:
    """No rain, and why none."""
    return _no_number(misplaced_rain) + "not noted"
