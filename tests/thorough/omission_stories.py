"""What must happen on the calm site for a planner to say each thing that it can say."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from thorough.omission_sites import CALCIUM, IRON, JULY, POTASH, SEAWEED, N, calm
from thorough.omissions import Changes, Pasted, Scene
from wbgen.inputs.rows import Cell
from wbgen.sheets.column import System
from wbgen.trade.families import SCORED, family
from wbgen.trade.nutrients import NUTRIENTS
from wbgen.trade.tank_rules import RISKS, TRAIT_RULES, TRAITS

GO, ASK, STOP = "Go", "Ask first", "Do not mix"

RECENT: Final[Changes] = {
    "diary.date": date(2026, 6, 18), "diary.weighed": "600 g", f"products.least_interval@{N}": None,
}  # fmt: skip
"""A dressing 13 days before the visit: 1.26 g N/m², and 0.525 with the visit."""
RUSTY: Final[Changes] = {
    "diary.date": date(2026, 6, 18), "diary.weighed": "150 g", "diary.product": IRON,
    f"products.least_interval@{IRON}": None,
}  # fmt: skip
"""Iron 13 days before the visit: less than asks first in one visit, and more with the visit."""
RUST: Final[Changes] = {
    "diary.product": IRON, f"products.dry_high@{IRON}": 500.0, f"products.dry_unit@{IRON}": "g/m²",
}  # fmt: skip
"""Iron that may be spread dry."""
HOT: Final[Changes] = {"weather.air_temperature": "26 degC"}
DRY: Final[Changes] = {**HOT, "weather.humidity": "30 %"}
ON_IRON: Final[Changes] = {"chosen_products.product": IRON, f"products.months_suited@{IRON}": None}

MET: Final[dict[str, Changes]] = {
    "carrier": {"chosen.wanted_carrier": "500 L/ha"},
    "iron": ON_IRON,
    "manganese": {"chosen_products.product": "Manganese sulphate monohydrate"},
    "near_wind": {"weather.wind_height": "at spray height"},
    "potassium_sulphate": {"chosen_products.product": "Potassium nitrate", "chosen_products.product@1": "Epsom salts"},
    "hardness": {"chosen_products.product": CALCIUM},
    "iron_ph": {**ON_IRON, "chosen_more.ph": 6.8},
    "alkalinity": {**ON_IRON, "chosen_more.alkalinity": "40 mg CaCO3/L"},
}
"""What a calm visit needs so that there is something to hold against a risk's limit; for the others it has it."""

HARD: Final[Changes] = {"chosen_more.ph": 7.8, "chosen_more.alkalinity": "250 mg CaCO3/L", "water.wanted_ph": 6.0}
"""Water that takes acid."""
SOURED: Final[Changes] = {**HARD, "chosen_products.product@1": "Citric acid"}
"""Acid among the products: 1.7 times as much as that water takes."""
HUMATE: Final[Changes] = {"chosen_products.product": "Humic acid", "chosen_more.ph": 5.5}

LINE: Final[Changes] = {
    "product": N, "method": "spray", "first": date(2026, 7, 1), "last": date(2026, 7, 1), "times": 1.0,
}  # fmt: skip
"""A line of the programme for all lawns."""

BROKEN: Final[dict[str, Changes]] = {
    "totals": {"diary.lawn": "Nobody's", **{f"products.stated_{one.key}@{N}": "5 %" for one in NUTRIENTS}},
    "lawn_names": {"diary.lawn": "Nobody's"},
    "product_names": {"diary.product": "Nothing"},
    "incomplete_lines": {"diary.date": None},
    "diary_texts": {"diary.treated_area": Pasted("all")},
    "diary_duplicates": {
        "diary.date@1": date(2026, 4, 8),
        "diary.lawn@1": "Front",
        "diary.product@1": N,
        "diary.method@1": "spray",
        "diary.weighed@1": "262 g",
    },
    "diary_full": {"settings.diary_warning": "1 %"},
    "lawn_states": {"lawns.name@2": "Bare patch"},
    "part_states": {"parts.first_length": None},
    "parts_lost": {"parts.lawn": "Nobody's"},
    "point_states": {"points.part@5": "bay", "points.part@4": "plot"},
    "points_lost": {"points.part": "nowhere"},
    "product_states": {f"products.analysis_per@{N}": "w/v"},
    "sprayer_states": {"sprayers.jar_dilution@2": None},
    "line_states": {"programme.product": "Nothing"},
    "shelf_states": {"shelf.deed": "lost"},
    "score_states": {"scores.lawn": "Nobody's"},
    "soil_states": {"soil_tests.lawn": "Nobody's"},
    "brew_states": {"recipes.batch": None},
    "dates_beyond": {"programme.every": "1 day"},
    "pairs_beyond": {
        **{f"lawns.name@{record}": f"Lawn {record}" for record in range(2, 6)},
        **{f"lawns.typed_area@{record}": "9 m²" for record in range(2, 6)},
        **{f"programme.{key}@{record}": cell for record in range(5, 12) for key, cell in LINE.items()},
    },
}
"""What makes each check of the sheet Checks fail."""
VISITS: Final[Changes] = {
    "diary.date@1": date(2026, 4, 10), "diary.lawn@1": "Front", "diary.product@1": SEAWEED, "diary.method@1": "spray",
    "diary.poured@1": "160 mL",
}  # fmt: skip
"""A second visit with a second product, between the same two scores."""
UNSEEN: Final[dict[str, tuple[str, Changes]]] = {
    "lawns_unseen": ("season_applied", {}),
    "products_unseen": ("season_products", {}),
    "mixes_beyond": ("response_mixes", VISITS),
    "answers_beyond": ("answers", VISITS),
}
"""Checks that fail only where a table is too short for what is there: which one, and what there must be."""


OF_THE_TANK: Final[Changes] = {
    **{f"chosen.{key}": None for key in ("date", "lawns", "sprayer", "wanted_carrier")},
    "chosen_products.product": None,
}
"""Boxes that are left to the tank of the round."""

