"""How many lines the diary has, and of what sort.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.methods import is_dry
from wbgen.model.types import Mask, Number, Table


def _count(condition: Mask) -> float:
    return float(np.count_nonzero(condition))


def lines(diary: Table) -> Number:
    """Number of complete lines: those with a date, a lawn and a product."""
    return _count(~blank(diary.line_key))


def in_season(diary: Table) -> Number:
    """Number of lines that count this season."""
    return _count(diary.season_month > 0)


def out_of_season(lines: Number, in_season: Number) -> Number:
    """Number of complete lines that do not count: of another season, or after the as-of date."""
    return lines - in_season


def flagged(diary: Table) -> Number:
    """Number of lines with something to be said of them."""
    return _count(diary.flag_line > 0)


def _sprayed(diary: Table) -> Mask:
    """The lines that were sprayed on a lawn that is known."""
    return ~blank(diary.way_key) & ~is_dry(diary.method)


def no_water(diary: Table) -> Number:
    """Number of sprayed lines of which no spray made is noted, nor on the first line of their lawn and day."""
    return _count(_sprayed(diary) & blank(diary.tank_water))


def no_wind(diary: Table) -> Number:
    """Number of sprayed lines beside which no wind is noted."""
    return _count(_sprayed(diary) & ~(diary.wind >= 0))


def no_air(diary: Table) -> Number:
    """Number of sprayed lines beside which no temperature of the air is noted."""
    return _count(_sprayed(diary) & blank(diary.air_temperature))


def room(diary: Table) -> Number:
    """Number of lines that have nothing for a date yet."""
    return _count(blank(diary.date) & ~diary.misplaced_date)
