"""Two invented sites for the omission nets, and the stories that make a planner say what it can say.

The visit of CALM may go: nothing speaks against it. A story changes a few inputs of it, and what follows is told.
"""

from __future__ import annotations

from datetime import date
from functools import cache
from typing import Final

from thorough.omissions import TODAY, Changes, Scene, scene
from wbgen.inputs.rows import Cell
from wbgen.sheets.column import System
from wbgen.trade.tank_rules import TRAITS

CALM: Final = """\
site: {name: Calm House, units: metric, currency: EUR, season starts: 1 January, as of: 2026-06-30}
lawns:
  - {name: Front, grass: cool season, group: sunny, area: 100 m², targets: {N: 20 g/m²}, notes: by the gate,
     soil tests: [{date: 2026-03-01, method: Mehlich-3, P: 24 ppm, K: 61 ppm, note: a trial}]}
  - name: Back
    grass: warm season
    parts:
      - {name: gore, add: triangle sides, a: 3 m, b: 4 m, c: 5 m}
      - {name: main, add: rectangle, length: 20 m, width: 12 m}
      - {name: bed, cut out: circle, diameter: 3 m}
      - {name: bay, add: offsets, spacing: 5 m, rule: simpson, offsets: [0 m, 4.3 m, 5 m, 2 m, 0 m]}
      - {name: plot, add: corners, points: [[0 m, 0 m], [10 m, 0 m], [10 m, 8 m]]}
    targets: {N: 10 g/m², P2O5: 2 g/m², K2O: 9 g/m², CaO: 1 g/m², MgO: 1 g/m², SO3: 1 g/m², Fe: 1 g/m², Mn: 1 g/m²}
    most N a month: 3 g/m²
sprayers:
  - {name: Knapsack, kind: knapsack, brim: 15 L, working: 14 L, passes: 2, remainder: 0 L, nozzle: "03",
     pressure: 2 bar, known area: {sprayed: 50 m², used: 1.5 L}, walk: {distance: 20 m, seconds: 18}}
  - {name: Boom, kind: boom, brim: 60 L, working: 55 L, remainder: 1.5 L, passes: 1, swath: 2 m, nozzle: "04",
     pressure: 2 bar, catch: {seconds: 60, volumes: [1290 mL, 1310 mL, 1335 mL, 1300 mL]},
     walk: {distance: 50 m, seconds: [44, 46]}}
  - {name: Hose, kind: hose-end, brim: 1 L, working: 1 L, passes: 1, jar: {capacity: 1 L, dilution: 20},
     carrier volume: 9000 L/ha}
scales:
  - {name: fine scale, measures: weight, step: 1 g, capacity: 500 g}
  - {name: kitchen scale, measures: weight, step: 5 g, capacity: 5 kg}
  - {name: syringe, measures: volume, step: 1 mL, capacity: 60 mL}
  - {name: jug, measures: volume, step: 10 mL, capacity: 1 L}
people: [Helper]
mix:
  date: 2026-07-01
  lawns: [Front]
  sprayer: Knapsack
  who: Helper
  carrier volume: 600 L/ha
  water: {temperature: 12 degC, hardness: 1 meq/L}
  watered in: "no"
  loads: equal
  overlap: 0 %
  weather: {wind: 8 km/h, temperature: 18 degC, humidity: 60 %, heavy rain: "no", frozen or waterlogged: "no"}
  products: [{product: Ammonium sulphate}]
programme:
  - {product: Ammonium sulphate, lawn: Front, first: 2026-04-08, last: 2026-08-26, every: 28 days}
  - {product: Seaweed extract, group: sunny, first: 2026-05-06, last: 2026-06-03, times: 2}
  - {product: Potassium sulphate, lawn: Back, first: 2026-07-08, last: 2026-09-02, every: 28 days}
  - {product: Humic acid, first: 2026-09-09, last: 2026-09-09, times: 1}
  - {product: Humic acid, first: 2026-10-07, last: 2026-10-07, times: 1, shift: 7 days}
months:
  mean temperatures: [4 degC, 4 degC, 6 degC, 9 degC, 11 degC, 14 degC, 20 degC, 16 degC, 13 degC, 10 degC,
    7 degC, 5 degC]
shelf:
  - {date: 2026-03-01, product: Ammonium sulphate, deed: counted, packs: 1, amount: 2 kg}
  - {date: 2026-03-01, product: Seaweed extract, deed: counted, amount: 2 L}
  - {date: 2026-05-02, product: Ammonium sulphate, deed: bought, packs: 1, amount: 1 kg}
brews:
  - {product: Compost tea, batch: 5 L, brewing: 24 h, use within: 8 h, extra: 5 %,
     ingredients: [{name: ripe compost, amount: 250 g}]}
scores:
  - {date: 2026-04-07, lawn: Front, quality: 6, colour: 5, clippings: 12 mL/m², moss: 8 %}
  - {date: 2026-04-18, lawn: Front, quality: 6.5, colour: 6, clippings: 20 mL/m², moss: 7 %}
diary:
  - {date: 2026-04-08, lawn: Front, product: Ammonium sulphate, method: spray, measured: 262 g, water: 6 L,
     planned rate: 2.5 g/m², treated area: 100 m², who: Helper, temperature: 13 degC, wind: 6 km/h}
"""

