"""What went on the lawn this season, the latest first.

One record a line of the diary, as many as there is room for: shape (report_lines,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.lines import at, lines_at
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.relations import pick
from wbgen.model.tools.words import amount as said
from wbgen.model.types import Date, Each, Number, Quantity, Table, Text, each

BLANK_UNLESS = ("spot",)


def spot(turn: Each[Number], diary: Table, report_workings: Table, start: Table) -> Each[Number]:
    """The line of the diary, its heading row being line 1: by day and then by line, from the last back.

    Blank where there are fewer.
    """
    own = (diary.lawn_line == report_workings.lawn_line) & ~blank(diary.line_key)
    places = np.flatnonzero(own & (diary.date <= only(start.as_of)))
    places = places[np.lexsort((-places, -diary.date[places]))]
    here = turn <= np.sum(own & (diary.season_month > 0))
    return lines_at(where(here, pick(each(places.astype(float)), turn - 1), -1.0))


def date(spot: Each[Number], diary: Table) -> Each[Date]:
    """The day."""
    return at(diary.date, spot)


def product(spot: Each[Number], diary: Table) -> Each[Text]:
    """The product, as it is written there."""
    return at(diary.product, spot)


def _either(
    solid: Each[Text], liquid: Each[Text], mass: Each[Quantity], volume: Each[Quantity], neither: str
) -> Each[Text]:
    """What is said of a solid or of a liquid; words where neither is known."""
    return where(~blank(mass), solid, where(~blank(volume), liquid, neither))


def amount(spot: Each[Number], diary: Table) -> Each[Text]:
    """How much of it went on the lawn, in the units of the diary."""
    mass, volume = at(diary.applied_mass, spot), at(diary.applied_volume, spot)
    solid, liquid = said(mass, diary.weighed.units, 1), said(volume, diary.poured.units, 1)
    return _either(solid, liquid, mass, volume, "not noted")


def rate(spot: Each[Number], diary: Table) -> Each[Text]:
    """The same by the area that was treated."""
    mass, volume = at(diary.rate_mass, spot), at(diary.rate_volume, spot)
    solid = said(mass, diary.planned_mass_rate.units, 2)
    liquid = said(volume, diary.planned_volume_rate.units, 2)
    return _either(solid, liquid, mass, volume, "not known")


def note(spot: Each[Number], diary: Table) -> Each[Text]:
    """Whether it was spread dry, and the note of its line."""
    dry, noted = where(is_dry(at(diary.method, spot)), "spread dry", ""), at(diary.note, spot)
    return dry + where(~blank(dry) & ~blank(noted), "; ", "") + noted
