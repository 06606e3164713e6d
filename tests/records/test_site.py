from __future__ import annotations

from datetime import date
from math import cos, pi, sin
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from support.marked import MARK, places_of, unmarked
from wbgen.files.diagnostics import Diagnostic, InputError
from wbgen.records.site.lawn_parts import MOST_CORNERS, _crossing
from wbgen.records.site.site import Site, load_site_and_catalogue

SITE = {
    "site": "{name: Oak House, units: metric, currency: EUR, season starts: 1 January, as of: 2026-06-30}",
    "settings": "{wind ask first: 12 km/h, best of: 5, word: some text, formula: =1+1}",
    "lawns": "[{name: Terrace, grass: cool season, area: 240 m²}, {name: Bank, grass: warm season, area: 0.1 acre}]",
    "sprayers": "[{name: Knapsack, kind: knapsack, brim: 15 L, working: 14 L, passes: 2}]",
    "scales": "[{name: scale, measures: weight, step: 1 g, capacity: 5 kg}]",
    "people": "[Head gardener, Helper A]",
    "mix": "{date: 2026-07-01, lawns: [terrace], sprayer: KNAPSACK, products: [{product: Salt}]}",
    "diary": "[{date: 2026-03-14, lawn: Terrace, product: Salt, method: spray, measured: 600 g}]",
}
CATALOGUE = """\
products:
  - name: Salt
    form: soluble powder
    family: salts
    analysis: {per: w/w, contents: {N: 21 %}, basis: memory}
    spray: {usual: 25 kg/ha, basis: memory}
  - name: Feed
    form: liquid
    family: feeds
    spray: {usual: 25 L/ha, basis: memory}
  - name: Syrup
    form: liquid
    family: feeds
    density: {value: 1.25 kg/L, basis: memory}
    spray: {usual: 25 kg/ha, basis: memory}
  - name: Prills
    form: granule
    family: prills
    dry: {usual: 25 g/m², basis: memory}
"""


def site(**changes: str | None) -> str:
    """A lawns.yaml as text, with some of its keys changed or, by None, left out."""
    return "".join(f"{key}: {value}\n" for key, value in {**SITE, **changes}.items() if value is not None)


def lawn(rest: str) -> str:
    return f"[{{name: Terrace, grass: cool season, {rest}}}]"


def part(rest: str) -> str:
    return lawn(f"parts: [{{name: p, {rest}}}]")


BATTLEMENT = [(0, 0), (1, 0), (1, 1), (2, 1), (2, 0), (3, 0), (3, 2), (0, 2)]  # two edges on one line, apart


def points(corners: list[tuple[int, int]]) -> str:
    return "[" + ", ".join(f"[{x} m, {y} m]" for x, y in corners) + "]"


def sprayer(rest: str, kind: str = "knapsack", brim: str = "15 L", working: str = "14 L") -> str:
    return f"[{{name: Knapsack, kind: {kind}, brim: {brim}, working: {working}, passes: 2, {rest}}}]"


def diary(rest: str, **changes: str) -> str:
    row = {"date": "2026-03-14", "lawn": "Terrace", "product": "Salt", "method": "spray", "measured": "600 g"}
    row |= changes
    return "[{" + ", ".join(f"{key}: {value}" for key, value in row.items()) + (f", {rest}" if rest else "") + "}]"


def programme(product: str, rate: str) -> str:
    return f"[{{product: {product}, rate: {rate}, first: 2026-03-01, last: 2026-05-01, times: 2}}]"


def shelf(product: str, amount: str) -> str:
    return f"[{{date: 2026-03-01, product: {product}, deed: counted, amount: {amount}}}]"


SOLID, LIQUID = "{name: Salt, amount: 5 g}", "{name: Feed, amount: 1 L}"


def load(tmp_path: Path, text: str) -> Site:
    path = tmp_path / "lawns.yaml"
    path.write_text(text, encoding="utf-8")
    (tmp_path / "catalogue.yaml").write_text(CATALOGUE, encoding="utf-8")
    return load_site_and_catalogue(path, [tmp_path / "catalogue.yaml"])[0]


