"""One history for every kind of edit that a person may make, by name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from thorough.histories import office_steps as office
from thorough.histories import steps
from thorough.histories.desk import Desk
from thorough.histories.editor import Value
from thorough.histories.steps import Step

History = Sequence[Step]
LAST: Final = -1
"""The record after all others, where it is a place to insert."""


@dataclass(frozen=True)
class Type:
    """A value in one cell."""

    table: str
    key: str
    record: int
    value: Value

    def do(self, desk: Desk) -> None:
        desk.type_in(self.table, self.key, self.record, self.value)


@dataclass(frozen=True)
class InsertAt:
    """A row in a table at a place, LAST for after its last record; elsewhere too where tables go together."""

    table: str
    place: int

    def do(self, desk: Desk) -> None:
        place = desk.table(self.table).records if self.place == LAST else self.place
        desk.insert_records_everywhere(self.table, place)


@dataclass(frozen=True)
class DeleteAt:
    """A row of a table deleted and nothing else; LAST for its last record."""

    table: str
    record: int

    def do(self, desk: Desk) -> None:
        desk.delete_record(self.table, self.record % desk.table(self.table).records)


@dataclass(frozen=True)
class SortBy:
    table: str
    key: str

    def do(self, desk: Desk) -> None:
        desk.sort(self.table, self.key)


@dataclass(frozen=True)
class EmptyDiary:
    """Everything that was typed in the diary emptied."""

    def do(self, desk: Desk) -> None:
        one = desk.table("diary")
        for column in one.table.columns:
            if column.role == "input":
                for record in range(one.records):
                    desk.type_in("diary", column.key, record, None)


@dataclass(frozen=True)
class InsertColumnAt:
    """A column of one's own before a column of a list, or before a column of the sheet."""

    table: str
    before: str | int

    def do(self, desk: Desk) -> None:
        one = desk.table(self.table)
        desk.insert_columns(one.sheet, self.before if isinstance(self.before, int) else one.at[self.before], 1)


@dataclass(frozen=True)
class InsertRowBelow:
    table: str

    def do(self, desk: Desk) -> None:
        one = desk.table(self.table)
        desk.insert_rows(one.sheet, steps.bottom(one) + 1, 2)


@dataclass(frozen=True)
class InsertRowOnTop:
    """A row above everything on the sheet of a table."""

    table: str

    def do(self, desk: Desk) -> None:
        desk.insert_rows(desk.table(self.table).sheet, 0, 1)


@dataclass(frozen=True)
class RenameSheetOf:
    table: str
    name: str

    def do(self, desk: Desk) -> None:
        desk.rename_sheet(desk.table(self.table).sheet, self.name)


@dataclass(frozen=True)
class RenameOnly:
    """Another name for a record, and the old one left wherever it was chosen."""

    table: str
    record: int
    name: str

    def do(self, desk: Desk) -> None:
        desk.type_in(self.table, "name", self.record, self.name)


@dataclass(frozen=True)
class FullDiary:
    """A line in every row of the diary."""

    def do(self, desk: Desk) -> None:
        for record in range(desk.table("diary").records):
            steps.WriteDiary(record, record, 3 * record, 17 * record, 5 * record).do(desk)


INSERTED: Final = {
    f"a row {where} {table}": [InsertAt(table, place)]
    for table in ("diary", "parts", "points", "catches", "sprayers", "lawns", "products")
    for where, place in (("at the top of", 0), ("within", 2), ("at the end of", LAST))
}
DELETED: Final[dict[str, History]] = {
    "three rows of the visit's lawns deleted": [DeleteAt("chosen_lawns", LAST)] * 3,
    "three unused rows of lawns deleted": [DeleteAt("lawns", LAST)] * 3,
    "three unused rows of products deleted": [DeleteAt("products", LAST)] * 3,
} | {
    f"the {where} row of {table} deleted": [DeleteAt(table, record)]
    for table in ("diary", "parts", "points", "catches", "chosen_lawns")
    for where, record in (("first", 0), ("third", 2), ("last", LAST))
} | {
    f"an unused row of {table} deleted": [DeleteAt(table, LAST)] for table in ("lawns", "products", "sprayers")
} | {
    f"a named row of {table} deleted, and no longer chosen": [steps.DeleteRecord(table, record)]
    for table, record in (("lawns", 0), ("products", 0), ("sprayers", 1))
}  # fmt: skip

