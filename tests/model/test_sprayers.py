"""Sprayers, the catch test and nozzle sizes, against published examples and figures worked out by hand."""

from __future__ import annotations

import pytest

from support.tables import NO, Table, bare, changed, is_close, planner

RECORDS = {"sprayers": 5, "catches": 9, "walks": 4, "nozzles": 9}

# A lance with a known area, a boom that was caught, a hose-end sprayer, and one never calibrated.
TABLES: dict[str, Table] = {
    "sprayers": {
        "name": ("text", ["Lance", "Boom", "Hose", "New"]),
        "kind": ("text", ["lance", "boom", "Hose-End", "knapsack"]),
        "brim": ("L", [10.0, 50.0, NO, 15.0]),
        "working": ("L", [10.0, 60.0, 1.0, 14.0]),
        "jar_dilution": ("", [50.0, NO, 20.0, NO]),
        "passes": ("", [1.0, 2.0, 1.0, 2.0]),
        "tested_area": ("m**2", [100.0, NO, 50.0, 0.0]),
        "tested_water": ("L", [2.0, NO, 10.0, 2.0]),
        "swath": ("m", [NO, 2.0, NO, 1.0]),
        "walk_distance": ("m", [NO, 20.0, NO, 20.0]),
        "walk_time": ("s", [NO, 18.0, NO, 0.0]),
        "nozzle_size": ("text", ["", "03", "", "99"]),
        "pressure": ("bar", [NO, 12.0, NO, 2.0]),
        "wanted_carrier": ("L/ha", [400.0, 300.0, NO, 600.0]),
    },
    "catches": {
        "sprayer": ("text", ["Boom", "BOOM", "boom", "Boom", "Boom", "Hose"]),
        "caught": ("mL", [600.0, 630.0, 570.0, 600.0, NO, 100.0]),
        "catch_time": ("s", [30.0, 30.0, 30.0, 30.0, 30.0, 0.0]),
    },
    "walks": {"sprayer": ("text", []), "time": ("s", [])},
    "settings": {"nozzle_tolerance": ("", 0.05), "nozzle_wear": ("", 0.1), "course_area": ("m**2", 100.0)},
    "nozzle_test": {
        "pressure": ("bar", 2.0),
        "speed": ("km/h", 6.0),
        "spacing": ("m", 0.5),
        "rated_pressure": ("bar", 3.0),
    },
    "nozzles": {
        "size": ("text", ["01", "015", "02", "025", "03", "04", "05", "06", "08"]),
        "rated_output": ("L/min", [0.4, 0.6, 0.8, 1.0, 1.2, 1.6, 2.0, 2.4, 3.2]),
    },
}


@pytest.mark.parametrize(
    ("key", "unit", "figures"),
    [
        ("course_distance", "m", [NO, 50, NO, 100]),
        ("walks_timed", "", [0, 0, 0, 0]),
        ("time_counted", "s", [NO, 18, NO, 0]),
        ("ground_speed", "km/h", [NO, 4, NO, NO]),
        ("nozzles_caught", "", [0, 4, 0, 0]),
        ("total_output", "L/min", [NO, 4.8, NO, NO]),
        # 2 L on 10 m × 10 m is 200 L/ha: Weedforce, calibration note.
        ("known_area_output", "L/ha", [200, NO, 2000, NO]),
        ("boom_output", "L/ha", [NO, 360, NO, NO]),
        ("pass_output", "L/ha", [200, 360, 2000, NO]),
        ("carrier_volume", "L/ha", [200, 720, 2000, NO]),
        ("spray_capacity", "L", [10, 60, 20, 14]),
        ("tank_area", "m**2", [500, 60 / 720 * 1e4, 100, NO]),
        ("tank_time", "min", [NO, 12.5, NO, NO]),
        # At 4 km/h two passes give 720 L/ha; 300 L/ha takes 2.4 times the speed, or that much less from a nozzle.
        ("needed_speed", "km/h", [NO, 9.6, NO, NO]),
        ("needed_passes", "", [2, 300 / 360, NO, NO]),
        ("needed_output", "L/min", [NO, 0.5, NO, NO]),
        # Four times the pressure doubles the flow: Oklahoma State University Extension.
        ("rated_output", "L/min", [NO, 2.4, NO, NO]),
    ],
)
def test_sprayers(key: str, unit: str, figures: list[float]) -> None:
    assert is_close(bare(planner(TABLES, RECORDS).column("sprayers", key), unit), [*figures, NO])


