"""What is filled to which mark, as the helper's card shows it.

A form: each figure is a scalar. Nothing to measure or to fill is shown where the verdict is not to mix, or where there
is no load to make.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.elementwise import where
from wbgen.model.types import Number, Table, Volume

_DO_NOT_MIX = 2


def _shown(mix: Table, verdict: Table, figure: Any) -> Any:
    """The figure, whatever it is, where there is something to make that may be made; else blank."""
    return where((mix.loads > 0) & (verdict.level != _DO_NOT_MIX), figure, np.nan)


def alike(mix: Table, verdict: Table) -> Number:
    """How many loads are all the same."""
    return _shown(mix, verdict, mix.full_loads)


def fill_mark(mix: Table, verdict: Table) -> Volume:
    """To which mark (L) each of them is filled."""
    return _shown(mix, verdict, mix.fill_full)


def part_mark(mix: Table, verdict: Table) -> Volume:
    """To which mark (L) the part load is filled, blank where there is none."""
    return _shown(mix, verdict, mix.fill_last)
