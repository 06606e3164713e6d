"""Planners built once a run: three sites, both systems of units."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property
from pathlib import Path
from typing import Any, Final

import openpyxl

from support.pocket_planner import POCKET, POCKET_SITE
from support.shared import Shared
from wbgen.build import Planner, build
from wbgen.files import shipped
from wbgen.files.dates import serial
from wbgen.files.xlsx.workbook import File, read
from wbgen.inputs.design import Design
from wbgen.model.inputs import Inputs
from wbgen.records.catalogue import load_catalogue
from wbgen.records.product import Product
from wbgen.sheets.book import Book
from wbgen.sheets.column import Column, System
from wbgen.sheets.layout import Layout, Placed
from wbgen.verify.engine.process import evaluating
from wbgen.verify.verification import Verification, verify

TODAY: Final = date(2026, 6, 30)
SITES: Final = ("starter", "empty", "full")
SYSTEMS: Final[tuple[System, ...]] = ("metric", "us")
ALL: Final = tuple((site, system) for site in SITES for system in SYSTEMS)
DIARY_LINES: Final = 200
DIARY_ROWS: Final = 30
POCKET_ROWS: Final = 12

EMPTY: Final = """\
site: {name: Bare House, units: metric, currency: EUR, season starts: 1 January}
lawns: [{name: Only lawn, grass: cool season, area: 100 m²}]
"""

VISITS: Final = """\
site: {name: Full House, units: metric, currency: EUR, season starts: 1 March, as of: 2026-06-30}
lawns:
  - name: Terrace
    grass: cool season
    area: 240 m²
    targets: {N: 12 g/m², P2O5: 2 g/m², K2O: 9 g/m², MgO: 1 g/m², Fe: 0.8 g/m²}
    most N a month: 3 g/m²
    notes: "=1+1"
  - name: Bank
    grass: warm season
    parts:
      - {name: main, add: rectangle, length: 20 m, width: 12 m}
      - {name: bed, cut out: circle, diameter: 3 m}
      - {name: gore, add: triangle sides, a: 3 m, b: 4 m, c: 5 m}
      - {name: corner, add: triangle, base: 6 m, height: 4 m}
      - {name: pond, cut out: ellipse, length: 5 m, width: 3 m}
      - {name: slope, add: trapezium, side: 10 m, other side: 14 m, height: 6 m}
      - {name: edge, add: offsets, spacing: 5 m, rule: trapezoidal, offsets: [3.1 m, 4.3 m, 5 m, 2 m]}
      - {name: bay, add: offsets, spacing: 5 m, rule: simpson, offsets: [0 m, 4.3 m, 5 m, 2 m, 0 m]}
      - {name: plot, add: corners, points: [[0 m, 0 m], [10 m, 0 m], [10 m, 8 m], [4 m, 9 m]]}
    notes: "+49 by the gate"
sprayers:
  - {name: Knapsack, kind: knapsack, brim: 15 L, working: 14 L, passes: 2, remainder: 0.2 L, swath: 1 m, nozzle: "03",
     pressure: 2 bar, known area: {sprayed: 50 m², used: 1.5 L}, walk: {distance: 20 m, seconds: 18}}
  - {name: Boom, kind: boom, brim: 60 L, working: 55 L, remainder: 1.5 L, passes: 1, swath: 2 m, nozzle: "04",
     pressure: 2 bar, catch: {seconds: 60, volumes: [1290 mL, 1310 mL, 1335 mL, 1300 mL]},
     walk: {distance: 50 m, seconds: 45}}
  - {name: Hose, kind: hose-end, brim: 1 L, working: 1 L, passes: 1, jar: {capacity: 1 L, dilution: 20}}
scales:
  - {name: fine scale, measures: weight, step: 1 g, capacity: 500 g}
  - {name: kitchen scale, measures: weight, step: 5 g, capacity: 5 kg}
  - {name: syringe, measures: volume, step: 1 mL, capacity: 60 mL}
  - {name: jug, measures: volume, step: 10 mL, capacity: 1 L}
