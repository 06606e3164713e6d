"""What share of its yearly target each lawn has had.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import as_number, ratio
from wbgen.model.tools.relations import pick
from wbgen.model.types import Each, Number, Table, Text

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
