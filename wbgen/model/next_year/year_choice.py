"""The lawn whose products are shown.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.relations import find, pick
from wbgen.model.types import Number, Table, Text


def shown(lawn: Text, lawns: Table) -> Text:
    """The lawn that is chosen, else the first; and that there is none of that name."""
    return lawn if find(lawn, lawns.name)[0] >= 0 else "no such lawn" if lawn else pick(lawns.name, 0)


def products(year_lawn: Table, diary: Table, ones: Table) -> Number:
    """How many different products were put on it this season; blank for an unknown lawn."""
    own = np.floor_divide(diary.pair_once, ones.key_step) == year_lawn.lawn_line
    return np.nan if np.isnan(year_lawn.lawn_line) else float(np.sum(own))
