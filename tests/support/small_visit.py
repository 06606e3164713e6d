"""A visit with a few products, small enough to check by hand: its tables, and the model of them.

What other sheets work out (loads, treated area, carrier volume) is given here as it stands. No passes overlap unless a
test says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest

from support.tables import NO, bare, planner
from wbgen.model.binding import Model
from wbgen.trade.families import family

Columns = dict[str, tuple[str, Any]]
"""By column: its unit, and its figures from the first record on (the rest is blank)."""

RECORDS = {
    "products": 4,
    "mix_products": 5,
    "chosen_products": 5,
    "chosen_targets": 5,
    "diary": 6,
    "months": 12,
    "lawns": 2,
}
SEASON, MAY_14 = 46023.0, 46156.0  # 1 January and 14 May 2026

# A solid with iron, a liquid whose label gives a dilution, a solid of which a quarter of the nitrogen is slow, and a
# solid with calcium. Figures are invented.
PRODUCTS: Columns = {
    "name": ("text", ["Iron sulphate", "Seaweed", "Slow urea", "Calcium nitrate"]),
    "measured_by": ("text", ["mass", "volume", "mass", "mass"]),
    "family": ("text", ["iron", "seaweed", "urea", "nitrate"]),
    "family_line": ("", [2, 3, 4, 5]),
    "usual_carrier": ("L/ha", [400, 300]),
    "least_carrier": ("L/ha", [200, 400]),
    "spray_mass_usual": ("g/m**2", [1, NO, 2, 2]),
    "spray_mass_high": ("g/m**2", [2, NO, 3, 3]),
    "spray_mass_low": ("g/m**2", [0.5, NO, 1, 1]),
    "diluted_volume_low": ("mL/L", [NO, 1]),
    "diluted_volume_usual": ("mL/L", [NO, 3]),
    "diluted_volume_high": ("mL/L", [NO, 4]),
    "mass_content_nitrogen": ("g_N/kg", [NO, NO, 400, 150]),
    "mass_content_iron": ("g_Fe/kg", [200, NO, NO, 0]),
    "volume_content_potash": ("g_K2O/L", [NO, 40]),
    "slow_nitrogen": ("g_N/g", [NO, NO, 0.1]),
    "share_nitrogen": ("g_N/g", [NO, NO, 0.4, 0.15]),
    "mixing_place": ("", [3, NO, 2, 3]),
    "solubility_cold": ("g/L", [200, NO, 700, 900]),
    "solubility_mild": ("g/L", [260, NO, NO, 1200]),
    "salt_index": ("", [120, NO, 75, 60]),
    "dissolved_solids": ("g/L", [NO, 300]),
    "solids_counted": ("g/L", [NO, 300]),
    "least_interval": ("day", [21, 1, 14, 1]),
    "most_a_year": ("", [3, 0]),
    "number_binds": ("text", []),
    "spray_practice": ("text", []),
    "spray_asks": ("text", []),
    "months_suited": ("text", ["JFMA-JJASOND", "", "JFMAMJJASOND", "J"]),
    "hazards": ("text", ["irritates eyes", "", "", "eye damage"]),
    "cautions": ("text", ["stains paving", "", "scorches in heat"]),
    "property_ferrous": ("text", ["Yes"]),
    "property_sulphate": ("text", ["yes"]),
    "property_calcium": ("text", ["", "", "", "yes"]),
    "property_neutral": ("text", ["yes"] * 4),
    "properties_stated": ("text", ["yes"] * 4),
}
MIX: Columns = {
    "visit_date": ("date", MAY_14),
    "season_start": ("date", SEASON),
    "overlap": ("", NO),
    "carrier_volume": ("L/ha", 400),
    "wanted_carrier": ("L/ha", NO),
    "delivered_carrier": ("L/ha", 400),
    "carrier_aim": ("L/ha", 380),
    "volume_full": ("L", 14),
    "volume_last": ("L", 7.3),
    "fill_full": ("L", 14),
    "full_loads": ("", 3),
    "dilution": ("", 1),
    "water_used": ("degC", 15),
    "treated_area": ("m**2", 1000),
    "limit_factor": ("", 2),
    "calibration": ("text", "known area"),
    "clean_water_full": ("L", 13),
    "clean_water_last": ("L", 7),
    "heavy_rain": ("text", ""),
    "wet_ground": ("text", "no"),
    "air_temperature": ("degC", NO),
    "humidity": ("", NO),
    "wind": ("km/h", NO),
    "wind_height": ("text", "forecast at 10 m"),
    "ph": ("", NO),
    "alkalinity": ("meq/L", NO),
    "hardness": ("meq/L", 3),
    "acidify": ("text", "with iron"),
    "salts": ("g/L", 50),
    "solubility_share": ("", 0.4),
    "potash_in_water": ("g_K2O/L", 40),
    "sulphate_in_water": ("g_SO3/L", 40),
    "salt_load": ("g/m**2", 11),
    "soluble_nitrogen": ("g_N/m**2", 0.1),
}
SETTINGS: Columns = {
    "cold_water": ("degC", 10),
    "mild_water": ("degC", 20),
    "dissolve_share": ("", 0.5),
    "unknown_salt_index": ("", 100),
    "salt_index_reference": ("", 100),
    "rounding_tolerance": ("", 0.05),
    "saturated_potash": ("g_K2O/L", 50),
    "saturated_sulphate": ("g_SO3/L", 64),
    "hot_air": ("degC", 25),
    "dry_air": ("", 0.4),
    "hottest_air": ("degC", 32),
    "coldest_air": ("degC", 5),
    "stop_air": ("degC", 36),
    "calm_wind": ("km/h", 2),
    "diluted_span": ("", 2),
    "practice_span": ("", 2),
    "most_acid": ("g/L", 1),
    "interval_tolerance": ("day", 0),
    "interval_from": ("day", 7),
    "volume_tolerance": ("", 0),
    "hot_air_iron": ("degC", 27),
    "humate_ph": ("", 5.5),
    "lowest_ph": ("", 4.5),
    "highest_ph": ("", 9.0),
    "acid_span": ("", 2.0),
}
SCALES: Columns = {
    "fine_scale_step": ("g", 1),
    "coarse_scale_step": ("g", 10),
    "fine_scale_capacity": ("g", 500),
    "fine_jug_step": ("mL", 1),
    "coarse_jug_step": ("mL", 10),
    "fine_jug_capacity": ("mL", 100),
}
LIMITS = {
    "carrier": ("", 0.05, NO),
    "products": ("", 3, NO),
    "salts": ("g/L", 50, 100),
    "solubility": ("", 0.5, 0.8),
    "potassium_sulphate": ("", 0.5, 0.8),
    "salt_load": ("g/m**2", 5, 10),
    "nitrogen": ("g_N/m**2", 1.22, 2.44),
    "iron": ("g_Fe/m**2", 0.34, 1.96),
    "manganese": ("g_Mn/m**2", 0.15, NO),
    "wind": ("km/h", 15, 20),
    "near_wind": ("km/h", 10, 14),
    "hardness": ("meq/L", 2.5, NO),
    "iron_ph": ("", 7, NO),
    "alkalinity": ("meq/L", 2, NO),
}
WATER: Columns = {
    "ph": ("", NO),
    "alkalinity": ("meq/L", NO),
    "hardness": ("meq/L", NO),
    "wanted_ph": ("", NO),
    "citric_acid": ("text", "anhydrous"),
}
ACID_CONSTANTS: Columns = {
    "charge": ("meq/L", 1000),
    "pk_water": ("", 14),
    "pk_carbonic_one": ("", 6.352),
    "pk_carbonic_two": ("", 10.329),
    "pk_citric_one": ("", 3.127),
    "pk_citric_two": ("", 4.759),
    "pk_citric_three": ("", 6.397),
    "anhydrous": ("mg/meq", 192.123),
    "monohydrate": ("mg/meq", 210.138),
}
"""Those of the templates, which a test holds against the templates."""
PLACE: Columns = {
    "rule": ("text", ""),
    "most_nitrogen": ("g_N/m**2", NO),
    "most_soluble": ("g_N/m**2", NO),
    "no_phosphorus": ("text", ""),
}
DIARY: Columns = {
    "date": ("date", [46000, 46100, 46140, 46150, MAY_14, 46152]),
    "mix_family": ("", [2, 2, 2, NO, 2, 4]),
    "number_this_season": ("", [9, 1, 2, 7, 8, 1]),
    "lawn_line": ("", [2, 2, 3, 3, 2, 2]),
}
STEP = 50_000.0
"""By which the line of a family is higher that was spread dry."""
LAWNS: Columns = {"name": ("text", ["Front", "Back"])}


def blank_tables() -> dict[str, Columns]:
    """The columns of families, and of products that no test here fills, all blank."""
    products: Columns = {}
    for level in family("levels"):
        for stem, unit in (("spray_mass", "g/m**2"), ("spray_volume", "mL/m**2"), ("diluted_mass", "g/L")):
            products[f"{stem}_{level.key}"] = (unit, [])
        products[f"diluted_volume_{level.key}"] = ("mL/L", [])
    wanted: Columns = {"own_rate_mass": ("g/m**2", []), "own_rate_volume": ("mL/m**2", [])}
    for nutrient in family("nutrients"):
        unit = f"g_{nutrient.says['symbol']}"
        products[f"mass_content_{nutrient.key}"] = (f"{unit}/kg", [])
        products[f"volume_content_{nutrient.key}"] = (f"{unit}/L", [])
        wanted[f"wanted_{nutrient.key}"] = (f"{unit}/m**2", [])
    products |= {f"property_{trait.key}": ("text", []) for trait in family("traits")}
    rules: Columns = {f"level_{rule.key}": ("", float(rule.says["level"])) for rule in family("trait_rules")}
    limits: Columns = {f"ask_{key}": (unit, ask) for key, (unit, ask, _) in LIMITS.items()}
    limits |= {f"stop_{key}": (unit, stop) for key, (unit, _, stop) in LIMITS.items()}
    oxides: Columns = {
        f"element_in_{oxide.key}": (f"g_{oxide.says['element']}/g_{oxide.says['symbol']}", 0.8)
        for oxide in family("oxides")
    }
    typed: Columns = {"own_rate": ("1/m**2", []), "wanted_nitrogen": ("g_N/m**2", [])}
    targets: Columns = {key: column for key, column in wanted.items() if key.startswith("wanted_")}
    del targets["wanted_nitrogen"]
    forms: dict[str, Columns] = {"chosen": {}, "chosen_more": {}, "weather": {}}
    forms |= {"chosen_products": typed, "chosen_targets": targets}
    blank = {"products": products, "mix_products": wanted, "rules": rules, "limits": limits, "oxides": oxides}
    return {
        **blank,
        **forms,
        "mix_checks": {},
        "mix_nutrients": {},
        "mix_water": {},
        "months": {"closed": ("text", [])},
    }


def visit(mix_products: Columns, misplaced: Sequence[str] = (), **changed: Columns) -> Model:
    """A visit with these products; `changed` replaces columns of other tables. `misplaced`: see tables.planner."""
    filled = {"products": PRODUCTS, "mix": MIX, "settings": SETTINGS, "scales": SCALES, "diary": DIARY, "place": PLACE,
              "lawns": LAWNS, "water": WATER, "acid_constants": ACID_CONSTANTS,
              "ones": {"dry_step": ("", STEP)}}  # fmt: skip
    tables = blank_tables()
    for more in (filled, {"mix_products": mix_products}, changed):
        for table, columns in more.items():
            tables[table] = tables.get(table, {}) | columns
    return planner(tables, RECORDS, misplaced=misplaced)


NAMES: Columns = {"product": ("text", ["iron SULPHATE", "Seaweed", "", "Unknown", "Slow urea"])}
IRON: Columns = {"product": ("text", ["Iron sulphate"])}


def found(model: Model, key: str, unit: str = "", table: str = "mix_products") -> Any:
    """The figures of a column, in `unit`; a list where there are several."""
    return bare(model.column(table, key), unit)


def close(figures: Any) -> Any:
    return pytest.approx(figures, rel=1e-12, nan_ok=True)