people: [Head gardener]
water: {pH: 8.1, alkalinity: 4 meq/L, hardness: 5 meq/L, wanted pH: 6, citric acid: monohydrate}
mix:
  date: 2026-07-01
  lawns: [Bank, Terrace]
  sprayer: Knapsack
  carrier volume: 600 L/ha
  water: {temperature: 12 degC, pH: 7.6, alkalinity: 180 mg CaCO3/L, hardness: 2 meq/L}
  acidify: with iron
  watered in: "yes"
  loads: full and part
  overlap: 5 %
  weather: {wind: 8 km/h, temperature: 18 degC, humidity: 60 %, heavy rain: "no", frozen or waterlogged: "no"}
  products:
    - {product: Ammonium sulphate}
    - {product: Seaweed extract, rate: 8 L/ha}
    - {product: Urea, wanted: 0.3 g N/m²}
    - {product: Non-ionic wetting agent}
    - {product: Ferrous sulphate heptahydrate, rate: 0.5 g/m²}
"""

SEASON: Final = """\
months:
  mean temperatures: [4 degC, 4 degC, 6 degC, 8 degC, 11 degC, 14 degC, 16 degC, 16 degC, 13 degC, 10 degC, 7 degC,
    5 degC]
  closed: [12]
place: {rule: Terms of the permit, most N a visit: 4 g/m², most soluble N a visit: 3 g/m², no phosphorus: "yes"}
programme:
  - {product: Ammonium sulphate, lawn: Terrace, first: 2026-04-08, last: 2026-12-16, every: 28 days}
  - {product: Compost tea, lawn: Bank, first: 2026-06-30, last: 2026-08-25, every: 7 days}
shelf:
  - {date: 2026-03-01, product: Ammonium sulphate, deed: counted, packs: 1, amount: 2 kg}
brews:
  - product: Compost tea
    batch: 5 L
    brewing: 24 h
    use within: 8 h
    extra: 5 %
    ingredients:
      - {name: ripe compost, amount: 250 g, note: in a bag}
      - {name: seaweed extract, amount: 12 mL}
