"""What stands on top of every sheet: whether all checks agree."""

from __future__ import annotations

from wbgen.model.tools.elementwise import only
from wbgen.model.types import Table, Text


def state(start: Table) -> Text:
    """The front sheet's words on the checks."""
    return only(start.master_check)
