"""How many of a line's dates something is to be said of."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import where
from wbgen.model.tools.lines import lines_at
from wbgen.model.tools.relations import count_by
from wbgen.model.types import Each, Mask, Number, Table, Text


def dates_that(applications: Table, holds: Mask, records: int) -> Each[Number]:
    """How many of each line's dates something holds for."""
    return count_by(applications.programme_line, lines_at(np.arange(records)), holds)


def dates_word(number: Each[Number]) -> Each[Text]:
    """The word behind the number of dates."""
    return where(number == 1, " date ", " dates ")
