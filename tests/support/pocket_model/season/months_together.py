"""What each month has had."""

from __future__ import annotations

from wbgen.model.tools.relations import count_by, sum_by
from wbgen.model.types import Each, NitrogenMass, Number, Table


def lines(number: Each[Number], diary: Table) -> Each[Number]:
    return count_by(diary.month, number)


def load_nitrogen(number: Each[Number], diary: Table) -> Each[NitrogenMass]:
    return sum_by(diary.month, number, diary.load_nitrogen)