JULY: Final = "months.mean_temperature@6"
"""The month of the visit."""
N, IRON, SEAWEED, CALCIUM = (
    "Ammonium sulphate", "Ferrous sulphate heptahydrate", "Seaweed extract", "Calcium nitrate (fertiliser grade)",
)  # fmt: skip
POTASH: Final = "Potassium sulphate"


def calm(system: System, changes: Changes | None = None) -> Scene:
    """The calm site on a warm July day, with some changes."""
    return _calm(system).changed(changes) if changes else _calm(system)


@cache
def _calm(system: System) -> Scene:
    return scene(CALM, system).changed({JULY: "20 degC", "chosen.lawns": None, "chosen_lawns.lawn": "Front"})


OWN: Final = """\
products:
  - name: Everything in grains
    form: soluble powder
    family: trials
    analysis:
      per: w/w
      contents: {N: 10 %, P: 2 %, K: 5 %, Ca: 1 %, Mg: 1 %, S: 3 %, Fe: 1 %, Mn: 1 %}
      basis: invented
    nitrogen: {ammonium: 3 %, nitrate: 1 %, urea: 2 %, slow release: 4 %, basis: invented}
    release: {value: 90 day, basis: invented}
    spray: {low: 0.2 pack/ha, usual: 0.3 pack/ha, high: 0.4 pack/ha, basis: invented}
    dry: {low: 1 pack/ha, usual: 2 pack/ha, high: 3 pack/ha, basis: invented}
    carrier: {least: 400 L/ha, usual: 800 L/ha, basis: invented}
    interval: {value: 7 day, basis: invented}
    most a year: {value: 9, basis: invented}
    dry interval: {value: 30 day, basis: invented}
    dry most a year: {value: 4, basis: label}
    months: {value: [5, 6, 7], basis: invented}
    solubility: {at 10 C: 300 g/L, at 20 C: 400 g/L, basis: invented}
    salt index: {value: 60, basis: invented}
    traits: {value: [%s], basis: invented}
    mixing place: {value: 3, basis: invented}
    cautions: {value: [Only a trial], basis: invented}
    pack: {value: 5 kg, basis: invented}
    price: {value: 12, basis: invented}
    active: {what: grains, share: 4 %, basis: invented}
  - name: Everything in a bottle
    form: liquid
    family: trials of liquids
    analysis:
      per: w/w
      contents: {N: 10 %, P2O5: 2 %, K2O: 5 %, CaO: 1 %, MgO: 1 %, SO3: 3 %, Fe: 1 %, Mn: 1 %}
      basis: invented
    density: {value: 1.2 kg/L, basis: invented}
    dissolved solids: {value: 400 g/L, basis: invented}
    spray: {low: 0.5 pack/ha, usual: 1 pack/ha, high: 2 pack/ha, basis: invented}
    active: {what: drops, share: 4 %, basis: invented}
    pack: {value: 5 L, basis: invented}
    price: {value: 30, basis: invented}
""".replace("%s", ", ".join(TRAITS.values()))
"""Two products that state everything that a product can."""

WITH_OWN: Final = "catalogue: [own.yaml]\n"

