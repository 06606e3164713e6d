"""A1 references as places."""

from __future__ import annotations

import re
from dataclasses import dataclass

from wbgen.files.xlsx.addresses import COLUMNS, ROWS, column_of

_END = re.compile(r"\$?([A-Z]{1,3})?\$?([1-9][0-9]{0,6})?")


@dataclass(frozen=True)
class Area:
    """A cell or a range; rows and columns from 0, both ends in it."""

    sheet: str
    top: int
    left: int
    bottom: int
    right: int

    def meets(self, other: Area) -> bool:
        """Whether both are of one sheet and have a cell in common."""
        down = self.top <= other.bottom and other.top <= self.bottom
        return self.sheet == other.sheet and down and self.left <= other.right and other.left <= self.right


def area_of(reference: str, home: str) -> Area | None:
    """The place of a reference in a formula of the sheet `home`; None for a name, another file, several sheets.

    >>> area_of("'My Sheet'!$B$5:C9", "Mix")
    Area(sheet='My Sheet', top=4, left=1, bottom=8, right=2)
    >>> area_of("B:B", "Mix")
    Area(sheet='Mix', top=0, left=1, bottom=1048575, right=1)
    >>> area_of("a_name", "Mix"), area_of("B0:B9", "Mix")
    (None, None)
    """
    name, mark, cells = reference.strip().rpartition("!")
    sheet = _unquoted(name) if mark else home
    ends = [_END.fullmatch(part) for part in cells.upper().split(":")]
    first, last = ends[0], ends[-1]
    if sheet is None or first is None or last is None or len(ends) > 2:
        return None
    down = _span([int(end[2]) - 1 if end[2] else None for end in (first, last)], len(ends), ROWS - 1)
    across = _span([column_of(end[1]) if end[1] else None for end in (first, last)], len(ends), COLUMNS - 1)
    if down is None or across is None:
        return None
    return Area(sheet, down[0], across[0], down[1], across[1])


def _span(places: list[int | None], ends: int, last: int) -> tuple[int, int] | None:
    """The first and the last row (or column); all of them where both ends of a range name none."""
    known = [place for place in places if place is not None]
    if not known and ends == 2:
        return 0, last
    return (min(known), max(known)) if len(known) == 2 else None


def _unquoted(name: str) -> str | None:
    if name.startswith("'") and name.endswith("'") and len(name) > 1:
        name = name[1:-1].replace("''", "'")
    return None if re.search(r"[][:]", name) else name
