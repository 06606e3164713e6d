"""What share of its yearly target each lawn has had.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import as_number, magnitude, or_zero, ratio, where
from wbgen.model.tools.order import ranked
from wbgen.model.tools.relations import pick
from wbgen.model.tools.rounding import half_up
from wbgen.model.types import Each, Number, Table, Text, each

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def state(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Where the lawn's area is from, in words."""
    return pick(lawns.area_from, turn - 1)


@of_family("nutrients")
def share_each(season_target: Table, season_applied: Table) -> Each[Number]:
    """Share of the yearly target that was applied; blank without a target or with one of 0."""
    return as_number(ratio(season_applied.applied_each, season_target.target_each))


def away(turn: Each[Number], feeding: Table) -> Each[Number]:
    """How far the nitrogen had is from the plan by now, over or under, as a share of the target; 0 without one."""
    had, plan, target = (pick(one, turn - 1) for one in (feeding.had, feeding.plan, feeding.target))
    share = as_number(ratio(had - plan, where(magnitude(target) > 0, target, np.nan)))
    return half_up(or_zero(each(np.abs(share))), 9)


def away_rank(away: Each[Number]) -> Each[Number]:
    """The furthest first; of those that are as far, the first of the list."""
    return ranked(-away)
