"""What an empty box of the mix takes, in words.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only
from wbgen.model.tools.relations import lookup
from wbgen.model.tools.words import amount, in_words
from wbgen.model.types import Table, Text
from wbgen.units.quantity import label


def date_taken(start: Table, months: Table) -> Text:
    """The as-of date with its weekday, in words; day 1 of a spreadsheet's dates is counted as a Sunday."""
    day = only(start.as_of)
    weekday = ("Sat", "Sun", "Mon", "Tue", "Wed", "Thu", "Fri")[int(day) % 7]
    return f"{weekday}, {in_words(day, months)}"


def lawns_taken(mix_lawns: Table) -> Text:
    """The lawn of this mix, how many there are of several, or that there is none."""
    number = int(np.sum(~blank(mix_lawns.treated_area)))
    if number == 0:
        return "choose, or name them below"
    return (
        f"{number} lawns, see Onto the lawns" if number > 1 else lookup(1.0, mix_lawns.lawn_line, mix_lawns.lawn_used)
    )


def sprayer_taken(mix: Table) -> Text:
    """What a tank of the sprayer holds, or what is to be mended."""
    if blank(mix.sprayer):
        return "choose one"
    if blank(mix.capacity):
        return "not on the sheet Sprayers"
    return "a tank makes " + amount(mix.capacity, mix.capacity.units, 1)


def carrier_taken(mix: Table) -> Text:
    """The spray volume that counts, and whether the sprayer was calibrated to it."""
    if blank(mix.carrier_volume):
        return f"not known, in {label(str(mix.carrier_volume.units))}"
    known = "wanted" if blank(mix.delivered_carrier) else "calibrated"
    return amount(mix.carrier_volume, mix.carrier_volume.units, 1) + ", " + known


def loads_taken() -> Text:
    """How the tank is filled where nothing is said."""
    return "equal fills"


def watered_taken() -> Text:
    """Whether the mix is watered in where nothing is said."""
    return "no"
