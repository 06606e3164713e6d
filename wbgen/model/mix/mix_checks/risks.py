"""Figures of the mix that are held against two limits: ask first, and do not mix."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.mix.mix_checks._levels import level_of, said
from wbgen.model.tools.relations import as_number, blank, magnitude, or_zero, ratio, where
from wbgen.model.tools.rounding import exceeds, half_up, reaches
from wbgen.model.tools.words import amount, counts
from wbgen.trade.families import Member
from wbgen.trade.tank_rules import WATERED_IN

Value = Any


def found_carrier(mix: Value) -> Value:
    """How far the carrier volume delivered is from the one aimed at, as a share; blank without either."""
    return np.abs(as_number(ratio(mix.delivered_carrier, mix.carrier_aim)) - 1)


def found_products(mix_products: Value) -> float:
    """How many products of the catalogue are in the tank."""
    return float(np.sum(~blank(mix_products.product_line)))


def found_salts(mix: Value) -> Value:
    """The salts (g/L) in the spray."""
    return mix.salts


def found_solubility(mix: Value) -> Value:
    """The share of solubility that is used."""
    return as_number(mix.solubility_share)


def found_salt_load(mix: Value) -> Value:
    """The salt load (g/m²) on the grass."""
    return mix.salt_load


def found_nitrogen(mix: Value) -> Value:
    """The soluble nitrogen (g N/m²) of this visit."""
    return mix.soluble_nitrogen


def found_iron(mix_nutrients: Value) -> Value:
    """The iron (g Fe/m²) of this visit."""
    return mix_nutrients.rate_iron


def found_wind(mix: Value) -> Value:
    """The wind expected, blank where it is not given."""
    return mix.wind


def found_hardness(mix: Value, mix_products: Value) -> Value:
    """The hardness of the water, blank unless a product has calcium or phosphate."""
    traits = or_zero(mix_products.trait_calcium) + or_zero(mix_products.trait_phosphate)
    return where(bool(np.any(traits > 0)), mix.hardness, np.nan)


def _times(limit: Value, mix: Value, each: Member) -> Value:
    return limit * mix.limit_factor if each.key in WATERED_IN else limit


@of_family("risks")
def ask_each(limits: Value, mix: Value, each: Member) -> Value:
    """Above which figure to ask first; wider for some risks where the spray is watered in."""
    return _times(limits.ask_each, mix, each)


@of_family("risks")
def stop_each(limits: Value, mix: Value, each: Member) -> Value:
    """From or above which figure not to mix; wider for some risks where the spray is watered in."""
    return _times(limits.stop_each, mix, each)


@of_family("risks")
def level_each(found_each: Value, ask_each: Value, stop_each: Value, each: Member) -> Value:
    """2 where the figure beats the second limit, 1 where it beats the first, 0 else; blank where nothing was found."""
    found = found_each if hasattr(ask_each, "units") else as_number(found_each)
    stopped = (reaches if each.says["sign"] == ">=" else exceeds)(found, stop_each)
    return np.nan if np.isnan(magnitude(found)) else 2.0 if stopped else level_of(exceeds(found, ask_each), 1.0)


@of_family("risks")
def words_each(level_each: Value, found_each: Value, ask_each: Value, stop_each: Value, each: Member) -> str:
    """What the risk is, where it is one, with what was found and the limit that it goes beyond."""
    found, ask, stop = (_figure(one, ask_each, each) for one in (found_each, ask_each, stop_each))
    over_stop = f"do not mix {'from' if each.says['sign'] == '>=' else 'above'} {stop}"
    limit = over_stop if level_each > 1 else f"ask first above {ask}"
    return said(level_each, f"; {each.says['words']}: {found}, {limit}")


def _figure(figure: Value, limit: Value, each: Member) -> str:
    """A figure of a risk in words, in the unit of its limit: a share in whole per cent."""
    if each.says["show"] == "share":
        return f"{half_up(as_number(or_zero(figure)) * 100):.0f}%"
    digits = int(each.says["digits"])
    return str(amount(figure, limit.units, digits) if hasattr(limit, "units") else counts(half_up(figure, digits)))
