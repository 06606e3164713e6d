"""The soluble nitrogen and the iron of each lawn and day of the round, by method, against the limits of that method.

Of a spray too much soluble nitrogen is asked about and not forbidden: watered in it may be borne, which the sheet Mix
knows.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, or_zero, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.methods import is_dry, way
from wbgen.model.tools.relations import joined, sum_by
from wbgen.model.tools.rounding import exceeds, reaches
from wbgen.model.types import (
    Date,
    Each,
    IronPerArea,
    MassPerArea,
    NitrogenPerArea,
    Number,
    Quantity,
    Table,
    Text,
    VolumePerArea,
)


def iron(programme_line: Each[Number], programme: Table) -> Each[IronPerArea]:
    """The iron (g Fe/m²) that the line brings; 0 where that is not known."""
    return or_zero(at(programme.by_area_iron, programme_line))


def visit_iron(lawn: Each[Text], day: Each[Date], iron: Each[IronPerArea]) -> Each[IronPerArea]:
    """The iron (g Fe/m²) of all lines of the round that are for the same lawn and day."""
    return sum_by(joined(lawn, day), joined(lawn, day), iron)


def _by_method(
    lawn: Each[Text], day: Each[Date], method: Each[Text], whole: Each[Quantity], brings: Each[Quantity]
) -> Each[Quantity]:
    """Of a lawn and day, what is spread dry or what is sprayed, as the line is."""
    spread = sum_by(joined(lawn, day), joined(lawn, day), brings, is_dry(method))
    return where(is_dry(method), spread, whole - spread)


def day_soluble(
    lawn: Each[Text],
    day: Each[Date],
    method: Each[Text],
    visit_soluble: Each[NitrogenPerArea],
    soluble: Each[NitrogenPerArea],
) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) of the lawn and day by the line's method."""
    return _by_method(lawn, day, method, visit_soluble, soluble)


def day_iron(
    lawn: Each[Text],
    day: Each[Date],
    method: Each[Text],
    visit_iron: Each[IronPerArea],
    iron: Each[IronPerArea],
) -> Each[IronPerArea]:
    """The iron (g Fe/m²) of the lawn and day by the line's method."""
    return _by_method(lawn, day, method, visit_iron, iron)


def _one(method: Each[Text]) -> Each[Text]:
    return "iron in one " + where(is_dry(method), "dry dressing", "visit")


def iron_stops(
    programme_line: Each[Number],
    method: Each[Text],
    iron: Each[IronPerArea],
    day_iron: Each[IronPerArea],
    programme: Table,
) -> Each[Text]:
    """Where there is too much iron, on each line that brings some. The limit itself is too much."""
    over = exceeds(iron, 0.0) & reaches(day_iron, at(programme.stop_iron, programme_line))
    return where(over, "; too much " + _one(method), "")


def iron_asks(
    programme_line: Each[Number],
    method: Each[Text],
    iron: Each[IronPerArea],
    day_iron: Each[IronPerArea],
    visit_iron: Each[IronPerArea],
    iron_stops: Each[Text],
    programme: Table,
) -> Each[Text]:
    """Where there is much iron, and not too much; a spray is asked about with what is spread dry that day."""
    found = where(is_dry(method), day_iron, visit_iron)
    over = exceeds(iron, 0.0) & exceeds(found, at(programme.ask_iron, programme_line)) & blank(iron_stops)
    return where(over, "; much " + _one(method), "")


def nitrogen_asks(
    programme_line: Each[Number],
    method: Each[Text],
    soluble: Each[NitrogenPerArea],
    day_soluble: Each[NitrogenPerArea],
    visit_soluble: Each[NitrogenPerArea],
    programme: Table,
) -> Each[Text]:
    """Where there is much soluble nitrogen, on each line that brings some; a spray with what is spread dry that day."""
    found = where(is_dry(method), day_soluble, visit_soluble)
    spread, sprayed = "more soluble nitrogen than one dry dressing should bring", "much soluble nitrogen in one visit"
    asked = where(is_dry(method), "; " + spread, "; " + sprayed)
    much = where(exceeds(found, at(programme.ask_nitrogen, programme_line)), asked, "")
    too_much = exceeds(day_soluble, at(programme.stop_nitrogen, programme_line))
    return where(exceeds(soluble, 0.0), where(too_much, "; too much soluble nitrogen in one visit", much), "")


def twice_words(
    lawn: Each[Text],
    product: Each[Text],
    day: Each[Date],
    method: Each[Text],
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    programme_line: Each[Number],
    programme: Table,
) -> Each[Text]:
    """Where lines that bring one product to one lawn and day are over its highest rate together, and none by itself."""
    same = joined(lawn, product, day, way(method))
    solid = exceeds(sum_by(same, same, rate_mass), at(programme.label_mass, programme_line))
    liquid = exceeds(sum_by(same, same, rate_volume), at(programme.label_volume, programme_line))
    alone = at(programme.over_level, programme_line) > 0
    return where((solid | liquid) & ~alone, "; over its highest rate with the other lines of the day", "")
