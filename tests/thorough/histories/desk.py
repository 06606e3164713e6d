"""A planner on the desk: an editor, and where each table has got to by the edits so far.

The places are followed from the build on, never looked up, so that they are right whatever verify makes of the file.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from thorough.histories.editor import Editor, Value, shifted
from wbgen.files.xlsx.references import Area
from wbgen.sheets.column import Column
from wbgen.sheets.layout import Placed

GROWN_WITH: Final = ("lawns", "products")
"""Capacities that several tables have: a record more in one needs one more in each."""


@dataclass
class Desk:
    editor: Editor
    placed: dict[str, Placed]

    # --- what stands where

    def table(self, table: str) -> Placed:
        return self.placed[table]

    def on(self, sheet: str) -> list[Placed]:
        return [one for one in self.placed.values() if one.sheet == sheet]

    @property
    def sheets(self) -> list[str]:
        return list(dict.fromkeys(one.sheet for one in self.placed.values()))

    def at(self, table: str, key: str, record: int = 0) -> tuple[str, int, int]:
        return self.placed[table].sheet, *self.placed[table].cell(key, record)

    def value(self, table: str, key: str, record: int = 0) -> Value:
        return self.editor.shown(*self.at(table, key, record))

    def values(self, table: str, key: str) -> list[Value]:
        return [self.value(table, key, record) for record in range(self.placed[table].count)]

    def areas(self) -> dict[str, Area]:
        """The range that each table's name should have, for those that run down the sheet."""
        return {
            key: Area(one.sheet, one.opening, min(one.at.values()), one.closing, max(one.at.values()))
            for key, one in self.placed.items()
            if one.table.direction == "down"
        }

    # --- edits that leave every table in its place

    def type_in(self, table: str, key: str, record: int, value: Value) -> None:
        self.editor.type_in(*self.at(table, key, record), value)

    def sort(self, table: str, by: str) -> None:
        """Sort the records of a table, those of the last rows too."""
        one = self.placed[table]
        area = Area(one.sheet, one.first, min(one.at.values()), one.last, max(one.at.values()))
        self.editor.sort_rows(area, one.at[by], self.columns(table, "input"))

    def columns(self, table: str, *roles: str) -> list[int]:
        one = self.placed[table]
        return [one.at[column.key] for column in one.table.columns if column.role in roles]

    # --- edits that move tables

    def insert_rows(self, sheet: str, row: int, count: int) -> None:
        self.editor.insert_rows(sheet, row, count)
        self._move_rows(sheet, row, count)

    def delete_rows(self, sheet: str, row: int, count: int) -> None:
        self.editor.delete_rows(sheet, row, count)
        self._move_rows(sheet, row, -count)

    def insert_columns(self, sheet: str, column: int, count: int) -> None:
        self.editor.insert_columns(sheet, column, count)
        self.move_columns(sheet, {at: shifted(at, column, count) for at in range(1000)})

    def rename_sheet(self, sheet: str, name: str) -> None:
        self.editor.rename_sheet(sheet, name)
        for key, one in self.placed.items():
            if one.sheet == sheet:
                self.placed[key] = replace(one, sheet=name)

    def _move_rows(self, sheet: str, row: int, count: int) -> None:
        for key, one in self.placed.items():
            if one.sheet != sheet:
                continue
            if one.table.direction == "across":
                self.placed[key] = replace(one, at={k: shifted(at, row, count) for k, at in one.at.items()})
            else:
                opening, closing = shifted(one.opening, row, count), shifted(one.closing, row, count)
                last = closing - (one.closing - one.last)
                self.placed[key] = replace(one, opening=opening, first=opening + 1, last=last, closing=closing)

    def move_columns(self, sheet: str, to: dict[int, int]) -> None:
        """Note that the columns of a sheet have changed their places."""
        for key, one in self.placed.items():
            if one.sheet != sheet:
                continue
            left = to[one.left]
            if one.table.direction == "down":
                self.placed[key] = replace(one, at={k: to[at] for k, at in one.at.items()}, left=left)
            else:
                self.placed[key] = replace(
                    one, first=to[one.first], opening=to[one.opening], last=to[one.last], closing=to[one.closing],
                    beside={k: to[at] for k, at in one.beside.items()}, left=left,
                )  # fmt: skip

    # --- records

    def insert_records(self, table: str, place: int, count: int = 1) -> None:
        """New rows before record `place` (after the last one, if it is their number), their formulas filled in.

        In a table that a person only reads, a row is put in before its last record at the latest.
        """
        one = self.placed[table]
        place = min(max(place, 1), one.records - 1) if one.table.plain else min(place, one.records)
        row = one.first + place
        self.insert_rows(one.sheet, row, count)
        beside = row - 1 if place else row + count
        columns = range(min(one.at.values()), max(one.at.values()) + 1)
        for new in range(row, row + count):
            self.editor.fill_row(one.sheet, beside, new, columns, self.columns(table, "input", "constant"))
        for column in _running(one):
            for record in range(place, one.records + count):
                self.type_in(table, column.key, record, float(record + 1))

    def insert_records_everywhere(self, table: str, place: int, count: int = 1) -> None:
        """New records in a table and in all that have a line for each of its records."""
        records = self.placed[table].table.records
        self.insert_records(table, place, count)
        if records in GROWN_WITH:
            for key, one in self.placed.items():
                if key != table and one.table.records == records and one.table.direction == "down":
                    self.insert_records(key, place, count)

    def delete_record(self, table: str, record: int) -> None:
        one = self.placed[table]
        self.delete_rows(one.sheet, one.first + record, 1)


def _running(placed: Placed) -> Sequence[Column]:
    return [column for column in placed.table.columns if column.meaning.running]
