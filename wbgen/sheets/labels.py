"""The words round the figures: what each table's titles, headings, units and notes say, and where they stand.

For a file whose tables were found: in the order of a layout, seen from where the table stands now.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from wbgen.sheets.column import Column, System
from wbgen.sheets.layout import Placed, unit_column
from wbgen.sheets.template import GUTTER, Sheet, Table
from wbgen.units.quantity import label

CLOSING = "▲"
Kind = Literal["title", "note", "group", "heading", "slot", "unit", "closing", "link", "stub"]


@dataclass(frozen=True)
class Label:
    """A text of a template in its place, from 0. `text` is None where a file alone knows it (its currency)."""

    sheet: str
    row: int
    column: int
    kind: Kind
    text: str | None
    heading: str


def labels(sheet: Sheet, placed: Placed, system: System) -> Iterator[Label]:
    """The labels of a table of `sheet`."""
    told = _down(placed, system) if placed.table.direction == "down" else _across(sheet, placed, system)
    for row, column, kind, text, heading in told:
        yield Label(placed.sheet, row, column, kind, text, heading)


Told = Iterator[tuple[int, int, Kind, str | None, str]]


def unit_text(column: Column, system: System) -> str | None:
    """A unit as it is printed; "" for none, None for money."""
    unit = getattr(column.meaning.unit, system) if column.meaning.unit else ""
    return None if "currency" in unit else label(unit) if unit else ""


def heading_text(column: Column, table: Table, system: System) -> str | None:
    """What stands as the heading of a line, with the unit behind it where the table says so; None with money's."""
    unit = unit_text(column, system) if table.joined else ""
    return None if unit is None else f"{column.heading}, {unit}" if unit else column.heading


def title_row(placed: Placed) -> int:
    """The row of a table's title, by the rows that its template has between it and the figures; the first row of a
    table without one."""
    return _below_title(placed) - bool(placed.table.note) - bool(placed.table.title)


def _below_title(placed: Placed) -> int:
    """The first row below the title and the note: that of its groups, slots, units or headings."""
    table = placed.table
    if table.direction == "down":
        groups = any(column.page.group for column in table.columns)
        return placed.opening - groups - any(column.meaning.unit for column in table.columns)
    return min(placed.at.values()) - bool(table.columns[0].page.group) - bool(table.slots)


def _top(placed: Placed) -> Told:
    """Title and note."""
    row, table = _below_title(placed), placed.table
    if table.note:
        yield row - 1, placed.left, "note", table.note, table.title
        row -= 1
    if table.title:
        yield row - 1, placed.left, "title", table.title, table.title


def _down(placed: Placed, system: System) -> Told:
    table = placed.table
    row = placed.opening
    has_units = any(column.meaning.unit for column in table.columns)
    for column in table.columns:
        yield row, placed.at[column.key], "heading", column.heading, column.heading
        if unit := unit_text(column, system):
            yield row - 1, placed.at[column.key], "unit", unit, column.heading
        elif unit is None:
            yield row - 1, placed.at[column.key], "unit", None, column.heading
    for words, _, last in placed.folded:
        yield row, last + 1, "stub", words, words
    row -= has_units
    if any(column.page.group for column in table.columns):
        row -= 1
        for column in table.columns:
            if column.page.group:
                yield row, placed.at[column.key], "group", column.page.group, column.heading
    yield from _top(placed)
    if not table.plain and placed.left:
        yield placed.closing, placed.left - 1, "closing", CLOSING, table.title


def _across(sheet: Sheet, placed: Placed, system: System) -> Told:
    table = placed.table
    slotted = units_in_slots(table, system)
    units = unit_column(placed)
    notes = None if table.plain else (sheet.notes_column or placed.last + 1 - placed.left + GUTTER)
    seen: set[int] = set()
    for column in table.columns:
        row = placed.at[column.key]
        if row not in seen:
            yield row, placed.left, "heading", heading_text(column, table, system), column.heading
            if units is not None and not slotted and unit_text(column, system) != "":
                beyond = column.page.wide - 1 if table.plain else 0
                yield row, units + beyond, "unit", unit_text(column, system), column.heading
            if column.page.group:
                yield row - 1, placed.left, "group", column.page.group, column.heading
        if column.page.note and placed.single and notes is not None and row not in seen:
            yield row, max(notes - GUTTER + placed.left, placed.last + 1), "note", column.page.note, column.heading
        seen.add(row)
    row = min(seen) - bool(table.columns[0].page.group)
    if table.slots:
        row -= 1
        at = {column.page.slot: placed.beside[column.key] for column in table.columns if column.page.slot}
        for slot, heading in table.slots.items():
            yield row, at[slot], "slot", getattr(heading, system) or slot, table.title
    yield from _top(placed)


def units_in_slots(table: Table, system: System) -> bool:
    """Whether the headings of a form's slots carry the units of its figures."""
    return any("/" in getattr(slot, system) for slot in table.slots.values())
