"""Single edits that a person may make to a planner. Numbers in a step choose among what is there when it is done.

A name that a deleted record had is taken out wherever it was chosen, and a renamed one is renamed there too: what
verify says of names left behind is another matter.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Protocol

from thorough.histories.desk import Desk
from thorough.histories.editor import Value
from wbgen.sheets.column import Column
from wbgen.sheets.layout import Placed

NAMES: Final = ("name", "part")
"""Columns whose text other cells look up; the steps that rename and delete see to them."""
TEXTS: Final = (None, "seen from the window", "3,5 km/h, später", "N–P–K 12-0-0 × ²", "yes")
DAYS: Final = (None, 45_310.0, 45_992.0, 46_023.0, 46_110.0, 46_201.0, 46_290.0)
FIGURES: Final = (None, 0.0, 0.05, 0.5, 1.0, 2.0, 2.5, 7.0, 12.0, 33.3, 120.0, 950.0)
GROWING: Final = ("diary", "parts", "points", "catches", "sprayers", "lawns", "products")
LESSENED: Final = ("diary", "parts", "points", "catches", "sprayers", "chosen_lawns", "lawns", "products")
SORTED: Final = (
    ("diary", "date"), ("diary", "lawn"), ("diary", "product"), ("diary", "weighed"), ("lawns", "name"),
    ("products", "name"), ("parts", "shape"), ("sprayers", "name"),
)  # fmt: skip
NEVER: Final = 2
"""Columns beside a form that belong to it: its unit and its note."""


class Step(Protocol):
    def do(self, desk: Desk) -> None: ...


def inputs(desk: Desk) -> Iterator[tuple[str, Column]]:
    """Every column that a person types in, names excepted, by table."""
    for key, one in desk.placed.items():
        for column in one.table.columns:
            if column.role == "input" and column.key not in NAMES:
                yield key, column


def possible(desk: Desk, column: Column) -> list[Value]:
    """What a cell of an input column takes."""
    if isinstance(column.accepts.choices, str):
        table, _, key = column.accepts.choices.partition(".")
        return [None, *(value for value in desk.values(table, key) if isinstance(value, str))]
    if column.accepts.choices:
        return [None, *column.accepts.choices]
    if column.meaning.type != "number":
        return list(DAYS if column.meaning.type == "date" else TEXTS)
    low, high = (-1e9 if column.accepts.minimum is None else column.accepts.minimum), (column.accepts.maximum or 1e9)
    return [figure for figure in FIGURES if figure is None or low <= figure <= high]


def chosen_from(desk: Desk, table: str) -> Iterator[tuple[str, Column]]:
    """The input columns whose cells name a record of a table."""
    return ((key, column) for key, column in inputs(desk) if column.accepts.choices == f"{table}.name")


def rename_where_chosen(desk: Desk, table: str, old: Value, new: Value) -> None:
    for key, column in chosen_from(desk, table):
        for record, value in enumerate(desk.values(key, column.key)):
            if value is not None and value == old:
                desk.type_in(key, column.key, record, new)


@dataclass(frozen=True)
class TypeIn:
    """A figure, a choice or a text in any input."""

    column: int
    record: int
    value: int

    def do(self, desk: Desk) -> None:
        columns = list(inputs(desk))
        table, column = columns[self.column % len(columns)]
        values = possible(desk, column)
        desk.type_in(table, column.key, self.record % desk.table(table).count, values[self.value % len(values)])


@dataclass(frozen=True)
class WriteDiary:
    """A line of the diary written whole, over whatever stood there."""

    record: int
    lawn: int
    product: int
    day: int
    figure: int

    def do(self, desk: Desk) -> None:
        record = self.record % desk.table("diary").count
        lawns = [name for name in desk.values("lawns", "name") if name]
        products = [name for name in desk.values("products", "name") if name]
        line: dict[str, Value] = {
            "date": 45_000.0 + self.day % 1300, "lawn": lawns[self.lawn % len(lawns)],
            "product": products[self.product % len(products)], "method": ("spray", "dry")[self.figure % 2],
            "weighed": self.figure / 4, "poured": None, "water": float(self.figure % 30), "left_over": 0.5,
            "treated_area": None, "who": "Head gardener",
        }  # fmt: skip
        for key, value in line.items():
            desk.type_in("diary", key, record, value)


@dataclass(frozen=True)
class InsertRecord:
    """Rows put into a table at some place, either end included, with the formulas of the row beside filled in."""

    table: str
    place: int
    count: int = 1

    def do(self, desk: Desk) -> None:
        desk.insert_records_everywhere(self.table, self.place % (desk.table(self.table).records + 1), self.count)


@dataclass(frozen=True)
class DeleteRecord:
    """A row of a table deleted, as long as two are left."""

    table: str
    record: int

    def do(self, desk: Desk) -> None:
        one = desk.table(self.table)
        if one.records < 3:
            return
        record = self.record % one.records
        if any(column.key == "name" for column in one.table.columns):
            name = desk.value(self.table, "name", record)
            if name is not None:
                rename_where_chosen(desk, self.table, name, None)
        desk.delete_record(self.table, record)


@dataclass(frozen=True)
class Sort:
    which: int

    def do(self, desk: Desk) -> None:
        desk.sort(*SORTED[self.which % len(SORTED)])


@dataclass(frozen=True)
class Rename:
    """Another name for a lawn, a product or a sprayer; where it is chosen, too."""

    table: str
    record: int
    name: int

    def do(self, desk: Desk) -> None:
        names = desk.values(self.table, "name")
        named = [record for record, name in enumerate(names) if name is not None]
        new = f"{('Näher am Haus', 'Back & side', 'No. 7')[self.name % 3]} {len(names)}"
        if not named or any(new.casefold() == str(name).casefold() for name in names):
            return
        record = named[self.record % len(named)]
        desk.type_in(self.table, "name", record, new)
        rename_where_chosen(desk, self.table, names[record], new)


@dataclass(frozen=True)
class InsertColumn:
    """A column of one's own, where no form is torn apart by it: left of all tables, right of them, or in a list."""

    sheet: int
    place: int

    def do(self, desk: Desk) -> None:
        sheet = desk.sheets[self.sheet % len(desk.sheets)]
        end = max(_right(one) for one in desk.on(sheet)) + 1
        whole = [place for place in range(end + 1) if not any(_torn(one, place) for one in desk.on(sheet))]
        desk.insert_columns(sheet, whole[self.place % len(whole)], 1)


