"""The nutrients that each line of the diary brought, and the season and month that it counts in."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import as_number, blank, only, or_zero, ratio, where, with_unit
from wbgen.model.tools.lines import at
from wbgen.model.tools.methods import soluble_share
from wbgen.model.types import (
    Area,
    Date,
    Each,
    IronMass,
    IronPerArea,
    Mass,
    NitrogenMass,
    NitrogenPerArea,
    Number,
    NutrientMass,
    Table,
    Volume,
)
from wbgen.trade.families import Member


@of_family("nutrients")
def load_each(
    each: Member, product_line: Each[Number], applied_mass: Each[Mass], applied_volume: Each[Volume], products: Table
) -> Each[NutrientMass]:
    """Nutrient load of the line (g): solid (g) × its content (g/g) + liquid (mL) × its content (g/L).

    A content or a measure that is blank counts as nothing; an unknown product has no load. An identity; the example is
    of a practice worksheet for certified turfgrass professionals, Turfgrass Mathematics Review.

    >>> from types import SimpleNamespace
    >>> from wbgen.trade.families import family as members
    >>> from wbgen.units.quantity import FLOAT
    >>> contents = {"mass_content_each": FLOAT.Quantity(np.array([0.05]), "g_N/g"),
    ...             "volume_content_each": FLOAT.Quantity(np.array([np.nan]), "g_N/L")}
    >>> solid, liquid = FLOAT.Quantity(np.array([1250.0]), "lb"), FLOAT.Quantity(np.array([np.nan]), "mL")
    >>> found = load_each(members("nutrients")[0], np.array([2.0]), solid, liquid, SimpleNamespace(**contents))
    >>> found.to("lb_N").magnitude.round(9)
    array([62.5])
    """
    solid = or_zero(applied_mass) * or_zero(at(products.mass_content_each, product_line))
    liquid = or_zero(applied_volume) * or_zero(at(products.volume_content_each, product_line))
    grams = f"g_{each.says['symbol']}"
    return where(blank(product_line), np.nan, solid.to(grams) + liquid.to(grams))


def by_area_nitrogen(load_nitrogen: Each[NitrogenMass], lawn_line: Each[Number], lawns: Table) -> Each[NitrogenPerArea]:
    """Nitrogen (g/m²) by the whole lawn, whatever part was treated: load (g) ÷ area of the lawn (m²).

    Common practice, no source.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> load, lawns = FLOAT.Quantity(np.array([170.0]), "g_N"), SimpleNamespace()
    >>> lawns.area = FLOAT.Quantity(np.array([85.0]), "m**2")
    >>> by_area_nitrogen(load, np.array([2.0]), lawns).magnitude
    array([2.])
    """
    return ratio(load_nitrogen, at(lawns.area, lawn_line))


def available_nitrogen(
    load_nitrogen: Each[NitrogenMass], product_line: Each[Number], date: Each[Date], products: Table, start: Table
) -> Each[NitrogenMass]:
    """The nitrogen (g N) of the line that has come free by the as-of date: all of it but slow release still to come.

    Slow release comes evenly over its release time: N × min(1, days ÷ release days). Without a release time all of it
    counts at once. Common practice, no source.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> slow, share = (FLOAT.Quantity(np.array([number]), "g_N/g") for number in (0.15, 0.24))
    >>> time = FLOAT.Quantity(np.array([90.0]), "day")
    >>> catalogue = SimpleNamespace(slow_nitrogen=slow, share_nitrogen=share, release_time=time)
    >>> load, start = FLOAT.Quantity(np.array([240.0, 240.0]), "g_N"), SimpleNamespace(as_of=100.0)
    >>> available_nitrogen(load, np.array([2.0, 2.0]), np.array([70.0, 9.0]), catalogue, start).magnitude
    array([140., 240.])
    """
    passed = with_unit(np.fmax(only(start.as_of) - date, 0.0), "day")
    come = as_number(ratio(passed, at(products.release_time, product_line)))
    held = (1 - soluble_share(product_line, products)) * (1 - np.fmin(come, 1.0))
    return where(load_nitrogen > 0, load_nitrogen * (1 - or_zero(held)), load_nitrogen)


def season_month(date: Each[Date], settings: Table, start: Table) -> Each[Number]:
    """The month, 1 to 12, of a date in this season and not after the as-of date; else blank.

    Common practice, no source.

    >>> from types import SimpleNamespace
    >>> settings, start = SimpleNamespace(season_start=10.0), SimpleNamespace(as_of=20.0)
    >>> season_month(np.array([9.0, 10.0, 20.0, 21.0]), settings, start)
    array([nan,  1.,  1., nan])
    """
    counts = (date >= only(settings.season_start)) & (date <= only(start.as_of))
    return where(counts, dates.month_of(date), np.nan)


def soluble_nitrogen(
    load_nitrogen: Each[NitrogenMass], area_counted: Each[Area], product_line: Each[Number], products: Table
) -> Each[NitrogenPerArea]:
    """The nitrogen (g N/m²) of the line that is not of slow release, by what was treated; blank without an area.

    Of less than nothing it is nothing: more was left over than measured.
    """
    soluble = load_nitrogen * soluble_share(product_line, products)
    brought = where(load_nitrogen > 0, soluble, load_nitrogen * 0)
    return where(area_counted > 0, ratio(brought, area_counted), np.nan)


def own_iron(load_iron: Each[IronMass], area_counted: Each[Area]) -> Each[IronPerArea]:
    """The iron (g Fe/m²) that the line put on what it treated; of less than nothing it is nothing."""
    brought = where(load_iron > 0, load_iron, load_iron * 0)
    return where(area_counted > 0, ratio(brought, area_counted), np.nan)
