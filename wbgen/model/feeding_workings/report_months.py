"""The nitrogen of the lawn of the sheet Lawn report by calendar month: planned, and had.

One record a calendar month, in the order of the season: shape (months,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import folded, like, magnitude, ratio, where
from wbgen.model.tools.ground import goes_on
from wbgen.model.tools.relations import sum_by
from wbgen.model.types import Each, NitrogenPerArea, Table, Text, each


def month(season_months: Table) -> Each[Text]:
    """The first three letters of the month's name."""
    return each(np.array([name[:3] for name in season_months.month], dtype=object))


def planned(season_months: Table, applications: Table, report_workings: Table) -> Each[NitrogenPerArea]:
    """What the programme's dates of the month bring it, past and to come; blank for an unknown lawn."""
    counted = (applications.in_year == "yes") & goes_on(applications, report_workings)
    brought = sum_by(applications.month, season_months.month_number, applications.brings_nitrogen, counted)
    return like(brought, where(np.isnan(report_workings.lawn_line), np.nan, magnitude(brought)))


def had(season_months: Table, diary: Table, report_workings: Table) -> Each[NitrogenPerArea]:
    """What it has had in the month, by its whole area; blank without one."""
    counted = (diary.season_month > 0) & (folded(diary.lawn) == folded(report_workings.lawn))
    load = sum_by(diary.season_month, season_months.month_number, diary.load_nitrogen, counted)
    return ratio(load, report_workings.area)
