"""What each lawn has had."""

from __future__ import annotations

from wbgen.model.tools.lines import at
from wbgen.model.tools.relations import sum_by
from wbgen.model.types import Area, Each, NitrogenPerArea, Number, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    return at(lawns.name, turn + 1)


def area(turn: Each[Number], lawns: Table) -> Each[Area]:
    return at(lawns.area, turn + 1)


def applied_nitrogen(lawn: Each[Text], area: Each[Area], diary: Table) -> Each[NitrogenPerArea]:
    return sum_by(diary.lawn, lawn, diary.load_nitrogen) / area