def findings(tmp_path: Path, text: str) -> tuple[Diagnostic, ...]:
    with pytest.raises(InputError) as raised:
        load(tmp_path, text)
    return raised.value.diagnostics


FULL = """\
site: {name: Oak House, units: us, currency: USD, season starts: 31 October}
catalogue: [mine.yaml]
lawns:
  - name: Terrace
    grass: cool season
    parts:
      - {name: main, add: rectangle, length: 20 m, width: 12 m}
      - {name: bed, cut out: circle, diameter: 3 m}
      - {name: corner, add: triangle, base: 6 m, height: 4 m}
      - {name: gore, add: triangle sides, a: 3 m, b: 4 m, c: 5 m}
      - {name: pond, cut out: ellipse, length: 5 m, width: 3 m}
      - {name: slope, add: trapezium, side: 10 m, other side: 14 m, height: 6 m}
      - {name: bank, add: offsets, spacing: 5 m, rule: simpson, offsets: [0 m, 4.3 m, 5 m]}
      - {name: plot, add: corners, points: [[0 m, 0 m], [10 m, 0 m], [10 m, -8 m]]}
    targets: {N: 12 g/m², K2O: 8 g K2O/m², Fe: 0 g/m²}
    most N a month: 3 g/m²
    notes: "@home"
sprayers:
  - name: Hose
    kind: hose-end
    brim: 1 L
    working: 1000 mL
    passes: 1
    remainder: 0 L
    swath: 1.0 m
    known area: {sprayed: 50 m², used: 3.1 L}
    catch: {seconds: 30, volumes: [610 mL, 598 mL]}
    walk: {distance: 20 m, seconds: 18.5}
    nozzle: "03"
    pressure: 2 bar
    jar: {capacity: 1 L, dilution: 20}
scales:
  - {name: fine scale, measures: weight, step: 1 g, capacity: 500 g}
  - {name: kitchen scale, measures: weight, step: 5 g, capacity: 5 kg}
  - {name: jug, measures: volume, step: 10 mL, capacity: 1 L}
mix:
  date: 2026-07-01
  lawns: all
  sprayer: hose
  carrier volume: 600 L/ha
  water: {temperature: -1 degC, hardness: 5 meq/L}
  watered in: "no"
  loads: full and part
  overlap: 0 %
  weather: {wind: 0 km/h, temperature: 18 degC, humidity: 60 %, heavy rain: "no", frozen or waterlogged: "yes"}
  products:
    - {product: salt, wanted: 0.5 g N/m²}
    - {product: Feed, rate: 8 L/ha}
    - {product: Mine}
diary:
  - {date: 2026-03-14, lawn: TERRACE, product: Prills, method: dry, measured: 600 g, planned rate: 25 g/m²,
     treated area: 240 m², temperature: 14 degC, wind: 6 km/h, rain: 0 mm}
  - {date: 2026-03-15, lawn: Terrace, product: Feed, method: spray, measured: 6 fl oz, water: 14 L, left over: 14 L}
water: {pH: 7.8, alkalinity: 250 mg CaCO3/L, hardness: 4.5 meq/L, wanted pH: 6, citric acid: monohydrate}
"""