EVERYTHING: Final = (
    CALM.replace("group: sunny, area", "group: sunny, walking order: 2, round day: Tue, sprayer: Knapsack, area")
    .replace(
        "Humic acid, first: 2026-10",
        "Humic acid, method: spray, rate: 1 mL/m², carrier volume: 500 L/ha, note: a trial, first: 2026-10",
    )
    .replace("Seaweed extract, group: sunny,", "Everything in grains, group: sunny, method: dry, rate: 9 g/m²,")
    .replace(
        "products: [{product: Ammonium sulphate}]",
        """products:
    - {product: Everything in grains, rate: 1 g/m²}
    - {product: Everything in a bottle, rate: 1 mL/m²}
    - {product: Urea, wanted: 1 g N/m²}
    - {product: Monoammonium phosphate (soluble grade), wanted: 1 g P2O5/m²}
    - {product: Potassium sulphate, wanted: 1 g K2O/m²}
    - {product: Calcium nitrate (fertiliser grade), wanted: 1 g Ca/m²}
    - {product: Epsom salts, wanted: 1 g MgO/m²}
    - {product: Ammonium sulphate, wanted: 1 g SO3/m²}
    - {product: Ferrous sulphate heptahydrate, wanted: 1 g Fe/m²}
    - {product: Manganese sulphate monohydrate, wanted: 1 g Mn/m²}
""",
    )
    .replace("hardness: 1 meq/L}", "hardness: 1 meq/L, pH: 7.5, alkalinity: 100 mg CaCO3/L}\n  acidify: with iron")
    .replace("deed: bought, packs: 1,", "deed: bought, packs: 1, paid: 24, note: a trial,")
    .replace("5 degC]\nshelf", "5 degC]\n  closed: [1, 12]\nshelf")
    .replace("area: 100 m², targets", "area: 100 m², strip: Back, targets")
    .replace("ripe compost, amount: 250 g", "ripe compost, amount: 250 g, note: a trial")
    .replace("ingredients: [", "ingredients: [{name: molasses, amount: 10 mL}, ")
    .replace("moss: 8 %", "moss: 8 %, note: a trial")
    + """\
  - {date: 2026-04-09, lawn: Back, product: Everything in a bottle, method: spray, measured: 60 mL, water: 6 L,
     left over: 1 L, planned rate: 1 mL/m², treated area: 100 m², who: Helper, temperature: 13 degC, wind: 6 km/h,
     rain: 0 mm, note: a trial}
"""
    + WITH_OWN
    + "water: {pH: 7.8, alkalinity: 250 mg CaCO3/L, hardness: 5 meq/L, wanted pH: 6, citric acid: monohydrate}\n"
    + 'place: {rule: The permit, most N a visit: 4 g/m², most soluble N a visit: 3 g/m², no phosphorus: "yes"}\n'
)
"""The calm site with every key of lawns.yaml in use, each nutrient planned and wanted."""


SCORED_ON: Final = tuple(date(2026, month, day) for month, day in ((5, 19), (5, 24), (6, 1), (6, 16), (6, 22)))
"""Days about the visits of the crowded site."""


def crowded(system: System, changes: Changes | None = None) -> Scene:
    """A visit of both lawns with four products, a part load and all weather, beside which much can be seen to move."""
    return _crowded(system).changed(changes) if changes else _crowded(system)


@cache
def _crowded(system: System) -> Scene:
    full: dict[str, Cell] = {
        JULY: "16 degC",
        "chosen.lawns": None,
        "chosen_lawns.lawn": "Back",
        "chosen_lawns.lawn@1": "Front",
        "lawns.most_nitrogen_month": "2 g N/m²",
        "chosen.wanted_carrier": "500 L/ha",
        "sprayers.wanted_carrier@Boom": "300 L/ha",
        "chosen_more.hardness": "3 meq/L",
        "weather.air_temperature": "26 degC",
        "weather.humidity": "30 %",
        "chosen_products.product@1": "Everything in grains",
        "chosen_products.product@2": "Everything in a bottle",
        "chosen_products.product@3": IRON,
        "chosen.loads_style": "full and part",
        "chosen.watered_in": "yes",
        **{f"products.trait_{trait}@{IRON}": "yes" for trait in ("phosphate", "alkaline_humate", "live_brew")},
        "diary.date": date(2026, 6, 18), "diary.left_over": "0.5 L",
        "diary.date@1": date(2026, 6, 10), "diary.lawn@1": "Back", "diary.product@1": "Everything in a bottle",
        "diary.method@1": "spray", "diary.poured@1": "300 mL", "diary.planned_volume_rate@1": "1 mL/m²",
        "diary.date@2": date(2026, 5, 20), "diary.lawn@2": "Front", "diary.product@2": "Urea",
        "diary.method@2": "spray", "diary.weighed@2": "60 g",
        "diary.date@3": date(2026, 5, 28), "diary.lawn@3": "Front", "diary.product@3": "Urea",
        "diary.method@3": "spray", "diary.weighed@3": "60 g",
        **{f"scores.lawn@{record}": "Front" for record in range(5)},
        **{f"scores.date@{record}": day for record, day in enumerate(SCORED_ON)},
        **{f"scores.quality@{record}": 5.0 + record / 2 for record in range(5)},
        **{f"scores.colour@{record}": 6.0 - record / 2 for record in range(5)},
        **{f"scores.clippings@{record}": f"{10 + record} mL/m²" for record in range(5)},
        **{f"scores.moss@{record}": 0.1 for record in range(5)},
        "scores.lawn@5": "Back", "scores.date@5": SCORED_ON[0], "scores.quality@5": 4.0, "lawns.strip": "Back",
        "recipes.product@1": "Humic acid", "recipes.batch@1": "3 L",
        "programme.product@5": "Compost tea", "programme.lawn@5": "Back", "programme.method@5": "spray",
        "programme.first@5": TODAY, "programme.last@5": TODAY, "programme.times@5": 1.0,
    }  # fmt: skip
    return scene(CALM + WITH_OWN, system, OWN).changed(full)
