"""From the records of the YAML files to the columns of the tables."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from wbgen.files.diagnostics import Place, Report, did_you_mean
from wbgen.inputs.product_rows import product_row
from wbgen.inputs.rows import Cell, Row
from wbgen.inputs.season_rows import held_row, ingredient_row, month_rows, place_row, recipe_row, score_row
from wbgen.records.catalogue import Catalogue
from wbgen.records.fields import Measure
from wbgen.records.product import Product
from wbgen.records.site.diary import Application
from wbgen.records.site.lawn import Lawn
from wbgen.records.site.lawn_parts import Part
from wbgen.records.site.mix import MixProduct
from wbgen.records.site.programme import Line
from wbgen.records.site.site import Site
from wbgen.records.site.sprayer import Sprayer
from wbgen.trade.nutrients import NUTRIENTS, CountedForm, counted_form


@dataclass(frozen=True)
class Rows:
    """The records of each table, in order, and the places in the YAML files that they came from."""

    tables: Mapping[str, tuple[Row, ...]]
    places: Mapping[str, tuple[Place, ...]]


def rows_of(site: Site, catalogue: Catalogue, report: Report) -> Rows:
    """Every table that the files fill. What cannot be brought into a column goes to the report."""
    parts = [(lawn, part) for lawn in site.lawns for part in lawn.parts or ()]
    placed: dict[str, list[tuple[Place, Row]]] = {
        "lawns": [(lawn.place, _lawn(lawn)) for lawn in site.lawns],
        "parts": [(part.place, _part(lawn, part)) for lawn, part in parts],
        "points": [(part.place, row) for lawn, part in parts for row in _points(lawn, part)],
        "products": [(product.place, product_row(product)) for product in catalogue.products],
        "sprayers": [(sprayer.place, _sprayer(sprayer)) for sprayer in site.sprayers],
        "catches": [(sprayer.place, row) for sprayer in site.sprayers for row in _catches(sprayer)],
        "mix": [(site.mix.place, _mix(site))] if site.mix else [],
        "mix_lawns": [(site.mix.place, {"lawn": lawn.name}) for lawn in _named_lawns(site)] if site.mix else [],
        "mix_products": [
            (chosen.place, _mix_product(chosen, catalogue, report))
            for chosen in (site.mix.products or () if site.mix else ())
        ],
        "programme": [(line.place, _line(line, catalogue, report)) for line in site.programme],
        "months": [(site.months.place, row) for row in month_rows(site.months)] if site.months else [],
        "shelf": [(line.place, held_row(line)) for line in site.shelf],
        "place": [(site.place.place, place_row(site.place))] if site.place else [],
        "recipes": [(brew.place, recipe_row(brew, catalogue)) for brew in site.brews],
        "ingredients": [
            (row.place, ingredient_row(brew, row, catalogue)) for brew in site.brews for row in brew.ingredients
        ],
        "scores": [(score.place, score_row(score)) for score in site.scores],
        "diary": [(line.place, _application(line, catalogue, report)) for line in site.diary],
        "scales": [(Place(str(site.file)), _scales(site))],
        "settings": [(Place(str(site.file)), _season(site))],
        "start": [(Place(str(site.file)), {"planner_date": site.details.as_of})],
    }
    return Rows(
        {table: tuple(row for _, row in rows) for table, rows in placed.items()},
        {table: tuple(place for place, _ in rows) for table, rows in placed.items()},
    )


def _lawn(lawn: Lawn) -> Row:
    keys = {nutrient.symbol: nutrient.key for nutrient in NUTRIENTS}
    return {
        "name": lawn.name,
        "grass": lawn.grass,
        "group": lawn.group,
        "walking_order": None if lawn.walking_order is None else float(lawn.walking_order),
        "typed_area": lawn.area,
        "most_nitrogen_month": lawn.most_N_a_month,
        "strip": lawn.strip,
        "notes": lawn.notes,
        **{f"target_{keys[symbol]}": rate for symbol, rate in (lawn.targets or {}).items()},
    }


_LENGTHS: dict[str, tuple[str, ...]] = {
    "rectangle": ("length", "width"),
    "triangle": ("base", "height"),
    "triangle sides": ("a", "b", "c"),
    "circle": ("diameter",),
    "ellipse": ("length", "width"),
    "trapezium": ("side", "other_side", "height"),
    "offsets": ("spacing",),
    "corners": (),
}
_RULES = {"trapezoidal": "offsets, trapezoidal", "simpson": "offsets, Simpson"}


def _part(lawn: Lawn, part: Part) -> Row:
    lengths = zip(("first_length", "second_length", "third_length"), _LENGTHS[part.shape], strict=False)
    return {
        "lawn": lawn.name,
        "part": part.name,
        "sign": "add" if part.add else "cut out",
        "shape": _RULES[part.rule or "trapezoidal"] if part.shape == "offsets" else part.shape,
        **{column: getattr(part, name) for column, name in lengths},
    }


def _points(lawn: Lawn, part: Part) -> Iterator[Row]:
    for offset in part.offsets or ():
        yield {"lawn": lawn.name, "part": part.name, "offset": offset}
    for along, across in part.points or ():
        yield {"lawn": lawn.name, "part": part.name, "along": along, "offset": across}


def _sprayer(sprayer: Sprayer) -> Row:
    return {
        "name": sprayer.name,
        "kind": sprayer.kind,
        "brim": sprayer.brim,
        "working": sprayer.jar.capacity if sprayer.jar else sprayer.working,
        "remainder": sprayer.remainder,
        "wanted_carrier": sprayer.carrier_volume,
        "jar_dilution": sprayer.jar.dilution if sprayer.jar else None,
        "passes": float(sprayer.passes),
        "tested_area": sprayer.known_area.sprayed if sprayer.known_area else None,
        "tested_water": sprayer.known_area.used if sprayer.known_area else None,
        "swath": sprayer.swath,
        "walk_distance": sprayer.walk.distance if sprayer.walk else None,
        "walk_time": sprayer.walk.seconds if sprayer.walk else None,
        "nozzle_size": sprayer.nozzle,
        "pressure": sprayer.pressure,
    }


def _catches(sprayer: Sprayer) -> Iterator[Row]:
    if sprayer.catch:
        for number, volume in enumerate(sprayer.catch.volumes, 1):
            yield {
                "sprayer": sprayer.name,
                "nozzle": str(number),
                "caught": volume,
                "catch_time": sprayer.catch.seconds,
            }


def _scales(site: Site) -> Row:
    """Two scales and two jugs: the one with the smaller step is the fine one, used as far as its capacity goes."""
    row: Row = {}
    for measures, word in (("weight", "scale"), ("volume", "jug")):
        own = sorted((s for s in site.scales if s.measures == measures), key=lambda s: s.step.quantity.exact)
        for grade, scale in zip(("fine", "coarse"), (own * 2)[:2] if len(own) == 1 else own, strict=False):
            row[f"{grade}_{word}_step"] = scale.step
            if grade == "fine":
                row[f"fine_{word}_capacity"] = scale.capacity
    return row


def _season(site: Site) -> Row:
    """When the season starts; the user's own settings of the same names come after it."""
    starts = site.details.season_starts
    return {"season_month": float(starts.month), "season_day": float(starts.day)}


