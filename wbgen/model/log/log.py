"""What an empty box of the log takes, in words.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.methods import is_of_the_diarys_height
from wbgen.model.tools.words import amount
from wbgen.model.types import Table, Text


def who_taken(mix: Table) -> Text:
    """Who does it by the sheet Mix, or that nobody is named."""
    return "nobody: choose one" if blank(mix.who) else f"{mix.who}, of the sheet Mix"


def left_over_taken(mix: Table) -> Text:
    """What is left over by the plan."""
    if not mix.remainder > 0:
        return "nothing"
    return amount(mix.remainder, mix.remainder.units, 1) + ", as planned"


def air_taken(mix: Table) -> Text:
    """The temperature that was typed for the visit, or what it means that none was."""
    if blank(mix.air_temperature):
        return "not noted: then it is not judged"
    return amount(mix.air_temperature, mix.air_temperature.units, 0) + ", of the sheet Today"


def wind_taken(mix: Table, settings: Table) -> Text:
    """The wind that was typed for the visit, where it is of the height of the diary's, or why it is not taken."""
    if blank(mix.wind):
        return "not noted: then it is not judged"
    if not is_of_the_diarys_height(mix.wind_height, settings.diary_wind):
        return "not noted: that of Today is of another height"
    return amount(mix.wind, mix.wind.units, 0) + ", of the sheet Today"