MEETING: Final[Changes] = {
    "programme.product@2": CALCIUM, "programme.lawn@2": "Front", "programme.first@2": date(2026, 6, 20),
}  # fmt: skip
"""Sulphate and calcium on one lawn in one round."""
OF_TWO: Final[Changes] = {
    **OF_THE_TANK, **MEETING, "programme.product@2": SEAWEED, "programme.own_rate_volume@2": "1 mL/m²",
    "chosen.tank": 1.0,
}  # fmt: skip
"""A tank of the round with two products, that is mixed."""

ROOMLESS: Final[dict[str, Changes]] = {
    "record_lines": VISITS, "today_lawns": {}, "round_tanks": MEETING,
}  # fmt: skip
"""Tables that say themselves when they are too short for what is there, and what there must be."""


def cut_short(check: str, system: System) -> Scene:
    """The calm site with the table of one of UNSEEN cut to one record."""
    table, changes = UNSEEN[check]
    return calm(system, changes).cut(table, 1)


def diluted(product: str, unit: str) -> Changes:
    """A product whose label gives a dilution, meant for a third of the water of the mix."""
    rates = {"low": 100.0, "usual": 200.0, "high": 300.0}
    return {
        "chosen_products.product": product, f"products.spray_unit@{product}": unit,
        f"products.usual_carrier@{product}": "200 L/ha",
        **{f"products.spray_{level}@{product}": rate for level, rate in rates.items()},
    }  # fmt: skip


CROSSING: Final = {5: ("0 m", "0 m"), 6: ("10 m", "10 m"), 7: ("10 m", "0 m"), 8: ("0 m", "6 m")}
"""Corners whose edges cross, by record of the table of points."""


SPOKEN: Final[dict[str, Changes]] = {
    "mix_products.level_text": {"chosen_products.own_rate": Pasted("1,0")},
    "mix_products.level_rate": {"chosen_products.own_rate": "2 g/m²", "chosen_products.wanted_nitrogen": "0.5 g/m²"},
    "mix_products.level_label": {"chosen_products.own_rate": "3.1 g/m²"},
    "mix_products.level_diluted": diluted(N, "g in 10 L"),
    "mix_products.level_carrier": {f"products.least_carrier@{N}": "650 L/ha"},
    "mix_products.level_month": {f"products.months_suited@{N}": "JFMAMJ-ASOND"},
    "mix_products.level_interval": {f"products.least_interval@{N}": "86 day"},
    "mix_products.level_number": {f"products.most_a_year@{N}": 1.0},
    "mix_products.level_tank": {"chosen_products.product@1": CALCIUM},
    "mix_products.level_unknown": {f"products.solubility_cold@{N}": None},
    "mix_products.level_small": {"chosen_lawns.part_treated": "0.1 m²"},
    "mix_products.level_rounding": {"scales.fine_scale_step": "140 g"},
    "mix_checks.level_text": {"weather.wind": Pasted("1,0")},
    "mix_checks.level_calibration": {"sprayers.tested_area": None},
    "mix_checks.level_water": {"chosen_products.product": SEAWEED, "chosen_products.own_rate": "61 mL/m²"},
    "mix_checks.level_room": {"settings.dissolve_share": "5 %"},
    "mix_checks.level_heat": DRY,
    "mix_checks.level_air": {"weather.air_temperature": "31 degC"},
    "mix_checks.level_calm": {"weather.wind": "1 km/h"},
    "mix_checks.level_acid": {**HARD, "chosen_more.acidify": "yes", "chosen_products.product": SEAWEED},
    "mix_checks.level_own_acid": {**SOURED, "chosen_more.alkalinity": "200 mg CaCO3/L"},
    "mix_checks.level_low_ph": {"chosen_more.ph": 4.4},
    "mix_checks.level_high_ph": {"chosen_more.ph": 8.6},
    "mix_checks.level_humate": {**HUMATE, "chosen_more.ph": 5.4},
    "mix_checks.level_weather": {"weather.wind": None},
    "mix_checks.level_iron_heat": {**ON_IRON, "weather.air_temperature": "28 degC"},
    "mix_checks.level_later": {"diary.date": date(2026, 7, 2)},
    "mix_checks.level_rain": {"weather.heavy_rain": "yes"},
    "mix_checks.level_ground": {"weather.wet_ground": "yes"},
    "mix_checks.level_place_nitrogen": {"place.most_nitrogen": "0.1 g N/m²"},
    "mix_checks.level_place_soluble": {"place.most_soluble": "0.1 g N/m²", "place.rule": "Terms of the permit"},
    "mix_checks.level_place_phosphorus": {"place.no_phosphorus": "yes", f"products.stated_phosphate@{N}": "5 %"},
    "mix_checks.level_place_month": {"months.closed@6": "yes"},
    "visit_lawns.nitrogen_level": {**RECENT, "lawns.most_nitrogen_month": "1 g N/m²"},
    "visit_lawns.growth_level": {JULY: "8 degC", "lawns.most_nitrogen_month": "20 g N/m²"},
    "visit_lawns.target_level": {"lawns.target_nitrogen": "0.9 g N/m²"},
    "visit_lawns.iron_level": {**ON_IRON, **RUSTY},
    "visit_lawns.strip_level": {"lawns.strip@1": "Front"},
    "visit_lawns.lawn_level": {"chosen_lawns.part_treated": "101 m²"},
}  # fmt: skip
"""What makes each level of a visit speak: limits of a product, of a lawn, of the weather and of the tank."""


@dataclass(frozen=True)
class Trip:
    """A setting that trips a verdict `on` and `off`. `given` is what a calm visit needs beside it.

    `place` is where the verdict stands; it shows `says` when tripped, and `quiet` when not.
    """

    on: Cell
    off: Cell
    given: Changes
    place: str = "verdict.verdict"
    says: Any = ASK
    quiet: Any = GO


MARCH: Final[Changes] = {
    "diary.date": date(2026, 3, 10), f"products.most_a_year@{N}": 1.0, f"products.number_binds@{N}": "yes",
}  # fmt: skip
APRIL, MAY, JUNE = (f"months.mean_temperature@{month}" for month in (3, 4, 5))
WARM: Final[Changes] = {"lawns.grass": "warm season"}
SALT: Final[Changes] = {"chosen_products.product": POTASH}

