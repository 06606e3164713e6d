"""What a user's file says of the months of the place: how warm each is, and which are closed to feeding."""

from __future__ import annotations

from typing import Annotated

from wbgen.files.diagnostics import Report
from wbgen.files.yaml.records import Record
from wbgen.records.fields import MonthLeaf, Temperature
from wbgen.trade.families import MONTH_NAMES


class Months(Record):
    """`mean_temperatures` are of the whole day, January first; `closed` are the numbers of months without feeding."""

    mean_temperatures: tuple[Temperature, ...] = ()
    closed: tuple[Annotated[int, MonthLeaf()], ...] = ()


def check_months(months: Months, report: Report) -> None:
    """Twelve temperatures, or none."""
    given = len(months.mean_temperatures)
    if given not in (0, len(MONTH_NAMES)):
        report.add("mean-temperatures", months.place_of("mean temperatures"),
                   "a year has twelve mean temperatures, January first", expected="12", found=str(given),
                   remedy="write one for each month")  # fmt: skip
