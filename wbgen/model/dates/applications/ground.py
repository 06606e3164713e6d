"""The soluble nitrogen and the iron that come together on one ground, day and method."""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, greater, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.relations import joined, latest_by, sum_by
from wbgen.model.types import (
    Date,
    Each,
    IronPerArea,
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
    date: Each[Date],
    way: Each[Text],
    kind: Each[Text],
    scope_key: Each[Number],
    group_of_lawn: Each[Number],
    brings: Each[Quantity],
) -> Each[Quantity]:
    """What all applications of the day and method bring that go on the whole of its ground.

    Those for all lawns go on any; those for a lawn's group, or for the lawn itself, on the lawn.
    """

    def of_day(wanted: str, *more: Each[Number]) -> Each[Quantity]:
        key = joined(date, way, *more)
        return sum_by(key, key, brings, kind == wanted)

    everywhere, in_group = of_day("all"), of_day("group", group_of_lawn)
    narrower = where(kind == "lawn", of_day("lawn", scope_key), 0.0 * brings.units)
    grouped = where((kind != "all") & ~blank(group_of_lawn), in_group, 0.0 * brings.units)
    return everywhere + grouped + narrower


def _where_it_is_most(
    date: Each[Date], way: Each[Text], kind: Each[Text], group_of_lawn: Each[Number], ground: Each[Quantity]
) -> Each[Quantity]:
    """What comes together on the lawn of its ground that gets most: a lawn may have applications of its own."""
    day, of_group = joined(date, way), joined(date, way, group_of_lawn)
    anywhere = latest_by(day, day, ground)
    in_group = where(kind == "group", latest_by(of_group, of_group, ground, kind == "lawn"), ground * 0)
    return greater(ground, where(kind == "all", anywhere, in_group))


def ground_nitrogen(
    date: Each[Date],
    way: Each[Text],
    kind: Each[Text],
    scope_key: Each[Number],
    group_of_lawn: Each[Number],
    soluble: Each[NitrogenPerArea],
) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) of its day and method on the whole of its ground."""
    return _on_its_ground(date, way, kind, scope_key, group_of_lawn, soluble)


def most_nitrogen(
    date: Each[Date],
    way: Each[Text],
    kind: Each[Text],
    group_of_lawn: Each[Number],
    ground_nitrogen: Each[NitrogenPerArea],
) -> Each[NitrogenPerArea]:
    """The same on the lawn of its ground that gets most."""
    return _where_it_is_most(date, way, kind, group_of_lawn, ground_nitrogen)


def ground_iron(
    date: Each[Date],
    way: Each[Text],
    kind: Each[Text],
    scope_key: Each[Number],
    group_of_lawn: Each[Number],
    brings_iron: Each[IronPerArea],
) -> Each[IronPerArea]:
    """The iron (g Fe/m²) of its day and method on the whole of its ground."""
    return _on_its_ground(date, way, kind, scope_key, group_of_lawn, brings_iron)


def most_iron(
    date: Each[Date], way: Each[Text], kind: Each[Text], group_of_lawn: Each[Number], ground_iron: Each[IronPerArea]
) -> Each[IronPerArea]:
    """The same on the lawn of its ground that gets most."""
    return _where_it_is_most(date, way, kind, group_of_lawn, ground_iron)