EARLY: Final[Changes] = {f"products.least_interval@{N}": "85 day"}
"""A day more than the last dressing is ago."""
SHORT: Final[Changes] = {f"products.least_carrier@{N}": "601 L/ha"}
UNTOLD: Final[Changes] = {f"products.trait_{trait}@{name}": "" for trait in TRAITS for name in (N, SEAWEED)}
"""Two products of which no property is stated."""

TRIPS: Final[dict[str, Trip]] = {
    "season_month": Trip(1.0, 4.0, MARCH, says=STOP),
    "season_day": Trip(5.0, 15.0, {**MARCH, "settings.season_month": 3.0}, says=STOP),
    "iron_time": Trip("15 day", "12 day", {**ON_IRON, **RUSTY}),
    "rolling_time": Trip("30 day", "10 day", {**RECENT, "settings.most_nitrogen_month": "1.5 g N/m²"}),
    "most_nitrogen_month": Trip("1.5 g N/m²", "2 g N/m²", RECENT),
    "diary_warning": Trip("1 %", "90 %", {}, "checks.failed_diary_full", 1, 0),
    "before_time": Trip(
        "3 day", "2 day", {"scores.date": date(2026, 4, 5)}, "response_lawns.number_quality", 1, 0
    ),
    "after_least": Trip("10 day", "11 day", {}, "response_lawns.number_quality", 1, 0),
    "after_time": Trip("10 day", "9 day", {}, "response_lawns.number_quality", 1, 0),
    "nozzle_tolerance": Trip("1 %", "5 %", {}, "catches.nozzle_state@2", "clean or replace", "within"),
    "rounding_tolerance": Trip("0.1 %", "5 %", {"scales.fine_scale_step": "7 g"}),
    "target_tolerance": Trip(
        "1 %", "20 %", {"lawns.target_nitrogen": "0.5 g/m²"}, "season_left.words", "over the target", "on the target"
    ),
    "due_time": Trip("14 day", "7 day", {}, "due.state@2", "due", "later"),
    "line_margin": Trip(
        "14 day", "7 day",
        {"diary.date": date(2026, 6, 28), "diary.lawn": "Back", "diary.product": POTASH}, "due.done@2", 1, 0,
    ),
    "plan_tolerance": Trip("1 %", "10 %", {}, "diary.flags", "off the plan", ""),
    "dry_nitrogen": Trip(
        "0.1 g N/m²", "4.9 g N/m²", {"diary.method": "dry"}, "diary.flags",
        "more soluble nitrogen than one dry dressing should bring", "",
    ),
    "dry_iron": Trip(
        "0.01 g Fe/m²", "2 g Fe/m²", {**RUST, "diary.method": "dry"}, "diary.flags",
        "much iron in one dry dressing", "",
    ),
    "dry_iron_stop": Trip(
        "0.01 g Fe/m²", "7 g Fe/m²", {**RUST, "diary.method": "dry"}, "diary.flags",
        "too much iron in one dry dressing", "",
    ),
    "test_life": Trip(
        "100 day", "122 day", {}, "soil_tests.stands_potash", "this test's; old, test again", "this test's"
    ),
    "dissolve_share": Trip("5 %", "50 %", {}),
    "water_temperature": Trip(
        "10 degC", "20 degC", {**SALT, "chosen_more.water_temperature": None, "limits.ask_solubility": 0.16}
    ),
    "cold_water": Trip("15 degC", "10 degC", {**SALT, "limits.ask_solubility": 0.18}),
    "mild_water": Trip("20 degC", "11 degC", {**SALT, "limits.ask_solubility": 0.16}),
    "unknown_salt_index": Trip(300.0, 100.0, {f"products.salt_index@{N}": None}),
    "unknown_solids": Trip(
        "2500 g/L", "600 g/L", {"chosen_products.product": SEAWEED, f"products.dissolved_solids@{SEAWEED}": None}
    ),
    "diluted_span": Trip(2.0, 4.0, diluted(N, "g in 10 L")),
    "practice_span": Trip(1.0, 2.0, {"chosen_products.own_rate": "3.1 g/m²"}, says=STOP, quiet=ASK),
    "most_acid": Trip("0.1 g/L", "1 g/L", {**HARD, "chosen_more.acidify": "yes"}, "mix_water.adds", "no", "yes"),
    "salt_index_reference": Trip(30.0, 100.0, {}),
    "saturated_potash": Trip("8 g K2O/L", "50.3 g K2O/L", MET["potassium_sulphate"]),
    "saturated_sulphate": Trip("1 g SO3/L", "42.7 g SO3/L", MET["potassium_sulphate"]),
    "watered_in_factor": Trip(1.0, 2.0, {"chosen.watered_in": "yes", "limits.ask_nitrogen": "0.3 g N/m²"}),
    "volume_basis": Trip(
        "2 kg/L", "1 kg/L",
        {"chosen_products.product": SEAWEED, f"products.stated_nitrogen@{SEAWEED}": "10 %",
         "limits.ask_nitrogen": "0.2 g N/m²"},
    ),
    "hot_air": Trip("25 degC", "27 degC", DRY),
    "dry_air": Trip("40 %", "20 %", DRY),
    "hot_air_iron": Trip("25 degC", "27 degC", {**HOT, **ON_IRON}),
    "stop_air": Trip("25 degC", "35 degC", HOT, says=STOP),
    "calm_wind": Trip("9 km/h", "2 km/h", {}),
    "acid_span": Trip(1.0, 2.0, SOURED),
    "lowest_ph": Trip(7.5, 4.5, {"chosen_more.ph": 7.0}),
    "highest_ph": Trip(6.5, 8.5, {"chosen_more.ph": 7.0}),
    "humate_ph": Trip(5.6, 5.5, HUMATE),
    "interval_tolerance": Trip("0 day", "1 day", EARLY),
    "interval_from": Trip("86 day", "7 day", EARLY),
    "volume_tolerance": Trip("0 %", "5 %", SHORT),
    "diary_wind": Trip(
        "at spray height", "forecast at 10 m", {"diary.wind": "12 km/h"}, "diary.flags", "much wind", ""
    ),
    "hottest_air": Trip("25 degC", "30 degC", HOT),
    "coldest_air": Trip("5 degC", "2 degC", {"weather.air_temperature": "3 degC"}),
    "optimum_cool": Trip("35 degC", "20 degC", {}),
    "spread_cool": Trip("2 delta_degC", "5.5 delta_degC", {JULY: "14 degC"}),
    "optimum_warm": Trip("45 degC", "31 degC", WARM),
    "spread_warm": Trip("2 delta_degC", "7 delta_degC", WARM),
    "slow_growth": Trip(1.0, 0.1, {}),
    "growth_nitrogen": Trip("0.1 g N/m²", "1 g N/m²", {"settings.slow_growth": 1.0}),
}  # fmt: skip

