"""What an empty box of the mix takes, in words.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only
from wbgen.model.tools.lines import at
from wbgen.model.tools.relations import lookup
from wbgen.model.tools.words import amount, counts, in_words
from wbgen.model.types import Number, Table, Text
from wbgen.units.quantity import label


def tank_taken(tank: Number, mix: Table, round_tanks: Table, misplaced_tank: bool) -> Text:
    """How many products the tank of the round has, or that there is no such tank."""
    if blank(tank) and not misplaced_tank:
        return "none"
    if blank(mix.tank_line):
        return "the round has no such tank"
    number = at(round_tanks.products_count, mix.tank_line)
    return f"{counts(number)} product" + ("" if number == 1 else "s")


def date_taken(mix: Table, months: Table) -> Text:
    """The date where none is typed with its weekday, in words; day 1 of a spreadsheet's dates counts as a Sunday."""
    day = only(mix.date_else)
    if blank(day):
        return ""
    weekday = ("Sat", "Sun", "Mon", "Tue", "Wed", "Thu", "Fri")[int(day) % 7]
    return f"{weekday}, {in_words(day, months)}"


def lawns_taken(mix_lawns: Table) -> Text:
    """The lawn of this mix, how many there are of several, or that there is none."""
    number = int(np.sum(~blank(mix_lawns.treated_area)))
    if number == 0:
        return "choose, or name them below"
    return f"{number} lawns" if number > 1 else lookup(1.0, mix_lawns.lawn_line, mix_lawns.lawn_used)


def sprayer_taken(sprayer: Text, mix: Table) -> Text:
    """What a tank of the sprayer holds, with its name where it is the tank's; or what is to be mended."""
    if blank(mix.sprayer):
        return "choose one"
    if blank(mix.capacity):
        return "not on the sheet Sprayers"
    name = f"{mix.sprayer}, " if blank(sprayer) else "a tank makes "
    return name + amount(mix.capacity, mix.capacity.units, 1)


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
