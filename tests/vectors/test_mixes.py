"""Whole mixes against their verdicts, by the model and by the formulas.

``mixes/mixes.yaml`` says what its keys mean.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, Final

import pytest
import yaml

from support.tier import every
from thorough.omission_sheets import Sheets
from thorough.omissions import Changes, Scene, scene

MIXES: Final[tuple[Mapping[str, Any], ...]] = tuple(
    yaml.safe_load((Path(__file__).parent / "mixes" / "mixes.yaml").read_text("utf-8"))
)
ORDINARY: Final = [mix for mix in MIXES if mix.get("ordinary")]
KEYS: Final = {"id", "ordinary", "why", "products", "set", "verdict", "says", "notes", "not_checked"}

SITE: Final = """\
site: {name: House of mixes, units: metric, currency: EUR, season starts: 1 January, as of: 2026-05-19}
catalogue: [own.yaml]
lawns: [{name: Green, grass: cool season, area: 100 m²}]
sprayers:
  - {name: Knapsack, kind: knapsack, brim: 15 L, working: 14 L, passes: 1, known area: {sprayed: 50 m², used: 3 L}}
  - {name: Slow knapsack, kind: knapsack, brim: 15 L, working: 14 L, passes: 1, known area: {sprayed: 50 m², used: 5 L},
     carrier volume: 1000 L/ha}
  - {name: Brisk knapsack, kind: knapsack, brim: 15 L, working: 14 L, passes: 1,
     known area: {sprayed: 50 m², used: 2.5 L}, carrier volume: 500 L/ha}
scales:
  - {name: fine scale, measures: weight, step: 0.1 g, capacity: 500 g}
  - {name: coarse scale, measures: weight, step: 5 g, capacity: 5 kg}
  - {name: syringe, measures: volume, step: 0.1 mL, capacity: 60 mL}
  - {name: jug, measures: volume, step: 1 mL, capacity: 1 L}
months:
  mean temperatures: [5 degC, 5 degC, 7 degC, 9 degC, 12 degC, 15 degC, 16 degC, 16 degC, 14 degC, 11 degC, 8 degC,
    6 degC]
mix:
  date: 2026-05-20
  lawns: [Green]
  sprayer: Knapsack
  carrier volume: 600 L/ha
  water: {temperature: 12 degC, hardness: 1 meq/L, pH: 6.8, alkalinity: 40 mg CaCO3/L}
  weather: {wind: 8 km/h, wind is: forecast at 10 m, temperature: 18 degC, humidity: 60 %, heavy rain: "no",
    frozen or waterlogged: "no"}
"""
OWN: Final = """\
products:
  - name: Bag of phosphate
    form: soluble powder
    family: own phosphates
    analysis: {per: w/w, contents: {P: 20 %}, basis: invented}
    spray: {usual: 0.5 g/m², basis: invented}
  - name: Bottle of nitrogen
    form: liquid
    family: own liquids
    analysis: {per: w/v, contents: {N: 10 %}, basis: invented}
    spray: {usual: 2 mL/m², basis: invented}
  - name: Bottle of silicate
    form: liquid
    family: own silicates
    analysis: {per: w/v, contents: {K2O: 10 %}, basis: invented}
    dissolved solids: {value: 300 g/L, basis: invented}
    spray: {usual: 0.5 mL/m², basis: invented}
    interval: {value: 14 day, basis: invented}
    traits: {value: [strongly alkaline], basis: invented}
  - name: Bottle of thiosulphate
    form: liquid
    family: own thiosulphates
    analysis: {per: w/v, contents: {K2O: 25 %, S: 17 %}, basis: invented}
    dissolved solids: {value: 500 g/L, basis: invented}
    spray: {usual: 0.5 mL/m², basis: invented}
    interval: {value: 14 day, basis: invented}
    traits: {value: [thiosulphate, neutral], basis: invented}
  - name: Bag of 20-20-20
    form: soluble powder
    family: own soluble feeds
    analysis: {per: w/w, contents: {N: 20 %, P2O5: 20 %, K2O: 20 %, Fe: 0.05 %, Mn: 0.03 %}, basis: invented}
    nitrogen: {ammonium: 4 %, nitrate: 6 %, urea: 10 %, basis: invented}
    solubility: {at 10 C: 300 g/L, basis: invented}
    spray: {usual: 1 g/m², basis: invented}
    interval: {value: 14 day, basis: invented}
    traits: {value: [neutral], basis: invented}
  - name: Bottle of iron and phosphate
    form: liquid
    family: own irons
    analysis: {per: w/v, contents: {P2O5: 2 %, Fe: 2 %}, basis: invented}
    dissolved solids: {value: 200 g/L, basis: invented}
    spray: {usual: 1 mL/m², basis: invented}
    interval: {value: 14 day, basis: invented}
    traits: {value: [ferrous, neutral], basis: invented}
"""
"""The first two are products of which a label tells the analysis and the rate, and no more."""

UNCHECKED: Final[Changes] = {
    f"weather.{key}": None for key in ("wind", "air_temperature", "humidity", "heavy_rain", "wet_ground")
}


@cache
def site() -> Scene:
    return scene(SITE, "metric", OWN)


@cache
def sheets() -> Sheets:
    return Sheets(site())


def changes(mix: Mapping[str, Any]) -> Changes:
    found: dict[str, Any] = {}
    for number, one in enumerate(mix["products"]):
        ((name, rate),) = one.items() if isinstance(one, dict) else [(one, None)]
        found[f"chosen_products.product@{number}"] = name
        if rate:
            found[f"chosen_products.own_rate@{number}"] = rate
    if "sprayer" in str(mix.get("set")):
        found["chosen.wanted_carrier"] = None
    found |= mix.get("set", {})
    return found


@pytest.mark.parametrize("mix", MIXES, ids=lambda mix: mix["id"])
def test_a_mix_has_its_verdict_by_the_model_and_by_the_formulas(mix: Mapping[str, Any]) -> None:
    assert set(mix) <= KEYS
    one = site().changed(changes(mix))
    texts = sheets().texts(one)
    model = {key: one.figure(f"verdict.{key}") for key in ("verdict", "reason", "notes", "not_checked")}
    assert model == {key: texts["verdict", key][0] for key in model}
    assert (model["verdict"], model["notes"]) == (mix["verdict"], mix.get("notes", "")), model
    assert [said for said in mix.get("says", ()) if said not in model["reason"]] == [], model["reason"]
    assert (model["reason"] == "") is (mix["verdict"] == "Go")
    assert model["not_checked"] == mix.get("not_checked", "")


@pytest.mark.parametrize("mix", every(4, MIXES), ids=lambda mix: mix["id"])
def test_no_mix_goes_while_the_weather_was_not_checked(mix: Mapping[str, Any]) -> None:
    """It is the only reason where there was none, the last where there was, and said once."""
    given = {**changes(mix), **UNCHECKED}
    one, before = site().changed(given), site().changed(changes(mix))
    reason, said = one.figure("verdict.reason"), "the weather was not checked"
    if mix["verdict"] == "Go":
        assert (one.figure("verdict.verdict"), reason) == ("Ask first", said)
    assert reason.count(said) == 1
    weather = any(key in UNCHECKED for key in mix.get("set", {}))
    assert weather or one.figure("verdict.level") == max(1, before.figure("verdict.level"))


def test_most_ordinary_mixes_may_go() -> None:
    assert len(ORDINARY) == 20
    assert sum(mix["verdict"] == "Go" for mix in ORDINARY) >= 16
