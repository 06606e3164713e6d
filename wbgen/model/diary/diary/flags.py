"""What is to be said of each line of the diary, and which lines have something to be said of them."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import as_number, blank, only, or_zero, ratio, where, yes
from wbgen.model.tools.lines import at
from wbgen.model.tools.methods import by_method, is_dry, is_not_done, less_tolerance
from wbgen.model.tools.rates import share_used
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.so_far import is_below_later, sum_so_far
from wbgen.model.tools.words import counts, days, listed
from wbgen.model.types import (
    Area,
    Date,
    Each,
    Mask,
    Mass,
    MassPerArea,
    Number,
    Quantity,
    Table,
    Text,
    Time,
    Volume,
    VolumePerArea,
)


def _high(method: Each[Text], product_line: Each[Number], products: Table) -> tuple[Each[Quantity], Each[Quantity]]:
    """The highest rates that the product states for the line's method, of a solid and of a liquid; blank where none."""
    solid: Each[MassPerArea] = by_method(method, product_line, products.spray_mass_high, products.dry_mass_high)
    liquid: Each[VolumePerArea] = at(products.spray_volume_high, product_line)
    return solid, liquid


def flag_amount(
    weighed: Each[Mass],
    poured: Each[Volume],
    of_highest: Each[Number],
    method: Each[Text],
    product_line: Each[Number],
    lawn_line: Each[Number],
    product_key: Each[Number],
    product_day_key: Each[Number],
    applied_mass: Each[Mass],
    applied_volume: Each[Volume],
    tank_water: Each[Volume],
    water: Each[Volume],
    left_over: Each[Volume],
    area_counted: Each[Area],
    lawns: Table,
    products: Table,
    settings: Table,
) -> Each[Text]:
    """What is to be said of how much it was: by itself, with the lines above of its day, and in its water.

    A rate for spraying says nothing of spreading; where none is stated to spray, that is only noted (`notes`). A
    liquid that was weighed, or a solid that was poured, adds nothing to the totals.
    """
    kind = at(products.measured_by, product_line)
    wrong = ((kind == "volume") & (weighed > 0)) | ((kind == "mass") & (poured > 0))
    solid, _ = _high(method, product_line, products)
    rate = _of_rate(
        of_highest, by_method(method, product_line, products.spray_practice, products.dry_practice), settings
    )
    again = ~blank(lawn_line) & blank(product_day_key) & blank(rate)
    area = at(lawns.area, lawn_line)
    over = np.zeros(len(again), dtype=bool)
    for applied, high in zip((applied_mass, applied_volume), _high(method, product_line, products), strict=True):
        over |= exceeds(ratio(sum_so_far(product_key, applied), area), where(high > 0, high, np.nan))
    return (
        where(wrong, "; weigh solids and pour liquids", "")
        + rate
        + where(again & over & (area > 0), "; over its highest rate with the lines above of the day", "")
        + where(is_dry(method) & ~blank(product_line) & blank(solid), "; no dry rate stated", "")
        + _of_water(weighed, poured, product_line, tank_water, water, left_over, area_counted, products, settings)
    )


def _of_rate(of_highest: Each[Number], practice: Each[Text], settings: Table) -> Each[Text]:
    """Over the label's highest, or over what is usual, or far over it: that is more than so many times as much.

    Far is common practice, no source.
    """
    far = exceeds(of_highest, or_zero(as_number(only(settings.practice_span))))
    usual = where(far, "; far over the usual range", "; over the usual range")
    return where(exceeds(of_highest, 1.0), where(yes(practice), usual, "; over the label"), "")


def _carrier_volume(
    tank_water: Each[Volume], water: Each[Volume], left_over: Each[Volume], area_counted: Each[Area]
) -> Each[VolumePerArea]:
    """What left the tank (L) by the area treated (m²); nothing where more was left over than made."""
    share = share_used(water, left_over)
    sprayed = tank_water * where(share > 0, share, 0.0)
    return where(area_counted > 0, ratio(sprayed, area_counted), np.nan)


def _of_water(
    weighed: Each[Mass],
    poured: Each[Volume],
    product_line: Each[Number],
    tank_water: Each[Volume],
    water: Each[Volume],
    left_over: Each[Volume],
    area_counted: Each[Area],
    products: Table,
    settings: Table,
) -> Each[Text]:
    """Stronger than its highest dilution, or in less water than the least.

    Less by no more than the tolerance (a share) is only noted.
    """
    least = less_tolerance(at(products.least_carrier, product_line), settings)
    short = exceeds(least, _carrier_volume(tank_water, water, left_over, area_counted))
    solid = exceeds(weighed, at(products.diluted_mass_high, product_line) * tank_water)
    liquid = exceeds(poured, at(products.diluted_volume_high, product_line) * tank_water)
    practice = yes(at(products.spray_practice, product_line))
    strong = where(practice, "; stronger than usual", "; stronger than the label")
    return where(solid | liquid, strong, "") + where(short, "; less water than the least", "")