def _named_lawns(site: Site) -> tuple[Lawn, ...]:
    named = site.mix.lawns or () if site.mix else ()
    by_name = {lawn.name.casefold(): lawn for lawn in site.lawns}
    return tuple(by_name[name.casefold()] for name in named if name.casefold() in by_name)


def _mix(site: Site) -> Row:
    mix = site.mix
    if mix is None:
        return {}
    water, weather = mix.water, mix.weather
    return {
        "date": mix.date,
        "sprayer": mix.sprayer,
        "which_lawns": "all" if mix.lawns and not _named_lawns(site) else "listed",
        "wanted_carrier": mix.carrier_volume,
        "loads_style": mix.loads or "equal",
        "watered_in": mix.watered_in or "no",
        "overlap": mix.overlap,
        "water_temperature": water.temperature if water else None,
        "hardness": water.hardness if water else None,
        "wind": weather.wind if weather else None,
        "air_temperature": weather.temperature if weather else None,
        "humidity": weather.humidity if weather else None,
        "heavy_rain": weather.heavy_rain if weather else None,
        "wet_ground": weather.frozen_or_waterlogged if weather else None,
    }


def _mix_product(chosen: MixProduct, catalogue: Catalogue, report: Report) -> Row:
    product = catalogue.product(chosen.product)
    row: Row = {"product": product.name if product else chosen.product}
    if chosen.rate is not None:
        row |= _by_kind(chosen.rate, "own_rate_mass", "own_rate_volume", report)
    if chosen.wanted is not None:
        form = counted_form(chosen.wanted.quantity.nutrient or "")
        row["wanted_" + form.nutrient.key] = _counted(chosen.wanted, form)
    return row


