"""What is to be said of each line of the diary, and which lines have something to be said of them."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only, ratio, where, yes
from wbgen.model.tools.lines import at
from wbgen.model.tools.methods import by_method, is_dry, less_tolerance, soluble_share
from wbgen.model.tools.rates import over_high
from wbgen.model.tools.relations import count_by, sum_by
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.words import counts, days, listed
from wbgen.model.types import (
    Area,
    Date,
    Each,
    Mass,
    MassPerArea,
    NitrogenMass,
    NitrogenPerArea,
    Number,
    Table,
    Text,
    Time,
    Volume,
    VolumePerArea,
)


def flag_measure(product_line: Each[Number], weighed: Each[Mass], poured: Each[Volume], products: Table) -> Each[Text]:
    """A liquid that was weighed, or a solid that was poured, adds nothing to the totals."""
    kind = at(products.measured_by, product_line)
    wrong = ((kind == "volume") & (weighed > 0)) | ((kind == "mass") & (poured > 0))
    return where(wrong, "; weigh solids and pour liquids", "")


def flag_rate(
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    label_high_mass: Each[MassPerArea],
    label_high_volume: Each[VolumePerArea],
    method: Each[Text],
    product_line: Each[Number],
    products: Table,
    settings: Table,
) -> Each[Text]:
    """What is to be said of the rate: over the label's highest, over what is usual or far over it; or none is stated.

    A rate for spraying says nothing of spreading; where none is stated to spray, that is only noted (`unstated`).
    """
    practice = by_method(method, product_line, products.spray_practice, products.dry_practice)
    level = over_high(rate_mass, rate_volume, label_high_mass, label_high_volume, practice, settings)
    usual = where(level > 1, "; far over the usual range", "; over the usual range")
    said = where(level > 0, where(yes(practice), usual, "; over the label"), "")
    return said + where(is_dry(method) & ~blank(product_line) & blank(label_high_mass), "; no dry rate stated", "")


def flag_day(
    product_day_key: Each[Number],
    product_key: Each[Number],
    applied_mass: Each[Mass],
    applied_volume: Each[Volume],
    area_of_lawn: Each[Area],
    label_high_mass: Each[MassPerArea],
    label_high_volume: Each[VolumePerArea],
    flag_rate: Each[Text],
) -> Each[Text]:
    """What is to be said of all that the whole lawn had of the product in several lines of a day.

    Σ of them ÷ area of the lawn (m²): less than any spot had that was treated twice. On the first of the lines, where
    it is not too much by itself.
    """
    over = np.zeros(len(product_key), dtype=bool)
    for applied, high in ((applied_mass, label_high_mass), (applied_volume, label_high_volume)):
        over |= exceeds(ratio(sum_by(product_key, product_key, applied), area_of_lawn), high)
    several = count_by(product_key, product_key) > 1
    first = several & ~blank(product_day_key) & (area_of_lawn > 0) & blank(flag_rate)
    return where(first & over, "; over its highest rate with the other lines of the day", "")


def flag_water(
    tank_water: Each[Volume],
    product_line: Each[Number],
    weighed: Each[Mass],
    poured: Each[Volume],
    carrier_volume: Each[VolumePerArea],
    products: Table,
    settings: Table,
) -> Each[Text]:
    """What is to be said of the product in its water: stronger than its highest dilution, or in less than the least.

    Less by no more than the tolerance (a share) is only noted.
    """
    least = less_tolerance(at(products.least_carrier, product_line), settings)
    short = ~blank(tank_water) & exceeds(least, carrier_volume)
    solid = exceeds(weighed, at(products.diluted_mass_high, product_line) * tank_water)
    liquid = exceeds(poured, at(products.diluted_volume_high, product_line) * tank_water)
    practice = yes(at(products.spray_practice, product_line))
    strong = where(practice, "; stronger than usual", "; stronger than the label")
    return where(solid | liquid, strong, "") + where(short, "; less water than the least", "")


def soluble_nitrogen(
    load_nitrogen: Each[NitrogenMass], area_counted: Each[Area], product_line: Each[Number], products: Table
) -> Each[NitrogenPerArea]:
    """The nitrogen (g N/m²) of the line that is not of slow release, by what was treated; blank without an area.

    Of less than nothing it is nothing: more was left over than measured.
    """
    soluble = load_nitrogen * soluble_share(product_line, products)
    brought = where(load_nitrogen > 0, soluble, load_nitrogen * 0)
    return where(area_counted > 0, ratio(brought, area_counted), np.nan)


def least_interval(method: Each[Text], product_line: Each[Number], products: Table) -> Each[Time]:
    """The least interval (days) of the product by the line's method; blank where it is not stated."""
    return by_method(method, product_line, products.least_interval, products.dry_least_interval)


def soonest(method: Each[Text], product_line: Each[Number], products: Table) -> Each[Time]:
    """The interval (days) below which the product came too soon by the line's method."""
    return by_method(method, product_line, products.soonest, products.dry_soonest)


