"""Days: which one it is, the serial numbers by which spreadsheets count them, and how they are said."""

from __future__ import annotations

import os
from datetime import UTC, date, datetime, timedelta
from typing import Final

EPOCH: Final = datetime(1899, 12, 30)  # noqa: DTZ001 - spreadsheets know no time zones
"""Day 0 of the serial numbers by which spreadsheets count days, from March 1900 on."""


def serial(day: date) -> float:
    """The serial number of a date, as spreadsheets count days.

    >>> serial(date(2026, 1, 1))
    46023.0
    """
    return float((day - EPOCH.date()).days)


def date_of(number: float) -> date:
    """The date of a serial number; what is after its whole days is left out.

    >>> date_of(46023.5)
    datetime.date(2026, 1, 1)
    """
    return EPOCH.date() + timedelta(days=int(number))


def day_text(number: float) -> str:
    """The day of a serial number as ISO text; the number itself where no calendar has that day.

    The minute stands behind it where the number is not of a whole day.

    >>> day_text(46023.0), day_text(46023.25), day_text(10_000_000.0)
    ('2026-01-01', '2026-01-01 06:00', '10000000')
    """
    try:
        minutes = round(24 * 60 * (number - int(number)))
        day = date_of(number).isoformat()
        return f"{day} {minutes // 60:02}:{minutes % 60:02}" if 0 < minutes < 24 * 60 else day
    except (OverflowError, ValueError):  # beyond the year 9999, before the year 1, or no number
        return f"{number:.15g}"


def today() -> date:
    """Today by the machine's clock and time zone."""
    return datetime.now().astimezone().date()


def day_of_build() -> date:
    """Today, or the day of SOURCE_DATE_EPOCH where a reproducible build sets it."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    return datetime.fromtimestamp(int(epoch), UTC).date() if epoch else today()