def _right(one: Placed) -> int:
    return max(one.at.values()) if one.table.direction == "down" else one.last + NEVER


def _torn(one: Placed, place: int) -> bool:
    return one.table.direction == "across" and one.left < place <= one.last + NEVER


ABOVE: Final = 4
"""So many rows at most stand above the headings of a table: its title, its note, groups and units."""


@dataclass(frozen=True)
class InsertRow:
    """Rows of one's own below a table and all that stand beside it, before the next one begins."""

    table: int
    count: int = 1

    def do(self, desk: Desk) -> None:
        one = list(desk.placed.values())[self.table % len(desk.placed)]
        row = bottom(one) + 1
        for other in sorted((other for other in desk.placed.values() if other.sheet == one.sheet), key=top):
            if top(other) <= row <= bottom(other):
                row = bottom(other) + 1
        desk.insert_rows(one.sheet, row, self.count)


def top(one: Placed) -> int:
    """The first row of a table, with its title and what stands above its headings."""
    return (one.opening if one.table.direction == "down" else min(one.at.values())) - ABOVE


def bottom(one: Placed) -> int:
    return one.closing if one.table.direction == "down" else max(one.at.values())


@dataclass(frozen=True)
class RenameSheet:
    sheet: int
    name: int

    def do(self, desk: Desk) -> None:
        sheet = desk.sheets[self.sheet % len(desk.sheets)]
        name = ("Pflege 2026", "Bob's", "A&B", "Été", "x-1", "Blatt")[self.name % 6]
        if name not in desk.sheets:
            desk.rename_sheet(sheet, name)


@dataclass(frozen=True)
class Hide:
    """Rows or columns hidden, anywhere."""

    sheet: int
    place: int
    columns: bool

    def do(self, desk: Desk) -> None:
        sheet = desk.sheets[self.sheet % len(desk.sheets)]
        hide = desk.editor.hide_columns if self.columns else desk.editor.hide_rows
        hide(sheet, self.place % 40, 2)


@dataclass(frozen=True)
class OwnNote:
    """A word or a figure to the right of all tables."""

    sheet: int
    row: int
    value: int

    def do(self, desk: Desk) -> None:
        sheet = desk.sheets[self.sheet % len(desk.sheets)]
        column = max(_right(one) for one in desk.on(sheet)) + 3
        desk.editor.type_in(sheet, self.row % 60, column, ("ask the neighbour", 12.5)[self.value % 2])
