"""What each lawn has had this season, in the unit of large areas.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import count_by, pick
from wbgen.model.types import Each, Number, NutrientPerArea, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def visits(lawn: Each[Text], diary: Table) -> Each[Number]:
    """Number of this season's lines in the diary."""
    return count_by(diary.lawn, lawn, diary.season_month > 0)


@of_family("nutrients")
def hectare_each(season_applied: Table) -> Each[NutrientPerArea]:
    """Nutrient applied this season by area, the same figure in another unit."""
    return season_applied.applied_each
