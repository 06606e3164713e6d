"""The visit: area, spray and loads."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import as_number, magnitude, only, or_zero, ratio, where
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.rounding import up
from wbgen.model.types import Area, Number, Table, Text, Volume, VolumePerArea, each


def lawn_line(lawn: Text, lawns: Table) -> Number:
    return only(match(each(np.array([lawn], dtype=object)), lawns.name))


def treated_area(lawn_line: Number, overlap: Number, lawns: Table) -> Area:
    return only(at(lawns.area, each(np.array([lawn_line])))) * (1 + or_zero(overlap))


def spray_volume(wanted_carrier: VolumePerArea, treated_area: Area) -> Volume:
    return where(magnitude(wanted_carrier) > 0, wanted_carrier * treated_area, np.nan)


def loads(spray_volume: Volume, settings: Table) -> Number:
    return up(as_number(ratio(spray_volume, settings.working)))