HALF_DAYS: Final[History] = [
    *(Type("products", f"{method}least_interval", record, 7.5) for method in ("", "dry_") for record in range(5)),
    *(step for record in range(6) for step in (steps.WriteDiary(record, 0, record % 2, 1100 + 2 * record, 31),
                                               Type("diary", "weighed", record, 1234.5))),
]  # fmt: skip
"""Figures with decimals, some of which get into words: a product too soon after itself, at least 7.5 days."""

ANYWHERE: Final[dict[str, History]] = {
    "nothing at all": [],
    **INSERTED,
    **DELETED,
    **{f"{table} sorted by {key}": [SortBy(table, key)] for table, key in steps.SORTED},
    "rows inserted, filled and sorted": [InsertAt("diary", 0), steps.WriteDiary(0, 1, 5, 900, 77),
                                         InsertAt("diary", LAST), SortBy("diary", "date")],
    "a column left of the diary": [InsertColumnAt("diary", 0)],
    "a column within the diary": [InsertColumnAt("diary", "method")],
    "a column between inputs and results of the diary": [InsertColumnAt("diary", "product_line")],
    "a column before the first of the lawns": [InsertColumnAt("lawns", "name")],
    "a column within the products": [InsertColumnAt("products", "family")],
    "a column between the first two of the diary": [InsertColumnAt("diary", "lawn")],
    "a column right of the diary": [InsertColumnAt("diary", 70)],
    "a column between a form and its notes": [InsertColumnAt("settings", 4)],
    "a column between a form's lines and its units": [InsertColumnAt("settings", 2)],
    "a column left of everything on the mix": [InsertColumnAt("mix", 0)],
    "a column left of the settings": [InsertColumnAt("settings", 1)],
    "rows below the parts": [InsertRowBelow("parts")],
    "rows below the settings": [InsertRowBelow("settings")],
    "rows below the season": [InsertRowBelow("season_applied")],
    "sheets renamed": [RenameSheetOf("diary", "Tagebuch"), RenameSheetOf("conversions", "Maße 2"),
                       RenameSheetOf("mix", "Bob's mix"), RenameSheetOf("settings", "R1C1")],
    "sheets that are only read renamed": [RenameSheetOf("card_head", "Zettel"), RenameSheetOf("round", "Runde"),
                                          RenameSheetOf("growth_view", "Stickstoff")],
    "a sheet with an accent": [RenameSheetOf("lawns", "Été")],
    "a sheet named like a cell": [RenameSheetOf("products", "NPK12")],
    "rows and columns hidden": [steps.Hide(9, 10, False), steps.Hide(9, 4, True), steps.Hide(3, 60, True)],
    "notes beside the tables": [steps.OwnNote(sheet, 9 + sheet, sheet) for sheet in range(15)],
    "a lawn renamed, in the diary too": [steps.Rename("lawns", 0, 0)],
    "a product renamed, in the diary too": [steps.Rename("products", 3, 1)],
    "prices and notes changed": [Type("products", "price", 0, 17.25), Type("products", "price", 1, None),
                                 Type("lawns", "notes", 0, "=1+1"), Type("diary", "note", 0, "-5 °C, „kalt“")],
    "an empty diary": [EmptyDiary()],
    "a full diary": [FullDiary()],
    "a full diary, and a row more": [FullDiary(), InsertAt("diary", LAST), steps.WriteDiary(20, 0, 2, 100, 9)],
}  # fmt: skip
"""Edits that any editor can do."""

IN_OFFICE: Final[dict[str, History]] = {
    "a column of the diary moved": [office.MoveColumn("diary", "who", "method")],
    "a result of the diary moved among the inputs": [office.MoveColumn("diary", "flags", "method")],
    "the last column of the lawns moved": [office.MoveColumn("lawns", "notes", "grass")],
    "a column of the products moved": [office.MoveColumn("products", "price", "family")],
    "sheets moved": [office.MoveSheet("diary", 0), office.MoveSheet("start", 9)],
    "colours": [office.Colour("diary", "date", 2), office.Colour("mix", "carrier_volume"),
                office.Colour("lawns", "area")],
    "remarks": [office.Remark("diary", "lawn"), office.Remark("season_applied", "lawn")],
    "protection lost": [office.Unprotect()],
    "validation lost": [office.Unvalidate("diary"), office.Unvalidate("chosen"), office.Unvalidate("lawns")],
    "filters lost": [office.Unfilter()],
    "moved, then rows and columns inserted": [office.MoveColumn("diary", "who", "method"), InsertAt("diary", 3),
                                              InsertColumnAt("diary", "product"), SortBy("diary", "who")],
}  # fmt: skip
"""Edits that only a whole program can do."""
