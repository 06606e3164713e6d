"""This visit in the diary's columns: one record a lawn and product, lawn after lawn.

One record a lawn and product: shape (diary_lines,). There are no lines where the verdict is not to mix.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import as_number, blank, like, ratio, where
from wbgen.model.tools.methods import is_of_the_diarys_height
from wbgen.model.tools.relations import count_by, joined, lookup
from wbgen.model.types import (
    Area,
    Date,
    Each,
    Length,
    Mass,
    MassPerArea,
    Number,
    Quantity,
    Speed,
    T,
    Table,
    Temperature,
    Text,
    Volume,
    VolumePerArea,
    each,
)

BLANK_UNLESS = ("lawn_number",)


def _number_of_lawns(mix_lawns: Table) -> float:
    """How many lawns have a treated area."""
    return float(np.sum(~blank(mix_lawns.treated_area)))


def lawn_number(line: Each[Number], mix_checks: Table, mix_lawns: Table, verdict: Table) -> Each[Number]:
    """The number of the lawn, each for as many lines as there are products; blank past the last."""
    products = mix_checks.found_products
    used = (line <= products * _number_of_lawns(mix_lawns)) & (verdict.level < 2)
    return where(used, np.floor_divide(line - 1, max(products, 1)) + 1, np.nan)


def product_number(line: Each[Number], lawn_number: Each[Number], mix_checks: Table) -> Each[Number]:
    """The number of the product in pouring order, starting anew with each lawn."""
    return where(blank(lawn_number), np.nan, np.mod(line - 1, max(mix_checks.found_products, 1)) + 1)


def _of_lawn(lawn_number: Each[Number], mix_lawns: Table, column: Each[T]) -> Each[T]:
    return lookup(lawn_number, mix_lawns.lawn_line, column)


def _of_product(product_number: Each[Number], mix_products: Table, column: Each[T]) -> Each[T]:
    return lookup(product_number, mix_products.pouring_order, column)


def treated_share(lawn_number: Each[Number], mix_lawns: Table, mix: Table) -> Each[Number]:
    """The share of the whole treated area that is on this lawn."""
    return as_number(ratio(_of_lawn(lawn_number, mix_lawns, mix_lawns.treated_area), mix.treated_area))


def date(mix: Table) -> Each[Date]:
    """The date of the visit, as a serial number."""
    return mix.visit_date


def lawn(lawn_number: Each[Number], mix_lawns: Table) -> Each[Text]:
    """The lawn."""
    return _of_lawn(lawn_number, mix_lawns, mix_lawns.lawn_used)


def product(product_number: Each[Number], mix_products: Table) -> Each[Text]:
    """The product."""
    return _of_product(product_number, mix_products, mix_products.product)


def method(records: int) -> Each[Text]:
    """How it is applied: this planner mixes sprays."""
    return each(["spray"] * records)


def weighed(product_number: Each[Number], treated_share: Each[Number], mix_products: Table) -> Each[Mass]:
    """The lawn's share (g) of what is weighed; blank where that is nothing."""
    return _not_nothing(_of_product(product_number, mix_products, mix_products.mass_total)) * treated_share


def poured(product_number: Each[Number], treated_share: Each[Number], mix_products: Table) -> Each[Volume]:
    """The lawn's share (mL) of what is poured; blank where that is nothing."""
    return _not_nothing(_of_product(product_number, mix_products, mix_products.volume_total)) * treated_share


def _not_nothing(measured: Each[Quantity]) -> Each[Quantity]:
    return where(measured == 0, np.nan, measured)


def water(treated_share: Each[Number], mix: Table) -> Each[Volume]:
    """The lawn's share (L) of the spray."""
    return mix.spray_volume * treated_share


def left_over(treated_share: Each[Number], log: Table, mix: Table) -> Each[Volume]:
    """The lawn's share (L) of what stayed in the tank, or, where that is not typed, of what is to stay there."""
    planned = where(mix.remainder > 0, mix.remainder, np.nan)
    return where(blank(log.left_over), planned, log.left_over) * treated_share


def planned_mass_rate(product_number: Each[Number], mix_products: Table) -> Each[MassPerArea]:
    """The rate (g/m²) of a solid with its overlap, as the diary will find it; blank where that is nothing."""
    return _not_nothing(_of_product(product_number, mix_products, mix_products.laid_mass))


def planned_volume_rate(product_number: Each[Number], mix_products: Table) -> Each[VolumePerArea]:
    """The rate (mL/m²) of a liquid with its overlap, as the diary will find it; blank where that is nothing."""
    return _not_nothing(_of_product(product_number, mix_products, mix_products.laid_volume))


def treated_area(lawn_number: Each[Number], mix_lawns: Table) -> Each[Area]:
    """The area (m²) that is treated on this lawn."""
    return _of_lawn(lawn_number, mix_lawns, mix_lawns.treated_area)


def who(log: Table, mix: Table, records: int) -> Each[Text]:
    """Who did it, or, where that is not typed, who is to."""
    return each(np.array([mix.who if blank(log.who) else log.who] * records, dtype=object))


def air_temperature(log: Table, mix: Table) -> Each[Temperature]:
    """The air temperature measured, or, where that is not typed, expected."""
    return where(blank(log.air_temperature), mix.air_temperature, log.air_temperature)


def wind(log: Table, mix: Table, settings: Table) -> Each[Speed]:
    """The wind measured, or, where that is not typed, expected; blank where that is of another height."""
    expected = mix.wind if is_of_the_diarys_height(mix.wind_height, settings.diary_wind) else like(mix.wind, np.nan)
    return where(blank(log.wind), expected, log.wind)


def rain(log: Table) -> Each[Length]:
    """The rain (mm) of the day, where it is typed."""
    return log.rain


def note(log_lines: Table, records: int) -> Each[Text]:
    """What the log notes of the visit."""
    return each([log_lines.noted] * records)


def stands(date: Each[Date], lawn: Each[Text], product: Each[Text], method: Each[Text], diary: Table) -> Each[Number]:
    """1 where the diary has a line of this day, lawn and product, by this method."""
    key = joined(date, lawn, product, method)
    found = count_by(joined(diary.date, diary.lawn, diary.product, diary.method), key) > 0
    return where(blank(date), np.nan, where(found, 1.0, 0.0))
