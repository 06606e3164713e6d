"""Growth potential of each month, by its mean temperature."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import as_number, ratio, where
from wbgen.model.types import Each, Number, Quantity, Table, Temperature


def growth_cool(mean_temperature: Each[Temperature], settings: Table) -> Each[Number]:
    """Growth potential of cool-season grass, 0 to 1; an empty month counts as full growth.

    exp(−½ ((T − best) ÷ spread)²): M. Woods, A number between 0 and 1, 2014, after Gelernter and Stowell 2005.
    """
    return _growth(mean_temperature, settings.optimum_cool, settings.spread_cool)


def growth_warm(mean_temperature: Each[Temperature], settings: Table) -> Each[Number]:
    """Growth potential of warm-season grass, 0 to 1, by the same formula; an empty month counts as full growth."""
    return _growth(mean_temperature, settings.optimum_warm, settings.spread_warm)


def _growth(temperature: Each[Temperature], best: Temperature, spread: Quantity) -> Each[Number]:
    away = as_number(ratio(temperature - best, spread))
    return where(np.isnan(away), 1.0, np.exp(-(away**2) / 2))
