"""This season in a few figures, to plan the next one by.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank
from wbgen.model.types import Money, Number, Table


def visits(money: Table) -> Number:
    """The visits of this season: one a lawn and day."""
    return money.season_visits


def spent(money: Table) -> Money:
    """What they cost (currency), so far as prices are known."""
    return money.season_cost


def unpriced(money: Table) -> Number:
    """The lines of which the cost is not known."""
    return money.unpriced_lines


def pairs(diary: Table) -> Number:
    """The number of different pairs of lawn and product."""
    return float(np.sum(~blank(diary.pair_once)))