def most_a_year(method: Each[Text], product_line: Each[Number], products: Table) -> Each[Number]:
    """The most a year of the product by the line's method; blank where it is not stated."""
    return by_method(method, product_line, products.most_a_year, products.dry_most_a_year)


def flag_time(
    product_line: Each[Number],
    family: Each[Text],
    month: Each[Number],
    days_since: Each[Time],
    number_this_season: Each[Number],
    method: Each[Text],
    least_interval: Each[Time],
    soonest: Each[Time],
    most_a_year: Each[Number],
    products: Table,
) -> Each[Text]:
    """What is to be said of the day: too soon, too many, out of the product's months; all that hold, and how much."""
    soon = "; too soon" + _by_how_much(family, days_since, least_interval)
    words = by_method(method, product_line, products.most_words, products.dry_most_words)
    many = "; too many of the family " + family + ": number " + counts(number_this_season) + ", " + words
    suited = at(products.months_suited, product_line)
    unsuited = [sign == "-" for sign in map(_sign, suited, month)]
    return listed(
        where(exceeds(soonest, days_since), soon, "")
        + where((most_a_year > 0) & (number_this_season > most_a_year), many, "")
        + where(np.array(unsuited, dtype=bool), "; out of its months", "")
    )


def _by_how_much(family: Each[Text], days_since: Each[Time], least_interval: Each[Time]) -> Each[Text]:
    return " for the family " + family + ": " + days(days_since) + " days, at least " + days(least_interval)


def _sign(signs: str, month: float) -> str:
    """The sign of a month among twelve, January first; none for a blank month or where there are fewer."""
    return "" if np.isnan(month) else signs[int(month) - 1 : int(month)]


def flags(
    counted: Each[Number],
    date: Each[Date],
    flag_record: Each[Text],
    flag_measure: Each[Text],
    flag_rate: Each[Text],
    flag_day: Each[Text],
    flag_water: Each[Text],
    flag_strength: Each[Text],
    flag_visit: Each[Text],
    flag_weather: Each[Text],
    flag_dressing: Each[Text],
    flag_growth: Each[Text],
    flag_place: Each[Text],
    flag_time: Each[Text],
    against_plan: Each[Number],
    start: Table,
    settings: Table,
) -> Each[Text]:
    """Everything that is to be said of the line, parted by semicolons."""
    said = (
        flag_record
        + flag_measure
        + flag_rate
        + flag_day
        + flag_water
        + flag_strength
        + flag_visit
        + flag_weather
        + flag_dressing
        + flag_growth
        + flag_place
        + where(blank(flag_time), "", "; " + flag_time)
        + where(exceeds(abs(against_plan), settings.plan_tolerance), "; off the plan", "")
        + where((counted == 1) & (date > only(start.as_of)), "; after the as-of date", "")
    )
    return listed(said)


def flag_line(flags: Each[Text]) -> Each[Number]:
    """The number of a line that has a flag, the first of the diary being 1; blank for one without.

    >>> flag_line(np.array(["", "off the plan"], dtype=object))
    array([nan,  2.])
    """
    return where(blank(flags), np.nan, np.arange(len(flags)) + 1.0)


def unstated(
    product_line: Each[Number],
    method: Each[Text],
    label_high_mass: Each[MassPerArea],
    label_high_volume: Each[VolumePerArea],
    least_interval: Each[Time],
    tank_water: Each[Volume],
    products: Table,
) -> Each[Text]:
    """What could not be judged of the line, since it is not stated or was not noted."""
    diluted = ~blank(at(products.diluted_mass_high, product_line)) | ~blank(
        at(products.diluted_volume_high, product_line)
    )
    rate = is_dry(method) | ~blank(label_high_mass) | ~blank(label_high_volume) | diluted
    said = where(rate, "", "; rate not judged: none is stated to spray")
    said = said + where(blank(least_interval), "; interval not judged: none is stated", "")
    said = said + where(~is_dry(method) & blank(tank_water), "; strength not judged: no spray made is noted", "")
    return where(blank(product_line), "", said)


def notes(
    family: Each[Text],
    days_since: Each[Time],
    soonest: Each[Time],
    least_interval: Each[Time],
    carrier_volume: Each[VolumePerArea],
    product_line: Each[Number],
    unstated: Each[Text],
    products: Table,
    settings: Table,
) -> Each[Text]:
    """What was within a tolerance of a limit (a little early, in a little less water) or not judged. It is no flag."""
    early = exceeds(least_interval, days_since) & ~exceeds(soonest, days_since)
    said = "; a little early" + _by_how_much(family, days_since, least_interval)
    least = at(products.least_carrier, product_line)
    short = exceeds(least, carrier_volume) & ~exceeds(less_tolerance(least, settings), carrier_volume)
    return listed(where(early, said, "") + where(short, "; in a little less water than the least", "") + unstated)
