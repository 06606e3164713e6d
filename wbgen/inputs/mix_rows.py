"""The mix of the file, as records of the tables."""

from __future__ import annotations

from wbgen.files.diagnostics import Report
from wbgen.inputs.rows import Cell, Row, rate_cell
from wbgen.records.catalogue import Catalogue
from wbgen.records.fields import Measure
from wbgen.records.site.lawn import Lawn
from wbgen.records.site.mix import MixProduct
from wbgen.records.site.site import Site
from wbgen.records.site.water import SiteWater
from wbgen.trade.nutrients import CountedForm, counted_form


def lawns_named(site: Site) -> tuple[Lawn, ...]:
    """The lawns that the mix names, in its order."""
    named = site.mix.lawns or () if site.mix else ()
    by_name = {lawn.name.casefold(): lawn for lawn in site.lawns}
    return tuple(by_name[name.casefold()] for name in named if name.casefold() in by_name)


def mix_row(site: Site) -> Row:
    """The mix: what is typed at its head."""
    mix = site.mix
    if mix is None:
        return {}
    water, weather = mix.water, mix.weather
    return {
        "date": mix.date,
        "sprayer": mix.sprayer,
        "who": mix.who,
        "which_lawns": "all" if mix.lawns and not lawns_named(site) else "listed",
        "wanted_carrier": mix.carrier_volume,
        "loads_style": mix.loads or "equal",
        "watered_in": mix.watered_in or "no",
        "overlap": mix.overlap,
        "water_temperature": water.temperature if water else None,
        "ph": water.pH if water else None,
        "alkalinity": water.alkalinity if water else None,
        "hardness": water.hardness if water else None,
        "acidify": mix.acidify or "with iron",
        "wind": weather.wind if weather else None,
        "wind_height": (weather.wind_is if weather else None) or "forecast at 10 m",
        "air_temperature": weather.temperature if weather else None,
        "humidity": weather.humidity if weather else None,
        "heavy_rain": weather.heavy_rain if weather else None,
        "wet_ground": weather.frozen_or_waterlogged if weather else None,
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


def mix_product_row(chosen: MixProduct, catalogue: Catalogue, report: Report) -> Row:
    """One product of the mix."""
    product = catalogue.product(chosen.product)
    row: Row = {"product": product.name if product else chosen.product}
    if chosen.rate is not None:
        row |= rate_cell(chosen.rate, "own_rate_mass", "own_rate_volume", report)
    if chosen.wanted is not None:
        form = counted_form(chosen.wanted.quantity.nutrient or "")
        row["wanted_" + form.nutrient.key] = _counted(chosen.wanted, form)
    return row


def _counted(wanted: Measure, form: CountedForm) -> Cell:
    """A wanted nutrient in the form that is counted: a label's element as its oxide."""
    if form.factor == 1:
        return wanted
    return f"{wanted.to(f'g_{form.nutrient.element}/m**2') * float(form.factor)!r} g {form.nutrient.symbol}/m²"
