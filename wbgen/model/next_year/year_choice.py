"""The lawn whose products are shown.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only
from wbgen.model.tools.lines import lines_at
from wbgen.model.tools.relations import find, pick
from wbgen.model.types import Number, Table, Text


def shown(lawn: Text, lawns: Table) -> Text:
    """The lawn that is chosen, else the first; and that there is none of that name."""
    return lawn if find(lawn, lawns.name)[0] >= 0 else "no such lawn" if lawn else pick(lawns.name, 0)


def lawn_line(shown: Text, lawns: Table) -> Number:
    """The line of the lawn, the heading row being line 1; blank for an unknown one."""
    return only(lines_at(find(shown, lawns.name)))


def _pairs(first: Number, before: Number, diary: Table, ones: Table) -> Number:
    """How many different products went on the lawns of these lines this season."""
    lawn_of = np.floor_divide(diary.pair_once[~blank(diary.pair_once)], ones.key_step)
    return float(np.sum((lawn_of >= first) & (lawn_of < before)))


def products(lawn_line: Number, diary: Table, ones: Table) -> Number:
    """How many different products were put on it this season; blank for an unknown lawn."""
    return np.nan if np.isnan(lawn_line) else _pairs(lawn_line, lawn_line + 1, diary, ones)


def up_to(lawn_line: Number, diary: Table, ones: Table) -> Number:
    """How many were on each of the lawns above it, added; blank for an unknown lawn."""
    return np.nan if np.isnan(lawn_line) else _pairs(0.0, lawn_line, diary, ones)
