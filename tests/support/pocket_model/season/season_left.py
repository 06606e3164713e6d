"""What is left of each lawn's target."""

from __future__ import annotations

from wbgen.model.tools.lines import at
from wbgen.model.types import Area, Each, NitrogenPerArea, Number, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    return at(lawns.name, turn + 1)


def area(turn: Each[Number], lawns: Table) -> Each[Area]:
    return at(lawns.area, turn + 1)


def left_nitrogen(turn: Each[Number], lawns: Table, season_applied: Table) -> Each[NitrogenPerArea]:
    return at(lawns.target_nitrogen, turn + 1) - at(season_applied.applied_nitrogen, turn + 1)
