"""Four lawns, five products and a programme for them, small enough to check by hand. Figures are invented.

The day is 15 May 2024, a Wednesday; the season started on 1 March. What other sheets work out (areas, contents,
label rates) is given here as it stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from support.tables import NO, Table, changed, is_close, planner
from wbgen.model.binding import Model
from wbgen.model.tools.dates import serial
from wbgen.trade.families import MONTH_NAMES, family
from wbgen.trade.nutrients import NUTRIENTS
from wbgen.trade.tank_rules import TRAIT_RULES, TRAITS

Value = Any
Row = dict[str, Value]


def on(month: int, day: int) -> float:
    """The serial date of a day of 2024."""
    return float(serial(2024, month, day))


AS_OF = on(5, 15)
RECORDS = {
    "start": 1, "lawns": 5, "products": 6, "programme": 5, "applications": 40, "timeline": 40, "calendar_weeks": 1,
    "calendar": 5, "due": 12, "due_lines": 5, "fortnight": 12, "round_lines": 8, "round_products": 4, "round_tanks": 6,
    "sprayers": 2, "mix_products": 8, "weekdays": 7, "stock": 6,
    "diary": 12, "shelf": 10, "prices": 6, "lawn_costs": 5, "season_applied": 5, "season_forecast": 5, "season_end": 5,
    "months": 12, "season_months": 12, "growth_months": 12, "budget_months": 12, "budget_running": 12,
    "scores": 14, "response_products": 6, "response_mixes": 4, "response_lawns": 5, "response_months": 12,
    "response_strips": 5, "response_weeks": 8, "recipes": 6, "ingredients": 6, "year_pairs": 6, "year_products": 6,
    "year_lawns": 5, "answers": 12, "feeding": 5, "season_share": 5, "season_left": 5, "season_target": 5,
    "progress": 53, "order_lines": 4, "order_brews": 6, "report_lines": 4,
    "report_next": 8, "report_months": 12, "record_lines": 4, "record_lawns": 5, "people": 3, "not_done": 5,
}  # fmt: skip
WEEKDAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"]
WIDE = {"products": 13, "programme": 13, "due": 15, "due_lines": 13, "round_lines": 15}
RUNNING = {
    "turn": (
        "timeline", "calendar", "due_lines", "fortnight", "not_done", "round_lines", "round_products", "round_tanks",
        "stock", "prices", "lawn_costs", "season_applied", "season_forecast", "season_end", "response_products",
        "response_mixes",
        "response_lawns", "response_strips", "answers", "year_pairs", "year_products", "year_lawns", "season_months",
        "growth_months", "budget_months", "budget_running", "feeding", "season_share", "season_left", "season_target",
        "order_lines", "order_brews", "report_lines", "report_next", "report_months", "record_lines",
        "record_lawns",
    ),
    "number": ("applications", "due"),
    "month_number": ("response_months",),
    "week": ("response_weeks", "progress"),
}  # fmt: skip
PROGRAMME = {
    "product": "text", "lawn": "text", "group": "text", "method": "text", "own_rate_mass": "g/m**2",
    "own_rate_volume": "mL/m**2", "own_carrier": "L/ha", "first": "date", "last": "date", "every": "day", "times": "",
    "shift": "day",
}  # fmt: skip
"""The columns of a line of the programme."""
DIARY = {"date": "date", "lawn": "text", "product": "text"}
MEASURED = {
    **DIARY, "weighed": "g", "poured": "mL", "water": "L", "left_over": "L", "treated_area": "m**2",
}  # fmt: skip
"""The columns of a line of the diary, without and with what was measured."""
SAID = {**DIARY, "method": "text", "note": "text"}
"""The same with how it was done, or that it was not, and why."""
NOT_NOTED: Table = {"wind": ("km/h", []), "air_temperature": ("degC", [])}
NO_WEATHER: Table = {
    **dict.fromkeys(("wind_ask", "wind_stop", "calm_wind"), ("km/h", NO)),
    **dict.fromkeys(("stop_air", "hottest_air", "coldest_air", "hot_air_iron"), ("degC", NO)),
}
"""The settings that hold the weather of a line to nothing."""
PRICE: dict[str, tuple[str, Value]] = {"products__price": ("currency/pack", [3.0, 5.0, 50.0, 4.0, NO])}
"""20 a kilogram of urea, 2 of calcium nitrate, 8 a litre of the brew; packs of the iron salt are of no known size."""

LAWNS: Table = {
    "name": ("text", ["Front", "Back", "", "Side", "Strip"]),
    "grass": ("text", []),
    "group": ("text", ["Greens", "", "Greens", "greens", ""]),
    "strip": ("text", []),
    "round_day": ("text", []),
    "sprayer": ("text", []),
    "walking_order": ("", [3.0, NO, NO, 1.0, NO]),
    "area": ("m**2", [100.0, 200.0, NO, 50.0, NO]),
}
"""Front and Side are a group; the third record is no lawn; the Strip has no area yet."""
PRODUCTS: Table = {
    "name": ("text", ["Urea", "Iron salt", "Calcium nitrate", "Brew", "Humate"]),
    "family": ("text", ["urea", "iron", "nitrate", "brew", "humate"]),
    "measured_by": ("text", ["mass", "mass", "mass", "volume", "volume"]),
    "most_a_year": ("", [NO, 4.0, NO, 0.0, NO]),
    "number_binds": ("text", ["", "yes"]),
    "spray_practice": ("text", []),
    "dry_practice": ("text", []),
    "least_interval": ("day", [1.0, 14.0, 7.0, 1.0, 1.0]),
    "dry_most_a_year": ("", [3.0]),
    "dry_number_binds": ("text", []),
    "dry_least_interval": ("day", [28.0]),
    "months_suited": ("text", ["", "JFMAM-JASOND", "", "", ""]),
    "usual_carrier": ("L/ha", [800.0, 400.0, NO, 600.0, 1000.0]),
    "spray_mass_usual": ("g/m**2", [2.0, 0.5, NO, NO, NO]),
    "dry_mass_usual": ("g/m**2", [10.0, NO, NO, NO, NO]),
    "spray_volume_usual": ("mL/m**2", [NO, NO, NO, 3.0, NO]),
    "spray_mass_high": ("g/m**2", [500.0, 500.0, 500.0]),
    "dry_mass_high": ("g/m**2", [500.0, 500.0, 500.0]),
    "spray_volume_high": ("mL/m**2", [NO, NO, NO, 500.0, 500.0]),
    "diluted_mass_high": ("g/L", []),
    "diluted_volume_high": ("mL/L", []),
    "diluted_mass_usual": ("g/L", [NO, NO, 20.0, NO, NO]),
    "diluted_volume_usual": ("mL/L", [NO, NO, NO, NO, 5.0]),
    **{f"{method}_{level}": ("", [1.0] * 5) for method in ("spray", "dry") for level in ("low", "usual", "high")},
    "solids_counted": ("g/L", []),
    "pack_mass": ("kg/pack", [0.15, NO, 25.0, NO, NO]),
    "pack_volume": ("L/pack", [NO, NO, NO, 0.5, NO]),
    "slow_nitrogen": ("g_N/g", []),
    "share_nitrogen": ("g_N/g", []),
    "mass_content_nitrogen": ("g_N/kg", [460.0, NO, 155.0, NO, NO]),
    "volume_content_nitrogen": ("g_N/L", [NO, NO, NO, 20.0, NO]),
}
SPRAYERS: Table = {
    "name": ("text", ["Knapsack", "Boom"]),
    "spray_capacity": ("L", [10.0, 100.0]),
    "carrier_volume": ("L/ha", [NO, 500.0]),
    "remainder": ("L", [0.5]),
}
"""The Knapsack was never calibrated."""
TRAITS_OF = {"Iron salt": ("ferrous", "sulphate"), "Calcium nitrate": ("calcium",), "Humate": ("alkaline_humate",)}
PLACE: Table = {
    "rule": ("text", ""), "most_nitrogen": ("g_N/m**2", NO), "most_soluble": ("g_N/m**2", NO),
    "no_phosphorus": ("text", ""),
}  # fmt: skip
MONTHS: Table = {
    "month": ("text", list(MONTH_NAMES)),
    "mean_temperature": ("degC", [20.0] * 12),
    "growth_cool": ("", [1.0] * 12),
    "growth_warm": ("", [0.3] * 12),
    "closed": ("text", []),
}
"""All the year the grass grows."""
LIMITS: dict[str, tuple[str, float, float]] = {
    "salts": ("g/L", 50.0, 100.0), "nitrogen": ("g_N/m**2", 2.5, 5.5), "iron": ("g_Fe/m**2", 0.34, 0.98),
    "products": ("", 3.0, NO),
}  # fmt: skip
"""By risk: its unit, and the figures above which to ask first and not to mix; wide enough for the lines here."""
DAY = {"line_margin": ("day", 3.0), "due_time": ("day", 14.0), "week": ("day", 7.0)}


def line(product: str = "Urea", **more: Value) -> Row:
    """A line of the programme; unless it says otherwise, a spray a week from 1 May to 29 May, on all lawns."""
    often: Row = {} if "times" in more or "every" in more else {"every": 7.0}
    return {"product": product, "method": "spray", "first": on(5, 1), "last": on(5, 29), **often, **more}


LINES = [
    line(),
    line("Iron salt", group="Greens"),
    line("Brew", lawn="Back", first=on(5, 20)),
    line("Calcium nitrate", lawn="Front", method="spray", own_rate_mass=1.5, own_carrier=1000.0),
    line(lawn="Side", method="dry", first=on(5, 16)),
]
"""Of a round. Walked: Side, Back, Front, Strip. The Strip has no area, so that nothing can be measured out for it."""


def columns(rows: Iterable[Row], kinds: dict[str, str]) -> Table:
    """Records as columns; what a record does not say is blank."""
    listed = list(rows)
    return {key: (kind, [row.get(key, "" if kind == "text" else NO) for row in listed]) for key, kind in kinds.items()}


def same(found: Value, expected: Value) -> bool:
    """True where both are as many figures, each close to its own; a list of none is not a list of one."""
    return bool(np.shape(found) == np.shape(expected) and is_close(found, expected))


def filled(table: str, kinds: dict[str, str], rows: list[tuple[Any, ...]]) -> dict[str, Any]:
    """The columns of a table as `site` takes them; what a row does not say is blank."""
    names = list(kinds)
    whole = [[*row, *("" if kinds[name] == "text" else NO for name in names[len(row) :])] for row in rows]
    return {f"{table}__{name}": (kinds[name], [row[at] for row in whole]) for at, name in enumerate(names)}


def site(
    *programme: Row,
    diary: Iterable[tuple[Any, ...]] = (),
    misplaced: Sequence[str] = (),
    wide: bool = False,
    **more: tuple[str, Value],
) -> Model:
    """The model of the small site; `more` are further columns, as table__column. `misplaced`: see tables.planner.

    A line of the diary has its day, lawn and product, and may have its method and note.

    A `wide` one has room for a dozen products and lines.
    """
    records = RECORDS | (WIDE if wide else {})
    traits = {
        f"property_{key}": ("text", ["yes" if key in TRAITS_OF.get(name, ()) else "" for name in PRODUCTS["name"][1]])
        for key in TRAITS
    }
    other = [one for one in NUTRIENTS if one.key != "nitrogen"]
    contents: Table = {
        f"{stem}_content_{one.key}": (f"g_{one.symbol}/{unit}", [])
        for one in other
        for stem, unit in (("mass", "kg"), ("volume", "L"))
    }
    tables: dict[str, Table] = {
        "start": {"as_of": ("date", [AS_OF])},
        "settings": {
            "season_start": ("date", on(3, 1)),
            "season_month": ("", 3.0),
            "season_day": ("", 1.0),
            **DAY,
            "dry_nitrogen": ("g_N/m**2", 5.0),
            "dry_iron": ("g_Fe/m**2", 2.0),
            "dry_iron_stop": ("g_Fe/m**2", 4.0),
            "interval_tolerance": ("day", 0.0),
            "interval_from": ("day", 7.0),
            "slow_growth": ("", 0.1),
            "practice_span": ("", 2.0),
            "growth_nitrogen": ("g_N/m**2", 0.1),
            **NO_WEATHER,
        },
        "ones": {
            "key_step": ("", 100000.0),
            "dry_step": ("", 50000.0),
            "live_digit": ("", 1e14),
            "key_day": ("date", on(1, 1)),
            "one_mass": ("g", 1.0),
            "one_volume": ("mL", 1.0),
        },
        "limits": {
            f"{which}_{key}": (unit, figure)
            for key, (unit, *figures) in LIMITS.items()
            for which, figure in zip(("ask", "stop"), figures, strict=True)
        },
        "rules": {f"level_{rule.first}_with_{rule.second}": ("", rule.level) for rule in TRAIT_RULES},
        "lawns": LAWNS,
        "place": PLACE,
        "months": MONTHS,
        "products": {**PRODUCTS, **traits, **contents},
        "recipes": {"product": ("text", [])},
        "programme": columns(programme, PROGRAMME),
        "diary": {**columns((dict(zip(SAID, one, strict=False)) for one in diary), SAID), **NOT_NOTED},
        "calendar_weeks": {f"number_{week.key}": ("", [float(week.says["number"])]) for week in family("weeks")},
        "plan": {},
        "money": {},
        "growth_view": {},
        "order_sum": {},
        "report_choice": {"lawn": ("text", "")},
        "year_choice": {"lawn": ("text", "")},
        "year_lawn": {},
        "record": {"begin": ("date", NO), "until": ("date", NO)},
        **{key: {} for key in ("report", "report_workings", "report_nutrients", "report_scores")},
        "round": {"begin": ("date", NO), "length": ("day", 1.0), "sprayer": ("text", "")},
        "round_whole": {},
        "today_round": {},
        "meets": {f"digit_{trait.key}": ("", 10.0**place) for place, trait in enumerate(family("tank_traits"))},
        "weekdays": {"number": ("", [1.0, 2, 3, 4, 5, 6, 7]), "day": ("text", WEEKDAYS)},
        "sprayers": SPRAYERS,
        "mix_products": {},
    }
    for key, names in RUNNING.items():
        tables |= {name: {key: ("", [one + 1.0 for one in range(records[name])])} for name in names}
    return planner(changed(tables, **more), records, misplaced=misplaced)


def shown(model: Model, table: str, key: str, unit: str = "") -> list[Any]:
    """The figures of a column up to the last that is not blank."""
    column = model.column(table, key)
    found = list(column.to(unit).magnitude if unit else column)
    while found and (found[-1] == "" or found[-1] != found[-1]):
        found.pop()
    return found
