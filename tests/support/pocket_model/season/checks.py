"""What must agree."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.elementwise import blank, magnitude, or_zero
from wbgen.model.tools.rounding import half_up

Value = Any


def lost(diary: Value, months_together: Value) -> Value:
    """Nitrogen that is in no month."""
    return or_zero(diary.load_nitrogen).sum() - months_together.load_nitrogen.sum()


def to_mend(lawns: Value) -> Value:
    return float(np.count_nonzero(~blank(lawns.lawn_state)))


def unknown(diary: Value) -> Value:
    return float(np.count_nonzero((diary.counted == 1) & blank(diary.lawn_line)))


def failed(lost: Value, to_mend: Value, unknown: Value) -> Value:
    return float(np.count_nonzero([magnitude(half_up(lost, 6)) != 0, to_mend > 0, unknown > 0]))
