"""A small site whose months all grow alike, with yearly targets and a programme, to check its budget by hand."""

from __future__ import annotations

from typing import Any

import numpy as np

from support.small_programme import line, on, site
from support.tables import NO, bare
from wbgen.model.binding import Model
from wbgen.model.tools.dates import serial
from wbgen.trade.nutrients import NUTRIENTS

DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
"""The days of the months of the season that started on 1 March 2024, January first."""
FULL: dict[str, Any] = {
    "months__growth_cool": ("", [1.0] * 12),
    "months__growth_warm": ("", [0.5] * 12),
    "months__closed": ("text", [""]),
    "lawns__grass": ("text", ["cool season", "Warm Season", "", "", ""]),
    "lawns__most_nitrogen_month": ("g_N/m**2", [NO, 4.0]),
    "settings__most_nitrogen_month": ("g_N/m**2", 3.0),
    "settings__target_tolerance": ("", 0.1),
    "settings__plan_tolerance": ("", 0.1),
    "settings__rolling_time": ("day", 30.0),
    "settings__week": ("day", 7.0),
    "season_view__lawn": ("text", ""),
    **{f"lawns__target_{one.key}": (f"g_{one.symbol}/m**2", []) for one in NUTRIENTS},
    "lawns__target_nitrogen": ("g_N/m**2", [12.0, 8.0]),
    "lawns__target_iron": ("g_Fe/m**2", [0.1]),
    "products__mass_content_iron": ("g_Fe/kg", [NO, 200.0]),
}
"""All months grow alike; 12 g N/m² are wanted on the Front, 8 on the Back."""
MEASURES = {"weighed": "g", "poured": "mL", "water": "L", "left_over": "L", "treated_area": "m**2"}


def year(*lines: dict[str, Any], shown_lawn: str = "", diary: Any = (), **more: Any) -> Model:
    """A site with its growth; `diary` are lines of date, lawn, product and grams weighed."""
    measures: dict[str, Any] = {f"diary__{key}": (unit, []) for key, unit in MEASURES.items()}
    measures["diary__weighed"] = ("g", [one[3] for one in diary])
    seen = {"season_view__lawn": ("text", shown_lawn)}
    return site(*lines, diary=[one[:3] for one in diary], **{**FULL, **measures, **seen, **more})


def month_by_month(model: Model, table: str, key: str, unit: str = "") -> Any:
    """A column of months, January first, whenever the season starts."""
    column = bare(model.column(table, key), unit)
    return [column[place] for place in np.argsort(model.column("season_months", "month_number"))]


PLAN = [
    line(first=on(5, 1), last=on(5, 29), every=14.0),
    line("Iron salt", group="Greens", first=on(5, 30), last=on(6, 30), every=31.0),
    line("Brew", lawn="back", first=on(6, 1), last=on(6, 1), times=1.0),
    line("Urea", lawn="Side", first=on(7, 1), last=on(7, 1), times=1.0),
    line("Gypsum", first=on(8, 1), last=on(8, 1), times=1.0),
    line("Urea", lawn="Front", first=float(serial(2025, 2, 28)), last=float(serial(2025, 3, 1)), every=1.0),
]
"""Urea of 2 g/m² (0.92 g N) on all on 1, 15 and 29 May; iron of 0.5 g/m² (0.1 g Fe) on Front and Side on 30 May and
30 June; 3 mL of the brew (0.06 g N) on the Back; the Front once more on the last day of the season, and on the next."""
