"""From the records of the YAML files to the records of the tables: every table that the files fill."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from wbgen.files.diagnostics import Place, Report, did_you_mean
from wbgen.inputs.diary_rows import diary_row, not_done_row
from wbgen.inputs.lawn_rows import lawn_row, part_row, point_rows, soil_test_row
from wbgen.inputs.mix_rows import (
    chosen_more_row,
    chosen_product_row,
    chosen_row,
    chosen_target_row,
    lawns_named,
    water_row,
    weather_row,
)
from wbgen.inputs.product_rows import product_row
from wbgen.inputs.rows import Cell, Row
from wbgen.inputs.season_rows import (
    held_row,
    ingredient_row,
    line_row,
    month_rows,
    place_row,
    recipe_row,
    score_row,
)
from wbgen.inputs.sprayer_rows import catch_rows, scales_row, sprayer_row, walk_rows
from wbgen.records.catalogue import Catalogue
from wbgen.records.site.site import Site


@dataclass(frozen=True)
class Rows:
    """The records of each table, in order, and the places in the YAML files that they came from."""

    tables: Mapping[str, tuple[Row, ...]]
    places: Mapping[str, tuple[Place, ...]]


def rows_of(site: Site, catalogue: Catalogue, report: Report) -> Rows:
    """Every table that the files fill. What cannot be brought into a column goes to the report."""
    products = site.mix.products or () if site.mix else ()
    one_by_one = named if len(named := lawns_named(site)) > 1 else ()
    parts = [(lawn, part) for lawn in site.lawns for part in lawn.parts or ()]
    placed: dict[str, list[tuple[Place, Row]]] = {
        "lawns": [(lawn.place, lawn_row(lawn)) for lawn in site.lawns],
        "parts": [(part.place, part_row(lawn, part)) for lawn, part in parts],
        "points": [(part.place, row) for lawn, part in parts for row in point_rows(lawn, part)],
        "soil_tests": [
            (test.place, soil_test_row(lawn, test)) for lawn in site.lawns for test in lawn.soil_tests or ()
        ],
        "products": [(product.place, product_row(product)) for product in catalogue.products],
        "sprayers": [(sprayer.place, sprayer_row(sprayer)) for sprayer in site.sprayers],
        "catches": [(sprayer.place, row) for sprayer in site.sprayers for row in catch_rows(sprayer)],
        "walks": [(sprayer.place, row) for sprayer in site.sprayers for row in walk_rows(sprayer)],
        "water": [(site.water.place, water_row(site.water))] if site.water else [],
        "chosen": [(site.mix.place, chosen_row(site))] if site.mix else [],
        "chosen_more": [(site.mix.place, chosen_more_row(site))] if site.mix else [],
        "weather": [(site.mix.place if site.mix else Place(str(site.file)), weather_row(site))],
        "chosen_lawns": [(site.mix.place, {"lawn": lawn.name}) for lawn in one_by_one] if site.mix else [],
        "chosen_products": [(one.place, chosen_product_row(one, catalogue, report)) for one in products],
        "chosen_targets": [(one.place, chosen_target_row(one)) for one in products],
        "programme": [(line.place, line_row(line, catalogue, report)) for line in site.programme],
        "months": [(site.months.place, row) for row in month_rows(site.months)] if site.months else [],
        "shelf": [(line.place, held_row(line)) for line in site.shelf],
        "place": [(site.place.place, place_row(site.place))] if site.place else [],
        "recipes": [(brew.place, recipe_row(brew, catalogue)) for brew in site.brews],
        "ingredients": [
            (row.place, ingredient_row(brew, row, catalogue)) for brew in site.brews for row in brew.ingredients
        ],
        "scores": [(score.place, score_row(score)) for score in site.scores],
        "diary": [
            *((line.place, diary_row(line, catalogue, report)) for line in site.diary),
            *((visit.place, not_done_row(visit)) for visit in site.not_done),
        ],
        "people": [(Place(str(site.file)), {"name": name}) for name in site.people],
        "scales": [(Place(str(site.file)), scales_row(site))],
        "settings": [(Place(str(site.file)), _season(site))],
    }
    return Rows(
        {table: tuple(row for _, row in rows) for table, rows in placed.items()},
        {table: tuple(place for place, _ in rows) for table, rows in placed.items()},
    )


def _season(site: Site) -> Row:
    """When the season starts; the user's own settings of the same names come after it."""
    starts = site.details.season_starts
    return {"season_month": float(starts.month), "season_day": float(starts.day)}


Settings = Mapping[tuple[str, str], Cell]


def settings_of(
    site: Site, known: Mapping[str, tuple[str, str]], check: Callable[..., bool], report: Report
) -> Settings:
    """The user's own settings by table and column. `known` maps a setting's name to both; unknown ones are reported."""
    found: dict[tuple[str, str], Cell] = {}
    for name, setting in site.settings.items():
        at = known.get(name.replace("_", " ").casefold())
        if at is None:
            report.add(
                "unknown-setting", setting.place, f"there is no setting {name!r}",
                found=name, remedy=did_you_mean(name, known),
            )  # fmt: skip
        elif check(at, setting, report):
            found[at] = setting.measure or setting.text
    return found
