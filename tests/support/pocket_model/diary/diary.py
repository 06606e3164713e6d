"""Diary: what each line came to."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.dates import month_of
from wbgen.model.tools.elementwise import as_number, blank, folded, or_zero, ratio, where
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.words import amount
from wbgen.model.types import Date, Each, Mass, Money, NitrogenMass, NitrogenPerArea, Number, Table, Text, Volume, each

BLANK_UNLESS = ("counted",)


def counted(date: Each[Date], lawn: Each[Text], product: Each[Text]) -> Each[Number]:
    """1 where there are a date, a lawn and a product."""
    return where(~blank(date) & ~blank(lawn) & ~blank(product), 1.0, np.nan)


def product_line(product: Each[Text], products: Table) -> Each[Number]:
    return match(product, products.name)


def lawn_line(lawn: Each[Text], lawns: Table) -> Each[Number]:
    return match(lawn, lawns.name)


def month(date: Each[Date]) -> Each[Number]:
    return month_of(date)


def share_used(water: Each[Volume], left_over: Each[Volume]) -> Each[Number]:
    """Share of the spray that left the tank; 1 where either is blank or 0."""
    return where(blank(ratio(left_over, water)), 1.0, 1 - as_number(ratio(left_over, water)))


def applied_mass(
    weighed: Each[Mass], poured: Each[Volume], share_used: Each[Number], product_line: Each[Number], products: Table
) -> Each[Mass]:
    """What was weighed, or what was poured by its density, times the share used."""
    by_volume = poured * or_zero(at(products.density, product_line))
    return where(blank(product_line), np.nan, where(blank(weighed), by_volume, weighed) * share_used)


def load_nitrogen(applied_mass: Each[Mass], product_line: Each[Number], products: Table) -> Each[NitrogenMass]:
    load = or_zero(applied_mass) * or_zero(at(products.stated_nitrogen, product_line))
    return where(blank(product_line), np.nan, load)


def rate_nitrogen(load_nitrogen: Each[NitrogenMass], lawn_line: Each[Number], lawns: Table) -> Each[NitrogenPerArea]:
    return ratio(load_nitrogen, at(lawns.area, lawn_line))


def cost(applied_mass: Each[Mass], product_line: Each[Number], products: Table) -> Each[Money]:
    return or_zero(applied_mass) * at(products.price_by_mass, product_line)


def number_of_lawn(lawn: Each[Text]) -> Each[Number]:
    """How many lines there are of this lawn up to this one, whether they count or not."""
    keys = list(folded(lawn))
    return each(np.array([float(keys[: record + 1].count(key)) for record, key in enumerate(keys)]))


def words(rate_nitrogen: Each[NitrogenPerArea], lawns: Table) -> Each[Text]:
    """The rate in words, to two decimals, in the unit of the targets."""
    return where(blank(rate_nitrogen), "", amount(rate_nitrogen, lawns.target_nitrogen.units, 2))
