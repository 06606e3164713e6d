"""Whether there are labels for the mix.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank
from wbgen.model.types import Table, Text


def words(card: Table) -> Text:
    """What to do with them; or that there are none, as nothing is to be filled."""
    return "none: do not mix" if blank(card.fill_mark) else "cut along the lines, one for each jug"