def _of_time(
    product_line: Each[Number],
    visit_key: Each[Number],
    days_since: Each[Time],
    number_this_season: Each[Number],
    method: Each[Text],
    products: Table,
) -> Each[Text]:
    """What is to be said of the day: too soon, too many; both that hold, and how much."""
    soonest, most = (by_method(method, product_line, *both) for both in (
        (products.soonest, products.dry_soonest), (products.most_a_year, products.dry_most_a_year),
    ))  # fmt: skip
    family = at(products.family, product_line)
    soon = "; too soon" + _by_how_much(family, days_since, _least_interval(method, product_line, products))
    words = by_method(method, product_line, products.most_words, products.dry_most_words)
    many = "; too many of the family " + family + ": number " + counts(number_this_season) + ", " + words
    said = where(exceeds(soonest, days_since), soon, "") + where((most > 0) & (number_this_season > most), many, "")
    return where(blank(visit_key), "", said)


def _least_interval(method: Each[Text], product_line: Each[Number], products: Table) -> Each[Time]:
    """The least interval (days) of the product by the line's method; blank where it is not stated."""
    return by_method(method, product_line, products.least_interval, products.dry_least_interval)


def _by_how_much(family: Each[Text], days_since: Each[Time], least_interval: Each[Time]) -> Each[Text]:
    return " for the family " + family + ": " + days(days_since) + " days, at least " + days(least_interval)


def flags(
    line_key: Each[Number],
    date: Each[Date],
    flag_record: Each[Text],
    flag_amount: Each[Text],
    flag_visit: Each[Text],
    flag_conditions: Each[Text],
    not_done_key: Each[Number],
    note: Each[Text],
    product_line: Each[Number],
    visit_key: Each[Number],
    days_since: Each[Time],
    number_this_season: Each[Number],
    method: Each[Text],
    against_plan: Each[Number],
    products: Table,
    start: Table,
    settings: Table,
) -> Each[Text]:
    """Everything that is to be said of the line, parted by semicolons."""
    said = (
        flag_record
        + flag_amount
        + flag_visit
        + flag_conditions
        + _of_time(product_line, visit_key, days_since, number_this_season, method, products)
        + where(exceeds(abs(against_plan), settings.plan_tolerance), "; off the plan", "")
        + where(blank(line_key), _of_not_done(method, not_done_key, note), "")
        + where(~blank(line_key), _of_date(date, only(start.as_of)), "")
    )
    return listed(said)


def _of_not_done(method: Each[Text], not_done_key: Each[Number], note: Each[Text]) -> Each[Text]:
    """What a line lacks that says that a visit was skipped or put off."""
    lacking = where(blank(not_done_key), "; say the date and a lawn of the sheet Lawns: not counted", "")
    lacking = lacking + where(blank(note), "; say in the note why", "")
    return where(is_not_done(method), lacking, "")


def _of_date(date: Each[Date], as_of: Date) -> Each[Text]:
    """Whether it is still to come, and whether a later day, that is not, stands above it."""
    after = where(date > as_of, "; after the as-of date", "")
    return after + where(is_below_later(date, as_of), "; earlier than a line above: sort the lines by date", "")


def flag_line(
    flags: Each[Text],
    date: Each[Date],
    lawn: Each[Text],
    product: Each[Text],
    method: Each[Text],
    weighed: Each[Mass],
    poured: Each[Volume],
    note: Each[Text],
) -> Each[Number]:
    """The number of a line in which something stands, the first of the diary being 1; less than 0 for one that has no
    flag, blank for one that is free. A text for a number has a flag."""
    line = np.arange(len(flags)) + 1.0
    free = np.all([blank(one) for one in (date, lawn, product, method, weighed, poured, note)], axis=0)
    return where(~blank(flags), line, where(free, np.nan, -line))


def notes(
    days_since: Each[Time],
    method: Each[Text],
    product_line: Each[Number],
    tank_water: Each[Volume],
    water: Each[Volume],
    left_over: Each[Volume],
    area_counted: Each[Area],
    products: Table,
    settings: Table,
) -> Each[Text]:
    """What was within a tolerance of a limit (a little early, in a little less water) or not judged. It is no flag."""
    least_interval = _least_interval(method, product_line, products)
    soonest = by_method(method, product_line, products.soonest, products.dry_soonest)
    early = exceeds(least_interval, days_since) & ~exceeds(soonest, days_since)
    said = "; a little early" + _by_how_much(at(products.family, product_line), days_since, least_interval)
    sprayed, least = (
        _carrier_volume(tank_water, water, left_over, area_counted),
        at(products.least_carrier, product_line),
    )
    short = exceeds(least, sprayed) & ~exceeds(less_tolerance(least, settings), sprayed)
    return listed(
        where(early, said, "")
        + where(short, "; in a little less water than the least", "")
        + where(blank(product_line), "", _not_judged(method, product_line, least_interval, tank_water, products))
    )


def _not_judged(
    method: Each[Text],
    product_line: Each[Number],
    least_interval: Each[Time],
    tank_water: Each[Volume],
    products: Table,
) -> Each[Text]:
    """What could not be judged of the line, since it is not stated or was not noted."""
    stated: Mask = is_dry(method)
    for highest in ("spray_mass_high", "spray_volume_high", "diluted_mass_high", "diluted_volume_high"):
        stated = stated | ~blank(at(getattr(products, highest), product_line))
    return (
        where(stated, "", "; rate not judged: none is stated to spray")
        + where(blank(least_interval), "; interval not judged: none is stated", "")
        + where(~is_dry(method) & blank(tank_water), "; strength not judged: no spray made is noted", "")
    )
