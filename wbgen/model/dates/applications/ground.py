"""The soluble nitrogen and the iron that come together on one ground, day and method."""

from __future__ import annotations

from wbgen.model.tools.elementwise import greater, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.relations import joined, latest_by, sum_by
from wbgen.model.types import (
    Date,
    Each,
    IronPerArea,
    Mask,
    NitrogenPerArea,
    Number,
    Quantity,
    Table,
    Text,
)


def soluble(programme_line: Each[Number], programme: Table) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) that it brings; blank for an unknown product."""
    return at(programme.soluble_nitrogen, programme_line)


def _on_its_ground(
    date: Each[Date], way: Each[Text], ground: Each[Number], group: Each[Number], brings: Each[Quantity]
) -> Each[Quantity]:
    """What all applications of the day and method bring that go on the whole of its ground.

    Those for all lawns go on any; those for a lawn's group, or for the lawn itself, on the lawn.
    """

    def of_day(wanted: Mask, *more: Each[Number]) -> Each[Quantity]:
        key = joined(date, way, *more)
        return sum_by(key, key, brings, wanted)

    none = 0.0 * brings.units
    grouped = where(ground != 0, of_day(ground < 0, group), none)
    return of_day(ground == 0) + grouped + where(ground > 0, of_day(ground > 0, ground), none)


def _where_it_is_most(
    date: Each[Date], way: Each[Text], ground: Each[Number], group: Each[Number], brought: Each[Quantity]
) -> Each[Quantity]:
    """What comes together on the lawn of its ground that gets most: a lawn may have applications of its own."""
    day, of_group = joined(date, way), joined(date, way, group)
    anywhere, in_group = latest_by(day, day, brought), latest_by(of_group, of_group, brought)
    narrower = where(ground < 0, in_group, brought * 0)
    return greater(brought, where(ground == 0, anywhere, narrower))


def ground_nitrogen(
    date: Each[Date],
    way: Each[Text],
    ground: Each[Number],
    group: Each[Number],
    soluble: Each[NitrogenPerArea],
) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) of its day and method on the whole of its ground."""
    return _on_its_ground(date, way, ground, group, soluble)


def most_nitrogen(
    date: Each[Date],
    way: Each[Text],
    ground: Each[Number],
    group: Each[Number],
    ground_nitrogen: Each[NitrogenPerArea],
) -> Each[NitrogenPerArea]:
    """The same on the lawn of its ground that gets most."""
    return _where_it_is_most(date, way, ground, group, ground_nitrogen)


def ground_iron(
    date: Each[Date],
    way: Each[Text],
    ground: Each[Number],
    group: Each[Number],
    brings_iron: Each[IronPerArea],
) -> Each[IronPerArea]:
    """The iron (g Fe/m²) of its day and method on the whole of its ground."""
    return _on_its_ground(date, way, ground, group, brings_iron)


def most_iron(
    date: Each[Date], way: Each[Text], ground: Each[Number], group: Each[Number], ground_iron: Each[IronPerArea]
) -> Each[IronPerArea]:
    """The same on the lawn of its ground that gets most."""
    return _where_it_is_most(date, way, ground, group, ground_iron)
