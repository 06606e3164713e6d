"""The mix of the file, as records of the tables."""

from __future__ import annotations

from typing import Final

from wbgen.files.diagnostics import Report
from wbgen.inputs.rows import Cell, Row, is_rate
from wbgen.records.catalogue import Catalogue
from wbgen.records.site.lawn import Lawn
from wbgen.records.site.mix import MixProduct
from wbgen.records.site.site import Site
from wbgen.records.site.water import SiteWater
from wbgen.trade.nutrients import counted_form


def lawns_named(site: Site) -> tuple[Lawn, ...]:
    """The lawns that the mix names, in its order."""
    named = site.mix.lawns or () if site.mix else ()
    by_name = {lawn.name.casefold(): lawn for lawn in site.lawns}
    return tuple(by_name[name.casefold()] for name in named if name.casefold() in by_name)


def chosen_row(site: Site) -> Row:
    """The mix: what is typed at its head. One lawn stands in its box; several are named one by one."""
    mix = site.mix
    if mix is None:
        return {}
    named = lawns_named(site)
    return {
        "date": mix.date,
        "lawns": "all" if mix.lawns and not named else named[0].name if len(named) == 1 else None,
        "sprayer": mix.sprayer,
        "wanted_carrier": mix.carrier_volume,
        "loads_style": mix.loads,
        "watered_in": mix.watered_in,
    }


def chosen_more_row(site: Site) -> Row:
    """The mix: what is rarely typed."""
    mix = site.mix
    if mix is None:
        return {}
    water = mix.water
    return {
        "who": mix.who,
        "overlap": mix.overlap,
        "water_temperature": water.temperature if water else None,
        "ph": water.pH if water else None,
        "alkalinity": water.alkalinity if water else None,
        "hardness": water.hardness if water else None,
        "acidify": mix.acidify,
    }


def weather_row(site: Site) -> Row:
    """The day that totals count up to, and the weather that is expected."""
    weather = site.mix.weather if site.mix else None
    if weather is None:
        return {"planner_date": site.details.as_of}
    return {
        "planner_date": site.details.as_of,
        "wind": weather.wind,
        "wind_height": weather.wind_is,
        "air_temperature": weather.temperature,
        "humidity": weather.humidity,
        "heavy_rain": weather.heavy_rain,
        "wet_ground": weather.frozen_or_waterlogged,
    }


def water_row(water: SiteWater) -> Row:
    """The water of the site. Citric acid is sold without water of crystals unless it is said to have it."""
    return {
        "ph": water.pH,
        "alkalinity": water.alkalinity,
        "hardness": water.hardness,
        "wanted_ph": water.wanted_pH,
        "citric_acid": water.citric_acid or "anhydrous",
    }


def chosen_product_row(chosen: MixProduct, catalogue: Catalogue, report: Report) -> Row:
    """One product of the mix, with its own rate or the nitrogen that is wanted of it."""
    product = catalogue.product(chosen.product)
    row: Row = {"product": product.name if product else chosen.product}
    if chosen.rate is not None and is_rate(chosen.rate, report):
        row["own_rate"] = chosen.rate
    return row | {key: cell for key, cell in _wanted(chosen).items() if key == NITROGEN}


def chosen_target_row(chosen: MixProduct) -> Row:
    """The nutrient that is wanted of a product of the mix, where it is not nitrogen."""
    return {key: cell for key, cell in _wanted(chosen).items() if key != NITROGEN}


NITROGEN: Final = "wanted_nitrogen"
"""The column of the nutrient that stands beside the products."""


def _wanted(chosen: MixProduct) -> Row:
    """A wanted nutrient in the form that is counted: a label's element as its oxide."""
    if chosen.wanted is None:
        return {}
    form = counted_form(chosen.wanted.quantity.nutrient or "")
    cell: Cell = chosen.wanted
    if form.factor != 1:
        cell = (
            f"{chosen.wanted.to(f'g_{form.nutrient.element}/m**2') * float(form.factor)!r} g {form.nutrient.symbol}/m²"
        )
    return {"wanted_" + form.nutrient.key: cell}
