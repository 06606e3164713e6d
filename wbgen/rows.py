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


def moment_of(number: float) -> str:
    """The date of a serial number as ISO 8601 has it, with the minute where it is not of a whole day.

    >>> moment_of(46023.0), moment_of(46023.25)
    ('2026-01-01', '2026-01-01 06:00')
    """
    minutes = round(24 * 60 * (number - int(number)))
    day = date_of(number).isoformat()
    return f"{day} {minutes // 60:02}:{minutes % 60:02}" if 0 < minutes < 24 * 60 else day
