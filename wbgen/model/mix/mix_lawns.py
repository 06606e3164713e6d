"""Lawns of this visit, and the spray for each.

One record a lawn of this visit: shape (lawns,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import as_number, blank, like, magnitude, or_zero, ratio, where
from wbgen.model.tools.relations import count_by, find, lookup, pick
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import Area, Each, Number, Table, Text, Time, Volume, each

BLANK_UNLESS = ("lawn_used",)
NEVER_BLANK = ("turn",)


def turn(records: int) -> Each[Number]:
    """Place in walking order, from 1."""
    return each(np.arange(records) + 1.0)


def _all_lawns(mix: Table) -> bool:
    """Whether all lawns are chosen, and so none of those that are named here, nor their parts."""
    return str(mix.which_lawns).lower() == "all"


def lawn_used(lawn: Each[Text], mix: Table, lawns: Table) -> Each[Text]:
    """The lawn named, or with all lawns chosen the one at the same place among the lawns."""
    if not _all_lawns(mix):
        return lawn
    return pick(lawns.name, np.arange(len(lawn)))


def lawn_area(lawn_used: Each[Text], lawns: Table) -> Each[Area]:
    """Area of the whole lawn; blank for an unknown lawn."""
    return lookup(lawn_used, lawns.name, lawns.area)


def treated_area(part_treated: Each[Area], lawn_area: Each[Area], mix: Table) -> Each[Area]:
    """Area treated: the part that is given, else the whole lawn; with all lawns chosen, always the whole."""
    return where(blank(part_treated) | _all_lawns(mix), lawn_area, part_treated)


def lawn_line(treated_area: Each[Area]) -> Each[Number]:
    """Running number, from 1, of the records with a treated area; blank for the others."""
    there = ~blank(treated_area)
    return where(there, np.cumsum(there), np.nan)


def water(treated_area: Each[Area], mix: Table) -> Each[Volume]:
    """Spray for the lawn: area (m²) × carrier volume (L/ha) × (1 + overlap), without what stays in the tank.

    Area times rate is exact; the overlap is common practice, no source.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> mix = SimpleNamespace(carrier_volume=FLOAT("500 L/ha"), overlap=np.nan)
    >>> water(FLOAT.Quantity(np.array([85.0]), "m**2"), mix).to("L").magnitude.round(9)
    array([4.25])
    """
    return treated_area * mix.carrier_volume * (1 + or_zero(as_number(mix.overlap)))


def water_so_far(water: Each[Volume]) -> Each[Volume]:
    """Running sum of the spray, this lawn included; a blank counts as nothing."""
    return like(water, np.cumsum(magnitude(or_zero(water))))


def spray_time(water: Each[Volume], mix: Table, sprayers: Table) -> Each[Time]:
    """Time that the nozzles take; blank for a sprayer whose nozzles were not caught."""
    return ratio(water, lookup(mix.sprayer, sprayers.name, sprayers.total_output))


def lawn_problem(
    lawn_used: Each[Text], lawn_area: Each[Area], treated_area: Each[Area], lawns: Table, mix: Table, mix_lawns: Table
) -> Each[Text]:
    """What keeps the lawn from being treated as it is named here, in words. With all lawns chosen no part counts."""
    text_as_part = mix_lawns.misplaced_part_treated & (not _all_lawns(mix))
    unknown = find(lawn_used, lawns.name) < 0
    without = where(unknown, "is not on the sheet Lawns", "has no area")
    twice = count_by(lawn_used, lawn_used) > 1
    larger = where(
        exceeds(treated_area, lawn_area), "has a part larger than the lawn", where(twice, "is named twice", "")
    )
    there = where(text_as_part, "has a text where the number of its part belongs", larger)
    return where(blank(lawn_area), without, there)