def test_everything_of_a_full_file_is_read(tmp_path: Path) -> None:
    (tmp_path / "mine.yaml").write_text(CATALOGUE.replace("name: Salt", "name: Mine"), encoding="utf-8")
    found = load(tmp_path, FULL)
    assert (found.details.season_starts.day, found.details.season_starts.month) == (31, 10)
    assert (found.details.as_of, found.details.units, found.file) == (None, "us", tmp_path / "lawns.yaml")
    assert found.catalogue == (tmp_path / "mine.yaml",)
    terrace = found.lawns[0]
    assert [(p.shape, p.cut_out is None) for p in terrace.parts or ()][:2] == [("rectangle", True), ("circle", False)]
    assert (terrace.parts or ())[7].corners() == ((0, 0), (10, 0), (10, -8))
    assert {key: rate.to("g/m²" if not rate.quantity.nutrient else "g K2O/m²")
            for key, rate in (terrace.targets or {}).items()} == {"N": 12, "K2O": 8, "Fe": 0}  # fmt: skip
    assert (terrace.notes, terrace.most_N_a_month and terrace.most_N_a_month.text) == ("@home", "3 g/m²")
    hose = found.sprayers[0]
    assert (hose.nozzle, hose.passes, hose.jar and hose.jar.dilution) == ("03", 1, 20)
    assert [volume.text for volume in (hose.catch.volumes if hose.catch else ())] == ["610 mL", "598 mL"]
    assert found.mix is not None
    assert (found.mix.date, found.mix.watered_in, found.mix.loads) == (date(2026, 7, 1), "no", "full and part")
    assert found.mix.lawns == ("all",)
    water = found.water
    assert water is not None
    read = [one and one.text for one in (water.pH, water.alkalinity, water.hardness, water.wanted_pH)]
    assert read == ["7.8", "250 mg CaCO3/L", "4.5 meq/L", "6"]
    assert (water.citric_acid, water.alkalinity and round(water.alkalinity.to("meq/L"), 3)) == ("monohydrate", 4.996)
    assert [row.place.line for row in found.diary] == [51, 53]
    assert found.diary[1].place_of("left over").column == 112
    assert found.diary[1].measured.to("fl oz") == 6


def test_a_short_file_is_enough(tmp_path: Path) -> None:
    found = load(tmp_path, site(settings="", sprayers=None, scales="[]", people=None, mix=None, diary=None))
    assert (found.mix, found.diary, found.people) == (None, (), ())
    assert found.details.as_of == date(2026, 6, 30)


def test_a_setting_is_a_quantity_a_number_or_a_text_with_its_place(tmp_path: Path) -> None:
    settings = load(tmp_path, site()).settings
    assert [(s.text, s.measure.kind if s.measure else "text") for s in settings.values()] == [
        ("12 km/h", "speed"), ("5", "number"), ("some text", "text"), ("=1+1", "text"),
    ]  # fmt: skip
    assert (settings["best of"].place.line, settings["best of"].place.key) == (2, "settings.best of")


