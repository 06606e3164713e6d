"""Where every table stands: laid out anew by a build, found by its names and headings in a file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from wbgen.files.diagnostics import Report
from wbgen.files.xlsx.addresses import address, letters
from wbgen.files.xlsx.references import Area
from wbgen.sheets.column import Column
from wbgen.sheets.template import FIRST_ROW, GUTTER, Sheet, Table

TABLE_NAME = "table_"
"""Begins the defined name of every table; a table is found by it again."""


@dataclass(frozen=True)
class Placed:
    """A table in its place. Rows and columns count from 0.

    `at` gives each column of the table its place across the records: a sheet column where the records run
    down, a sheet row where they lie across. `beside` holds the sheet column of a form's slotted cells, `left` is
    the sheet column where its title stands.
    Records stand from `first` to `last`; ranges run from `opening` to `closing`, so that a record
    inserted at either end stays inside.
    """

    table: Table
    sheet: str
    at: Mapping[str, int]
    opening: int
    first: int
    last: int
    closing: int
    beside: Mapping[str, int] = field(default_factory=dict)
    left: int = GUTTER

    @property
    def records(self) -> int:
        return self.last - self.first + 1

    @property
    def count(self) -> int:
        """The cells of each column: one for a form, whose slots lie side by side."""
        return 1 if self.single else self.records

    @property
    def single(self) -> bool:
        """True for a form: its figures are single cells, not columns."""
        return self.table.direction == "across" and self.table.records == 1

    def cell(self, key: str, record: int = 0) -> tuple[int, int]:
        """Row and column of one figure."""
        if self.table.direction == "down":
            return self.first + record, self.at[key]
        return self.at[key], self.beside.get(key, self.first + record)

    @property
    def folded(self) -> Iterator[tuple[str, int, int]]:
        """The groups of columns that are folded away: the words of the stub right of each, first and last column."""
        for words, keys in self.table.outlines:
            yield words, self.at[keys[0]], self.at[keys[-1]]

    def column(self, key: str) -> Column:
        return next(column for column in self.table.columns if column.key == key)


@dataclass(frozen=True)
class TableRows:
    """The rows of a table that only a reader needs."""

    title: int
    note: int | None
    groups: Mapping[int, str]
    units: int | None
    headings: int
    slots: int | None
    notes_column: int | None
    unit_column: int | None = None


@dataclass(frozen=True)
class Layout:
    """A workbook's tables and the rows round each, by key."""

    placed: Mapping[str, Placed]
    rows: Mapping[str, TableRows]


def lay_out(sheets: tuple[Sheet, ...], capacities: Mapping[str, int]) -> Layout:
    """A place for every table of `sheets`; `capacities` are the numbers of records that the build sets.

    A table stands where it says, or below the one before it. Raises InputError, with the place of every one, for
    tables that would stand on others.
    """
    placed: dict[str, Placed] = {}
    rows: dict[str, TableRows] = {}
    report = Report()
    for sheet in sheets:
        row = FIRST_ROW
        taken: list[tuple[Table, Area]] = []
        for table in sheet.tables:
            count = table.records if isinstance(table.records, int) else capacities[table.records]
            if table.standing:
                placed[table.key], rows[table.key], _ = _across(table, sheet, (2, GUTTER), 1)
                continue
            lay = _down if table.direction == "down" else _across
            corner = table.at or (row, GUTTER)
            placed[table.key], rows[table.key], row = lay(table, sheet, corner, count)
            ground = _ground(placed[table.key], rows[table.key])
            _stands_alone(table, ground, taken, report)
            taken.append((table, ground))
            row += sheet.gap
        _none_folded_away([placed[table.key] for table in sheet.tables if not table.standing], report)
    report.raise_any()
    return Layout(placed, rows)


def _ground(placed: Placed, rows: TableRows) -> Area:
    """The cells that a table takes with all its words."""
    down = placed.table.direction == "down"
    units = rows.unit_column if any(one.meaning.unit for one in placed.table.columns) else None
    begins = {one.key: placed.cell(one.key)[1] for one in placed.table.columns}
    ends = [begins[one.key] + one.page.wide - 1 for one in placed.table.columns]
    stubs = [last + 1 for _, _, last in placed.folded]
    right = [*ends, *stubs, *(() if down else (placed.last,)), *filter(None, (units, rows.notes_column))]
    bottom = placed.closing if down else max(placed.at.values())
    return Area(placed.sheet, rows.title, min(placed.left, *begins.values()), bottom, max(right))


