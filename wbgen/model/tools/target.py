"""A year's nitrogen against its target."""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, only, or_zero, where
from wbgen.model.tools.rounding import exceeds
from wbgen.model.values import Each, Quantity, Table


def room_about(target: Each[Quantity], settings: Table) -> Each[Quantity]:
    """By how much nitrogen may differ from its target and still be on it: the share of the sheet Settings."""
    return target * or_zero(only(settings.target_tolerance))


def against_target(over: Each[Quantity], target: Each[Quantity], settings: Table) -> Each[str]:
    """Where nitrogen stands that is `over` its target (below zero: under it), in words; nothing where that is blank.

    It is on the target while it differs by no more than its room, to nine decimals: one that is met exactly is not
    passed.
    """
    room = room_about(target, settings)
    stands = where(
        exceeds(over, room), "over the target", where(exceeds(-over, room), "under the target", "on the target")
    )
    return where(blank(target), "not planned", where(blank(over), "", stands))
