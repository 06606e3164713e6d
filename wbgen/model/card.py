"""The top of the helper's card. All of it are scalars.

Nothing to measure or to fill is shown where the verdict is not to mix, or where there is no load to make.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.bind import View
from wbgen.model.relations import where

Value = Any

_DO_NOT_MIX = 2


def _verdict(mix: Value) -> View:
    """The table of the verdict, whose name a column of this table has too."""
    return View(mix._model, "verdict", None)


def _shown(mix: Value, figure: Value) -> Value:
    """The figure where there is something to make that may be made, else blank."""
    return where((mix.loads > 0) & (_verdict(mix).level != _DO_NOT_MIX), figure, np.nan)


def verdict(mix: Value) -> Value:
    """The verdict, in words."""
    return _verdict(mix).verdict


def reason(mix: Value) -> Value:
    """Why the verdict is what it is."""
    return _verdict(mix).reason


def not_checked(mix: Value) -> Value:
    """What was not checked, for want of a figure."""
    return _verdict(mix).not_checked


def date(mix: Value) -> Value:
    """The date of the visit, as a serial number."""
    return mix.visit_date


def sprayer(mix: Value) -> Value:
    """The sprayer of the visit."""
    return mix.sprayer


def alike(mix: Value) -> Value:
    """How many loads are all the same."""
    return _shown(mix, mix.full_loads)


def fill_mark(mix: Value) -> Value:
    """To which mark (L) each of them is filled."""
    return _shown(mix, mix.fill_full)


def part_mark(mix: Value) -> Value:
    """To which mark (L) the part load is filled, blank where there is none."""
    return _shown(mix, mix.fill_last)
