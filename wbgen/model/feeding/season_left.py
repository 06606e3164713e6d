"""What is left of each lawn's yearly target.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import pick
from wbgen.model.tools.target import against_target
from wbgen.model.types import Each, NitrogenPerArea, Number, NutrientPerArea, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


@of_family("nutrients")
def left_each(season_target: Table, season_applied: Table) -> Each[NutrientPerArea]:
    """Nutrient still to give this season, by area; negative where the target is passed, blank without one."""
    return season_target.target_each - season_applied.applied_each


def words(left_nitrogen: Each[NitrogenPerArea], season_target: Table, settings: Table) -> Each[Text]:
    """How nitrogen stands against its target, in words; nothing for a lawn whose area is not known.

    On the target is what differs from it by no more than the share that is let pass.
    """
    return against_target(-left_nitrogen, season_target.target_nitrogen, settings)