BEFORE: Final = (
    "calcium",
    "ferrous",
    "magnesium",
    "manganese",
    "acid",
    "potassium",
    "ammonium",
    "strong_salt",
    "chelated_iron",
    "wetting_agent",
    "feed_or_extract",
)
"""Traits of one product that, with all the others in a second product, break every rule of the tank."""
TOGETHER: Final[Changes] = {
    "chosen_products.product@1": SEAWEED,
    **{f"products.trait_{trait}@{N}": "yes" if trait in BEFORE else "" for trait in TRAITS},
    **{f"products.trait_{trait}@{SEAWEED}": "" if trait in BEFORE else "yes" for trait in TRAITS},
}


def rules_at(level: float) -> Changes:
    """Every rule of the tank broken, at one level."""
    return {**TOGETHER, **{f"rules.level_{rule.first}_with_{rule.second}": level for rule in TRAIT_RULES}}


LIMITED: Final[Changes] = {
    "place.most_nitrogen": "0.1 g N/m²", "place.most_soluble": "0.1 g N/m²", "place.no_phosphorus": "yes",
    "place.rule": "Terms of the permit", f"products.stated_phosphate@{N}": "5 %",
}  # fmt: skip
"""A place that lets nothing of a dressing through."""


def brew_on(day: date) -> Changes:
    """A brew for the Front on a day, on a round that begins on it."""
    line: Changes = {
        "product": "Compost tea",
        "lawn": "Front",
        "method": "spray",
        "first": day,
        "last": day,
        "times": 1.0,
    }
    return {**{f"programme.{key}@5": cell for key, cell in line.items()}, "round.begin": day}


NINE: Final = (
    SEAWEED, IRON, POTASH, CALCIUM, "Urea", "Humic acid", "Potassium nitrate", "Epsom salts",
)  # fmt: skip
"""With what the calm site has had that day, one product more than a mix has room for."""

SEVENTEEN: Final = (
    *NINE, N, "Liquid NPK 10-4-6", "Non-ionic wetting agent", "Citric acid", "Iron EDTA chelate powder",
    "Manganese sulphate monohydrate", "Monoammonium phosphate (soluble grade)", "Monopotassium phosphate",
    "Compost tea",
)  # fmt: skip
"""One product more than a round lists."""

