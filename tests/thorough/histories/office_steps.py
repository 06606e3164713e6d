"""Edits that only a whole spreadsheet program can do."""

from __future__ import annotations

from dataclasses import dataclass

from thorough.histories.desk import Desk
from thorough.histories.office_editor import Office


def office(desk: Desk) -> Office:
    assert isinstance(desk.editor, Office)
    return desk.editor


@dataclass(frozen=True)
class MoveColumn:
    """A column of a list cut and put in before another one."""

    table: str
    key: str
    before: str

    def do(self, desk: Desk) -> None:
        one = desk.table(self.table)
        column, before = one.at[self.key], one.at[self.before]
        office(desk).ask("move_column", sheet=one.sheet, column=column, before=before)
        order = [at for at in range(1000) if at != column]
        order.insert(order.index(before), column)
        desk.move_columns(one.sheet, {at: place for place, at in enumerate(order)})


@dataclass(frozen=True)
class MoveSheet:
    table: str
    place: int

    def do(self, desk: Desk) -> None:
        office(desk).ask("move_sheet", sheet=desk.table(self.table).sheet, place=self.place)


@dataclass(frozen=True)
class Colour:
    """A cell of a table in bold on a colour of one's own."""

    table: str
    key: str
    record: int = 0

    def do(self, desk: Desk) -> None:
        sheet, row, column = desk.at(self.table, self.key, self.record)
        office(desk).ask("colour", sheet=sheet, row=row, column=column, colour=0xFFE0A0)


@dataclass(frozen=True)
class Remark:
    """A remark that hangs on a cell."""

    table: str
    key: str

    def do(self, desk: Desk) -> None:
        sheet, row, column = desk.at(self.table, self.key)
        office(desk).ask("remark", sheet=sheet, row=row, column=column, text="measured again in May")


@dataclass(frozen=True)
class Unprotect:
    """Protection taken off every sheet; there is no password."""

    def do(self, desk: Desk) -> None:
        office(desk).ask("unprotect")


@dataclass(frozen=True)
class Unvalidate:
    """What the cells of a sheet accept taken away."""

    table: str

    def do(self, desk: Desk) -> None:
        office(desk).ask("unvalidate", sheet=desk.table(self.table).sheet)


@dataclass(frozen=True)
class Unfilter:
    """The filters taken off."""

    def do(self, desk: Desk) -> None:
        office(desk).ask("unfilter")
