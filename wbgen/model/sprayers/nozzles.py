"""Nozzle sizes: what each puts out at the pressure, the speed and the spacing that are asked for.

One record a nozzle size: shape (nozzles,).
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import as_number, ratio
from wbgen.model.types import Each, Flow, Table, VolumePerArea


def output(rated_output: Each[Flow], nozzle_test: Table) -> Each[Flow]:
    """Output at the pressure asked for: rated output (L/min) × √(pressure (bar) ÷ rated pressure (bar)).

    Four times the pressure doubles the flow: Oklahoma State University Extension, Calibrating a low-pressure ground
    sprayer.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> test = SimpleNamespace(pressure=FLOAT("12 bar"), rated_pressure=FLOAT("3 bar"))
    >>> float(output(FLOAT("0.8 L/min"), test).magnitude)
    1.6
    """
    return rated_output * as_number(ratio(nozzle_test.pressure, nozzle_test.rated_pressure)) ** 0.5


def carrier_volume(output: Each[Flow], nozzle_test: Table) -> Each[VolumePerArea]:
    """Carrier volume of one pass: output (L/min) ÷ (speed (km/h) × spacing (m)), times 600 for L/ha.

    Defra, Pesticides Best Practice Guide, Nozzle selection and maintenance.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> test = SimpleNamespace(speed=FLOAT("6 km/h"), spacing=FLOAT("0.5 m"))
    >>> round(float(carrier_volume(FLOAT("1 L/min"), test).to("L/ha").magnitude), 9)
    200.0
    """
    return ratio(output, nozzle_test.speed * nozzle_test.spacing)
