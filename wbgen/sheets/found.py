"""The places of the tables in a file: by their defined names and their headings, never by a fixed address."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from wbgen.sheets.layout import Placed
from wbgen.sheets.template import Table

TextAt = Callable[[str, int, int], str]
"""The text of a cell by sheet, row and column (from 0); "" where there is none."""


@dataclass(frozen=True)
class Bounds:
    """The range of a table's defined name."""

    sheet: str
    top: int
    left: int
    bottom: int
    right: int


@dataclass(frozen=True)
class Lost:
    """A table, or one of its columns, that is not in the file."""

    table: str
    key: str | None
    heading: str


@dataclass(frozen=True)
class Found:
    placed: Mapping[str, Placed]
    lost: tuple[Lost, ...]


def find_tables(tables: Mapping[str, Table], bounds: Mapping[str, Bounds], text_at: TextAt) -> Found:
    """The place of each table whose name and headings are there; the others are lost."""
    placed: dict[str, Placed] = {}
    lost: list[Lost] = []
    for key, table in tables.items():
        area = bounds.get(key)
        if area is None:
            lost.append(Lost(key, None, table.title))
            continue
        one, missing = (_down if table.direction == "down" else _across)(table, area, text_at)
        lost += missing
        if one is not None:
            placed[key] = one
    return Found(placed, tuple(lost))


def _down(table: Table, area: Bounds, text_at: TextAt) -> tuple[Placed | None, list[Lost]]:
    heads: dict[str, int] = {}
    for place in range(max(0, area.left - 20), area.right + 60):
        heads.setdefault(text_at(area.sheet, area.top, place), place)
    at = {column.key: heads[column.heading] for column in table.columns if column.heading in heads}
    missing = [Lost(table.key, column.key, column.heading) for column in table.columns if column.key not in at]
    last = area.bottom if table.plain else area.bottom - 1
    if missing or last <= area.top:
        return None, missing or [Lost(table.key, None, table.title)]
    return Placed(table, area.sheet, at, area.top, area.top + 1, last, area.bottom), []


def _across(table: Table, area: Bounds, text_at: TextAt) -> tuple[Placed | None, list[Lost]]:
    lines: dict[str, int] = {}
    for row in range(area.top, area.bottom + 1):
        lines.setdefault(text_at(area.sheet, row, area.left), row)
    first = area.left + table.span + (not table.plain)
    slots = list(table.slots)
    at = {column.key: lines[column.heading] for column in table.columns if column.heading in lines}
    beside = {column.key: first + slots.index(column.slot) for column in table.columns if column.slot}
    missing = [Lost(table.key, column.key, column.heading) for column in table.columns if column.key not in at]
    if missing or area.right < first:
        return None, missing or [Lost(table.key, None, table.title)]
    return Placed(table, area.sheet, at, first, first, area.right, area.right, beside), []
