"""How the end of the season will stand against each lawn's yearly target.

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
def over_each(season_target: Table, season_forecast: Table) -> Each[NutrientPerArea]:
    """Nutrient over the target, by area; negative where it stays below, blank without a target or a forecast."""
    return season_forecast.end_each - season_target.target_each


def words(turn: Each[Number], over_nitrogen: Each[NitrogenPerArea], lawns: Table, settings: Table) -> Each[Text]:
    """How nitrogen will stand against its target, in words; nothing for a lawn whose area is not known.

    On the target is what differs from it by no more than the share that is let pass.
    """
    return against_target(over_nitrogen, pick(lawns.target_nitrogen, turn - 1), settings)
