"""A planner of two lawns, three products and a few lines of diary, small enough to check by hand.

The day is 30 June 2024, the season started on 1 March. What other sheets work out (areas, contents, label rates) is
given here as it stands.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.binding import Model
from wbgen.model.inputs import DATE, TEXT, Inputs
from wbgen.model.tools.dates import serial
from wbgen.trade.families import MONTH_NAMES
from wbgen.trade.nutrients import NUTRIENTS
from wbgen.units.quantity import FLOAT

Value = Any

NO = float("nan")


def on(month: int, day: int, year: int = 2024) -> float:
    """The serial date of a day."""
    return float(serial(year, month, day))


AS_OF = on(6, 30)

UNITS = {
    "date": DATE,
    "lawn": TEXT,
    "product": TEXT,
    "method": TEXT,
    "weighed": "g",
    "poured": "mL",
    "water": "L",
    "left_over": "L",
    "planned_mass_rate": "g/m**2",
    "planned_volume_rate": "mL/m**2",
    "treated_area": "m**2",
    "air_temperature": "degC",
    "wind": "km/h",
    "note": TEXT,
}
"""The columns of a line of the diary, in order."""


def line(
    date: float | str, lawn: str, product: str, method: str = "spray", weighed: float | str = NO, **more: float | str
) -> list[Value]:
    """One line of the diary; what is not said is blank. A text may stand where a number belongs."""
    said = {"date": date, "lawn": lawn, "product": product, "method": method, "weighed": weighed, **more}
    return [said.get(key, "" if unit == TEXT else NO) for key, unit in UNITS.items()]


EMPTY = line(NO, "", "", "")

LINES = [
    line(on(4, 1), "Front", "Iron salt", weighed=100.0),
    line(on(4, 11), "FRONT", "iron SALT", weighed=100.0, water=10.0, left_over=2.0),
    line(on(4, 11), "Front", "Iron brew", poured=50.0, treated_area=25.0, planned_volume_rate=1.6),
    line(on(4, 11), "Back", "Iron salt", weighed=200.0, planned_mass_rate=1.0),
    line(on(2, 20), "Front", "Iron salt", weighed=10.0),
    line(on(5, 5), "Front", "Urea", "Dry", weighed=900.0),
    line(on(7, 4), "Back", "Urea", "spray", weighed=90.0),
    line(on(5, 6), "Side", "Gypsum", "", weighed=0.0),
    line(on(5, 7), "", "Urea", "spray", weighed=5.0),
    EMPTY,
]
"""Front has 100 m² and Back 200 m²; Side and Gypsum are unknown. Iron salt and Iron brew are one family."""

LAWNS = {
    "name": np.array(["Front", "Back", ""], dtype=object),
    "area": FLOAT.Quantity(np.array([100.0, 200.0, NO]), "m**2"),
    "measured_area": FLOAT.Quantity(np.array([100.0, 200.0, NO]), "m**2"),
    "area_from": np.array(["typed", "measured", ""], dtype=object),
    "grass": np.array(["cool season", "warm season", ""], dtype=object),
    "lawn_state": np.array(["", "no area yet", ""], dtype=object),
    "strip_for": np.array([""] * 3, dtype=object),
}

PRODUCTS = {
    "name": np.array(["Iron salt", "Iron brew", "Urea"], dtype=object),
    "family": np.array(["iron", "Iron", "urea"], dtype=object),
    "family_line": np.array([2.0, 2.0, 4.0]),
    "most_a_year": np.array([2.0, NO, 0.0]),
    "most_words": np.array(["at most 2", "", "usually at most 0"], dtype=object),
    "least_interval": FLOAT.Quantity(np.array([14.0, NO, 7.0]), "day"),
    "soonest": FLOAT.Quantity(np.array([14.0, NO, 7.0]), "day"),
    "dry_most_a_year": np.array([NO, NO, 1.0]),
    "dry_most_words": np.array(["", "", "usually at most 1"], dtype=object),
    "dry_least_interval": FLOAT.Quantity(np.array([NO, NO, 28.0]), "day"),
    "dry_soonest": FLOAT.Quantity(np.array([NO, NO, 28.0]), "day"),
    "least_carrier": FLOAT.Quantity(np.array([NO, NO, NO]), "L/ha"),
    "solids_counted": FLOAT.Quantity(np.array([NO, 200.0, NO]), "g/L"),
    "salt_index": np.array([NO, NO, 75.0]),
    "release_time": FLOAT.Quantity(np.array([NO, NO, NO]), "day"),
    "share_nitrogen": FLOAT.Quantity(np.array([NO, 0.02, 0.46]), "g_N/g"),
    "slow_nitrogen": FLOAT.Quantity(np.array([NO, NO, NO]), "g_N/g"),
    "months_suited": np.array(["-JFMAMJJASO-", "---A--------", "1234-6789012"], dtype=object),
    "spray_practice": np.array(["", "", ""], dtype=object),
    "dry_practice": np.array(["", "", ""], dtype=object),
    "spray_mass_high": FLOAT.Quantity(np.array([0.8, NO, 2.0]), "g/m**2"),
    "spray_volume_high": FLOAT.Quantity(np.array([NO, 1.5, NO]), "mL/m**2"),
    "dry_mass_high": FLOAT.Quantity(np.array([NO, NO, 9.0]), "g/m**2"),
    "diluted_mass_high": FLOAT.Quantity(np.array([NO, NO, NO]), "g/L"),
    "diluted_volume_high": FLOAT.Quantity(np.array([NO, NO, NO]), "mL/L"),
    "measured_by": np.array(["mass", "volume", "mass"], dtype=object),
    "product_state": np.array(["", "", "give the density"], dtype=object),
}

PLACE = {
    "most_nitrogen": FLOAT.Quantity(NO, "g_N/m**2"),
    "most_soluble": FLOAT.Quantity(NO, "g_N/m**2"),
    "no_phosphorus": "",
}

LIMITS = {
    "salts": ("g/L", 50.0, 100.0), "salt_load": ("g/m**2", 10.0, 20.0), "nitrogen": ("g_N/m**2", 6.0, 9.0),
    "iron": ("g_Fe/m**2", 0.34, 0.98),
}  # fmt: skip
"""By risk: its unit, and the figures above which to ask first and not to mix."""

# Grams in a kilogram of the solids, and in a litre of the brew.
MASS = {"nitrogen": [NO, NO, 460.0], "iron": [200.0, NO, NO]}
VOLUME = {"nitrogen": [NO, 20.0, NO], "iron": [NO, 60.0, NO]}
TARGET = {"nitrogen": [4.14, NO, NO], "iron": [0.5, 0.2, NO]}


def contents() -> dict[tuple[str, str], Value]:
    """The contents of the products and the targets of the lawns, nutrient by nutrient."""
    found: dict[tuple[str, str], Value] = {}
    for one in NUTRIENTS:
        for stem, known, unit in (("mass_content", MASS, "kg"), ("volume_content", VOLUME, "L")):
            figures = np.array(known.get(one.key, [NO] * 3))
            found["products", f"{stem}_{one.key}"] = FLOAT.Quantity(figures, f"g_{one.symbol}/{unit}")
        figures = np.array(TARGET.get(one.key, [NO] * 3))
        found["lawns", f"target_{one.key}"] = FLOAT.Quantity(figures, f"g_{one.symbol}/m**2")
    return found


def inputs(lines: list[list[Value]], shown: str = "") -> Inputs:
    """The inputs and constants of the tables that the diary feeds."""
    turns = np.arange(1.0, 4.0)
    columns, misplaced = {}, {}
    for place, (key, unit) in enumerate(UNITS.items()):
        given = [one[place] for one in lines]
        if unit != TEXT:
            misplaced["diary", key] = np.array([isinstance(one, str) for one in given])
            given = [NO if isinstance(one, str) else one for one in given]
        columns[key] = np.array(given, dtype=object if unit == TEXT else float)
    values: dict[str, dict[str, Value]] = {
        "diary": columns,
        "season_view": {"lawn": np.array([shown], dtype=object)},
        "progress": {"week": np.array([0.0, 6.0, 10.0, 52.0])},
        "flagged_lines": {"turn": turns},
        "months_together": {"turn": np.arange(1.0, 13.0)},
        "season_months": {"turn": np.arange(1.0, 13.0)},
    }
    listed = ("season_applied", "season_target", "season_left", "season_share", "season_hectare", "season_grams")
    values |= {table: {"turn": turns} for table in (*listed, "season_products")}
    kinds = {table: {key: TEXT if key == "lawn" else "" for key in own} for table, own in values.items()}
    records = {table: len(next(iter(own.values()))) for table, own in values.items()}
    forms = frozenset({"season_view", "control", "checks", "facts_now", "settings"})
    return Inputs(values, kinds | {"diary": UNITS}, records, forms, AS_OF, misplaced)


def planner(lines: list[list[Value]] = LINES, shown: str = "", **more: Value) -> Model:
    """The model of the small planner; `more` are further figures, as table__column."""
    settings = {
        "season_start": on(3, 1),
        "season_month": 3.0,
        "season_day": 1.0,
        "week": FLOAT.Quantity(7.0, "day"),
        "diary_warning": 0.9,
        "plan_tolerance": 0.1,
        "dry_nitrogen": FLOAT.Quantity(5.0, "g_N/m**2"),
        "dry_iron": FLOAT.Quantity(2.0, "g_Fe/m**2"),
        "dry_iron_stop": FLOAT.Quantity(4.0, "g_Fe/m**2"),
        "target_tolerance": 0.1,
        "volume_tolerance": 0.0,
        "unknown_salt_index": 100.0,
        "salt_index_reference": 100.0,
        "wind_ask": FLOAT.Quantity(10.0, "km/h"),
        "wind_stop": FLOAT.Quantity(14.5, "km/h"),
        "calm_wind": FLOAT.Quantity(2.0, "km/h"),
        "hot_air_iron": FLOAT.Quantity(27.0, "degC"),
        "hottest_air": FLOAT.Quantity(30.0, "degC"),
        "stop_air": FLOAT.Quantity(35.0, "degC"),
        "coldest_air": FLOAT.Quantity(2.0, "degC"),
    }
    known = {
        ("start", "as_of"): np.array([AS_OF]),
        ("mix_lawns", "lawn_used"): np.array(["back", "", ""], dtype=object),
        **{("settings", key): value for key, value in settings.items()},
        **{("lawns", key): value for key, value in LAWNS.items()},
        **{("place", key): value for key, value in PLACE.items()},
        **{
            ("limits", f"{which}_{key}"): FLOAT.Quantity(figure, unit)
            for key, (unit, *figures) in LIMITS.items()
            for which, figure in zip(("ask", "stop"), figures, strict=True)
        },
        ("ones", "key_step"): 100000.0,
        ("ones", "dry_step"): 50000.0,
        ("ones", "key_day"): on(1, 1, 2000),
        ("settings", "practice_span"): 2.0,
        ("settings", "slow_growth"): 0.1,
        ("settings", "growth_nitrogen"): FLOAT.Quantity(0.1, "g_N/m**2"),
        ("months", "mean_temperature"): FLOAT.Quantity(np.full(12, NO), "degC"),
        ("months", "growth_cool"): np.ones(12),
        ("months", "growth_warm"): np.ones(12),
        ("months", "closed"): np.array([""] * 12, dtype=object),
        ("months", "month"): np.array(MONTH_NAMES, dtype=object),
        **{("products", key): value for key, value in PRODUCTS.items()},
        **contents(),
    }
    further = {(at.partition("__")[0], at.partition("__")[2]): value for at, value in more.items()}
    return Model(inputs(lines, shown), known | further)


def column_of(model: Model, key: str, unit: str = "") -> list[Any]:
    """The figures of a column of the diary, in a unit."""
    found = model.column("diary", key)
    return list(found.to(unit).magnitude if unit else found)


def flags_of(*lines: list[Value], **more: Value) -> list[str]:
    """What is said of each of these lines; `more` as `planner` takes them."""
    return column_of(planner(list(lines), **more), "flags")


SPRAYED_ON = on(4, 1)


def spray(product: str = "Iron salt", lawn: str = "Front", day: float = SPRAYED_ON, **more: Value) -> list[Value]:
    """One line of what was sprayed."""
    return line(day, lawn, product, **more)
