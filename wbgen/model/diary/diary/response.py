"""Which lines of the diary were answered: their lawn was scored before them, and some days after.

A score before is one up to the day of the line, a score after one from some days on; both are of the line's own lawn.
Dates are serial numbers. The sheet Response takes the lines up (`model/response/answers.py`).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.dates import in_days
from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.order import Days
from wbgen.model.types import Date, Each, Number, Table


def answered(
    product_day_key: Each[Number], lawn_line: Each[Number], date: Each[Date], scores: Table, settings: Table
) -> Each[Number]:
    """The number of a line that was answered, the first of the diary being 1; blank for another.

    Blank, too, for a line that follows another of its product, lawn and day.
    """
    scored = Days(scores.lawn_line, scores.date)
    before = scored.latest(lawn_line, date - in_days(only(settings.before_time)), date)
    since, until = date + in_days(only(settings.after_days)), date + in_days(only(settings.after_time))
    known = ~blank(before) & ~blank(scored.earliest(lawn_line, since, until)) & ~blank(product_day_key)
    return where(known, np.arange(len(product_day_key)) + 1.0, np.nan)
