"""What was sprayed is held to the limits of a mix: salts, water, nitrogen and iron of a visit, wind and air."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
import pytest

from support.small_diary import NO, SPRAYED_ON, column_of, flags_of, line, on, planner, spray
from support.tables import bare
from support.tables import planner as tables_of
from wbgen.units.quantity import FLOAT

HAIR: Final = 4e-10
"""Less than the ninth decimal shows: no more than the limit itself."""

MUCH: Final[dict[str, tuple[dict[str, Any], str, float, str]]] = {
    # a line of the Front's 100 m², its figure, and what is said beyond a limit
    "salts": ({"weighed": 500.0, "water": 10.0}, "g/L", 50, "salt in the spray"),
    "salt_load": ({"weighed": 300.0}, "g/m**2", 3, "salt on the grass"),
    "nitrogen": ({"product": "Urea", "weighed": 100.0}, "g_N/m**2", 0.46, "soluble nitrogen in one visit"),
    "iron": ({"weighed": 70.0}, "g_Fe/m**2", 0.14, "iron in one visit"),
}


@pytest.mark.parametrize("risk", MUCH)
def test_a_visit_is_held_to_both_limits_of_a_mix(risk: str) -> None:
    """At the limit itself nothing is said, but that the second limit of iron is too much. The label is wide."""
    said, unit, found, words = MUCH[risk]
    wide: dict[str, Any] = {"products__spray_mass_high": FLOAT.Quantity(np.array([NO] * 3), "g/m**2")}
    none = {
        f"limits__{which}_{one}": FLOAT.Quantity(NO, of[1]) for one, of in MUCH.items() for which in ("ask", "stop")
    }

    def at(ask: float, stop: float, **more: Any) -> str:
        limits = {f"limits__ask_{risk}": FLOAT.Quantity(ask, unit), f"limits__stop_{risk}": FLOAT.Quantity(stop, unit)}
        return flags_of(spray(**{**said, **more}), **{**wide, **none, **limits})[0]

    much, too_much = f"much {words}", f"too much {words}"
    assert at(found, NO) == at(found - HAIR, NO) == at(NO, found * 1.001) == at(NO, NO) == ""
    assert at(found * 0.999, NO) == at(found * 0.999, found * 1.001) == much
    assert at(NO, found * 0.999) == at(found * 0.999, found * 0.999) == at(found, found * 0.999) == too_much
    assert at(NO, found) == (too_much if risk == "iron" else "")
    assert at(found * 0.5, found * 0.5, method="dry") == "no dry rate stated" * (said.get("product") != "Urea")
    assert at(found * 0.5, found * 0.5, method="") == f"say spray or dry; {too_much}"


@pytest.mark.parametrize(
    ("risk", "half"),
    [(risk, {key: one / 2 if key == "weighed" else one for key, one in of[0].items()}) for risk, of in MUCH.items()],
)
def test_a_visit_is_judged_as_a_whole_from_the_line_on_that_crosses(risk: str, half: dict[str, Any]) -> None:
    """Half of it is not much, and two halves are; what follows them has their words too."""
    _, _, found, words = MUCH[risk]
    limits = {
        f"limits__ask_{one}": FLOAT.Quantity(found * 0.999 if one == risk else NO, of[1]) for one, of in MUCH.items()
    }
    wide = FLOAT.Quantity(np.array([NO] * 3), "g/m**2")
    other = {**half, "product": "Urea"} if risk == "salts" else {**half, "note": "a second load"}
    many: dict[str, Any] = {**limits, "products__spray_mass_high": wide, "products__salt_index": np.array([NO] * 3)}
    assert flags_of(spray(**half), spray(lawn="Back", **other), spray(day=on(4, 30), **other), **many) == [""] * 3
    assert flags_of(spray(**half), spray(**other), **many) == ["", f"much {words}"]
    dry = line(SPRAYED_ON, "Front", "Urea", "dry", weighed=1.0)
    assert flags_of(dry, spray(**half), spray(**other), **many)[1:] == ["", f"much {words}"]
    after = spray("Iron brew", poured=0.001, water=10.0)
    assert flags_of(spray(**half), spray(**other), after, **many)[2] == f"much {words}"


def test_each_load_of_a_product_is_as_strong_as_itself() -> None:
    """Beside the first load of the others: 10 g/L of urea and 20, 45 and 5 of the salt, of which 50 is much."""
    urea = spray("Urea", weighed=100.0, water=10.0)
    loads = [spray(weighed=grams, water=10.0, note="a load") for grams in (200.0, 450.0, 50.0)]
    salts = FLOAT.Quantity(np.array([NO] * 3), "g/m**2")
    model = planner([urea, *loads], products__spray_mass_high=salts)
    assert column_of(model, "visit_salts", "g/L") == pytest.approx([10, 30, 55, 15])
    said = ["much salt in the spray" in flags for flags in column_of(model, "flags")]
    assert said == [False, False, True, False]


@pytest.mark.parametrize(
    ("measured", "said"),
    [
        ({"weighed": 20.0, "water": 10.0}, ""),
        ({"weighed": 20.0 + HAIR, "water": 10.0}, ""),
        ({"weighed": 20.1, "water": 10.0}, "stronger than the label"),
        ({"weighed": 20.1, "water": 10.0, "left_over": 5.0}, "stronger than the label"),
        ({"weighed": 20.1}, ""),
        ({"weighed": 20.1, "water": 10.0, "method": "dry"}, "no dry rate stated"),
        ({"product": "Iron brew", "poured": 30.0, "water": 10.0}, ""),
        ({"product": "Iron brew", "poured": 30.1, "water": 10.0}, "stronger than the label"),
    ],
)
def test_a_dilution_is_held_to_its_label(measured: dict[str, Any], said: str) -> None:
    """2 g of the salt and 3 mL of the brew in a litre, whatever is left of it; how much of it goes on is not said."""
    none = FLOAT.Quantity(np.array([NO] * 3), "g/m**2")
    label: dict[str, Any] = {
        "products__diluted_mass_high": FLOAT.Quantity(np.array([2.0, NO, NO]), "g/L"),
        "products__diluted_volume_high": FLOAT.Quantity(np.array([NO, 3.0, NO]), "mL/L"),
        "products__spray_mass_high": none,
        "products__spray_volume_high": none * FLOAT.Quantity(1.0, "mL/g"),
    }
    assert flags_of(spray(**measured), **label) == [said]
    practice = {"products__spray_practice": np.array(["yes", "yes", "yes"], dtype=object)}
    assert flags_of(spray(**measured), **label, **practice) == [said.replace("the label", "usual")]


LEAST: Final[dict[str, Any]] = {"products__least_carrier": FLOAT.Quantity(np.array([NO, NO, 400.0]), "L/ha")}


@pytest.mark.parametrize(
    ("water", "tolerance", "flag", "note"),
    [(4.0, 0.05, False, False), (3.99, 0.05, False, True), (3.8, 0.05, False, True), (3.799, 0.05, True, False),
     (3.99, 0.0, True, False), (3.99, NO, True, False), (3.0, 0.25, False, True), (NO, 0.05, False, False)],
)  # fmt: skip
def test_water_by_area_is_held_to_the_least_of_the_product(
    water: float, tolerance: float, flag: bool, note: bool
) -> None:
    """The Front's 100 m² at 400 L/ha are 4 L. Within the tolerance it is a note, and no line with a flag."""
    model = planner([spray("Urea", weighed=100.0, water=water)], **LEAST, settings__volume_tolerance=tolerance)
    assert column_of(model, "flags") == ["less water than the least" * flag]
    unknown = "strength not judged: no spray made is noted" * bool(np.isnan(water))
    assert column_of(model, "notes") == ["in a little less water than the least" * note + unknown]
    assert column_of(model, "flag_line") == [1 if flag else -1]


