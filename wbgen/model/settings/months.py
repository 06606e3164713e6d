"""Growth potential of each month, by its mean temperature.

One record a calendar month: shape (months,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import as_number, ratio, where
from wbgen.model.tools.rounding import exponential
from wbgen.model.types import Each, Number, Quantity, Table, Temperature


def growth_cool(mean_temperature: Each[Temperature], settings: Table) -> Each[Number]:
    """Growth potential of cool-season grass, 0 to 1; an empty month counts as full growth.

    exp(−½ ((T − best) ÷ spread)²), T and best in °C and spread in degrees: M. Woods, A number between 0 and 1, 2014,
    after Gelernter and Stowell 2005. A month of 15 °C is 5 ÷ 5.5 of a spread away from the best.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> best = SimpleNamespace(optimum_cool=FLOAT.Quantity(20.0, "degC"), spread_cool=FLOAT.Quantity(5.5, "delta_degC"))
    >>> growth_cool(FLOAT.Quantity(np.array([15.0, 20.0, np.nan]), "degC"), best).round(4)
    array([0.6615, 1.    , 1.    ])
    """
    return _growth(mean_temperature, settings.optimum_cool, settings.spread_cool)


def growth_warm(mean_temperature: Each[Temperature], settings: Table) -> Each[Number]:
    """Growth potential of warm-season grass, 0 to 1, by the same formula; an empty month counts as full growth.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> best = SimpleNamespace(optimum_warm=FLOAT.Quantity(31.0, "degC"), spread_warm=FLOAT.Quantity(7.0, "delta_degC"))
    >>> growth_warm(FLOAT.Quantity(np.array([20.0, 31.0]), "degC"), best).round(4)
    array([0.2909, 1.    ])
    """
    return _growth(mean_temperature, settings.optimum_warm, settings.spread_warm)


def _growth(temperature: Each[Temperature], best: Temperature, spread: Quantity) -> Each[Number]:
    away = as_number(ratio(temperature - best, spread))
    return where(np.isnan(away), 1.0, exponential(-(away**2) / 2))
