"""A visit that is pasted into the diary as it was mixed is judged there as the sheet Mix judged it."""

from __future__ import annotations

from typing import Final

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from support.tier import TIER
from thorough.omission_sites import IRON, POTASH, SEAWEED, N, calm
from thorough.omissions import Changes, Scene
from wbgen.inputs.rows import Cell
from wbgen.model.inputs import TEXT

PASTED: Final = ("date", "lawn", "product", "method", "weighed", "poured", "water", "left_over", "planned_mass_rate",
                 "planned_volume_rate", "treated_area", "air_temperature", "wind")  # fmt: skip
WORDS: Final = {"salts": "salt in the spray", "salt_load": "salt on the grass",
                "nitrogen": "soluble nitrogen in one visit", "iron": "iron in one visit"}  # fmt: skip
FINE: Final[Changes] = {
    "scales.fine_scale_step": "0.001 g", "scales.fine_scale_capacity": "90 kg", "scales.fine_jug_step": "0.001 mL",
    "scales.fine_jug_capacity": "90 L", "weather.wind_height": "at spray height",
}  # fmt: skip
"""Scales so fine that what is measured is what was meant, and the wind of the diary's height."""
MIXES: Final = st.fixed_dictionaries(
    {
        "chosen_products.product": st.sampled_from([N, IRON]),
        "chosen_products.product@1": st.sampled_from([None, SEAWEED, POTASH]),
        "chosen_products.own_rate": st.sampled_from([None, "1 g/m²", "1.7 g/m²", "2.5 g/m²", "4 g/m²", "9 g/m²"]),
        "chosen.wanted_carrier": st.sampled_from([f"{litres} L/ha" for litres in (300, 480, 500, 600, 1000)]),
        "chosen_more.overlap": st.sampled_from([None, "10 %"]),
        "sprayers.remainder": st.sampled_from([None, "0.7 L"]),
        "sprayers.tested_area": st.none(),
        "weather.air_temperature": st.sampled_from([None, "1 degC", "18 degC", "28 degC", "31 degC", "36 degC"]),
        "weather.wind": st.sampled_from([None, "1 km/h", "2 km/h", "10 km/h", "12 km/h", "14.5 km/h", "20 km/h"]),
    }
)


UNSTOPPED: Final[Changes] = {
    **{f"limits.stop_{key}": None for key in (*WORDS, "solubility", "wind", "near_wind", "potassium_sulphate")},
    "settings.stop_air": None, **{f"products.spray_high@{name}": 1e6 for name in (N, IRON)},
}  # fmt: skip
"""Without these nothing stops a mix, and there are lines to paste whatever it brings."""


def pasted(mixed: Scene) -> Changes:
    """The lines for the diary, as values, in its second line and on."""
    found: dict[str, Cell] = {}
    for key in PASTED:
        text = mixed.inputs.units["diary_lines"][key] == TEXT
        for record, figure in enumerate(mixed.figures(f"diary_lines.{key}")[:2], 1):
            shown: Cell = str(figure) if text else float(figure)
            found[f"diary.{key}@{record}"] = None if figure == "" or figure != figure else shown
    return found


def graded(level: float, words: str) -> list[str]:
    return [f"{'too ' * (level > 1)}much {words}"] if level > 0 else []


def by_mix(scene: Scene) -> set[str]:
    """What the sheet Mix found, in the words of the diary."""
    level = {key: float(scene.figure(f"mix_checks.level_{key}") or 0) for key in ("air", "calm", "iron_heat")}
    risks = {key: float(np.nan_to_num(scene.figure(f"mix_checks.level_{key}"))) for key in (*WORDS, "near_wind")}
    cold = level["air"] == 1 and scene.figure("weather.air_temperature") < scene.figure("settings.coldest_air")
    found = [word for key, words in WORDS.items() for word in graded(risks[key], words)]
    found += graded(risks["near_wind"], "wind") + ["hardly any wind"] * (level["calm"] > 0)
    found += [["", "cold" if cold else "hot", "too hot"][int(level["air"])]] * (level["air"] > 0)
    return {*found, *["iron in heat"] * (level["iron_heat"] > 0)}


STRONG: Final[Changes] = {
    "chosen_products.product": IRON, "chosen_products.product@1": SEAWEED, "chosen_products.own_rate": "9 g/m²",
    "chosen.wanted_carrier": "300 L/ha", "chosen_more.overlap": None, "sprayers.remainder": "0.7 L",
    "sprayers.tested_area": None,
    "weather.air_temperature": "36 degC", "weather.wind": "14.5 km/h",
}  # fmt: skip


@given(changes=MIXES)
@example(changes=STRONG)
@example(changes={**STRONG, "weather.air_temperature": "1 degC", "weather.wind": "1 km/h"})
@settings(max_examples=TIER.examples // 2)
def test_a_pasted_visit_is_judged_as_it_was_mixed(changes: Changes) -> None:
    lines = pasted(calm("metric", {**FINE, **changes, **UNSTOPPED}))
    scene = calm("metric", {**FINE, **changes, **lines, f"products.spray_high@{N}": 1e6, "diary.date": None})
    assert lines["diary.date@1"], "nothing to paste"
    for key, found in (("salts", "mix.salts"), ("salt_load", "mix.salt_load"), ("nitrogen", "mix.soluble_nitrogen"),
                       ("iron", "mix_nutrients.rate_iron")):  # fmt: skip
        there, here = scene.figures(f"diary.visit_{key}"), scene.figure(found)
        # The last line of a visit has what all of it came to.
        last = there[2] if lines.get("diary.date@2") else there[1]
        assert last == pytest.approx(here, rel=1e-4, abs=1e-9)
    said = {words for record in (1, 2) for words in scene.figures("diary.flags")[record].split("; ")}
    judged = {one for one in said if one.startswith(("much", "too much", "hot", "cold", "too hot", "hardly", "iron"))}
    # The first line may be over the lower limit alone, before the second crosses the upper one.
    assert judged - {one.removeprefix("too ") for one in judged if one.startswith("too ")} == by_mix(scene)
    if not changes["chosen_more.overlap"]:
        water = scene.figures("mix_products.level_carrier"), scene.figures("mix_products.short_words")
        assert ("less water than the least" in said) == bool(np.nanmax(water[0]))
        notes = " ".join(scene.figures("diary.notes")[1:3])
        assert ("in a little less water" in notes) == any(water[1])
