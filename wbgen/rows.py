"""One record of a table on its way into a workbook."""

from __future__ import annotations

from datetime import date, timedelta

from wbgen.leaves import Measure

Cell = Measure | float | str | date | None
Row = dict[str, Cell]
"""One record by column; a column that is not named stays blank."""

EPOCH = date(1899, 12, 30)


def serial(day: date) -> float:
    """The serial number of a date, as spreadsheets count days.

    >>> serial(date(2026, 1, 1))
    46023.0
    """
    return float((day - EPOCH).days)


def date_of(number: float) -> date:
    """The date of a serial number; what is after its whole days is left out.

    >>> date_of(46023.5)
    datetime.date(2026, 1, 1)
    """
    return EPOCH + timedelta(days=int(number))
