"""What the rule of the place speaks against in a line of the diary."""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.relations import only, pick, ratio, sum_by, where
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.traits import yes

Value = Any


def flag_place(
    visit_first: Value,
    lawn_day_key: Value,
    area_counted: Value,
    load_nitrogen: Value,
    load_phosphate: Value,
    month: Value,
    place: Value,
    months: Value,
) -> Value:
    """What is to be said of the place, all that holds: of nitrogen once a visit, of phosphorus on its own line.

    The nitrogen of a visit is that of all its lines, by the area that its first line counts.
    """
    visit = ratio(sum_by(lawn_day_key, lawn_day_key, load_nitrogen), area_counted)
    much = (visit_first == 1) & exceeds(visit, only(place.most_nitrogen))
    banned = yes(only(place.no_phosphorus)) & exceeds(load_phosphate, 0.0)
    return (
        where(much, "; more nitrogen in one visit than the place allows", "")
        + where(banned, "; phosphorus is not allowed here", "")
        + where(yes(pick(months.closed, month - 1)), "; a month closed to feeding", "")
    )
