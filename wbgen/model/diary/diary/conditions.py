"""What spoke against each line of the diary on its day: the weather that was noted, the growth, the place, the month.

What was not noted is not judged.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.dates import month_of
from wbgen.model.tools.elementwise import blank, only, ratio, where, yes
from wbgen.model.tools.growth import asks_for_growth, growth_of, is_known, is_slow
from wbgen.model.tools.lines import at
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.relations import find, joined, pick
from wbgen.model.tools.rounding import exceeds, reaches
from wbgen.model.tools.so_far import sum_so_far
from wbgen.model.tools.words import graded
from wbgen.model.types import (
    Area,
    Date,
    Each,
    IronMass,
    IronPerArea,
    NitrogenMass,
    NitrogenPerArea,
    Number,
    PhosphateMass,
    Speed,
    Table,
    Temperature,
    Text,
)


def flag_conditions(
    way_key: Each[Number],
    method: Each[Text],
    wind: Each[Speed],
    air_temperature: Each[Temperature],
    load_iron: Each[IronMass],
    visit_iron: Each[IronPerArea],
    lawn_line: Each[Number],
    product_line: Each[Number],
    date: Each[Date],
    area_counted: Each[Area],
    load_nitrogen: Each[NitrogenMass],
    load_phosphate: Each[PhosphateMass],
    soluble_nitrogen: Each[NitrogenPerArea],
    lawns: Table,
    months: Table,
    place: Table,
    products: Table,
    settings: Table,
) -> Each[Text]:
    """What is to be said of the weather, of the growth of the grass, of the place and of the product's months.

    Iron in heat is said beside the iron, and on what was sprayed with it below; where no air is noted there, it is
    that of the visit's first line.
    """
    month = month_of(date)
    iron = (load_iron > 0) | (visit_iron > 0)
    first = pick(air_temperature, find(way_key, way_key))
    air = where(blank(air_temperature), first, air_temperature)
    weather = _of_weather(wind, air_temperature, settings)
    weather = weather + where(iron & (air > only(settings.hot_air_iron)), "; iron in heat", "")
    fed = asks_for_growth(ratio(load_nitrogen, area_counted), settings) & is_known(month, months)
    slow = is_slow(growth_of(at(lawns.grass, lawn_line), month, months), settings)
    day = joined(lawn_line, date)
    banned = yes(only(place.no_phosphorus)) & exceeds(load_phosphate, 0.0)
    unsuited = [sign == "-" for sign in map(_sign, at(products.months_suited, product_line), month)]
    return (
        where(blank(way_key) | is_dry(method), "", weather)
        + where(fed & slow & ~blank(lawn_line), "; nitrogen while the grass hardly grows", "")
        + _of_place(day, area_counted, load_nitrogen, soluble_nitrogen, place)
        + where(banned, "; phosphorus is not allowed here", "")
        + where(yes(pick(months.closed, month - 1)), "; a month closed to feeding", "")
        + where(np.array(unsuited, dtype=bool), "; out of its months", "")
    )


def _of_weather(wind: Each[Speed], air: Each[Temperature], settings: Table) -> Each[Text]:
    """What is to be said of the wind and the air, as they were noted beside a spray.

    Without a humidity it is not known whether hot air was dry.
    """
    stop, hot = air > only(settings.stop_air), air > only(settings.hottest_air)
    return (
        graded(reaches(wind, settings.wind_stop), exceeds(wind, settings.wind_ask), "wind")
        + where(wind < only(settings.calm_wind), "; hardly any wind", "")
        + where(stop, "; too hot", where(hot, "; hot", ""))
        + where(air < only(settings.coldest_air), "; cold", "")
    )


def _of_place(
    day: Each[Text],
    area_counted: Each[Area],
    load_nitrogen: Each[NitrogenMass],
    soluble_nitrogen: Each[NitrogenPerArea],
    place: Table,
) -> Each[Text]:
    """What the rule of the place says of the nitrogen of a lawn and day, up to the line.

    All of it goes by the area that the line counts; its soluble nitrogen is the sum of what each line brought to what
    it treated.
    """
    much = exceeds(ratio(sum_so_far(day, load_nitrogen), area_counted), only(place.most_nitrogen))
    quick = exceeds(sum_so_far(day, soluble_nitrogen), only(place.most_soluble))
    known = (area_counted > 0) & ~blank(day)
    return where(known & much, "; more nitrogen than the place allows", "") + where(
        known & quick, "; more soluble nitrogen than the place allows", ""
    )


def _sign(signs: str, month: float) -> str:
    """The sign of a month among twelve, January first; none for a blank month or where there are fewer."""
    return "" if np.isnan(month) else signs[int(month) - 1 : int(month)]
