"""The ground of a date of the programme: 0 for all lawns, the line of a lawn, or below zero that of a group."""

from __future__ import annotations

from wbgen.model.values import Mask, Table


def goes_on(applications: Table, lawn: Table) -> Mask:
    """True for the dates that go on a lawn (`lawn_line`, `group_line`): its own, its group's, those of all."""
    ground = applications.ground
    return (ground == 0) | (ground == lawn.lawn_line) | (ground == -lawn.group_line)
