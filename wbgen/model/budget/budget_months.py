"""What the programme brings the lawn shown in each month of the season."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.relations import like, magnitude, sum_by

Value = Any


@of_family("nutrients")
def planned_each(month_number: Value, applications: Value, growth_view: Value) -> Value:
    """The nutrient (g/m²) of the month's dates that go on the lawn, past and to come; blank for an unknown lawn.

    What goes on all lawns goes on it, and so does what goes on its group.
    """
    planned = sum_by(
        applications.month,
        month_number,
        applications.brings_each,
        (applications.in_year == "yes") & _covered(applications, growth_view),
    )
    return like(planned, np.where(np.isnan(growth_view.lawn_line), np.nan, magnitude(planned)))


def _covered(applications: Value, growth_view: Value) -> Any:
    """True where the date's ground has the lawn in it."""
    kind, key = applications.kind, applications.scope_key
    of_lawn = (kind == "lawn") & (key == growth_view.lawn_line)
    of_group = (kind == "group") & (key == growth_view.group_line)
    return (kind == "all") | of_lawn | of_group
