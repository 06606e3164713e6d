"""What each lawn has had this season, by its whole area.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import ratio
from wbgen.model.tools.relations import pick, sum_by
from wbgen.model.types import Area, Each, NitrogenPerArea, Number, NutrientPerArea, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def area(turn: Each[Number], lawns: Table) -> Each[Area]:
    """Area of the whole lawn."""
    return pick(lawns.area, turn - 1)


@of_family("nutrients")
def applied_each(turn: Each[Number], lawn: Each[Text], lawns: Table, diary: Table) -> Each[NutrientPerArea]:
    """Nutrient applied this season, by area of the whole lawn; blank without an area."""
    area = pick(lawns.area, turn - 1)
    return ratio(sum_by(diary.lawn, lawn, diary.load_each, diary.season_month > 0), area)


def available(lawn: Each[Text], area: Each[Area], diary: Table) -> Each[NitrogenPerArea]:
    """Of the nitrogen applied this season, what has come free by the as-of date, by area of the whole lawn."""
    return ratio(sum_by(diary.lawn, lawn, diary.available_nitrogen, diary.season_month > 0), area)
