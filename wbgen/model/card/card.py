"""The top of the helper's card.

A form: each figure is a scalar. Nothing to measure or to fill is shown where the verdict is not to mix, or where there
is no load to make.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.elementwise import blank, where
from wbgen.model.types import Date, Number, Table, Text, Volume

_DO_NOT_MIX = 2
SHOWN = 220
"""So many letters of a reason the card has room for: five lines that long words leave at 44 letters."""


def _shown(mix: Table, verdict: Table, figure: Any) -> Any:
    """The figure, whatever it is, where there is something to make that may be made; else blank."""
    return where((mix.loads > 0) & (verdict.level != _DO_NOT_MIX), figure, np.nan)


def shown_verdict(verdict: Table) -> Text:
    """The verdict, in words."""
    return verdict.verdict


def reason(verdict: Table) -> Text:
    """Why the verdict is what it is; where that is long, first that the paper may not show the end of it."""
    return ("this may be cut, see the sheet Mix: " if len(verdict.reason) > SHOWN else "") + verdict.reason


def not_checked(verdict: Table) -> Text:
    """What was not checked, for want of a figure."""
    return verdict.not_checked


def date(mix: Table) -> Date:
    """The date of the visit, as a serial number."""
    return mix.visit_date


def sprayer(mix: Table) -> Text:
    """The sprayer of the visit."""
    return mix.sprayer


def alike(mix: Table, verdict: Table) -> Number:
    """How many loads are all the same."""
    return _shown(mix, verdict, mix.full_loads)


def fill_mark(mix: Table, verdict: Table) -> Volume:
    """To which mark (L) each of them is filled."""
    return _shown(mix, verdict, mix.fill_full)


def part_mark(mix: Table, verdict: Table) -> Volume:
    """To which mark (L) the part load is filled, blank where there is none."""
    return _shown(mix, verdict, mix.fill_last)


def part_words(part_mark: Volume) -> Text:
    """Where the amounts of the part load stand, as those of the card are for full loads."""
    return where(blank(part_mark), "", "not those below: see the sheet Part load")