def _counted(wanted: Measure, form: CountedForm) -> Cell:
    """A wanted nutrient in the form that is counted: a label's element as its oxide."""
    if form.factor == 1:
        return wanted
    return f"{wanted.to(f'g_{form.nutrient.element}/m**2') * float(form.factor)!r} g {form.nutrient.symbol}/m²"


def _by_kind(rate: Measure, solid: str, liquid: str, report: Report) -> Row:
    if rate.kind not in ("mass rate", "volume rate"):
        report.add(
            "rate-kind", rate.place, "this rate must be a mass or a volume by area",
            expected="a rate such as 2.5 g/m² or 8 L/ha", found=rate.text,
            remedy="leave it out for the usual rate, or write wanted: for a nutrient",
        )  # fmt: skip
        return {}
    return {solid if rate.kind == "mass rate" else liquid: rate}


def _line(line: Line, catalogue: Catalogue, report: Report) -> Row:
    product = catalogue.product(line.product)
    row: Row = {
        "product": product.name if product else line.product,
        "lawn": line.lawn,
        "group": line.group,
        "method": line.method,
        "own_carrier": line.carrier_volume,
        "first": line.first,
        "last": line.last,
        "every": line.every,
        "times": None if line.times is None else float(line.times),
        "note": line.note,
    }
    if line.rate is not None:
        row |= _by_kind(line.rate, "own_rate_mass", "own_rate_volume", report)
    return row


def _application(line: Application, catalogue: Catalogue, report: Report) -> Row:
    product = catalogue.product(line.product)
    row: Row = {
        "date": line.date,
        "lawn": line.lawn,
        "product": product.name if product else line.product,
        "method": line.method,
        "water": line.water,
        "left_over": line.left_over,
        "treated_area": line.treated_area,
        "who": line.who,
        "air_temperature": line.temperature,
        "wind": line.wind,
        "rain": line.rain,
        "note": line.note,
    }
    row |= _measured(line.measured, product)
    if line.planned_rate is not None:
        row |= _by_kind(line.planned_rate, "planned_mass_rate", "planned_volume_rate", report)
    return row


def _measured(measured: Measure, product: Product | None) -> Row:
    """What was weighed or poured: solids by mass, liquids by volume, through the density where they were weighed."""
    number: float = 1
    if measured.kind == "pack" and product and product.pack:
        number, measured = measured.magnitude, product.pack.value
    if measured.kind == "mass" and product and product.is_liquid and product.density:
        return {"poured": f"{number * measured.to('g') / product.density.value.to('g/mL')!r} mL"}
    column = "weighed" if measured.kind == "mass" else "poured"
    return {column: measured if number == 1 else f"{number * measured.magnitude!r} {measured.quantity.printed}"}


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
