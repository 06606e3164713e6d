"""What each lawn will have had at the end of the season, if what is to come is done.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.lines import lines_of
from wbgen.model.tools.relations import pick, sum_by
from wbgen.model.types import Each, Number, NutrientPerArea, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


@of_family("nutrients")
def end_each(turn: Each[Number], season_applied: Table, due: Table) -> Each[NutrientPerArea]:
    """Nutrient applied this season and still to come, by area of the whole lawn; blank without an area."""
    return season_applied.applied_each + sum_by(due.lawn_line, lines_of(turn), due.coming_each)
