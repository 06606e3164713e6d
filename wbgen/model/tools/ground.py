"""The ground of a date of the programme: all lawns, a group of them, or one."""

from __future__ import annotations

from wbgen.model.values import Mask, Table


def goes_on(applications: Table, lawn: Table) -> Mask:
    """True for the dates that go on a lawn (`lawn_line`, `group_line`): its own, its group's, those of all."""
    kind, key = applications.kind, applications.scope_key
    of_lawn = (kind == "lawn") & (key == lawn.lawn_line)
    of_group = (kind == "group") & (key == lawn.group_line)
    return (kind == "all") | of_lawn | of_group
