"""What a history asks of a spreadsheet program. Rows and columns count from 0."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Protocol

from wbgen.files.xlsx.references import Area

Value = float | str | None
"""What a person types; None empties the cell."""


class Editor(Protocol):
    """A workbook that is open in a program, with the program's own behaviour."""

    def shown(self, sheet: str, row: int, column: int) -> Value:
        """The value of a cell; None where it is empty or shows nothing."""

    def type_in(self, sheet: str, row: int, column: int, value: Value) -> None: ...

    def insert_rows(self, sheet: str, row: int, count: int) -> None:
        """New rows before `row`."""

    def delete_rows(self, sheet: str, row: int, count: int) -> None: ...

    def insert_columns(self, sheet: str, column: int, count: int) -> None:
        """New columns before `column`."""

    def fill_row(self, sheet: str, source: int, target: int, columns: range, emptied: Sequence[int]) -> None:
        """Copy a row's cells with their looks to another row, then empty some of the columns there."""

    def sort_rows(self, area: Area, by: int, typed: Sequence[int]) -> None:
        """Put the rows of an area in the order of a column; `typed` are the columns that a person types in."""

    def rename_sheet(self, sheet: str, name: str) -> None: ...

    def hide_rows(self, sheet: str, row: int, count: int) -> None: ...

    def hide_columns(self, sheet: str, column: int, count: int) -> None: ...

    def areas(self) -> Mapping[str, Area]:
        """The defined names of ranges."""

    def save(self, target: Path) -> Path:
        """Calculate everything and save a copy."""


def shifted(at: int, place: int, count: int) -> int:
    """Where a row or column stands after `count` new ones before `place`; fewer than none: that many deleted."""
    if count < 0:
        return at + count if at >= place - count else min(at, place)
    return at + count if at >= place else at
