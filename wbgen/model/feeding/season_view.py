"""The lawn whose season is shown.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.tools.relations import lookup, pick
from wbgen.model.types import Area, NitrogenPerArea, Table, Text


def shown(lawn: Text, lawns: Table) -> Text:
    """Name of the lawn: the one chosen, or the first of all."""
    return lawn or pick(lawns.name, 0)


def area(shown: Text, lawns: Table) -> Area:
    """Area of the whole lawn; blank for an unknown lawn."""
    return lookup(shown, lawns.name, lawns.area)


def target(shown: Text, lawns: Table) -> NitrogenPerArea:
    """Nitrogen wanted in a year, by area; blank where it is not planned."""
    return lookup(shown, lawns.name, lawns.target_nitrogen)
