"""This visit in the diary's columns: one record a lawn and product, lawn after lawn.

`mix`, `verdict` and `mix_checks` give scalars. There are no lines where the verdict is not to mix.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.relations import as_number, blank, lookup, ratio, where

Value = Any

BLANK_UNLESS = ("lawn_number",)


def _number_of_lawns(mix_lawns: Value) -> float:
    """How many lawns have a treated area."""
    return float(np.sum(~blank(mix_lawns.treated_area)))


def lawn_number(line: Value, mix_checks: Value, mix_lawns: Value, verdict: Value) -> Value:
    """The number of the lawn, each for as many lines as there are products; blank past the last."""
    products = mix_checks.found_products
    used = (line <= products * _number_of_lawns(mix_lawns)) & (verdict.level < 2)
    return np.where(used, np.floor_divide(line - 1, max(products, 1)) + 1, np.nan)


def product_number(line: Value, lawn_number: Value, mix_checks: Value) -> Value:
    """The number of the product in pouring order, starting anew with each lawn."""
    return np.where(blank(lawn_number), np.nan, np.mod(line - 1, max(mix_checks.found_products, 1)) + 1)


def _of_lawn(lawn_number: Value, mix_lawns: Value, column: Value) -> Value:
    return lookup(lawn_number, mix_lawns.lawn_line, column)


def _of_product(product_number: Value, mix_products: Value, column: Value) -> Value:
    return lookup(product_number, mix_products.pouring_order, column)


def treated_share(lawn_number: Value, mix_lawns: Value, mix: Value) -> Value:
    """The share of the whole treated area that is on this lawn."""
    return as_number(ratio(_of_lawn(lawn_number, mix_lawns, mix_lawns.treated_area), mix.treated_area))


def date(mix: Value) -> Value:
    """The date of the visit, as a serial number."""
    return mix.visit_date


def lawn(lawn_number: Value, mix_lawns: Value) -> Value:
    """The lawn."""
    return _of_lawn(lawn_number, mix_lawns, mix_lawns.lawn_used)


def product(product_number: Value, mix_products: Value) -> Value:
    """The product."""
    return _of_product(product_number, mix_products, mix_products.product)


def method() -> str:
    """How it is applied: this planner mixes sprays."""
    return "spray"


def weighed(product_number: Value, treated_share: Value, mix_products: Value) -> Value:
    """The lawn's share (g) of what is weighed; blank where that is nothing."""
    return _not_nothing(_of_product(product_number, mix_products, mix_products.mass_total)) * treated_share


def poured(product_number: Value, treated_share: Value, mix_products: Value) -> Value:
    """The lawn's share (mL) of what is poured; blank where that is nothing."""
    return _not_nothing(_of_product(product_number, mix_products, mix_products.volume_total)) * treated_share


def _not_nothing(measured: Value) -> Value:
    return where(measured == 0, np.nan, measured)


def water(treated_share: Value, mix: Value) -> Value:
    """The lawn's share (L) of the spray."""
    return mix.spray_volume * treated_share


def left_over(treated_share: Value, mix: Value) -> Value:
    """The lawn's share (L) of what stays in the tank; blank where nothing does, for the day to show."""
    return where(mix.remainder > 0, mix.remainder, np.nan) * treated_share


def planned_mass_rate(product_number: Value, mix_products: Value) -> Value:
    """The rate (g/m²) of a solid with its overlap, as the diary will find it; blank where that is nothing."""
    return _not_nothing(_of_product(product_number, mix_products, mix_products.laid_mass))


def planned_volume_rate(product_number: Value, mix_products: Value) -> Value:
    """The rate (mL/m²) of a liquid with its overlap, as the diary will find it; blank where that is nothing."""
    return _not_nothing(_of_product(product_number, mix_products, mix_products.laid_volume))


def treated_area(lawn_number: Value, mix_lawns: Value) -> Value:
    """The area (m²) that is treated on this lawn."""
    return _of_lawn(lawn_number, mix_lawns, mix_lawns.treated_area)


def who() -> str:
    """Who did it, which is filled in by hand."""
    return ""


def air_temperature(mix: Value) -> Value:
    """The air temperature expected."""
    return mix.air_temperature


def wind(mix: Value) -> Value:
    """The wind expected."""
    return mix.wind
