"""The lawn whose season is shown."""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.relations import lookup, pick

Value = Any


def shown(lawn: Value, lawns: Value) -> Value:
    """Name of the lawn: the one chosen, or the first of all."""
    return lawn or pick(lawns.name, 0)


def area(shown: Value, lawns: Value) -> Value:
    """Area of the whole lawn; blank for an unknown lawn."""
    return lookup(shown, lawns.name, lawns.area)


def target(shown: Value, lawns: Value) -> Value:
    """Nitrogen wanted in a year, by area; blank where it is not planned."""
    return lookup(shown, lawns.name, lawns.target_nitrogen)