WRONG: dict[str, tuple[str, str]] = {
    "no site": (MARK + site(site=None), "'site' is missing"),
    "no lawns": (MARK + site(lawns=None, mix=None, diary=None), "'lawns' is missing"),
    "lawns empty": (site(lawns="«[]", mix=None, diary=None), "no lawn"),
    "lawns no list": (site(lawns="«{name: x}", mix=None, diary=None), "list of lawns"),
    "key": (site() + "«sprayer: []\n", "sprayers?"),
    "currency": (site(site="{name: A, units: metric, currency: «euro, season starts: 1 January}"), "ISO 4217"),
    "units": (site(site="{name: A, units: «imperial, currency: EUR, season starts: 1 January}"), "metric, us"),
    "season": (site(site="{name: A, units: us, currency: EUR, season starts: «29 February}"), "not in every year"),
    "season's month": (site(site="{name: A, units: us, currency: EUR, season starts: «1 Januar}"), "January?"),
    "season a date": (site(site="{name: A, units: us, currency: EUR, season starts: «2026-01-01}"), "1 January"),
    "as of": (
        site(site="{name: A, units: us, currency: EUR, season starts: 1 May, as of: «1.7.2026}"), "write 2026-07-01"),
    "as of long ago": (
        site(site="{name: A, units: us, currency: EUR, season starts: 1 May, as of: «1999-12-31}"), "2000"),
    "setting empty": (site(settings="{a: «' '}"), "not be empty"),
    "setting": (site(settings="{a: «[1]}"), "a quantity, a number or a word"),
    "settings": (site(settings="«[a]"), "keys and values"),
    "person twice": (site(people="[Ann, «ANN]"), "there already"),
    "person": (site(people="[«'=x']"), "begins with ="),
    "lawn twice": (site(lawns="[{name: Terrace, grass: cool season, area: 1 m²}, "
                        "{name: «terrace, grass: cool season, area: 1 m²}]"), "there already"),
    "lawn called all": (site(lawns="[{name: Terrace, grass: cool season, area: 1 m²}, "
                             "{name: «All, grass: cool season, area: 1 m²}]"), "a planner uses this word"),
    "no area": (site(lawns=lawn("notes: x").replace("{", "«{", 1)), "neither\n  do: add one"),
    "area and parts": (
        site(lawns=lawn("area: 1 m², parts: [{name: p, add: circle, diameter: 1 m}]").replace("{", "«{", 1)),
        "both\n  do: keep"),
    "area of 0": (site(lawns=lawn("area: «0 m²")), "more than 0"),
    "area in m": (site(lawns=lawn("area: «20 m")), "which is a length"),
    "only cut outs": (site(lawns=lawn("parts: «[{name: p, cut out: circle, diameter: 1 m}]")), "found: only cut outs"),
    "no part": (site(lawns=lawn("parts: «[]")), "found: no part\n"),
    "part twice": (site(lawns=lawn("parts: [{name: p, add: circle, diameter: 1 m}, "
                                   "{name: «P, add: circle, diameter: 1 m}]")), "there already"),
    "target element": (site(lawns=lawn("area: 1 m², targets: {«P: 1 g/m²}")), "symbol"),
    "target of another": (site(lawns=lawn("area: 1 m², targets: {N: «1 g Fe/m²}")), "another nutrient"),
    "target below 0": (site(lawns=lawn("area: 1 m², targets: {N: «-1 g/m²}")), "0 or more"),
    "most N": (site(lawns=lawn("area: 1 m², most N a month: «3 g P2O5/m²")), "another nutrient"),
    "shape": (site(lawns=part("add: «rectangel, length: 1 m, width: 1 m")), "rectangle?"),
    "no shape": (site(lawns=part("length: 1 m, width: 1 m").replace("[{name: p", "[«{name: p")),
                 "found: neither\n  do: add one"),
    "two shapes": (site(lawns=part("add: circle, cut out: circle, diameter: 1 m").replace("[{name: p", "[«{name: p")),
                   "found: both\n  do: keep one"),
    "length missing": (
        site(lawns=part("add: rectangle, length: 1 m").replace("[{name: p", "[«{name: p")), "found: length"),
    "no length": (site(lawns=part("add: circle").replace("[{name: p", "[«{name: p")), "found: none"),
    "length of another": (site(lawns=part("add: circle, diameter: 1 m, width: «2 m")), "has no 'width'"),
    "sides": (site(lawns=part("add: triangle sides, a: «3 m, b: 400 cm, c: 7 m")), "do not close"),
    "simpson even": (
        site(lawns=part("add: offsets, spacing: 5 m, rule: simpson, offsets: «[1 m, 2 m, 3 m, 4 m]")), "odd number"),
    "simpson one": (site(lawns=part("add: offsets, spacing: 5 m, rule: simpson, offsets: «[1 m]")), "odd number"),
    "one offset": (site(lawns=part("add: offsets, spacing: 5 m, rule: trapezoidal, offsets: «[1 m]")), "too few"),
    "offsets 0": (site(lawns=part("add: offsets, spacing: 5 m, rule: trapezoidal, offsets: «[0 m, 0 m]")), "are 0"),
    "no rule": (
        site(lawns=part("add: offsets, spacing: 5 m, offsets: [1 m, 2 m]").replace("[{name", "[«{name", 2).replace(
            "[«{name: T", "[{name: T")), "'rule'"),
    "two radii": (site(lawns=part("add: radii, radii: «[1 m, 2 m]")), "too few radii"),
    "radius of nothing": (site(lawns=part("add: radii, radii: [1 m, 2 m, «0 m]")), "more than 0"),
    "corner of three": (site(lawns=part("add: corners, points: [[0 m, 0 m], «[1 m, 0 m, 2 m], [1 m, 1 m]]")), "two"),
    "two corners": (site(lawns=part("add: corners, points: «[[0 m, 0 m], [1 m, 0 m]]")), "from 3 to 200"),
    "too many corners": (
        site(lawns=part("add: corners, points: «[" + "[0 m, 0 m], " * 201 + "]")), "found: 201"),
    "corners out of order": (
        site(lawns=part("add: corners, points: «[[0 m, 0 m], [1 m, 1 m], [1 m, 0 m], [0 m, 1 m]]")), "corners 1 and 3"),
    "corners on a line": (site(lawns=part("add: corners, points: «[[0 m, 0 m], [1 m, 1 m], [2 m, 2 m]]")), "one line"),
    "working above the brim": (site(sprayers=sprayer("", brim="15 L", working="«15001 mL")), "above the brim"),
    "remainder": (site(sprayers=sprayer("remainder: «14 L")), "less than 14 L"),
    "jar": (site(sprayers=sprayer("jar: «{capacity: 1 L, dilution: 20}")), "hose-end"),
    "jar smaller than its filling": (
        site(sprayers=sprayer("jar: {capacity: 1 L, dilution: 20}", kind="hose-end", working="«14 L")),
        "more than its jar holds",
    ),
    "no jar": (site(sprayers=sprayer("swath: 1 m", kind="hose-end").replace("[{", "[«{")), "needs its jar"),
    "catch": (site(sprayers=sprayer("catch: {seconds: 30, volumes: «[]}")), "one a nozzle"),
    "no seconds": (site(sprayers=sprayer("walk: {distance: 20 m, seconds: «0}")), "0.1"),
    "no walk": (site(sprayers=sprayer("walk: {distance: 20 m, seconds: «[]}")), "one a walk"),
    "a walk of no time": (site(sprayers=sprayer("walk: {distance: 20 m, seconds: [18, «0]}")), "0.1"),
    "nozzle": (site(sprayers=sprayer("nozzle: «03")), "base of 8"),
    "nozzle of one digit": (site(sprayers=sprayer("nozzle: «'3'")), "ISO size"),
    "nozzle of four digits": (site(sprayers=sprayer("nozzle: «'0300'")), "ISO size"),
    "nozzle word": (site(sprayers=sprayer("nozzle: «red")), "ISO size"),
    "gallons of no country": (
        site(sprayers=sprayer("carrier volume: «2 gal/1000 ft²", brim="4 US gal", working="«3 gal")),
        "write US gal or imp gal"),
    "pints of no country": (site(diary=diary("", product="Feed", measured="«2 pt")), "write US pt or imp pt"),
    "third scale": (site(scales="[{name: a, measures: weight, step: 1 g, capacity: 9 g}, {name: b, measures: weight, "
                         "step: 1 g, capacity: 9 g}, «{name: c, measures: weight, step: 1 g, capacity: 9 g}]"),
                    "third"),
    "scale by volume": (site(scales="[{name: a, measures: weight, step: «1 mL, capacity: «9 mL}]"), "must be a mass"),
    "step": (site(scales="[{name: a, measures: volume, step: «1 L, capacity: 1000 mL}]"), "not less"),
    "scale twice": (site(scales="[{name: a, measures: weight, step: 1 g, capacity: 9 g}, "
                         "{name: «A, measures: volume, step: 1 mL, capacity: 9 L}]"), "there already"),
    "mix's lawn": (site(mix="{lawns: [Terrace, «Terace]}"), "Terrace?"),
    "mix's lawn twice": (site(mix="{lawns: [Terrace, «TERRACE]}"), "there already"),
    "mix's lawns": (site(mix="{lawns: «Terrace}"), "[name, name], or all"),
    "mix without a lawn": (site(mix="{lawns: «[]}"), "an empty list"),
    "mix's person": (site(mix="{who: «Helper B}"), "Helper A?"),
    "mix's sprayer": (site(mix="{sprayer: «Knapsak}"), "Knapsack?"),
    "mix's product": (site(mix="{products: [{product: «Slat}]}"), "Salt?"),
    "mix's product twice": (site(mix="{products: [{product: Salt}, {product: «salt}]}"), "there already"),
    "mix's product is spread dry": (site(mix="{products: [{product: «Prills}]}"), "no spray rate"),
    "rate and wanted": (site(mix="{products: [{product: Salt, rate: 9 kg/ha, wanted: «1 g N/m²}]}"), "both"),
    "rate of a solid": (site(mix="{products: [{product: Salt, rate: «9 L/ha}]}"), "no rate by volume"),
    "rate by mass of a liquid": (site(mix="{products: [{product: Syrup, rate: «10 kg/ha}]}"), "such as 8 L/ha"),
    "wanted": (site(mix="{products: [{product: Salt, wanted: «1 g Fe/m²}]}"), "states no Fe"),
    "overlap": (site(mix="{overlap: «100 %}"), "less than 100 %"),
    "humidity": (site(mix="{weather: {humidity: «101 %}}"), "0 to 100 %"),
    "hot": (site(mix="{weather: {temperature: «161 degF}, water: {temperature: «61 degC}}"), "cannot be right"),
    "acid water": (site() + "water: {pH: «2.9}\n", "from 3 to 11"),
    "wanted of the water": (site() + "water: {wanted pH: «3.9}\n", "from 4 to 8"),
    "alkalinity": (site() + "water: {alkalinity: «2001 mg CaCO3/L}\n", "at most 2000"),
    "alkalinity of what": (site() + "water: {alkalinity: «250 mg/L}\n", "250 mg CaCO3/L"),
    "hardness of what": (site() + "water: {hardness: «250 ppm}\n", "250 mg CaCO3/L"),
    "alkalinity of no unit": (site() + "water: {alkalinity: «250}\n", "250 meq/L or 250 mg CaCO3/L"),
    "pH with a unit": (site() + "water: {pH: «7 meq/L}\n", "a number such as 6"),
    "water's key": (site() + "water: {«ph wanted: 6}\n", "did you mean wanted pH?"),
    "citric acid": (site() + "water: {citric acid: «dry}\n", "anhydrous"),
    "mix's water": (site(mix="{water: {pH: «11.5, alkalinity: «41 meq/L}}"), "cannot be right"),
    "acid": (site(mix="{acidify: «always}"), "with iron"),
    "storm": (site(mix="{weather: {wind: «60 m/s}}"), "cannot be right"),
    "yes": (site(mix="{watered in: «yes}"), 'write "yes", with the quotes'),
    "strip": (site(lawns=lawn("area: 1 m², strip: «Stripe")), "no lawn"),
    "strip of itself": (site(lawns=lawn("area: 1 m², strip: «terrace")), "its own untreated strip"),
    "score's lawn": (site(scores="[{date: 2026-03-01, lawn: «Terace, quality: 5}]"), "Terrace?"),
    "score's quality": (site(scores="[{date: 2026-03-01, lawn: Terrace, quality: «10}]"), "from 1 to 9"),
    "score of nothing": (site(scores="[«{date: 2026-03-01, lawn: Terrace}]"), "nothing was scored"),
    "score twice": (site(scores="[{date: 2026-03-01, lawn: Terrace, quality: 5}, "
                    "«{date: 2026-03-01, lawn: TERRACE, colour: 5}]"), "already"),
    "brew's product": (site(brews="[{product: «Tea, batch: 5 L}]"), "there is no product"),
    "brew of a solid": (site(brews="[{product: «Salt, batch: 5 L}]"), "measured by volume"),
    "brew twice": (site(brews="[{product: Feed, batch: 5 L}, «{product: feed, batch: 5 L}]"), "already"),
    "brew's batch": (site(brews="[{product: Feed, batch: «0 L}]"), "more than 0"),
    "ingredient": (site(brews="[{product: Feed, batch: 5 L, ingredients: [{name: malt, amount: «5 h}]}]"),
                   "a mass such as 25 kg or a volume"),
    "ingredient that is a liquid": (
        site(brews="[{product: Feed, batch: 5 L, ingredients: [{name: syrup, amount: «50 g}]}]"), "such as 0.04 L"),
    "ingredient that is a liquid of no density": (
        site(brews="[{product: Syrup, batch: 5 L, ingredients: [{name: Feed, amount: «50 g}]}]"), "by volume"),
    "ingredient that is a solid": (
        site(brews="[{product: Feed, batch: 5 L, ingredients: [{name: Salt, amount: «1 L}]}]"), "a solid is weighed"),
    "programme by volume": (site(programme=programme("Salt", "«9 L/ha")), "no rate by volume"),
    "programme by mass": (site(programme=programme("Syrup", "«10 lb/acre")), "such as 8.97 L/ha"),
    "programme by mass of no density": (site(programme=programme("Feed", "«9 kg/ha")), "liquid is measured by volume"),
    "shelf by volume": (site(shelf=shelf("Salt", "«3 L")), "a solid is weighed"),
    "shelf by mass": (site(shelf=shelf("Syrup", "«3 kg")), "such as 2.4 L"),
    "place's nitrogen": (site() + "place: {most N a visit: «5 g Fe/m²}\n", "another nutrient"),
    "place's key": (site() + "place: {«most N: 5 g/m²}\n", "most N a visit?"),
    "diary's lawn": (site(diary=diary("", lawn="«Bnak")), "Bank?"),
    "diary's product": (site(diary=diary("", product="«Sale")), "Salt?"),
    "diary's person": (site(diary=diary("who: «Helper B")), "Helper A?"),
    "diary's date": (site(diary=diary("", date="«20260314")), "2026-03-01"),
    "diary's year": (site(diary=diary("", date="«2206-03-14")), "between 2000 and 2100"),
    "dry with water": (site(diary=diary("water: «1 L, left over: «1 L", method="dry")), "no 'left over'"),
    "left over": (site(diary=diary("water: 14 L, left over: «14001 mL")), "more is left over"),
    "left over without water": (site(diary=diary("left over: «1 L")), "needs the water"),
    "measured by volume": (site(diary=diary("", measured="«600 mL")), "weighed"),
    "measured by mass": (site(diary=diary("", product="Feed", measured="«600 g")), "density"),
    "measured in packs": (site(diary=diary("", measured="«2 pack")), "size of a pack"),
    "planned rate": (site(diary=diary("planned rate: «9 L/ha")), "no rate by volume"),
    "planned rate by mass": (site(diary=diary("planned rate: «10 kg/ha", product="Syrup")), "such as 8 L/ha"),
    "planned rate by mass of no density": (
        site(diary=diary("planned rate: «10 kg/ha", product="Feed", measured="6 L")), "such as 20 L/ha"),
    "frost": (site(diary=diary("temperature: «-31 degC, wind: «201 km/h")), "cannot be right"),
}  # fmt: skip


