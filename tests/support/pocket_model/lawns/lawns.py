"""Lawns: the area of each."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, magnitude, where
from wbgen.model.tools.relations import count_by
from wbgen.model.tools.words import listed
from wbgen.model.types import Area, Each, Mask, Text


def area(name: Each[Text], typed_area: Each[Area]) -> Each[Area]:
    """The area typed; one of 0 is none."""
    return where(blank(name) | ~(magnitude(typed_area) > 0), np.nan, typed_area)


def area_from(name: Each[Text], area: Each[Area]) -> Each[Text]:
    return where(blank(name), "", where(blank(area), "missing", "typed"))


def lawn_state(name: Each[Text], area: Each[Area], misplaced_typed_area: Mask) -> Each[Text]:
    """What is to be mended."""
    said = (
        where(count_by(name, name) > 1, "; this name stands twice", "")
        + where(blank(area), "; no area yet", "")
        + where(misplaced_typed_area, "; a text stands where a number belongs", "")
    )
    return where(blank(name), "", listed(said))
