"""What each lawn has had this season, in all.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import latest_by, pick, sum_by
from wbgen.model.types import Date, Each, Number, NutrientMass, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def last_visit(lawn: Each[Text], diary: Table) -> Each[Date]:
    """Latest date of this season on which the lawn was fed; blank where it was not."""
    return latest_by(diary.lawn, lawn, diary.date, diary.season_month > 0)


@of_family("nutrients")
def load_each(lawn: Each[Text], diary: Table) -> Each[NutrientMass]:
    """Nutrient applied this season, in all."""
    return sum_by(diary.lawn, lawn, diary.load_each, diary.season_month > 0)