@pytest.mark.parametrize("case", WRONG)
def test_a_mistake_is_told_at_its_place_and_alone(tmp_path: Path, case: str) -> None:
    marked, said = WRONG[case]
    text, places = unmarked(marked)
    found = findings(tmp_path, text)
    assert places_of(found) == places
    assert said in "\n".join(finding.render() for finding in found)
    assert all(finding.remedy for finding in found)


@pytest.mark.parametrize(
    "changes",
    [
        {"lawns": lawn("area: 1 m², targets: {N: 1 lb/1000 ft²}")},
        {"lawns": part("add: offsets, spacing: 5 m, rule: trapezoidal, offsets: [1 m, 2 m]")},
        {"lawns": part("add: corners, points: [[0 m, 0 m], [4 m, 0 m], [4 m, 3 m], [2 m, 1 m], [0 m, 3 m]]")},
        {"lawns": part("add: triangle sides, a: 3 m, b: 400 cm, c: 699 cm")},
        {"lawns": part("add: circle, diameter: 1 m, width: ")},
        {"lawns": part(f"add: corners, points: {points(BATTLEMENT)}")},
        {"lawns": part(f"add: corners, points: {points(BATTLEMENT[::-1])}")},
        {"lawns": part(f"add: corners, points: {points([(y, x) for x, y in BATTLEMENT])}")},
        {"lawns": part(f"add: corners, points: {points([(x, x * x) for x in range(MOST_CORNERS)])}")},
        {"sprayers": sprayer("remainder: 0 L", brim="14 L")},
        {"mix": "{products: [{product: Salt, rate: 9 lb/acre}, {product: Feed, rate: 30 mL in 10 L}]}"},
        {"mix": "{date: , sprayer: }"},
        {"mix": "{weather: {wind: 200 km/h, humidity: 100 %, temperature: 60 degC}, water: {temperature: -30 degC}}"},
        {"mix": "{water: {pH: 3, alkalinity: 2000 mg CaCO3/L, hardness: 0 meq/L}, acidify: 'yes'}"},
        {"diary": ""},
        {"diary": f"[{diary('', date='2000-01-01')[1:-1]}, {diary('', date='2100-12-31')[1:-1]}]"},
        {"sprayers": sprayer("nozzle: '015'")},
        {"diary": diary("", measured="1 lb")},
        {"diary": diary("planned rate: 8 L/ha", product="Syrup", measured="1 lb")},
        {"brews": f"[{{product: Syrup, batch: 5 L, ingredients: [{SOLID}, {LIQUID}, {{name: malt, amount: 1 L}}]}}]"},
        {"diary": f"[{diary('')[1:-1]}, {diary('')[1:-1]}]"},
    ],
)
def test_what_is_right_passes(tmp_path: Path, changes: dict[str, str]) -> None:
    assert load(tmp_path, site(**changes)).lawns