"""

STRIP: Final = "  - {name: Strip, grass: cool season, area: 20 m²}\nsprayers:\n"
FULL: Final = (
    VISITS.replace("    most N a month", "    strip: Strip\n    most N a month", 1).replace("sprayers:\n", STRIP, 1)
    + SEASON
)
"""A site with a season: programme, shed, brews, an untreated strip, limits of the place."""


def diary_line(draw: random.Random, product: Product, number: int) -> str:
    """One line with every field said; dates run over three years, and some notes begin like formulas."""
    day = TODAY - timedelta(days=draw.randrange(-10, 800))
    liquid = product.form in ("liquid", "brew")
    method = "spray" if product.spray else "dry"
    planned = "20 L/ha" if liquid else "20 kg/ha"
    water = f"water: {draw.randrange(10, 20)} L, left over: {draw.randrange(3)} L, " if method == "spray" else ""
    return (
        f"  - {{date: {day}, lawn: {draw.choice(['Terrace', 'Bank'])}, product: {product.name}, method: {method}, "
        f"measured: {draw.randrange(1, 900)} {'mL' if liquid else 'g'}, "
        f"{water}planned rate: {planned}, treated area: {draw.randrange(100, 240)} m², "
        f"who: Head gardener, temperature: {draw.randrange(5, 30)} degC, wind: 6 km/h, "
        f"rain: {draw.randrange(1, 10)} mm, "
        f'note: "{"=+-@"[number % 4]}SUM(A1)"}}\n'
    )


def score_lines() -> str:
    """Scores of all three lawns, every ten days for two years: some figures are missing, one lawn is scored twice."""
    draw = random.Random(20240630)  # noqa: S311 - the same lines every time
    lines = []
    for ago in range(700, 0, -10):
        for lawn in ("Terrace", "Strip", "Bank"):
            figures = {
                "quality": f"{draw.randrange(2, 19) / 2}",
                "colour": f"{draw.randrange(2, 19) / 2}",
                "clippings": f"{draw.randrange(40)} mL/m²",
                "moss": f"{draw.randrange(30)} %",
            }
            said = ", ".join(f"{key}: {figure}" for key, figure in figures.items() if draw.random() < 0.9)
            lines.append(f"  - {{date: {TODAY - timedelta(days=ago)}, lawn: {lawn}, {said or 'quality: 5'}}}\n")
    return "scores:\n" + "".join(lines)


def site_text(site: str) -> str:
    """The lawns.yaml of one of SITES."""
    if site == "starter":
        return shipped.starter().read_text("utf-8")
    if site == "empty":
        return EMPTY
    draw = random.Random(20260630)  # noqa: S311 - the same lines every time
    products = [p for p in load_catalogue([shipped.product_catalogue()], []).products if p.spray or p.dry]
    return (
        FULL
        + score_lines()
        + "diary:\n"
        + "".join(diary_line(draw, draw.choice(products), number) for number in range(DIARY_LINES))
    )


@dataclass(frozen=True)
class Built:
    """A planner as it was built and as it is read again. Lazily; change nothing in it."""

    path: Path
    made: Planner
    shared: Shared
    design: Design

    @property
    def lawns(self) -> Path:
        """The lawns.yaml that it was built of."""
        return self.path.with_suffix(".yaml")

    @property
    def book(self) -> Book:
        return self.made.book

    @property
    def inputs(self) -> Inputs:
        return self.made.inputs

    @property
    def placed(self) -> dict[str, Placed]:
        return dict(self.made.layout.placed)

    @cached_property
    def file(self) -> File:
        return read(self.path)

    @cached_property
    def sheets(self) -> Any:
        """The workbook as openpyxl reads it, formulas as text."""
        return openpyxl.load_workbook(self.path)

    @cached_property
    def values(self) -> dict[str, list[list[Any]]]:
        """What the engine makes of every cell, by sheet, row and column from 0."""
        return self.shared.once(f"{self.path.stem} values", lambda: evaluated(self.path, self.file))

    @cached_property
    def verified(self) -> Verification:
        """What verify says of it, untouched."""
        return self.shared.once(f"{self.path.stem} verified", lambda: self.verify(self.path))

    def verify(self, path: Path) -> Verification:
        """What verify says of a file made of this planner's."""
        return verify(path, design=self.design)

    def columns(self, role: str) -> Iterator[tuple[Placed, Column]]:
        """Every column of one role, with its table."""
        for placed in self.placed.values():
            for column in placed.table.columns:
                if column.role == role:
                    yield placed, column

    def cells(self, role: str) -> Iterator[tuple[str, int, int]]:
        """Sheet, row and column (from 0) of every cell of the columns of one role."""
        for placed, column in self.columns(role):
            for record in range(self.inputs.records[placed.table.key]):
                yield placed.sheet, *placed.cell(column.key, record)

    def formulas(self) -> Iterator[tuple[str, int, int, str]]:
        """Sheet, row and column (from 0) and text of every formula that stands in the file."""
        for sheet in self.file.sheets:
            for (row, column), cell in sheet.cells.items():
                if cell.formula is not None:
                    yield sheet.name, row, column, cell.formula


def evaluated(path: Path, file: File, today: float = serial(TODAY)) -> dict[str, list[list[Any]]]:
    """What the engine makes of every cell of a file, by sheet, row and column from 0."""
    with evaluating(path) as engine:
        engine.begin(today)
        return engine.values(file)


def built_once(
    shared: Shared, name: str, text: str, system: System, *,
    diary_rows: int = DIARY_ROWS, today: date = TODAY, design: Design | None = None,
) -> Built:  # fmt: skip
    """The planner of the text of a lawns.yaml: built once a run. Other workers read its layout and its inputs."""
    path = shared.folder / f"{name}-{system}.xlsx"
    lawns = path.with_suffix(".yaml")
    design = design or Design()

    def make() -> tuple[Layout, Inputs]:
        lawns.write_text(text, encoding="utf-8")
        made = build(lawns, path, system=system, diary_rows=diary_rows, today=today, design=design)
        return made.layout, made.inputs

    layout, inputs = shared.once(path.stem, make)
    return Built(path, Planner(design.templates.book(system), layout, inputs), shared, design)


class Planners:
    """The planners of SITES, and the pocket one. A planner is built when it is first asked for in a run."""

    def __init__(self, shared: Shared) -> None:
        self.shared = shared
        self.known: dict[tuple[str, System], Built] = {}

    def get(self, site: str, system: System) -> Built:
        if (site, system) not in self.known:
            self.known[site, system] = (
                built_once(self.shared, site, POCKET_SITE, system, diary_rows=POCKET_ROWS, design=POCKET)
                if site == "pocket"
                else built_once(self.shared, site, site_text(site), system)
            )
        return self.known[site, system]
