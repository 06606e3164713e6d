"""What is known of each line's product by the method of the line; the other method's never stands in."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, where
from wbgen.model.tools.growth import asks_for_growth
from wbgen.model.tools.methods import by_method, is_dry
from wbgen.model.tools.words import counts, listed
from wbgen.model.types import Each, MassPerArea, NitrogenPerArea, Number, Table, Text, Time, VolumePerArea


def least_interval(method: Each[Text], product_line: Each[Number], products: Table) -> Each[Time]:
    """The least interval (days) of the product by the line's method; blank where it is not stated."""
    return by_method(method, product_line, products.least_interval, products.dry_least_interval)


def soonest(method: Each[Text], product_line: Each[Number], products: Table) -> Each[Time]:
    """The interval (days) below which the product comes too soon by the line's method; blank where none is stated."""
    return by_method(method, product_line, products.soonest, products.dry_soonest)


def most_a_year(method: Each[Text], product_line: Each[Number], products: Table) -> Each[Number]:
    """The most a year of the product by the line's method; blank where it is not stated."""
    return by_method(method, product_line, products.most_a_year, products.dry_most_a_year)


def most_words(method: Each[Text], product_line: Each[Number], products: Table) -> Each[Text]:
    """The most a year in words, by the line's method."""
    return by_method(method, product_line, products.most_words, products.dry_most_words)


def number_binds(method: Each[Text], product_line: Each[Number], products: Table) -> Each[Text]:
    """ "yes" where the number by the line's method is a limit."""
    return by_method(method, product_line, products.number_binds, products.dry_number_binds)


def needs_growth(by_area_nitrogen: Each[NitrogenPerArea], settings: Table) -> Each[Text]:
    """ "yes" where one visit brings enough nitrogen to ask whether the grass grows."""
    return where(asks_for_growth(by_area_nitrogen, settings), "yes", "")


def unstated(
    product_line: Each[Number],
    method: Each[Text],
    rates_stated: Each[Number],
    label_mass: Each[MassPerArea],
    label_volume: Each[VolumePerArea],
    least_interval: Each[Time],
) -> Each[Text]:
    """What the catalogue does not state of the product by the line's method, and could not be compared."""
    none = where(is_dry(method), "; no dry rate stated", "; no spray rate stated")
    unknown = where(blank(label_mass) & blank(label_volume), "; the label's highest rate is not known", "")
    said = where(rates_stated == 0, none, unknown) + where(blank(least_interval), "; interval not stated", "")
    return listed(where(np.isnan(product_line), "", said))


def unknown_growth(unknown_dates: Each[Number]) -> Each[Text]:
    """On how many dates no month's temperature tells how the grass grows."""
    dates = where(unknown_dates == 1, " date", " dates")
    return where(unknown_dates > 0, "growth not known on " + counts(unknown_dates) + dates, "")
