"""The card."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import only, where
from wbgen.model.types import Date, Table, Text, Volume


def shown_verdict(verdict: Table) -> Text:
    return only(verdict.verdict)


def date(mix: Table) -> Date:
    return only(mix.date)


def spray(mix: Table, verdict: Table) -> Volume:
    return where(only(verdict.level) == 2, np.nan, only(mix.spray_volume))
