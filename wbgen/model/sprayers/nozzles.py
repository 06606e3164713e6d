"""Nozzle sizes: what each puts out at the pressure, the speed and the spacing that are asked for."""

from __future__ import annotations

from wbgen.model.tools.elementwise import as_number, ratio
from wbgen.model.types import Each, Flow, Table, VolumePerArea


def output(rated_output: Each[Flow], nozzle_test: Table) -> Each[Flow]:
    """Output at the pressure asked for: flow goes with the square root of pressure.

    Source: Oklahoma State University Extension, Calibrating a low-pressure ground sprayer.
    """
    return rated_output * as_number(ratio(nozzle_test.pressure, nozzle_test.rated_pressure)) ** 0.5


def carrier_volume(output: Each[Flow], nozzle_test: Table) -> Each[VolumePerArea]:
    """Carrier volume of one pass: output over the area that one nozzle covers in the same time."""
    return ratio(output, nozzle_test.speed * nozzle_test.spacing)