def test_how_each_was_calibrated() -> None:
    found = bare(planner(TABLES, RECORDS).column("sprayers", "calibration"))
    assert found == ["known area", "boom, catch test", "known area", "never calibrated", ""]


def test_known_area_comes_before_a_catch_test() -> None:
    tables = changed(TABLES, sprayers__tested_area=("m**2", [NO, 50.0]), sprayers__tested_water=("L", [NO, 1.0]))
    found = planner(tables, RECORDS)
    assert bare(found.column("sprayers", "pass_output"), "L/ha")[1] == pytest.approx(200)
    assert bare(found.column("sprayers", "calibration"))[1] == "known area"


@pytest.mark.parametrize(("unit", "factor"), [("us_gallon/acre", 1.0), ("us_gallon/thousand_square_feet", 1 / 43.56)])
def test_boom_in_us_units(unit: str, factor: float) -> None:
    """GPA = 5940 × GPM ÷ (mph × inches): UF/IFAS WG013. 0.3 gpm, 3 mph, 20 in."""
    tables: dict[str, Table] = {
        "sprayers": {
            "name": ("text", ["Boom"]),
            "total_output": ("us_gallon/min", [0.3]),
            "ground_speed": ("mph", [3.0]),
            "swath": ("inch", [20.0]),
        }
    }
    found = bare(planner(tables, {"sprayers": 1}).column("sprayers", "boom_output"), unit)
    assert found == pytest.approx([5940 * 0.3 / (3 * 20) * factor], rel=1e-12)


def test_catch_test() -> None:
    """1.2 L/min in the mean; 5 % off is still within. A nozzle without a catch, or caught in no time, has no output."""
    found = planner(TABLES, RECORDS)
    assert is_close(bare(found.column("catches", "nozzle_output"), "L/min")[:6], [1.2, 1.26, 1.14, 1.2, NO, NO])
    assert is_close(bare(found.column("catches", "mean_output"), "L/min")[:4], [1.2] * 4)
    assert is_close(bare(found.column("catches", "deviation"))[:5], [0, 0.05, -0.05, 0, NO])
    assert bare(found.column("catches", "nozzle_state")) == ["within"] * 4 + [""] * 5


def test_nozzle_off_the_mean_either_way_is_to_be_cleaned() -> None:
    found = planner(changed(TABLES, settings__nozzle_tolerance=("", 0.0499)), RECORDS)
    state = bare(found.column("catches", "nozzle_state"))[:4]
    assert state == ["within", "clean or replace", "clean or replace", "within"]


def test_knapsack_of_the_course_log() -> None:
    """Catches of 1.2, 1.0, 1.0, 0.92 and 0.92 L/min have a mean of 1.008. Horticulture course log, 2009."""
    tables: dict[str, Table] = {
        "catches": {
            "sprayer": ("text", ["Knapsack"] * 5),
            "caught": ("mL", [1200.0, 1000.0, 1000.0, 920.0, 920.0]),
            "catch_time": ("s", [60.0] * 5),
        }
    }
    found = planner(tables, {"catches": 5})
    assert is_close(bare(found.column("catches", "mean_output"), "L/min"), [1.008] * 5)


