"""What each lawn should get in a year.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import pick
from wbgen.model.types import Each, Number, NutrientPerArea, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def grass(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Kind of grass of the lawn."""
    return pick(lawns.grass, turn - 1)


@of_family("nutrients")
def target_each(turn: Each[Number], lawns: Table) -> Each[NutrientPerArea]:
    """Nutrient wanted in a year, by area; blank where it is not planned."""
    return pick(lawns.target_each, turn - 1)
