"""How many of a line's dates something is to be said of."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.lines import lines_at
from wbgen.model.tools.relations import count_by, where

Value = Any


def dates_that(applications: Value, holds: Any, records: int) -> Any:
    """How many of each line's dates something holds for."""
    return count_by(applications.programme_line, lines_at(np.arange(records)), holds)


def dates_word(number: Any) -> Any:
    """The word behind the number of dates."""
    return where(number == 1, " date ", " dates ")
