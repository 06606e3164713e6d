"""The programme: one line a product, where it goes, how much of it, and when.

Arrays have one figure a line (n,). Dates are serial numbers. A line without a product has no figures, but for the
counts that the dates and the pairs of lawn and line are dealt out by.
"""

from __future__ import annotations

from wbgen.model.programme.programme.judged import (
    line_state,
    line_verdict,
    meets,
    most_planned,
    out_of_months,
    too_many,
    too_often,
)
from wbgen.model.programme.programme.place import closed_dates, over_place, soluble_nitrogen
from wbgen.model.programme.programme.rates import (
    by_area_each,
    carrier_volume,
    mass_all,
    measured_by,
    product_line,
    rate_mass,
    rate_volume,
    usual_mass,
    usual_volume,
    volume_all,
    water_each_time,
    year_each,
)
from wbgen.model.programme.programme.times import (
    area_counted,
    dates_up_to,
    interval,
    lawns_counted,
    pairs_up_to,
    planned_to_date,
    scope_key,
    times_planned,
    where_words,
)

BLANK_UNLESS = ("product",)
NEVER_BLANK = ("lawns_counted", "times_planned", "dates_up_to", "pairs_up_to")

__all__ = [
    "BLANK_UNLESS",
    "NEVER_BLANK",
    "area_counted",
    "by_area_each",
    "carrier_volume",
    "closed_dates",
    "dates_up_to",
    "interval",
    "lawns_counted",
    "line_state",
    "line_verdict",
    "mass_all",
    "measured_by",
    "meets",
    "most_planned",
    "out_of_months",
    "over_place",
    "pairs_up_to",
    "planned_to_date",
    "product_line",
    "rate_mass",
    "rate_volume",
    "scope_key",
    "soluble_nitrogen",
    "times_planned",
    "too_many",
    "too_often",
    "usual_mass",
    "usual_volume",
    "volume_all",
    "water_each_time",
    "where_words",
    "year_each",
]
