"""Figures of the mix that are held against two limits: ask first, and do not mix."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.mix_workings.mix_checks._levels import is_said, level_of, said
from wbgen.model.tools.elementwise import as_number, blank, magnitude, or_zero, ratio, where
from wbgen.model.tools.rounding import exceeds, half_up, reaches
from wbgen.model.tools.words import amount, counts
from wbgen.model.types import (
    Figure,
    IronPerArea,
    ManganesePerArea,
    MassPerArea,
    MassPerVolume,
    NitrogenPerArea,
    Number,
    Speed,
    Table,
    Text,
)
from wbgen.trade.families import Member
from wbgen.trade.tank_rules import WATERED_IN


def found_carrier(mix: Table) -> Number:
    """How far the carrier volume delivered is from the one aimed at, as a share; blank without either."""
    return np.abs(as_number(ratio(mix.delivered_carrier, mix.carrier_aim)) - 1)


def found_products(mix_products: Table) -> Number:
    """How many products of the catalogue are in the tank."""
    return float(np.sum(~blank(mix_products.product_line)))


def found_salts(mix: Table) -> MassPerVolume:
    """The salts (g/L) in the spray."""
    return mix.salts


def found_solubility(mix: Table) -> Number:
    """The share of solubility that is used."""
    return as_number(mix.solubility_share)


def found_potassium_sulphate(mix: Table, mix_products: Table, settings: Table) -> Number:
    """How near the potassium and the sulphate of two products are to potassium sulphate falling out; 1 is saturated.

    The cube root of [K]² [SO4] over that of the saturated salt, so that it is concentration ÷ solubility of the salt
    alone, and neither ion counts without the other (general chemistry, from memory). Blank unless one product has
    potassium and another sulphate.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> potash, sulphate = FLOAT("25 g_K2O/L"), FLOAT("21 g_SO3/L")
    >>> mix = SimpleNamespace(potash_in_water=potash, sulphate_in_water=sulphate)
    >>> settings = SimpleNamespace(saturated_potash=2 * potash, saturated_sulphate=2 * sulphate)
    >>> round(float(found_potassium_sulphate(mix, SimpleNamespace(potash_meets_sulphate=np.array([1.0])), settings)), 9)
    0.5
    """
    potassium = as_number(ratio(mix.potash_in_water, settings.saturated_potash))
    sulphate = as_number(ratio(mix.sulphate_in_water, settings.saturated_sulphate))
    share = np.cbrt(potassium * potassium * sulphate)
    return where(bool(np.any(mix_products.potash_meets_sulphate > 0)), share, np.nan)


def found_salt_load(mix: Table) -> MassPerArea:
    """The salt load (g/m²) on the grass."""
    return mix.salt_load


def found_nitrogen(mix: Table) -> NitrogenPerArea:
    """The soluble nitrogen (g N/m²) of this visit."""
    return mix.soluble_nitrogen


def found_iron(mix_nutrients: Table) -> IronPerArea:
    """The iron (g Fe/m²) of this visit."""
    return mix_nutrients.rate_iron


def found_manganese(mix_nutrients: Table) -> ManganesePerArea:
    """The manganese (g Mn/m²) of this visit."""
    return mix_nutrients.rate_manganese


def found_wind(mix: Table) -> Speed:
    """The wind expected, where it is a forecast, which is for 10 m; blank where it is not given."""
    return where(_is_forecast(mix), mix.wind, np.nan)


def found_near_wind(mix: Table) -> Speed:
    """The wind at spray height, or at a height that is not told, for which its limits are on the safe side."""
    return where(_is_forecast(mix), np.nan, mix.wind)


def _is_forecast(mix: Table) -> bool:
    return is_said(mix.wind_height, "forecast at 10 m")


def _times(limit: Figure, mix: Table, each: Member) -> Figure:
    return limit * mix.limit_factor if each.key in WATERED_IN else limit


@of_family("risks")
def ask_each(limits: Table, mix: Table, each: Member) -> Figure:
    """Above which figure to ask first; wider for some risks where the spray is watered in."""
    return _times(limits.ask_each, mix, each)


@of_family("risks")
def stop_each(limits: Table, mix: Table, each: Member) -> Figure:
    """From or above which figure not to mix; wider for some risks where the spray is watered in."""
    return _times(limits.stop_each, mix, each)


@of_family("risks")
def level_each(found_each: Figure, ask_each: Figure, stop_each: Figure, each: Member) -> Number:
    """2 where the figure beats the second limit, 1 where it beats the first, 0 else; blank where nothing was found."""
    found: Figure = found_each if hasattr(ask_each, "units") else as_number(found_each)
    stopped = (reaches if each.says["sign"] == ">=" else exceeds)(found, stop_each)
    return np.nan if np.isnan(magnitude(found)) else 2.0 if stopped else level_of(bool(exceeds(found, ask_each)), 1.0)


@of_family("risks")
def words_each(level_each: Number, found_each: Figure, ask_each: Figure, stop_each: Figure, each: Member) -> Text:
    """What the risk is, where it is one, with what was found and the limit that it goes beyond."""
    found, ask, stop = (_figure(one, ask_each, each) for one in (found_each, ask_each, stop_each))
    over_stop = f"do not mix {'from' if each.says['sign'] == '>=' else 'above'} {stop}"
    limit = over_stop if level_each > 1 else f"ask first above {ask}"
    return said(level_each, f"; {each.says['words']}: {found}, {limit}")


def _figure(figure: Figure, limit: Figure, each: Member) -> str:
    """A figure of a risk in words, in the unit of its limit: a share in whole per cent."""
    if each.says["show"] == "share":
        return f"{half_up(as_number(or_zero(figure)) * 100):.0f}%"
    digits = int(each.says["digits"])
    return str(amount(figure, limit.units, digits) if hasattr(limit, "units") else counts(half_up(figure, digits)))
