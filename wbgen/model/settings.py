"""The one setting that is worked out: when this season started."""

from __future__ import annotations

from typing import Any

from wbgen.model import dates
from wbgen.model.relations import only

Value = Any


def season_start(season_month: Value, season_day: Value, start: Value) -> Value:
    """Serial date of the latest start of a season that is not after the as-of date."""
    return dates.season_start_of(only(start.as_of), dates.or_first(season_month), dates.or_first(season_day))
