"""The visit: area, spray and loads."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.elementwise import as_number, magnitude, only, or_zero, ratio, where
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.rounding import up

Value = Any


def lawn_line(lawn: Value, lawns: Value) -> Value:
    names: Value = np.array([lawn], dtype=object)
    return only(match(names, lawns.name))


def treated_area(lawn_line: Value, overlap: Value, lawns: Value) -> Value:
    lines: Value = np.array([lawn_line])
    return only(at(lawns.area, lines)) * (1 + or_zero(overlap))


def spray_volume(wanted_carrier: Value, treated_area: Value) -> Value:
    return where(magnitude(wanted_carrier) > 0, wanted_carrier * treated_area, np.nan)


def loads(spray_volume: Value, settings: Value) -> Value:
    return up(as_number(ratio(spray_volume, settings.working)))
