"""The catch test: each nozzle against the mean of its sprayer.

One record a nozzle caught: shape (catches,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import as_number, blank, ratio, where
from wbgen.model.tools.relations import count_by, sum_by
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import Each, Flow, Number, Table, Text, Time, Volume

BLANK_UNLESS = ("sprayer", "caught", "catch_time")


def nozzle_output(caught: Each[Volume], catch_time: Each[Time]) -> Each[Flow]:
    """Water caught over the time it took."""
    return ratio(caught, catch_time)


def mean_output(sprayer: Each[Text], nozzle_output: Each[Flow]) -> Each[Flow]:
    """Mean output of the nozzles of the same sprayer; blank where the nozzle itself has none."""
    number = count_by(sprayer, sprayer, ~blank(nozzle_output))
    return where(blank(nozzle_output), np.nan, ratio(sum_by(sprayer, sprayer, nozzle_output), number))


def deviation(nozzle_output: Each[Flow], mean_output: Each[Flow]) -> Each[Number]:
    """Output of the nozzle (L/min) ÷ the mean of its sprayer (L/min) − 1, a share. Common practice, no source.

    >>> import numpy as np
    >>> from wbgen.units.quantity import FLOAT
    >>> deviation(FLOAT.Quantity(np.array([1.25, 0.75]), "L/min"), FLOAT.Quantity(np.array([1.0, 1.0]), "L/min"))
    array([ 0.25, -0.25])
    """
    return as_number(ratio(nozzle_output, mean_output)) - 1


def nozzle_state(deviation: Each[Number], settings: Table) -> Each[Text]:
    """Whether the nozzle is within the tolerance, in words; blank without a deviation or a tolerance."""
    off = exceeds(abs(deviation), as_number(settings.nozzle_tolerance))
    return where(
        blank(deviation) | blank(as_number(settings.nozzle_tolerance)), "", where(off, "clean or replace", "within")
    )