def test_every_mistake_is_told_at_once_and_a_wrong_lawn_is_not_an_unknown_one(tmp_path: Path) -> None:
    text, places = unmarked(
        site(
            site="{name: Oak House, units: «metrc, currency: EUR, season starts: 1 January}",
            lawns="[{name: Terrace, grass: «cold, area: 1 m²}, {name: B, grass: warm season, area: «1 m}]",
            sprayers=sprayer("pressure: «2 L"),
            people="[«5]",
            mix="{lawns: [Terrace, «C], sprayer: Knapsack, products: [{product: «Slat}]}",
            diary=diary("who: Head, «quality: 5", lawn="B").replace("who: ", "who: «"),
        )
    )
    found = findings(tmp_path, text)
    assert places_of(found) == places


def test_the_file_and_the_catalogue_are_told_of_at_once(tmp_path: Path) -> None:
    path, catalogue = tmp_path / "lawns.yaml", tmp_path / "c.yaml"
    path.write_text(site(people="[a*]"), encoding="utf-8")
    catalogue.write_text(CATALOGUE.replace("25 kg/ha", "25 L/ha"), encoding="utf-8")
    with pytest.raises(InputError) as raised:
        load_site_and_catalogue(path, [catalogue])
    assert {finding.place.file for finding in raised.value.diagnostics} == {str(path), str(catalogue)}


