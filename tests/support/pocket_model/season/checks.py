"""What must agree."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, magnitude, or_zero
from wbgen.model.tools.rounding import half_up
from wbgen.model.types import NitrogenMass, Number, Table


def lost(diary: Table, months_together: Table) -> NitrogenMass:
    """Nitrogen that is in no month."""
    return or_zero(diary.load_nitrogen).sum() - months_together.load_nitrogen.sum()


def to_mend(lawns: Table) -> Number:
    return float(np.count_nonzero(~blank(lawns.lawn_state)))


def unknown(diary: Table) -> Number:
    return float(np.count_nonzero((diary.counted == 1) & blank(diary.lawn_line)))


def failed(lost: NitrogenMass, to_mend: Number, unknown: Number) -> Number:
    return float(np.count_nonzero([magnitude(half_up(lost, 6)) != 0, to_mend > 0, unknown > 0]))
