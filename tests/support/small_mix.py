"""Lawns, sprayers and a visit with two products, small enough to check by hand. Figures are invented."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from support.small_visit import ACID_CONSTANTS, SCALES, WATER
from support.tables import NO, Table, bare, changed, planner
from wbgen.trade.families import family

RECORDS = {
    "start": 1, "sprayers": 3, "lawns": 4, "mix_lawns": 4, "chosen_lawns": 4, "visit_lawns": 4, "mix_products": 3,
    "diary": 8, "months": 12, "round_lines": 2,
}  # fmt: skip
MAY_14 = 46156.0  # 2026

TABLES: dict[str, Table] = {
    "start": {"as_of": ("date", [MAY_14])},
    "sprayers": {
        "name": ("text", ["Knapsack", "Hose"]),
        "kind": ("text", ["knapsack", "hose-end"]),
        "jar_dilution": ("", [NO, 20.0]),
        "remainder": ("L", [0.2]),
        "carrier_volume": ("L/ha", [400.0]),
        "spray_capacity": ("L", [14.0, 20.0]),
        "total_output": ("L/min", [1.5]),
        "wanted_carrier": ("L/ha", []),
        "calibration": ("text", ["known area", "never calibrated"]),
    },
    "lawns": {
        "name": ("text", ["Front", "Back", "Bare"]),
        "grass": ("text", ["cool season", "Warm Season", ""]),
        "group": ("text", ["Fine", "", "fine"]),
        "walk_rank": ("", [1.0, 2.0, 3.0]),
        "area": ("m**2", [1000.0, 200.0]),
        "most_nitrogen_month": ("g_N/m**2", [NO, 4.0]),
        "target_nitrogen": ("g_N/m**2", [NO, 6.0]),
        "strip": ("text", []),
    },
    "months": {
        "mean_temperature": ("degC", [NO, NO, NO, NO, 14.0]),
        "growth_cool": ("", [0.1, 0.2, 0.3, 0.4, 0.5]),
        "growth_warm": ("", [0, 0, 0, 0, 0.25]),
    },
    "mix": {
        "date": ("date", NO),
        "date_else": ("date", MAY_14),
        "tank": ("", NO),
        "tank_line": ("", NO),
        "tank_left": ("", 0.0),
        "sprayer": ("text", "KNAPSACK"),
        "which_lawns": ("text", "listed"),
        "wanted_carrier": ("L/ha", NO),
        "loads_style": ("text", "equal"),
        "watered_in": ("text", "no"),
        "overlap": ("", 0.1),
        "water_temperature": ("degC", NO),
        "ph": ("", NO),
        "alkalinity": ("meq/L", NO),
        "hardness": ("meq/L", NO),
        "acidify": ("text", "with iron"),
        "wind": ("km/h", NO),
        "air_temperature": ("degC", NO),
        "humidity": ("", NO),
        "heavy_rain": ("text", ""),
        "wet_ground": ("text", ""),
    },
    "chosen": {"lawns": ("text", ""), "tank": ("", NO)},
    "round_lines": {"lawn_place": ("", []), "lawn": ("text", [])},
    "ones": {"key_step": ("", 100000.0)},
    "chosen_more": {},
    "weather": {},
    "chosen_lawns": {"lawn": ("text", ["back", "Bare", "", "Front"]), "part_treated": ("m**2", [50.0])},
    "mix_lawns": {"turn": ("", [1.0, 2.0, 3.0, 4.0])},
    "visit_lawns": {},
    "mix_products": {
        "product": ("text", ["Urea", "", "Seaweed"]),
        "product_line": ("", [3.0, NO, 2.0]),
        "product_words": ("text", ["", "", ""]),
        "usual_carrier": ("L/ha", [500.0, NO, 300.0]),
        "in_water_mass": ("g/L", [30.0]),
        "note_words": ("text", ["", "", ""]),
        "rate_volume": ("mL/m**2", [NO, NO, 0.8]),
        "pour_full": ("mL", [NO, NO, 200.0]),
        "pour_last": ("mL", [NO, NO, NO]),
        "bucket_full": ("L", [1.0]),
        "bucket_last": ("L", []),
        "trait_calcium": ("", [0.0, NO, 0.0]),
        "trait_phosphate": ("", [0.0, NO, 0.0]),
        "trait_ferrous": ("", [0.0, NO, 0.0]),
        "trait_acid": ("", [0.0, NO, 0.0]),
        **{f"trait_{rule.says['partner']}": ("", [0.0, NO, 0.0]) for rule in family("acid_rules")},
        "family": ("text", ["urea", "", "seaweed"]),
        "salts": ("g/L", [30.0, NO, 5.0]),
        "solubility_share": ("", [0.25, NO, 0.125]),
        "salt_load": ("g/m**2", [2.0, NO, 0.5]),
        "soluble_nitrogen": ("g_N/m**2", [0.75, NO, 0.0]),
        "level": ("", [0.0, NO, 0.0]),
    },
    "verdict": {},
    "mix_water": {},
    "rules": {f"level_{rule.key}": ("", 1.0) for rule in family("acid_rules")},
    "water": WATER,
    "acid_constants": ACID_CONSTANTS,
    "scales": SCALES,
    "mix_nutrients": {"rate_nitrogen": ("g_N/m**2", 1.0), "rate_iron": ("g_Fe/m**2", NO)},
    "limits": {"ask_iron": ("g_Fe/m**2", 0.34)},
    "mix_checks": {"worst": ("", 0.0), "words": ("text", "")},
    "settings": {
        "season_month": ("", 3.0),
        "season_day": ("", 1.0),
        "rolling_time": ("day", 30.0),
        "iron_time": ("day", 14.0),
        "practice_span": ("", 2.0),
        "most_acid": ("g/L", 1.0),
        "acid_span": ("", 2.0),
        "lowest_ph": ("", 4.5),
        "highest_ph": ("", 9.0),
        "first_fill": ("", 0.5),
        "slow_growth": ("", 0.1),
        "growth_nitrogen": ("g_N/m**2", 0.2),
        "target_tolerance": ("", NO),
        "most_nitrogen_month": ("g_N/m**2", 3.0),
        "water_temperature": ("degC", 10.0),
        "watered_in_factor": ("", 2.0),
        "volume_basis": ("kg/L", 1.0),
        "rounding_tolerance": ("", 0.05),
        "hot_air": ("degC", 25.0),
        "dry_air": ("", 0.4),
    },
    "diary": {
        "date": ("date", [MAY_14 - 29, MAY_14 - 30, MAY_14, MAY_14 - 1, MAY_14 - 1, NO, MAY_14 + 1]),
        "lawn": ("text", ["Back", "back", "Shed", "BACK", "Front", "Back", "Back"]),
        "load_nitrogen": ("g_N", [100.0, 1000.0, 1000.0, 20.0, NO, 1000.0, 1000.0]),
        "load_iron": ("g_Fe", []),
        "method": ("text", []),
    },
}


def figure(
    key: str, unit: str = "", *, table: str = "mix", misplaced: Sequence[str] = (), **columns: tuple[str, Any]
) -> Any:
    return bare(planner(changed(TABLES, **columns), RECORDS, misplaced=misplaced).column(table, key), unit)
