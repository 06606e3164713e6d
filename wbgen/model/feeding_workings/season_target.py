"""What each lawn should get in a year.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, only, where, yes
from wbgen.model.tools.lines import at
from wbgen.model.tools.relations import pick
from wbgen.model.types import Each, Number, NutrientPerArea, Table, Text
from wbgen.trade.families import Member
from wbgen.trade.soil import SOIL_FED

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def grass(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Kind of grass of the lawn."""
    return pick(lawns.grass, turn - 1)


@of_family("nutrients")
def target_each(
    each: Member, turn: Each[Number], lawns: Table, soil_tests: Table, place: Table
) -> Each[NutrientPerArea]:
    """Nutrient wanted in a year, by area: as typed, else as the lawn's soil test asks; blank where it is not planned.

    No test asks for phosphate where the place forbids it.
    """
    typed = pick(getattr(lawns, f"target_{each.key}"), turn - 1)
    if each.key not in SOIL_FED or (each.key == "phosphate" and yes(only(place.no_phosphorus))[0]):
        return typed
    line = pick(getattr(lawns, f"soil_line_{each.key}"), turn - 1)
    return where(blank(typed), at(getattr(soil_tests, f"need_{each.key}"), line), typed)
