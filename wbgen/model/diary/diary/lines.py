"""What each line of the diary came to."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import as_number, blank, folded, only, or_zero, ratio, where, with_unit
from wbgen.model.tools.lines import at as _at
from wbgen.model.tools.lines import match
from wbgen.model.tools.order import Days, below, distinct_upto, is_first, up_to
from wbgen.model.tools.relations import find, joined
from wbgen.model.types import (
    Area,
    Date,
    Each,
    Mass,
    MassPerArea,
    Number,
    NutrientMass,
    NutrientPerArea,
    Table,
    Text,
    Time,
    Volume,
    VolumePerArea,
)
from wbgen.trade.families import Member


def product_line(product: Each[Text], products: Table) -> Each[Number]:
    """Line of each product in the catalogue, its heading row being line 1; blank for an unknown one."""
    return match(product, products.name)


def lawn_line(lawn: Each[Text], lawns: Table) -> Each[Number]:
    """Line of each lawn among the lawns, their heading row being line 1; blank for an unknown one."""
    return match(lawn, lawns.name)


def family(product_line: Each[Number], products: Table) -> Each[Text]:
    """Family of the product: text, blank for an unknown product or one without a family."""
    return _at(products.family, product_line)


def area_of_lawn(lawn_line: Each[Number], lawns: Table) -> Each[Area]:
    """Area of the whole lawn as it is today."""
    return _at(lawns.area, lawn_line)


def area_counted(treated_area: Each[Area], area_of_lawn: Each[Area]) -> Each[Area]:
    """Area that the rate is worked out on: the treated area, or the lawn's where none was noted."""
    return where(blank(treated_area), area_of_lawn, treated_area)


def share_used(water: Each[Volume], left_over: Each[Volume]) -> Each[Number]:
    """Share of the spray that left the tank: 1 − left over ÷ spray made; 1 where either is blank or 0.

    Common practice, no source.

    >>> share_used(np.array([10.0, 10.0, np.nan]), np.array([2.0, np.nan, 2.0]))
    array([0.8, 1. , 1. ])
    """
    return where(blank(ratio(left_over, water)), 1.0, 1 - as_number(ratio(left_over, water)))


def applied_mass(weighed: Each[Mass], share_used: Each[Number]) -> Each[Mass]:
    """Mass of solid product that reached the lawn: what was weighed (g) × the share used. Common practice, no source.

    >>> from wbgen.units.quantity import FLOAT
    >>> applied_mass(FLOAT.Quantity(np.array([50.0]), "g"), np.array([0.8])).magnitude
    array([40.])
    """
    return weighed * share_used


def applied_volume(poured: Each[Volume], share_used: Each[Number]) -> Each[Volume]:
    """Volume of liquid product that reached the lawn."""
    return poured * share_used


def rate_mass(applied_mass: Each[Mass], area_counted: Each[Area]) -> Each[MassPerArea]:
    """Application rate achieved of a solid (g/m²): mass on the lawn (g) ÷ the area treated (m²).

    >>> from wbgen.units.quantity import FLOAT
    >>> rate_mass(FLOAT.Quantity(np.array([340.0]), "g"), FLOAT.Quantity(np.array([85.0]), "m**2")).magnitude
    array([4.])
    """
    return ratio(applied_mass, area_counted)


def rate_volume(applied_volume: Each[Volume], area_counted: Each[Area]) -> Each[VolumePerArea]:
    """Application rate achieved of a liquid, volume an area."""
    return ratio(applied_volume, area_counted)


def against_plan(
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    planned_mass_rate: Each[MassPerArea],
    planned_volume_rate: Each[VolumePerArea],
) -> Each[Number]:
    """Rate achieved over the planned one, less 1: of the solid where both are there, else of the liquid.

    >>> against_plan(np.array([3.0, np.nan]), np.array([9.0, 1.0]), np.array([2.0, np.nan]), np.array([4.0, 2.0]))
    array([ 0.5, -0.5])
    """
    solid, liquid = as_number(ratio(rate_mass, planned_mass_rate)), as_number(ratio(rate_volume, planned_volume_rate))
    return where(blank(solid), liquid, solid) - 1


def label_high_mass(product_line: Each[Number], method: Each[Text], products: Table) -> Each[MassPerArea]:
    """Highest label rate of a solid by the line's method; a label that gives a dilution has none here."""
    return where(
        folded(method) == "dry",
        _at(products.dry_mass_high, product_line),
        _at(products.spray_mass_high, product_line),
    )


def label_high_volume(product_line: Each[Number], products: Table) -> Each[VolumePerArea]:
    """Highest label rate of a liquid, by any method: liquids have none for spreading dry."""
    return _at(products.spray_volume_high, product_line)


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
    solid = or_zero(applied_mass) * or_zero(_at(products.mass_content_each, product_line))
    liquid = or_zero(applied_volume) * or_zero(_at(products.volume_content_each, product_line))
    grams = f"g_{each.says['symbol']}"
    return where(blank(product_line), np.nan, solid.to(grams) + liquid.to(grams))