NOT_DONE: Final[Changes] = {
    "diary.date@1": date(2026, 6, 28), "diary.lawn@1": "Front", "diary.note@1": "too windy",
}  # fmt: skip
TOLD: Final[dict[str, Changes]] = {
    "a log of nobody": {"chosen_more.who": None},
    "a log of no lawn": {"chosen_lawns.lawn": None},
    "a log filled in": {
        "log.who": "First helper", "log.started": "9:10", "log.ended": "10:05", "log.left_over": "2 L",
        "log.wind_from": "W", "log.reason": "moss", "log.batch": "A 7",
    },
    "a log of texts for numbers": {
        f"log.{key}": Pasted("1,0") for key in ("left_over", "air_temperature", "wind", "rain")
    },
    "a log of a wind near the grass": {
        "weather.wind_height": "at spray height", "settings.diary_wind": "forecast at 10 m",
    },
    "a log of what is left over": {"sprayers.remainder": "0.5 L"},
    "a visit in the diary": {"diary.date": date(2026, 7, 1), "diary.method": "spray"},
    "half a visit in the diary": {
        "diary.date": date(2026, 7, 1), "diary.method": "spray", "chosen.lawns": "all",
    },
    "a lawn twice": {"lawns.name@2": "Front", "lawns.typed_area@2": "50 m²"},
    "an even number of offsets": {"points.lawn@4": None},
    "units of another kind": {f"products.spray_unit@{N}": "mL/m²", f"products.dry_unit@{N}": "mL/m²"},
    "a liquid without density": {"products.density@Liquid NPK 10-4-6": None},
    "a product twice": {"products.name@1": N},
    "nozzles that differ": {"settings.nozzle_tolerance": "1 %"},
    "no sprayer": {"chosen.sprayer": None},
    "no sprayer and no water wanted": {
        "chosen.sprayer": None, "chosen.wanted_carrier": None, f"products.usual_carrier@{N}": None,
    },
    **{
        f"a mix of {day} July, seen on that day": {
            "weather.planner_date": date(2026, 7, day), "chosen.date": date(2026, 7, day),
        }
        for day in range(2, 9)
    },
    "one lawn from the list": {"chosen.lawns": "Front"},
    "a group from the list": {"chosen.lawns": "sunny"},
    "too little of what has no pack": {
        "shelf.date": date(2026, 6, 1), "shelf.packs": None, "shelf.mass": "0.1 kg",
        "shelf.packs@2": None, f"products.pack_mass@{N}": None, "order.days_ahead": None,
    },
    "a target that is a text": {"chosen_targets.wanted_iron": Pasted("1,0")},
    "a tank of the round": {**OF_THE_TANK, "chosen.tank": 1.0},
    "a tank of two products": OF_TWO,
    "a tank of ten products": {
        **OF_THE_TANK, "chosen.tank": 1.0,
        **{f"rules.level_{rule.first}_with_{rule.second}": 0.0 for rule in TRAIT_RULES},
        **{
            f"programme.{key}@{record}": cell
            for record, product in enumerate([one for one in SEVENTEEN if one not in (IRON, N)][:9], 1)
            for key, cell in {
                "product": product, "lawn": "Front", "group": None, "method": "spray", "first": date(2026, 6, 20),
                "last": date(2026, 7, 20), "every": None, "times": 1.0,
            }.items()
        },
    },
    "a round without spray volume": {
        f"products.usual_carrier@{N}": None, "sprayers.tested_area": None, "sprayers.swath": None,
    },
    "the day is not typed": {"weather.planner_date": None},
    "no sprayers at all": {"sprayers.name": None, "sprayers.name@1": None, "sprayers.name@2": None},
    "a sprayer of unknown capacity": {"sprayers.working": None},
    "a tank that the round has not": {**OF_THE_TANK, "chosen.tank": 99.0},
    "a text for a tank": {"chosen.tank": Pasted("two")},
    "a lawn that is visited on no day with no sprayer": {"lawns.round_day": "Someday", "lawns.sprayer": "Nobody's"},
    "a lawn without area": {"lawns.name@2": "Bare patch", "chosen_lawns.lawn": "Bare patch"},
    "a stranger's lawn": {"chosen_lawns.lawn@1": "Nobody's"},
    "a lawn named twice": {"chosen_lawns.lawn@1": "Front"},
    "nothing checked": {
        **{f"weather.{key}": None for key in ("wind", "air_temperature", "humidity", "heavy_rain", "wet_ground")},
        "chosen_more.hardness": None,
        JULY: None, "chosen_products.product": CALCIUM,
    },
    "acid for the water": {**ON_IRON, **HARD},
    "acid for the water of a part load": {
        **ON_IRON, **HARD, "chosen_lawns.lawn@1": "Back", "chosen.loads_style": "full and part",
    },
    "two full tanks and a part": {
        "chosen_lawns.lawn@1": "Back", "chosen.loads_style": "full and part", "chosen_more.overlap": "20 %",
    },
    "acid that is not asked for": HARD,
    "acid that meets all that it may": {
        **HARD, "chosen_more.acidify": "yes", "chosen_products.product": SEAWEED,
        **{f"rules.level_{rule.key}": 1.0 for rule in family("acid_rules")},
        **{f"products.trait_{rule.says['partner']}@{SEAWEED}": "yes" for rule in family("acid_rules")},
    },
    "acid that must not meet a brew": {**HARD, "chosen_more.acidify": "yes", "chosen_products.product": "Compost tea"},
    "acid that cannot be worked out": {**ON_IRON, "water.wanted_ph": 6.0},
    "acid where there is nothing to take it up": {**ON_IRON, **HARD, "chosen_more.alkalinity": "0 mg CaCO3/L"},
    "acid too little to weigh": {**ON_IRON, **HARD, "chosen_more.alkalinity": "1 mg CaCO3/L"},
    "acid of its own": {**ON_IRON, **HARD, "chosen_products.product@1": "Citric acid"},
    "water that is acid already": {**ON_IRON, **HARD, "chosen_more.ph": 5.5},
    "water of the site": {"chosen_more.hardness": None, "water.hardness": "1 meq/L"},
    "water of which nothing is known": {**ON_IRON, "chosen_more.hardness": None},
    "a part load": {
        "chosen_lawns.lawn@1": "Back", "chosen.loads_style": "full and part", "chosen_products.product@1": SEAWEED,
    },
    "many cautions": {"chosen_products.product@1": CALCIUM, "chosen_products.product@2": IRON},
    **{
        f"a card's {number} letters": {
            f"products.cautions@{N}": "x" * (number + 45 - len(f"• {N}: ")),
            "place.most_nitrogen": "0.1 g N/m²",
            "place.rule": "x" * (number - len("more nitrogen in one visit than allowed: ")),
        }
        for number in (220, 221)
    },
    "four loads": {"sprayers.working": "1.5 L"},
    "a solid of which it is not known what water takes up": {
        f"products.solubility_cold@{N}": None, "chosen_lawns.lawn@1": "Back", "chosen.loads_style": "full and part",
    },
    "many loads": {"sprayers.working": "0.5 L"},
    "an own rate": {"chosen_products.own_rate": "2 g/m²"},
    "a wanted nutrient": {"chosen_products.wanted_nitrogen": "0.5 g/m²"},
    "texts where numbers belong": {
        **{f"chosen.{key}": Pasted("1,0") for key in ("date", "wanted_carrier")},
        **{f"chosen_more.{key}": Pasted("1,0") for key in
           ("overlap", "water_temperature", "ph", "alkalinity", "hardness")},
        **{f"weather.{key}": Pasted("1,0") for key in ("wind", "air_temperature", "humidity")},
        "chosen_products.wanted_nitrogen": Pasted("1,0"),
    },
    "a part that is a text": {"chosen_lawns.part_treated": Pasted("1,0")},
    "a part that is a text beside all lawns": {"chosen_lawns.part_treated": Pasted("1,0"), "chosen.lawns": "all"},
    "much in one dry dressing": {
        "diary.method": "dry", "programme.method": "dry", "settings.dry_nitrogen": "0.1 g N/m²",
    },
    **{
        f"{much} iron in one dry dressing": {
            "diary.method": "dry", "programme.method": "dry", "diary.product": IRON, "programme.product": IRON,
            "programme.own_rate_mass": "2 g/m²", f"settings.dry_iron{key}": "0.001 g Fe/m²",
        }
        for much, key in (("much", ""), ("too much", "_stop"))
    },
    **{
        f"{much} iron in a spray of the round": {"programme.product": IRON, f"limits.{limit}_iron": 1e-6}
        for much, limit in (("much", "ask"), ("too much", "stop"))
    },
    "many products in a tank of the round": {"limits.ask_products": 0.0},
    "a dry rate that nobody stated": {
        "programme.method": "dry", "programme.own_rate_mass": "2 g/m²",
        **{f"products.dry_{level}@{N}": None for level in ("low", "usual", "high")},
    },
    "a spray rate that nobody stated": {
        "programme.own_rate_mass": "2 g/m²",
        **{f"products.spray_{level}@{N}": None for level in ("low", "usual", "high")},
    },
    "a highest rate that nobody stated": {f"products.spray_high@{N}": None},
    "an interval that nobody stated": {f"products.least_interval@{N}": None},
    "a jar that nobody thinned": {"chosen.sprayer": "Hose", "sprayers.jar_dilution@2": None},
    "edges that cross": {
        **{f"points.{key}@{record}": cell for record, (along, offset) in CROSSING.items()
           for key, cell in (("lawn", "Back"), ("part", "plot"), ("along", along), ("offset", offset))},
    },
    "a sprayer that stands twice": {"sprayers.name@1": "Knapsack"},
    "a tank over its brim": {"sprayers.working": "16 L"},
    "worn nozzles": {f"catches.caught@{record}": "2 L" for record in range(4)},
    "blocked nozzles": {f"catches.caught@{record}": "0.8 L" for record in range(4)},
    "a part to mend": {"parts.first_length": None},
    "a number that binds": {f"products.most_a_year@{N}": 1.0, f"products.number_binds@{N}": "yes"},
    "a liquid over its label": {"chosen_products.product": SEAWEED, "chosen_products.own_rate": "9 mL/m²"},
    "a solid under its label": {"chosen_products.own_rate": "1.4 g/m²"},
    "a liquid by dilution": diluted(SEAWEED, "mL in 10 L"),
    "watered in": {"chosen.watered_in": "yes"},
    "a liquid under its label": {"chosen_products.product": SEAWEED, "chosen_products.own_rate": "0.01 mL/m²"},
    "over many limits": {f"limits.stop_{risk.key}": 1e-6 for risk in RISKS},
    **{f"far over {key}": {**changes, f"limits.stop_{key}": 1e-6} for key, changes in MET.items()},
    "a little early": EARLY,
    "a little less water": SHORT,
    "great heat": {"weather.air_temperature": "36 degC"},
    "a liquid of which little is known": {
        **UNTOLD, "chosen_products.product": SEAWEED, f"products.dissolved_solids@{SEAWEED}": None,
    },
    "two of which little is known": {
        **UNTOLD, "chosen_products.product@1": SEAWEED, f"products.solubility_cold@{N}": None,
    },
    "no rate": {"chosen_products.own_rate": "0 g/m²"},
    "an unknown product": {"chosen_products.product@1": "Nothing"},
    "rules that never": rules_at(2.0),
    "rules that may": rules_at(1.0),
    "lines of the day": {"diary.date": date(2026, 7, 1)},
    "a visit that was skipped": {**NOT_DONE, "diary.method@1": "skipped"},
    "a visit that was put off": {**NOT_DONE, "diary.method@1": "put off"},
    "a visit that was skipped for good": {
        **NOT_DONE, "diary.method@1": "skipped", "diary.note@1": None, "programme.last": date(2026, 6, 10),
    },
    "a visit to nobody's lawn that was put off": {
        **NOT_DONE, "diary.method@1": "put off", "diary.lawn@1": "Nobody's",
    },
    "a text for a shift": {"programme.shift": Pasted("a week")},
    "a product of a visit that was skipped": {**NOT_DONE, "diary.method@1": "skipped", "diary.product@1": N},
    "a solid that was poured": {"diary.weighed": None, "diary.poured": "300 mL"},
    "a liquid that was weighed": {"diary.product": SEAWEED},
    "a heavy hand": {"diary.weighed": "400 g"},
    "twice too often": {
        "diary.date@1": date(2026, 4, 9), "diary.lawn@1": "Front", "diary.product@1": N, "diary.method@1": "by hand",
        f"products.least_interval@{N}": "14 day", f"products.most_a_year@{N}": 1.0,
        f"products.months_suited@{N}": "JFM-MJJASOND",
    },
    "a day too soon in the diary": {
        "diary.date@1": date(2026, 4, 14), "diary.lawn@1": "Front", "diary.product@1": N, "diary.method@1": "spray",
        f"products.least_interval@{N}": "7 day",
    },
    "a dilution that was too strong": {f"products.spray_unit@{N}": "g in 1 L"},
    "less water than a product should have": {f"products.least_carrier@{N}": "700 L/ha"},
    **{
        f"much {what} in the diary": {"diary.product": IRON, f"limits.{limit}_iron": 1e-6}
        for what, limit in (("iron", "ask"), ("too much iron", "stop"))
    },
    **{f"a wind of {wind} in the diary": {"diary.wind": wind} for wind in ("1 km/h", "12 km/h", "20 km/h")},
    **{f"an air of {air} in the diary": {"diary.air_temperature": air} for air in ("1 degC", "31 degC", "36 degC")},
    "iron in heat": {"diary.product": IRON, "diary.air_temperature": "28 degC"},
    "a text for the date": {
        "diary.date": Pasted("8 April 2026"), "diary.lawn@1": "Front", "diary.date@1": date(2026, 7, 2),
    },
    "a diary line without a product": {"diary.product": None},
    "a diary line without a lawn": {"diary.lawn": None},
    "texts in the diary": {
        f"diary.{key}": Pasted("some")
        for key in ("weighed", "water", "left_over", "planned_mass_rate", "treated_area", "wind")
    },
    "a strip that was fed": {"lawns.strip@1": "Front"},
    "strangers in the diary": {"diary.lawn": "Nobody's", "diary.product": "Nothing"},
    "over the target": {"lawns.target_nitrogen": "0.1 g/m²"},
    "over the other targets": {
        **{f"lawns.target_{key}": "0.01 g/m²" for key in ("phosphate", "potash", "iron")},
        **{f"products.stated_{key}@{N}": "5 %" for key in ("phosphate", "potash", "iron")},
    },
    "more lines than the lawn's page holds": {
        **{f"diary.date@{line}": date(2026, 5, line) for line in range(1, 16)},
        **{f"diary.lawn@{line}": "Front" for line in range(1, 16)},
        **{f"diary.product@{line}": SEAWEED for line in range(1, 16)},
    },
    "a page of a lawn that was never scored": {"report_choice.lawn": "Back"},
    "products of a lawn that is not there": {"year_choice.lawn": "Nobody's"},
    "a page of a lawn that is not there": {"report_choice.lawn": "Nobody's"},
    "a record with a line of a stranger's lawn": {
        "diary.date@1": date(2026, 5, 1), "diary.lawn@1": "Nobody's", "diary.product@1": SEAWEED,
    },
    "a record of days without a line": {"record.begin": date(2026, 6, 1), "record.until": date(2026, 6, 2)},
    "a licence, and what was never measured": {
        "people.licence": "AB 1", f"products.registration@{N}": "No. 7", "diary.who": "Helper",
        "diary.note": "Start 9:10, wind from SW, batch 47, reason moss",
        **{f"diary.{key}": None for key in ("weighed", "water", "wind", "air_temperature", "method")},
    },
    "nobody on a lawn without area": {"diary.who": None, "diary.treated_area": None, "lawns.typed_area": None},
    "spread dry, with a note": {"diary.method": "dry", "diary.note": "before rain"},
    "no target": {"lawns.target_nitrogen": None},
    "on the target": {"lawns.target_nitrogen": "0.55 g/m²"},
    "a season that ends on the target": {"lawns.target_nitrogen": "2.1 g/m²"},
    "more than the grass can use": {"lawns.target_nitrogen": "60 g/m²", "lawns.most_nitrogen_month": "0.5 g N/m²"},
    "a line for a lawn and a group": {"programme.group": "sunny"},
    "a line without an end": {"programme.last": None},
    "a line for a stranger's lawn": {"programme.lawn": "Nobody's"},
    "a line for a stranger's group": {"programme.group@1": "shady"},
    "a line that ends before it begins": {"programme.last": date(2026, 4, 1)},
    "a line with two ways of saying how often": {"programme.times": 3.0},
    "a line by hand": {"programme.method": "by hand"},
    "a line that is done": {"programme.every": None, "programme.times": 1.0, "programme.last": date(2026, 4, 8)},
    "a line that is due today": {"programme.first@2": date(2026, 6, 30)},
    "a round of what must not meet": MEETING,
    "a round of what may meet": {**MEETING, "rules.level_calcium_with_sulphate": 1.0},
    "a round of three that must not meet": {
        **MEETING, "programme.product@3": SEAWEED, "programme.lawn@3": "Front", "programme.first@3": date(2026, 6, 20),
        f"products.trait_phosphate@{SEAWEED}": "yes", f"products.trait_ferrous@{N}": "yes",
    },
    "a round of one that must not meet two": {
        **MEETING, "programme.product@3": CALCIUM, "programme.lawn@3": "Front", "programme.first@3": date(2026, 6, 20),
    },
    "a round in a closed month": {"months.closed@5": "yes"},
    "a round over the limits of the place": LIMITED,
    "a round over the label": {"programme.own_rate_mass": "9 g/m²", f"products.spray_practice@{N}": None},
    "a round over what is usual": {"programme.own_rate_mass": "3.1 g/m²"},
    "a round far over what is usual": {"programme.own_rate_mass": "9 g/m²"},
    "a rate over the label": {"chosen_products.own_rate": "3.1 g/m²", f"products.spray_practice@{N}": None},
    "a rate far over what is usual": {"chosen_products.own_rate": "9 g/m²"},
    "acid that would be too much": {**HARD, "chosen_more.acidify": "yes", "chosen_more.alkalinity": "1900 mg CaCO3/L"},
    "acid in water of which nothing is known": {"chosen_products.product@1": "Citric acid"},
    "two loads over what is usual together": {
        "diary.weighed": "200 g", "diary.date@1": date(2026, 4, 8), "diary.lawn@1": "Front", "diary.product@1": N,
        "diary.method@1": "spray", "diary.weighed@1": "190 g", "diary.note@1": "a second load",
    },
    "a line that is earlier than one above": {
        "diary.date@1": date(2026, 4, 1), "diary.lawn@1": "Back", "diary.product@1": N, "diary.method@1": "spray",
        "diary.weighed@1": "190 g",
    },
    "a product spread dry without a dry rate": {"diary.method": "dry", "diary.product": "Urea"},
    "spray made that is not noted": {"diary.water": None},
    "two lines of a round over what is usual together": {
        "programme.own_rate_mass": "3 g/m²", "programme.product@2": N, "programme.lawn@2": "Front",
        "programme.first@2": date(2026, 7, 1), "programme.last@2": date(2026, 7, 1), "programme.times@2": 1.0,
        "programme.every@2": None, "programme.own_rate_mass@2": "3 g/m²",
    },
    "a line far over what is usual": {"diary.weighed": "900 g"},
    "a line over what is usual": {"diary.weighed": "400 g"},
    "nitrogen on grass that hardly grows": {APRIL: "5 degC"},
    "a rate to spray that a line's product does not state": {
        **{f"products.spray_{level}@{N}": None for level in ("low", "usual", "high")},
        f"products.least_interval@{N}": None,
    },
    "a line over the label": {"diary.weighed": "900 g", f"products.spray_practice@{N}": None},
    "lines stronger than a label": {
        **diluted(N, "g in 10 L"), "diary.weighed": "900 g", "diary.water": "1 L", f"products.spray_practice@{N}": None,
    },
    "a round too soon": {f"products.least_interval@{N}": "85 day"},
    "a round a little early": {f"products.least_interval@{N}": "84 day"},
    "a line a little often": {f"products.least_interval@{N}": "29 day"},
    "a round too many": {f"products.most_a_year@{N}": 1.0},
    "a round over a limit of the year": {f"products.most_a_year@{N}": 1.0, f"products.number_binds@{N}": "yes"},
    "a round out of its months": {f"products.months_suited@{N}": "JFMAM-JASOND"},
    "a round over a strip": {"lawns.strip@1": "Front"},
    "a brew for a later round": brew_on(date(2026, 7, 5)),
    "a brew for a day after the round": {**brew_on(date(2026, 7, 5)), "round.begin": None},
    "two brews, one of them late": {
        **brew_on(date(2026, 7, 5)), "recipes.brewing_time": "200 h", "round.begin": None,
        "recipes.product@1": "Humic acid", "recipes.batch@1": "5 L", "recipes.brewing_time@1": "24 h",
    },
    "a brew of sugar": {"ingredients.ingredient": "Molasses"},
    "a brew of manure": {"ingredients.ingredient": "Horse manure"},
    "a brew that is kept for long": {"recipes.use_within": "96 h"},
    "texts in the recipes": {
        **brew_on(date(2026, 7, 5)),
        **{f"recipes.{key}": Pasted("some") for key in ("batch", "brewing_time", "use_within", "extra")},
        **{f"ingredients.{key}": Pasted("some") for key in ("mass", "volume")},
    },
    "a brew to begin today": brew_on(date(2026, 7, 1)),
    "a brew that is late": brew_on(date(2026, 6, 30)),
    "a brew of unknown time": {**brew_on(date(2026, 7, 1)), "recipes.brewing_time": None},
    "a brew for several days": {
        **brew_on(date(2026, 7, 5)), "programme.product@6": "Compost tea", "programme.lawn@6": "Back",
        "programme.method@6": "spray", "programme.first@6": date(2026, 7, 6), "programme.last@6": date(2026, 7, 6),
        "programme.times@6": 1.0, "round.length": "2 day",
    },
    "bought and never counted": {"shelf.deed@1": "bought"},
    "a round too long": {**BROKEN["pairs_beyond"], "round.length": "300 day"},
    "a round of too many products": {
        f"programme.{key}@{record}": cell
        for record, product in enumerate(SEVENTEEN)
        for key, cell in {**LINE, "product": product, "lawn": "Front", "group": None, "every": None}.items()
    } | {"round.begin": date(2026, 7, 1), "programme.shift@4": None},
    "a strange product in the shed": {"shelf.product": "Nothing"},
    "a count without a day": {"shelf.date": None},
    "texts in the shed": {"shelf.date": Pasted("in March"), "shelf.packs": Pasted("one"), "shelf.mass": Pasted("two")},
    "a count of nothing": {"shelf.packs": None, "shelf.mass": None},
    "a solid that was poured into the shed": {"shelf.volume": "1 L"},
    "less than nothing in the shed": {
        "shelf.packs": 0.0, "shelf.mass": "0.1 kg", "shelf.packs@2": 0.0, "shelf.mass@2": "0 kg",
    },
    "a shed that runs short": {"shelf.date": date(2026, 6, 1), "shelf.packs": 0.0, "shelf.mass": "0.1 kg"},
    "a round of all traits": {**MEETING, **{f"products.trait_{trait}@{CALCIUM}": "yes" for trait in TRAITS}},
    "a month closed that was fed in": {"months.closed@3": "yes"},
    "a text for an area": {"lawns.typed_area": Pasted("100 m²")},
    "an unknown strip": {"lawns.strip": "Nobody's"},
    "a strip of itself": {"lawns.strip": "Front"},
    "a score without a day": {"scores.date": None},
    "a score of nothing": {f"scores.{key}": None for key in SCORED},
    "texts in the scores": {"scores.date": Pasted("in April"), "scores.quality@1": Pasted("good")},
    "a lawn scored twice": {"scores.date@1": date(2026, 4, 7)},
    **{
        f"a soil of {found} mg": {
            "soil_tests.tested_phosphate": f"{found} mg P/kg", "soil_tests.tested_potash": f"{found} mg K/kg",
        }
        for found in (1, 22, 40, 150)
    },
    **{
        f"a soil test by {method}, {found} mg": {
            "soil_tests.method": method, "soil_tests.tested_phosphate": f"{found} mg P/kg",
        }
        for method in ("Olsen", "Morgan", "Melich") for found in (9, 90)
    },
    "a soil test without its method": {"soil_tests.method": None},
    "a soil test without its day": {"soil_tests.date": None},
    "a soil test of tomorrow": {"soil_tests.date": date(2026, 7, 1)},
    "a soil test of long ago": {"soil_tests.date": date(2021, 3, 1)},
    "a soil test of nothing": {"soil_tests.tested_phosphate": None, "soil_tests.tested_potash": None},
    "texts in a soil test": {"soil_tests.date": Pasted("in March"), "soil_tests.tested_phosphate": Pasted("24 ppm")},
    "two soil tests": {
        "soil_tests.date@1": date(2026, 4, 1), "soil_tests.lawn@1": "Front", "soil_tests.method@1": "Mehlich-3",
        "soil_tests.tested_phosphate@1": "30 mg P/kg", "soil_tests.tested_potash@1": "70 mg K/kg",
    },
    "two soil tests of a day": {
        "soil_tests.date@1": date(2026, 3, 1), "soil_tests.lawn@1": "Front", "soil_tests.method@1": "Mehlich-3",
        "soil_tests.tested_phosphate@1": "30 mg P/kg",
    },
    "a soil test of a lawn without a target": {"lawns.target_nitrogen": None, "report_choice.lawn": "Front"},
    "a soil test where targets are typed": {
        "lawns.target_phosphate": "1 g P2O5/m²", "lawns.target_potash": "1 g K2O/m²",
    },
    "a soil test where phosphorus is forbidden": {
        "place.no_phosphorus": "yes", "soil_tests.tested_phosphate": "5 mg P/kg",
    },
    "an old soil test where phosphorus is forbidden": {
        "place.no_phosphorus": "yes", "soil_tests.date": date(2021, 3, 1),
    },
    "over what a soil test asks for": {
        "soil_tests.tested_phosphate": "90 mg P/kg", "soil_tests.tested_potash": "900 mg K/kg",
        **{f"products.stated_{key}@{N}": "5 %" for key in ("phosphate", "potash")},
    },
    "a recipe for nothing": {"recipes.product": "Nothing"},
    "a recipe for a solid": {"recipes.product": N},
    "two recipes": {"recipes.product@1": "Compost tea", "recipes.batch@1": "5 L"},
    "an ingredient of nothing": {"ingredients.product": "Nothing"},
    "an ingredient without a name": {"ingredients.ingredient": None},
    "an ingredient without an amount": {"ingredients.mass": None},
    "a visit of nine products": {
        f"diary.{key}@{record}": cell
        for record, product in enumerate(NINE, 1)
        for key, cell in (("date", date(2026, 4, 8)), ("lawn", "Front"), ("product", product), ("method", "spray"))
    },
    "a month closed": {"months.closed@6": "yes"},
    "no month open": {f"months.closed@{month}": "yes" for month in range(12)},
    "a season over the turn of the year": {"settings.season_month": 7.0},
    "dates when the grass hardly grows": {MAY: "5 degC", JUNE: "5 degC"},
    "a lawn that hardly grows beside one that does": {"programme.product@3": "Urea"},
    "a month of unknown growth": {JUNE: None},
    "months of unknown growth": {MAY: None, JULY: None},
    "little at full growth": {"lawns.most_nitrogen_month": "0.1 g N/m²"},
    **{f"risk {risk.key}": {**MET.get(risk.key, {}), f"limits.ask_{risk.key}": 1e-6} for risk in RISKS},
}  # fmt: skip
"""Whatever else must happen for a text to appear."""

STORIES: Final[dict[str, Changes]] = {"calm": {}, **BROKEN, **SPOKEN, **TOLD}
