"""Serial dates: days since 1899-12-30, as spreadsheets count them from March 1900 on."""

from __future__ import annotations

from typing import Any, Final, overload

import numpy as np

from wbgen.files.dates import EPOCH
from wbgen.model.tools.elementwise import Array, or_zero
from wbgen.model.values import Each, Mask, Quantity, SerialDate

_EPOCH: Final = np.datetime64(EPOCH, "D")
_LAST: Final = 2958465.0
"""The 31st of December 9999: later numbers are no dates."""


def _whole_days(dates: Each[float] | float) -> tuple[Array, Mask]:
    """The days as numpy dates, and where the serial numbers are dates at all."""
    numbers = np.asarray(dates, dtype=float)
    good = (numbers >= 0) & (numbers < _LAST + 1)
    return _EPOCH + np.where(good, numbers, 0).astype(int).astype("timedelta64[D]"), good


@overload
def year_of(dates: Each[SerialDate]) -> Each[float]: ...
@overload
def year_of(dates: SerialDate) -> float: ...
def year_of(dates: Any) -> Any:
    """The calendar year of each serial date, blank for a blank.

    >>> year_of(np.array([45292.0, 45291.9, np.nan]))
    array([2024., 2023.,   nan])
    """
    days, good = _whole_days(dates)
    return np.where(good, days.astype("datetime64[Y]").astype(int) + 1970.0, np.nan)[()]


@overload
def month_of(dates: Each[SerialDate]) -> Each[float]: ...
@overload
def month_of(dates: SerialDate) -> float: ...
def month_of(dates: Any) -> Any:
    """The number of the calendar month of each serial date, January 1, blank for a blank.

    >>> month_of(np.array([45292.0, 45291.9, np.nan]))
    array([ 1., 12., nan])
    """
    days, good = _whole_days(dates)
    return np.where(good, days.astype("datetime64[M]").astype(int) % 12 + 1.0, np.nan)[()]


@overload
def day_of(dates: Each[SerialDate]) -> Each[float]: ...
@overload
def day_of(dates: SerialDate) -> float: ...
def day_of(dates: Any) -> Any:
    """The number of the day in its month of each serial date, blank for a blank.

    >>> day_of(np.array([45292.0, 45291.9, np.nan]))
    array([ 1., 31., nan])
    """
    days, good = _whole_days(dates)
    first = days.astype("datetime64[M]").astype("datetime64[D]")
    return np.where(good, (days - first).astype(int) + 1.0, np.nan)[()]


@overload
def serial(year: float, month: float, day: float) -> SerialDate: ...
@overload
def serial(year: Each[float], month: Each[float] | float, day: Each[float] | float) -> Each[SerialDate]: ...
@overload
def serial(year: float, month: Each[float], day: Each[float] | float) -> Each[SerialDate]: ...
def serial(year: Any, month: Any, day: Any) -> Any:
    """The serial date of a day; months and days past the end run on into the next, as in a spreadsheet.

    >>> serial(np.array([2024.0, 2023.0, 2023.0]), 2, 29), float(serial(2023, 13, 1))
    (array([45351., 44986., 44986.]), 45292.0)
    """
    parts = [np.asarray(part, dtype=float) for part in (year, month, day)]
    good = ~np.isnan(sum(parts))
    years, months, days = (np.where(np.isnan(part), 0, np.floor(part)).astype(int) for part in parts)
    first = ((years - 1970) * 12 + months - 1).astype("datetime64[M]").astype("datetime64[D]")
    return np.where(good, ((first - _EPOCH).astype(int) + days - 1).astype(float), np.nan)[()]


@overload
def in_days(time: Each[Quantity]) -> Each[float]: ...
@overload
def in_days(time: Quantity) -> float: ...
def in_days(time: Any) -> Any:
    """The number of days of a time, 0 where it is blank.

    >>> from wbgen.units.quantity import FLOAT
    >>> float(in_days(FLOAT.Quantity(36.0, "h"))), float(in_days(FLOAT.Quantity(np.nan, "h")))
    (1.5, 0.0)
    """
    return or_zero(time).to("day").magnitude


@overload
def or_first(number: Each[float]) -> Each[float]: ...
@overload
def or_first(number: float) -> float: ...
def or_first(number: Any) -> Any:
    """The number of a month or a day, 1 where it is blank or less.

    >>> float(or_first(np.nan)), float(or_first(3.0))
    (1.0, 3.0)
    """
    return np.fmax(number, 1.0)


@overload
def season_start_of(dates: Each[SerialDate], month: float, day: float) -> Each[SerialDate]: ...
@overload
def season_start_of(dates: SerialDate, month: float, day: float) -> SerialDate: ...
def season_start_of(dates: Any, month: Any, day: Any) -> Any:
    """The latest start of a season, `day` of `month` of some year, that is not after each date.

    >>> season_start_of(np.array([45351.0, 45565.0, 45566.0, np.nan]), 10, 1)  # 29 Feb, 30 Sep and 1 Oct 2024
    array([45200., 45200., 45566.,    nan])
    """
    year = year_of(dates)
    this_year = serial(year, month, day)
    return np.where(this_year <= dates, this_year, serial(year - 1, month, day))[()]
