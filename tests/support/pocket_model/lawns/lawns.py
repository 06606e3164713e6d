"""Lawns: the area of each."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.elementwise import blank, magnitude, where
from wbgen.model.tools.relations import count_by
from wbgen.model.tools.words import listed

Value = Any


def area(name: Value, typed_area: Value) -> Value:
    """The area typed; one of 0 is none."""
    return where(blank(name) | ~(magnitude(typed_area) > 0), np.nan, typed_area)


def area_from(name: Value, area: Value) -> Value:
    return where(blank(name), "", where(blank(area), "missing", "typed"))


def lawn_state(name: Value, area: Value, misplaced_typed_area: Value) -> Value:
    """What is to be mended."""
    said = (
        where(count_by(name, name) > 1, "; this name stands twice", "")
        + where(blank(area), "; no area yet", "")
        + where(misplaced_typed_area, "; a text stands where a number belongs", "")
    )
    return where(blank(name), "", listed(said))
