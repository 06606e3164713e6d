"""The lawn that the sheet Next year shows.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import only
from wbgen.model.tools.lines import lines_at
from wbgen.model.tools.relations import find
from wbgen.model.types import Number, Table


def lawn_line(year_choice: Table, lawns: Table) -> Number:
    """The line of the lawn, the heading row being line 1; blank for an unknown one."""
    return only(lines_at(find(year_choice.shown, lawns.name)))


def up_to(lawn_line: Number, diary: Table, ones: Table) -> Number:
    """How many products were put on the lawns above it this season, each once a lawn; blank for an unknown lawn."""
    if np.isnan(lawn_line):
        return np.nan
    return float(np.sum(np.floor_divide(diary.pair_once, ones.key_step) < lawn_line))
