"""Planners filled with whatever a person may type: inputs drawn at random.

Everything here follows from a seed. A case begins with the starter planner, cut to few records, and has its input
columns drawn anew: blank, nothing, the least and the most allowed, usual figures, figures on the very edge of a limit,
names without a record, names in other letters.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cache, cached_property
from typing import Any, Final

import numpy as np

from wbgen.files import shipped
from wbgen.files.dates import serial
from wbgen.files.diagnostics import Report
from wbgen.inputs.from_site import fill
from wbgen.inputs.rows import cell_value
from wbgen.model.binding import Model
from wbgen.model.figures import magnitudes
from wbgen.model.inputs import DATE, TEXT, Inputs
from wbgen.records.site.site import load_site_and_catalogue
from wbgen.sheets.book import Book, compile_book, shipped_templates
from wbgen.sheets.column import Column, System
from wbgen.sheets.compile import Compiled
from wbgen.sheets.layout import Layout, lay_out

TODAY: Final = date(2026, 6, 30)
CAPACITIES: Final = {
    "lawns": 5, "parts": 9, "points": 14, "products": 9, "sprayers": 4, "catches": 6, "diary": 20,
    "diary_lines": 40, "programme": 7, "applications": 24, "pairs": 16, "shelf": 8,
    "scores": 12, "soil_tests": 7, "recipes": 3, "ingredients": 5, "facts": 2, "sources": 2,
}  # fmt: skip
"""Records of a case: few, so that it is quick. The names are those of the capacities of a build."""

USUAL: Final[Mapping[str, str]] = {
    "typed_area": "240 m²", "most_nitrogen_month": "3 g/m²", "target": "9 g/m²", "part_treated": "60 m²",
    "first_length": "12 m", "second_length": "7 m", "third_length": "9 m", "along": "6 m", "offset": "4 m",
    "density": "1.2 kg/L", "stated": "12 %", "element": "5 %", "spray": "5", "dry": "3", "ammonium_nitrogen": "10 %",
    "nitrate_nitrogen": "4 %", "urea_nitrogen": "5 %", "slow_nitrogen": "6 %", "release_time": "90 day",
    "least_carrier": "400 L/ha", "usual_carrier": "600 L/ha", "least_interval": "14 day", "most_a_year": "6",
    "dry_least_interval": "28 day", "dry_most_a_year": "4", "dry_nitrogen": "2 g N/m²", "dry_iron": "2 g Fe/m²",
    "dry_iron_stop": "4 g Fe/m²", "volume_basis": "1 kg/L",
    "volume_tolerance": "5 %", "target_tolerance": "10 %",
    "solubility_cold": "300 g/L", "solubility_mild": "400 g/L", "salt_index": "80", "dissolved_solids": "200 g/L",
    "mixing_place": "4", "pack_mass": "10 kg/pack", "pack_volume": "10 L/pack", "price": "20",
    "brim": "15 L", "working": "14 L", "remainder": "0.5 L", "jar_dilution": "20", "passes": "2",
    "tested_phosphate": "24 mg P/kg", "tested_potash": "61 mg K/kg",
    "tested_area": "50 m²", "tested_water": "1.5 L", "swath": "1 m", "walk_distance": "20 m", "walk_time": "18 s",
    "pressure": "2 bar", "wanted_carrier": "600 L/ha", "caught": "610 mL", "catch_time": "30 s",
    "own_rate_mass": "2 g/m²", "own_rate_volume": "0.6 mL/m²", "wanted": "0.3 g/m²", "overlap": "5 %",
    "water_temperature": "12 degC", "hardness": "3 meq/L", "wind": "8 km/h", "air_temperature": "18 degC",
    "humidity": "60 %", "weighed": "600 g", "poured": "300 mL", "water": "14 L", "left_over": "2 L",
    "planned_mass_rate": "2.5 g/m²", "planned_volume_rate": "2 mL/m²", "treated_area": "200 m²", "rain": "1 mm",
    "rain_time": "48 h", "quality": "6", "colour": "7", "clippings": "20 mL/m²", "moss": "5 %",
    "batch": "20 L", "brewing_time": "24 h", "use_within": "8 h", "extra": "10 %", "mass": "500 g", "volume": "40 mL",
    "most_nitrogen": "0.2 g N/m²", "most_soluble": "0.1 g N/m²", "mean_temperature": "9 degC",
    "ph": "7.8", "alkalinity": "250 mg CaCO3/L", "wanted_ph": "6", "humate_ph": "5.5",
}  # fmt: skip
"""A usual figure of each column, or of each family of columns by the beginning of their keys."""


@dataclass(frozen=True)
class Base:
    """The starter planner that cases begin with."""

    book: Book
    inputs: Inputs
    capacities: Mapping[str, int]

    @cached_property
    def layout(self) -> Layout:
        return lay_out(self.book.sheets, self.capacities)

    @cached_property
    def compiled(self) -> Mapping[str, Mapping[str, Compiled]]:
        return compile_book(self.book, self.layout.placed)

    @cached_property
    def model(self) -> Model:
        """For the texts of formula columns that an input may choose from."""
        return Model(self.inputs)


@cache
def base(system: System) -> Base:
    site, catalogue = load_site_and_catalogue(shipped.starter(), (shipped.product_catalogue(),))
    book = shipped_templates().book(system)
    report = Report()
    filled = fill(book, site, catalogue, CAPACITIES["diary"], TODAY, report)
    report.raise_any()
    return Base(book, filled.inputs, {**filled.capacities, **CAPACITIES})


def usual_figure(key: str, unit: str) -> float | None:
    """A usual figure of a column in its unit; None where it has none."""
    stems = [stem for stem in USUAL if key == stem or key.startswith(stem + "_")]
    return cell_value(USUAL[max(stems, key=len)], unit) if stems else None


class Case:
    """One planner, drawn from a seed.

    `wild` is the share of cells outside diary and mix that are drawn anew, `empty` that of drawn cells left blank,
    `pasted` that of blank input cells which hold an empty text. A calm case changes only the mix, the diary and a
    sprayer, and has no weather against it.
    """

    def __init__(self, seed: str, system: System) -> None:
        self.draw = random.Random(f"{seed} {system}")  # noqa: S311
        self.seed, self.system, self.base = seed, system, base(system)
        self.book = self.base.book
        self.calm = self.draw.random() < 0.5
        self.wild = 0.0 if self.calm else self.draw.choice((0.02, 0.1, 0.4))
        self.empty = self.draw.choice((0.05, 0.2, 0.6))
        self.pasted = self.draw.choice((0.0, 0.0, 0.2, 1.0))
        self.values = {key: dict(columns) for key, columns in self.base.inputs.values.items()}
        self.records = dict(self.base.inputs.records)
        self._cut()

    def inputs(self) -> Inputs:
        for key, table in self.book.tables.items():
            for column in table.columns:
                if column.role == "input":
                    self._column(key, column)
        self._tame()
        inputs = replace(self.base.inputs, values=self.values, records=self.records)
        self._sharpen(inputs)
        return inputs

    def _cut(self) -> None:
        """Leave only as many records as CAPACITIES has, products drawn from the whole catalogue."""
        for key, table in self.book.tables.items():
            if not isinstance(table.records, str) or table.records not in CAPACITIES:
                self.values[key] = {name: column.copy() for name, column in self.values[key].items()}
                continue
            count, had = CAPACITIES[table.records], self.records[key]
            kept = list(range(had)) + [had - 1] * max(0, count - had)
            if key == "products":
                kept = self.draw.sample(range(had), count)
            self.records[key] = count
            self.values[key] = {name: column[kept[:count]].copy() for name, column in self.values[key].items()}
            if key == "points":  # a corner that stands twice would be an edge that touches itself
                self.values[key]["lawn"][had:] = ""
            for column in table.columns:
                if column.meaning.running:
                    self.values[key][column.key] = np.arange(1.0, count + 1)

    def _column(self, key: str, column: Column) -> None:
        """Draw the figures of one column: most of them in the mix and the diary, some elsewhere."""
        share = SHARES.get(key, min(self.wild, 0.1) if key in ("settings", "rules") else self.wild)
        figures = self.values[key][column.key]
        for record in range(self.records[key]):
            if self.draw.random() < share:
                figures[record] = self.figure(key, column, figures)

    def _tame(self) -> None:
        """Leave few products and one way to a rate for most of them, so that some mixes may go."""
        draw, mix, weather = self.draw, self.values["chosen"], self.values["weather"]
        chosen = self.values["chosen_products"]
        typed = chosen | self.values["chosen_targets"]
        rates = [key for key in typed if key == "own_rate" or key.startswith("wanted_")]
        self.values["chosen"]["tank"][0] = draw.choice((np.nan,) * 7 + (1.0, 1.0, 2.0))
        count = draw.choice((1, 1, 2) if self.calm else (0, 1, 2, 3, self.records["mix_products"]))
        for record in range(self.records["mix_products"]):
            way = draw.choice(("usual",) * 5 + ("own",) * 3 + ("wanted",) * 2 + ("any",))
            kept = {"usual": [], "own": ["own_rate"], "wanted": [draw.choice(rates)], "any": rates}[way]
            for key in set(rates) - set(kept):
                typed[key][record] = np.nan
            if record >= count:
                chosen["product"][record] = ""
            elif self.calm and way == "usual":
                chosen["product"][record] = draw.choice(self._sprayed())
        if self.calm:
            weather["heavy_rain"][0], weather["wet_ground"][0], weather["wind"][0] = "no", "", np.nan
            mix["wanted_carrier"][0] = draw.choice((np.nan, mix["wanted_carrier"][0]))
            self.values["chosen_lawns"]["part_treated"][:] = np.nan
            self.values["chosen_lawns"]["lawn"][:] = ""
            mix["lawns"][0] = draw.choice([name for name in self.values["lawns"]["name"] if name])
        if draw.random() < 0.3:
            sprayer = self.values["sprayers"]
            place = draw.randrange(self.records["sprayers"])
            sprayer["kind"][place], sprayer["jar_dilution"][place] = "hose-end", draw.choice((20.0, 100.0, np.nan))
            mix["sprayer"][0] = sprayer["name"][place]

    def _sprayed(self) -> list[str]:
        """Names of the products that have a usual rate for spraying."""
        products = self.values["products"]
        return [str(name) for name, rate in zip(products["name"], products["spray_usual"], strict=True) if rate > 0]

    def figure(self, key: str, column: Column, known: Any) -> Any:
        unit = self.book.units[key][column.key]
        draw = self.draw
        essential = (key, column.key) in ESSENTIAL
        if draw.random() < (0.1 if essential else self.empty):
            return "" if unit == TEXT else np.nan
        if unit == DATE:
            return self.day()
        if unit == TEXT:
            return self.text(column, known)
        return self.number(column, unit, known)

    def day(self) -> float:
        today = serial(TODAY)
        edges = (0, -1, 1, -29, -30, -31, 30, -14, -180, -181, 184)
        noon = 0.5 if self.draw.random() < 0.03 else 0.0
        return today + noon + (self.draw.choice(edges) if self.draw.random() < 0.6 else self.draw.randrange(-900, 60))

    def text(self, column: Column, known: Any) -> str:
        draw = self.draw
        if isinstance(column.accepts.choices, str):
            table, _, key = column.accepts.choices.partition(".")
            offered = self.values[table][key] if key in self.values[table] else self.base.model.column(table, key)
            names = [name for name in offered if name] or [""]
            chosen = str(draw.choice(names))
            return draw.choice((chosen,) * 12 + (chosen.upper(), chosen.lower(), "Nobody's"))
        if column.accepts.choices:
            chosen = draw.choice(column.accepts.choices)
            return draw.choice((chosen,) * 12 + (chosen.upper(),))
        if column.key == "months_suited":
            return "".join(draw.choice("x-") for _ in range(draw.choice((12, 12, 12, 5))))
        return str(draw.choice([*filter(None, known), "court", "bank", "iron", " two  words "]))

    def number(self, column: Column, unit: str, known: Any) -> float:
        draw = self.draw
        edges = [edge for edge in (column.accepts.minimum, column.accepts.maximum) if edge is not None]
        if edges and draw.random() < 0.15:
            return float(draw.choice(edges))
        whole = column.look.digits == 0 and not unit
        usual = self.usual(column, unit, known)
        value = usual * draw.choice((1, 1, 1, 0.5, 2, 0.1, 10, 1 / 3))
        if "deg" in unit and "delta" not in unit:
            value = cell_value(f"{draw.choice((-5, 0, 5, 10, 12, 15, 20, 25, 27, 28, 35))} degC", unit)
        elif column.accepts.minimum is None and draw.random() < 0.3:
            value = -value
        value = max(value, column.accepts.minimum if column.accepts.minimum is not None else value)
        value = min(value, column.accepts.maximum if column.accepts.maximum is not None else value)
        return float(round(value)) if whole else value

    def usual(self, column: Column, unit: str, known: Any) -> float:
        there = [float(one) for one in known if not np.isnan(one)]
        figure = usual_figure(column.key, unit)
        if there and (figure is None or self.draw.random() < 0.5):
            return self.draw.choice(there)
        return 1.0 if figure is None else figure

    def _sharpen(self, inputs: Inputs) -> None:
        """Move some figures onto the edge that the model finds for them, or onto a whole part of it."""
        model = Model(inputs)
        for (key, name), edge in EDGES.items():
            figures = self.values[key][name]
            found = magnitudes(model.column(*edge), self.book.units[edge[0]][edge[1]], self.records[edge[0]])
            there = [float(one) for one in found if one > 0]
            for record in range(self.records[key] if there else 0):
                if self.draw.random() < 0.15:
                    own = found[record] if len(found) == len(figures) else np.nan
                    edge_of = float(own) if own > 0 else self.draw.choice(there)
                    figures[record] = edge_of * self.draw.choice((1, 1, 0.5, 1 / 3))


SHARES: Final = {
    "diary": 1.0, "chosen": 0.8, "chosen_more": 0.8, "weather": 0.8, "chosen_products": 1.0,
    "chosen_targets": 1.0, "chosen_lawns": 0.7, "season_view": 1.0, "programme": 0.5, "shelf": 1.0,
    "round": 0.7, "scores": 1.0, "soil_tests": 1.0, "recipes": 0.7, "ingredients": 0.7, "place": 0.4,
    "water": 0.6,
}  # fmt: skip
"""Which part of a table's figures is drawn anew in every case."""
ESSENTIAL: Final = {
    ("chosen", "sprayer"), ("chosen_products", "product"), ("chosen_lawns", "lawn"),
    ("diary", "date"), ("diary", "lawn"), ("diary", "product"), ("diary", "method"), ("lawns", "name"),
    ("products", "name"), ("sprayers", "name"), ("programme", "product"), ("programme", "first"),
    ("programme", "last"), ("shelf", "date"), ("shelf", "product"), ("shelf", "deed"),
    ("soil_tests", "date"), ("soil_tests", "lawn"), ("soil_tests", "method"),
    ("scores", "date"), ("scores", "lawn"), ("recipes", "product"), ("ingredients", "product"),
}  # fmt: skip
"""Columns that are seldom left blank."""
EDGES: Final = {
    ("chosen_products", "own_rate"): ("mix_products", "label_mass_high"),
    ("scales", "fine_scale_capacity"): ("mix_products", "exact_mass_full"),
    ("scales", "fine_jug_capacity"): ("mix_products", "exact_volume_full"),
    ("sprayers", "working"): ("mix", "spray_volume"),
    ("chosen", "wanted_carrier"): ("mix", "delivered_carrier"),
    ("chosen_lawns", "part_treated"): ("mix_lawns", "lawn_area"),
    ("limits", "stop_iron"): ("mix_checks", "found_iron"),
    ("limits", "ask_nitrogen"): ("mix_checks", "found_nitrogen"),
    ("limits", "ask_salt_load"): ("mix_checks", "found_salt_load"),
    ("limits", "ask_salts"): ("diary", "visit_salts"),
    ("limits", "stop_nitrogen"): ("diary", "visit_nitrogen"),
    ("products", "least_carrier"): ("mix", "carrier_volume"),
    ("settings", "dry_iron"): ("diary", "visit_iron"),
    ("settings", "dry_nitrogen"): ("diary", "visit_nitrogen"),
    ("diary", "left_over"): ("diary", "water"),
    ("water", "wanted_ph"): ("mix_water", "ph"),
    ("limits", "ask_iron_ph"): ("mix_checks", "found_iron_ph"),
    ("limits", "ask_alkalinity"): ("mix_checks", "found_alkalinity"),
}  # fmt: skip
"""Inputs, and the figure that each is compared with."""