def test_nozzle_sizes_at_two_bar() -> None:
    """A published set for 2 bar, 6 km/h and 0.5 m, whose flow for size 025 is misprinted and is worked out here."""
    found = planner(TABLES, RECORDS)
    outputs = [0.33, 0.49, 0.65, 0.8165, 0.98, 1.31, 1.63, 1.96, 2.61]
    volumes = [65, 98, 131, 163.3, 196, 261, 327, 392, 523]
    assert bare(found.column("nozzles", "output"), "L/min") == pytest.approx(outputs, abs=0.005)
    assert bare(found.column("nozzles", "carrier_volume"), "L/ha") == pytest.approx(volumes, abs=0.6)


def test_what_is_to_be_mended_of_a_sprayer() -> None:
    """The Boom's tank holds 50 L, and it is filled with 60 L; of a lance no dilution is asked."""
    above = "working capacity above the brim"
    found = planner(TABLES, RECORDS)
    assert bare(found.column("sprayers", "sprayer_state"))[:4] == ["", above, "", ""]
    jar, twice = "give the jar dilution", "this name stands twice"
    for dilution in (NO, 0.0):
        given = changed(TABLES, sprayers__jar_dilution=("", [NO, NO, dilution, NO]))
        given = changed(given, sprayers__name=("text", ["Lance", "New", "Hose", "NEW"]))
        found = planner(given, RECORDS)
        assert bare(found.column("sprayers", "sprayer_state"))[:4] == ["", f"{twice}; {above}", jar, twice]
        assert bare(found.column("sprayers", "calibration"))[2] == "no jar dilution"
        assert is_close(bare(found.column("sprayers", "spray_capacity"), "L")[:4], [10, 60, NO, 14])


def test_a_jar_lasts_for_all_its_spray() -> None:
    """A litre in the jar makes 20 L of spray, of which 10 L leave the nozzle in a minute, hose water too."""
    caught = changed(TABLES, catches__caught=("L", [NO] * 5 + [10.0]), catches__catch_time=("s", [NO] * 5 + [60.0]))
    assert is_close(bare(planner(caught, RECORDS).column("sprayers", "tank_time"), "min")[2], 2)


def test_the_mean_of_the_timed_walks_counts() -> None:
    """20 m in 17, 19 and 18 s are 4 km/h; the fourth walk has no time, and the 99 s of the sprayer do not count."""
    walked = changed(
        TABLES, walks__sprayer=("text", ["boom", "Boom", "BOOM", "Boom"]), walks__time=("s", [17.0, 19.0, 18.0, 0.0]),
        sprayers__walk_time=("s", [NO, 99.0]),
    )  # fmt: skip
    found = planner(walked, RECORDS)
    assert is_close(bare(found.column("sprayers", "walks_timed"), "")[:2], [0, 3])
    assert is_close(bare(found.column("sprayers", "time_counted"), "s")[1], 18)
    assert is_close(bare(found.column("sprayers", "ground_speed"), "km/h")[1], 4)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        # The Boom's nozzles give 1.2 L/min; size 03 at 12 bar should give 2.4, at 3 bar 1.2.
        ({}, "too little: clean"),
        ({"sprayers__pressure": ("bar", [NO, 3.0])}, "as their size"),
        ({"sprayers__pressure": ("bar", [NO, 2.0])}, "worn: replace"),
        ({"sprayers__pressure": ("bar", [])}, "not checked"),
        ({"sprayers__nozzle_size": ("text", ["", "99"])}, "not checked"),
        ({"sprayers__nozzle_size": ("text", [])}, ""),
        ({"catches__caught": ("mL", [])}, "not checked"),
        ({"settings__nozzle_wear": ("", NO)}, "not checked"),
        ({"sprayers__kind": ("text", ["lance", "hose-end"])}, ""),
    ],
)
def test_nozzles_against_their_size(changes: dict[str, tuple[str, list[float]]], words: str) -> None:
    found = planner(changed(TABLES, **changes), RECORDS)
    assert bare(found.column("sprayers", "nozzle_words"))[1] == words