def test_water_is_asked_of_sprays_of_the_product_alone() -> None:
    lines = [line(SPRAYED_ON, "Front", "Urea", "dry", weighed=1.0, water=1.0), spray(weighed=1.0, water=1.0)]
    assert flags_of(*lines, **LEAST) == ["", ""]
    assert column_of(planner(lines, **LEAST), "notes") == ["", ""]


AIR: Final[list[tuple[dict[str, Any], str]]] = [
    ({"wind": 2.0}, ""), ({"wind": 1.99}, "hardly any wind"), ({"wind": 0.0}, "hardly any wind"), ({"wind": NO}, ""),
    ({"wind": 10.0}, ""), ({"wind": 10.01}, "much wind"), ({"wind": 14.49}, "much wind"),
    ({"wind": 14.5}, "too much wind"), ({"wind": 30.0}, "too much wind"),
    ({"air_temperature": 2.0}, ""), ({"air_temperature": 1.9}, "cold"), ({"air_temperature": 30.0}, ""),
    ({"air_temperature": 30.1}, "hot"), ({"air_temperature": 35.0}, "hot"),
    ({"air_temperature": 35.1}, "too hot"),
    ({"wind": 11.0, "air_temperature": 31.0}, "much wind; hot"),
]  # fmt: skip
"""The weather beside a spray of urea, and what is said of it."""