def _stands_alone(table: Table, ground: Area, taken: list[tuple[Table, Area]], report: Report) -> None:
    """Report a table that would stand on one that has its place already."""
    for other, area in taken:
        if ground.meets(area):
            at, there = (address(one.top, one.left) + ":" + address(one.bottom, one.right) for one in (ground, area))
            report.add("overlap", table.written.of("at"), f"the table {table.key} would stand on {other.key}",
                       expected=f"a place clear of {other.key}, which takes {there}", found=at,
                       remedy=f"move one of them: the first row below is {area.bottom + 2}, the first column right of "
                       f"it {letters(area.right + 1)}")  # fmt: skip


def _none_folded_away(tables: Sequence[Placed], report: Report) -> None:
    """Report columns that would be folded away with those of another table of the sheet."""
    for one in tables:
        hidden = {at for _, first, last in one.folded for at in range(first, last + 1)}
        for other in tables if hidden else ():
            own = {at for _, first, last in other.folded for at in range(first, last + 1)}
            across = other.table.direction == "across"
            seen = {*other.beside.values(), other.left, other.last} if across else set(other.at.values())
            if other is not one and (lost := sorted((seen - own) & hidden)):
                report.add("overlap", other.table.written.of("key"), f"{other.table.key} stands below columns of "
                           f"{one.table.key} that are folded away", expected="a place left of them, or right of all",
                           found=f"column {letters(lost[0])}", remedy="move one of them")  # fmt: skip


def _down(table: Table, sheet: Sheet, corner: tuple[int, int], count: int) -> tuple[Placed, TableRows, int]:
    title, left = corner
    row = title + bool(table.title)
    note = None
    if table.note:
        note, row = row, row + 1
    groups: dict[int, str] = {}
    at: dict[str, int] = {}
    place = left
    folded = False
    for column in table.columns:
        if column.page.outline is not None:
            place += folded  # the stub of the group before
            folded = True
        place += column.page.skip
        at[column.key] = place
        if column.page.group:
            groups[place] = column.page.group
        place += 1
    row += bool(groups)
    units = None
    if any(column.meaning.unit for column in table.columns):
        units, row = row, row + 1
    closing = row + count + (0 if table.plain else 1)
    placed = Placed(table, sheet.name, at, row, row + 1, row + count, closing, left=left)
    return placed, TableRows(title, note, groups, units, row, None, None), closing + 1


def _across(table: Table, sheet: Sheet, corner: tuple[int, int], count: int) -> tuple[Placed, TableRows, int]:
    title, left = corner
    row = title + bool(table.title)
    note = None
    if table.note:
        note, row = row, row + 1
    first = left + table.span + (not table.plain)
    places = slot_places(table)
    heads = None
    if places:
        heads, row = row, row + 1
    groups: dict[int, str] = {}
    at: dict[str, int] = {}
    beside: dict[str, int] = {}
    lines: dict[str, int] = {}
    for column in table.columns:
        if column.page.group:
            groups[row], row = column.page.group, row + 1
        if column.page.slot:
            beside[column.key] = first + places[column.page.slot]
            if column.heading in lines:
                at[column.key] = lines[column.heading]
                continue
        at[column.key] = lines[column.heading] = row
        row += 1
    last = first + (max(places.values()) if places else count - 1)
    notes = None if table.plain else sheet.notes_column or last + 1
    placed = Placed(table, sheet.name, at, first, first, last, last, beside, left)
    return placed, TableRows(title, note, groups, None, left, heads, notes, unit_column(placed)), row


def slot_places(table: Table) -> dict[str, int]:
    """How many sheet columns each slot of a form stands right of the first: wide figures and skipped columns count."""
    places: dict[str, int] = {}
    free = 0
    for slot in table.slots:
        pages = [column.page for column in table.columns if column.page.slot == slot]
        places[slot] = free + max((page.skip for page in pages), default=0)
        free = places[slot] + max((page.wide for page in pages), default=1)
    return places


def unit_column(placed: Placed) -> int | None:
    """The sheet column of the units of a table that lies across: beside the headings, behind the figures of a plain
    one; none where it stands behind the heading, or in a plain form of slots, where the words beside say it."""
    if placed.table.joined or (placed.table.plain and placed.table.slots):
        return None
    return placed.last + 1 if placed.table.plain else placed.first - 1
