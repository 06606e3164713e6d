"""What stands on top of every sheet: whether all checks agree."""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.relations import only

Value = Any


def state(start: Value) -> Value:
    """The front sheet's words on the checks."""
    return only(start.master_check)