@of_family("nutrients")
def by_area_each(load_each: Each[NutrientMass], area_of_lawn: Each[Area]) -> Each[NutrientPerArea]:
    """Nutrient (g/m²) by the whole lawn, whatever part was treated: load (g) ÷ area of the lawn (m²).

    Common practice, no source.

    >>> from wbgen.units.quantity import FLOAT
    >>> by_area_each(FLOAT.Quantity(np.array([170.0]), "g_N"), FLOAT.Quantity(np.array([85.0]), "m**2")).magnitude
    array([2.])
    """
    return ratio(load_each, area_of_lawn)


def in_season(date: Each[Date], settings: Table, start: Table) -> Each[Text]:
    """ "yes" where the date lies in this season and not after the as-of date. Common practice, no source.

    >>> from types import SimpleNamespace
    >>> settings, start = SimpleNamespace(season_start=10.0), SimpleNamespace(as_of=20.0)
    >>> in_season(np.array([9.0, 10.0, 20.0, 21.0]), settings, start)
    array(['', 'yes', 'yes', ''], dtype=object)
    """
    return where((date >= only(settings.season_start)) & (date <= only(start.as_of)), "yes", "")


def month(date: Each[Date]) -> Each[Number]:
    """Number of the calendar month, 1 to 12."""
    return dates.month_of(date)


def _of_family(family: Each[Text], lawn: Each[Text], lawn_line: Each[Number]) -> Each[Text]:
    """The lawn and family of each line as one; blank for a lawn that nobody has."""
    return where(np.isnan(lawn_line), "", joined(family, lawn))


def visit_key(
    product_line: Each[Number], lawn_line: Each[Number], date: Each[Date], products: Table, ones: Table
) -> Each[Number]:
    """One number for lawn, family and day; within a lawn and a family it rises with the day."""
    step = only(ones.key_step)
    days_gone = date - only(ones.key_day)
    return lawn_line * step**2 + _at(products.family_line, product_line) * step + days_gone


def keys_below(visit_key: Each[Number]) -> Each[Number]:
    """The number of lines whose key is lower."""
    return below(visit_key)


def keys_up_to(visit_key: Each[Number]) -> Each[Number]:
    """The number of lines whose key is as high or lower."""
    return up_to(visit_key)


def days_since(family: Each[Text], lawn: Each[Text], lawn_line: Each[Number], date: Each[Date]) -> Each[Time]:
    """Days since the latest earlier date on which this family was on this lawn; blank for the first.

    Date − latest earlier date: common practice, no source. `date` are serial numbers, and so are they throughout this
    module.

    >>> front = np.array(["Front"] * 3, dtype=object)
    >>> family = np.array(["iron", "urea", "Iron"], dtype=object)
    >>> days_since(family, front, np.ones(3), np.array([9.0, 12.0, 30.0])).magnitude
    array([nan, nan, 21.])
    """
    of_family = _of_family(family, lawn, lawn_line)
    return with_unit(date - Days(of_family, date).before(of_family, date), "day")


def day_key(visit_key: Each[Number], family: Each[Text], lawn: Each[Text], date: Each[Date]) -> Each[Number]:
    """The key of a line that is the first of its family, lawn and date; blank for those that follow.

    >>> front, iron = np.array(["Front", "front"], dtype=object), np.array(["iron", "iron"], dtype=object)
    >>> day_key(np.array([7.0, 7.0]), iron, front, np.array([9.0, 9.0]))
    array([ 7., nan])
    """
    return where(is_first(joined(family, lawn, date)), visit_key, np.nan)


def product_key(product_line: Each[Number], lawn_line: Each[Number], date: Each[Date], ones: Table) -> Each[Number]:
    """One number for lawn, product and day; within a lawn and a product it rises with the day."""
    step = only(ones.key_step)
    return (lawn_line * step + product_line) * step + (date - only(ones.key_day))


def product_first(product_key: Each[Number]) -> Each[Number]:
    """The first line of the same product, lawn and date."""
    return match(product_key, product_key)


def product_day_key(product_key: Each[Number]) -> Each[Number]:
    """The key of a line that is the first of its product, lawn and date; blank for those that follow."""
    return where(is_first(product_key), product_key, np.nan)


def product_keys_up_to(product_key: Each[Number]) -> Each[Number]:
    """The number of lines whose key of lawn, product and day is as high or lower."""
    return up_to(product_key)


def season_before(date: Each[Date], settings: Table) -> Each[Date]:
    """The day on which the season of each date began."""
    month, day = dates.or_first(only(settings.season_month)), dates.or_first(only(settings.season_day))
    return dates.season_start_of(date, month, day)


def number_this_season(
    family: Each[Text], lawn: Each[Text], lawn_line: Each[Number], date: Each[Date], season_before: Each[Date]
) -> Each[Number]:
    """Number of dates with this family on this lawn, from the start of the date's own season to the date.

    Several lines on one date are one: common practice, no source.

    >>> lawn, family = np.array(["Front"] * 3, dtype=object), np.array(["iron"] * 3, dtype=object)
    >>> number_this_season(family, lawn, np.ones(3), np.array([9.0, 9.0, 30.0]), np.zeros(3))
    array([1., 1., 2.])
    """
    return distinct_upto(_of_family(family, lawn, lawn_line), date, season_before)


def of_this_mix(lawn: Each[Text], mix_lawns: Table) -> Each[Text]:
    """ "yes" where the lawn is treated in the visit that is being planned."""
    return where(find(lawn, mix_lawns.lawn_used) >= 0, "yes", "")