@pytest.mark.parametrize(("weather", "said"), AIR)
def test_wind_and_air_of_a_spray(weather: dict[str, Any], said: str) -> None:
    assert flags_of(spray("Urea", weighed=1.0, **weather)) == [said]
    assert flags_of(line(SPRAYED_ON, "Front", "Urea", "dry", weighed=1.0, **weather)) == [""]
    assert flags_of(spray("Urea", lawn="Nowhere", weighed=1.0, **weather)) == ["unknown lawn"]


@pytest.mark.parametrize("setting", ["calm_wind", "wind_ask", "wind_stop", "coldest_air", "hottest_air", "stop_air"])
def test_a_setting_that_is_empty_is_no_limit(setting: str) -> None:
    unit = "degC" if setting.endswith("air") else "km/h"
    lines = [spray("Urea", day=on(4, day + 1), weighed=1.0, **weather) for day, (weather, _) in enumerate(AIR)]
    season: dict[str, Any] = {"products__soonest": FLOAT.Quantity(np.array([NO] * 3), "day")}
    words = {"calm_wind": "hardly any wind", "wind_ask": "much wind", "wind_stop": "too much wind",
             "coldest_air": "cold", "hottest_air": "hot", "stop_air": "too hot"}[setting]  # fmt: skip
    found = flags_of(*lines, **season, **{f"settings__{setting}": FLOAT.Quantity(NO, unit)})
    assert all(words not in one.split("; ") for one in found)
    assert sum(bool(one) for one in found) >= 6


@pytest.mark.parametrize(
    ("height", "ask", "stop"),
    [("at spray height", 10, 14.5), ("", 10, 14.5), ("Forecast at 10 m", 15, 20), ("forecast at 10 m", 15, 20)],
)
def test_the_height_of_the_winds_chooses_their_limits(height: str, ask: float, stop: float) -> None:
    """What is not said is of spray height, whose limits are the stricter ones."""
    limits = {"ask_wind": 15, "stop_wind": 20, "ask_near_wind": 10, "stop_near_wind": 14.5}
    tables: dict[str, Any] = {
        "settings": {"diary_wind": ("text", height)},
        "limits": {key: ("km/h", figure) for key, figure in limits.items()},
    }
    model = tables_of(tables, {})
    assert [bare(model.column("settings", key), "km/h") for key in ("wind_ask", "wind_stop")] == [ask, stop]


def test_iron_in_heat_is_said_beside_the_iron_and_what_follows_it() -> None:
    hot: dict[str, Any] = {"air_temperature": 27.1}
    lines = [
        spray("Urea", weighed=1.0, **hot),
        spray(weighed=1.0, **hot),
        spray("Urea", lawn="Back", weighed=1.0, **hot),
    ]
    assert flags_of(*lines) == ["", "iron in heat", ""]
    assert flags_of(lines[1], lines[0]) == ["iron in heat", "iron in heat"]
    assert flags_of(spray(weighed=1.0, air_temperature=27.0), spray(weighed=0.0, **hot))[0] == ""
    first = [spray("Urea", weighed=1.0, **hot), spray(weighed=1.0)]
    assert flags_of(*first) == ["", "iron in heat"]
    assert flags_of(spray("Urea", weighed=1.0), spray(weighed=1.0)) == ["", ""]
    assert flags_of(*first, settings__hot_air_iron=FLOAT.Quantity(NO, "degC")) == ["", ""]


def test_a_text_for_wind_or_air_is_not_judged() -> None:
    said = "a text stands where a number belongs"
    hot = spray("Urea", day=on(4, 30), weighed=1.0, air_temperature="hot")
    assert flags_of(spray("Urea", weighed=1.0, wind="much"), hot) == [said, said]


def test_what_was_not_noted_is_counted() -> None:
    """On each line of a spray; a text is not noted, nought is. The spray made stands on the first line of a visit."""
    lines = [
        spray(weighed=1.0),
        spray("Urea", weighed=1.0, wind=5.0, air_temperature=10.0, water=5.0),
        spray("Urea", lawn="Back", weighed=1.0, wind=0.0, air_temperature=0.0, water=0.0),
        spray("Urea", lawn="Back", day=on(4, 9), weighed=1.0, wind="some", air_temperature=-1.0, water=3.0),
        line(on(5, 9), "Front", "Urea", "dry", weighed=1.0),
        spray("Urea", lawn="Nowhere", weighed=1.0),
    ]
    facts = planner(lines)
    counted = {key: float(facts.column("facts_now", key)) for key in ("no_water", "no_wind", "no_air")}
    assert counted == {"no_water": 2, "no_wind": 2, "no_air": 1}
    full: dict[str, Any] = {"wind": 5.0, "air_temperature": 9.0, "water": 5.0}
    assert [float(planner([spray(weighed=1.0, **full)]).column("facts_now", key)) for key in counted] == [0, 0, 0]
