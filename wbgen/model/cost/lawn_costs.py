"""What each lawn costs in a season.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import ratio
from wbgen.model.tools.relations import count_by, pick, sum_by
from wbgen.model.types import Each, Money, MoneyPerArea, Number, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def visits(lawn: Each[Text], diary: Table) -> Each[Number]:
    """Number of this season's days on which the lawn was fed."""
    return count_by(diary.lawn, lawn, (diary.visit_first == 1) & (diary.season_month > 0))


def cost(lawn: Each[Text], diary: Table) -> Each[Money]:
    """What this season's feeds of the lawn cost, so far as prices are known."""
    return sum_by(diary.lawn, lawn, diary.cost, diary.season_month > 0)


def cost_by_area(turn: Each[Number], cost: Each[Money], lawns: Table) -> Each[MoneyPerArea]:
    """What the lawn cost this season, by its whole area; blank without an area."""
    return ratio(cost, pick(lawns.area, turn - 1))


def coming(lawn: Each[Text], due: Table) -> Each[Money]:
    """What the visits to come will cost."""
    return sum_by(due.lawn, lawn, due.season_cost)


def whole(cost: Each[Money], coming: Each[Money]) -> Each[Money]:
    """What the lawn comes to in the season."""
    return cost + coming