def test_a_file_that_is_not_there_is_told_of(tmp_path: Path) -> None:
    with pytest.raises(InputError):
        load_site_and_catalogue(tmp_path / "none.yaml", [])


COORDINATES = st.lists(st.tuples(st.integers(0, 4), st.integers(0, 4)), min_size=3, max_size=6, unique=True)


@given(COORDINATES, st.integers(0, 5))
def test_whether_an_edge_crosses_itself_does_not_depend_on_where_it_begins(
    corners: list[tuple[int, int]], by: int
) -> None:
    turned = [*corners[by % len(corners) :], *corners[: by % len(corners)]]
    assert (_crossing(corners) is None) == (_crossing(turned) is None) == (_crossing(turned[::-1]) is None)


@given(st.lists(st.floats(0.5, 9), min_size=3, max_size=12))
def test_corners_in_order_round_a_middle_never_cross(radii: list[float]) -> None:
    step = 2 * pi / len(radii)
    corners = [(r * cos(n * step), r * sin(n * step)) for n, r in enumerate(radii)]
    assert _crossing(corners) is None


WORDS = st.sampled_from(
    ["name: ", "site: ", "lawns: ", "parts: ", "add: ", "circle", "points: ", "[", "]", "{", "}", ", ", "- ", "\n",
     "  ", "5 m", "240 m²", "mix: ", "products: ", "product: ", "diary: ", "people: ", "settings: ", "a", "5", "yes",
     "2026-01-01", "catalogue: ", "targets: ", "N: ", "offsets: ", "lawns: all\n", "basis: ", "published: ", "x: "]
)  # fmt: skip


@given(st.lists(WORDS, max_size=30).map("".join))
def test_any_file_gives_a_site_or_findings(tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    path = tmp_path_factory.mktemp("any") / "lawns.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as raised:
        load_site_and_catalogue(path, [path])
    assert raised.value.diagnostics
    assert all(finding.message and finding.place.file for finding in raised.value.diagnostics)
