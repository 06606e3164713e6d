"""The places of the tables in a file: by their defined names and their headings, never by a fixed address."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from wbgen.files.xlsx.cell_types import Scalar
from wbgen.files.xlsx.references import Area
from wbgen.files.xlsx.workbook import SheetCells
from wbgen.sheets.column import Column
from wbgen.sheets.labels import title_row
from wbgen.sheets.layout import Placed, slot_places
from wbgen.sheets.template import GUTTER, Sheet, Table

TextAt = Callable[[str, int, int], str]
"""The text of a cell by sheet, row and column (from 0); "" where there is none."""


@dataclass(frozen=True)
class Lost:
    """A table, or one of its columns, that is not in the file. `sheet` is the template's."""

    sheet: str
    table: str
    key: str | None
    heading: str


def column_cells(sheet: SheetCells, placed: Placed, key: str) -> tuple[list[str | None], list[Scalar | None]]:
    """The formulas and the values of a table's column, record by record."""
    if placed.table.direction == "down":
        return sheet.down(placed.at[key], placed.first, placed.last)
    cells = [placed.cell(key, record) for record in range(placed.count)]
    return [sheet.formula(*cell) for cell in cells], [sheet.value(*cell) for cell in cells]


@dataclass(frozen=True)
class Found:
    placed: Mapping[str, Placed]
    lost: tuple[Lost, ...]
    moved: tuple[str, ...] = ()
    """Tables that no longer stand as the templates set them: on another sheet, or in another order."""


def find_tables(sheets: Sequence[Sheet], bounds: Mapping[str, Area], text_at: TextAt) -> Found:
    """The place of each table whose name and headings are there; the others are lost."""
    placed: dict[str, Placed] = {}
    lost: list[Lost] = []
    moved: list[str] = []
    for sheet in sheets:
        for table in sheet.tables:
            area = bounds.get(table.key)
            if area is None:
                lost.append(Lost(sheet.name, table.key, None, table.title or "Checks"))
                continue
            one, missing = (_down if table.direction == "down" else _across)(table, area, text_at)
            lost += [Lost(sheet.name, table.key, None if c is None else c.key, c.heading if c else table.title)
                     for c in missing]  # fmt: skip
            if one is not None:
                placed[table.key] = one
        standing = [placed[table.key] for table in sheet.tables if table.key in placed]
        placed |= {one.table.key: one for one in _aligned(standing)}
        moved += _moved([placed[one.table.key] for one in standing])
    return Found(placed, tuple(lost), tuple(moved))


def _aligned(tables: Sequence[Placed]) -> Iterator[Placed]:
    """Tables that begin to the left or the right of their title, with the left edge that those above them have.

    A column may have been inserted between.
    """
    for before, one in pairwise(tables):
        flows = one.table.at is None and one.table.columns[0].page.skip
        if flows and before.sheet == one.sheet and before.left != one.left:
            yield replace(one, left=before.left)


def _moved(tables: Sequence[Placed]) -> Iterator[str]:
    """Tables of one template that do not stand to each other as it sets them, on one sheet.

    Those that flow stand below one another in their order, with one left edge; those in places of their own have their
    titles above, below, left and right of one another, or in one line, as there. (A column inserted, moved or hidden
    moves them all.) One of each kind stand left and right of one another as there. A name that leads to a copy
    elsewhere shows itself so.
    """
    for before, after in pairwise(tables):
        one, other = before.table.at, after.table.at
        if one is None and other is None:
            stands = before.left == after.left and _rows(before)[1] < _rows(after)[0]
        elif one is None or other is None:
            across = (GUTTER if other is None else other[1]) - (GUTTER if one is None else one[1])
            stands = _sign(across) == _sign(after.left - before.left)
        else:
            down, across = other[0] - one[0], other[1] - one[1]
            stands = _sign(down) == _sign(title_row(after) - title_row(before))
            stands &= _sign(across) == _sign(after.left - before.left)
        if before.sheet != after.sheet or not stands:
            yield after.table.key


def _sign(number: int) -> int:
    return (number > 0) - (number < 0)


def _rows(placed: Placed) -> tuple[int, int]:
    if placed.table.direction == "down":
        return placed.opening, placed.closing
    return min(placed.at.values()), max(placed.at.values())


def _down(table: Table, area: Area, text_at: TextAt) -> tuple[Placed | None, list[Column | None]]:
    stubs = {words for words, _ in table.outlines}
    heads = {place: text_at(area.sheet, area.top, place) for place in range(area.left, area.right + 1)}
    heads = {place: "" if text in stubs else text for place, text in heads.items()}
    at, missing = _matched(table.columns, heads)
    last = area.bottom if table.plain else area.bottom - 1
    if missing or last <= area.top:
        return None, [*missing] or [None]
    left = area.left - table.columns[0].page.skip
    return Placed(table, area.sheet, at, area.top, area.top + 1, last, area.bottom, left=left), []


def _across(table: Table, area: Area, text_at: TextAt) -> tuple[Placed | None, list[Column | None]]:
    heads = {row: text_at(area.sheet, row, area.left) for row in range(area.top, area.bottom + 1)}
    if table.joined:
        heads = {row: text.partition(", ")[0] for row, text in heads.items()}
    lines: dict[str, Column] = {}
    for column in table.columns:
        lines.setdefault(column.heading, column)
    rows, missing = _matched(tuple(lines.values()), heads)
    # A column inserted beside the headings moves the figures alone: the one figure of a form's line is found from the
    # right, several by their own headings.
    places = slot_places(table)
    first = area.left + table.span + (not table.plain)
    if table.records == 1:
        first = max(first, area.right - max(places.values(), default=0))
    if missing or area.right < first:
        return None, [*missing] or [None]
    at = {column.key: rows[lines[column.heading].key] for column in table.columns}
    slots = _slots(table, area, min(at.values()) - 1 - bool(table.columns[0].page.group), text_at)
    beside = {column.key: slots.get(column.page.slot, first + places[column.page.slot])
              for column in table.columns if column.page.slot}  # fmt: skip
    first = min(beside.values(), default=first)
    return Placed(table, area.sheet, at, first, first, area.right, area.right, beside, area.left), []


def _slots(table: Table, area: Area, row: int, text_at: TextAt) -> dict[str, int]:
    """The column of each slot of a form, by the slots' headings in a row; none unless all are there in their order."""
    found: dict[str, int] = {}
    place = area.left
    for slot, heading in table.slots.items():
        words = {slot, heading.metric, heading.us} - {""}
        further = (at for at in range(place + 1, area.right + 1) if text_at(area.sheet, row, at) in words)
        place = next(further, -1)
        if place < 0:
            return {}
        found[slot] = place
    return found


def _matched(columns: Sequence[Column], heads: Mapping[int, str]) -> tuple[dict[str, int], list[Column]]:
    """The place of each column by its heading; one whose heading was changed, by its neighbours in the template."""
    by_heading: dict[str, int] = {}
    for place, text in heads.items():
        by_heading.setdefault(text, place)
    at = {column.key: by_heading[column.heading] for column in columns if column.heading in by_heading}
    missing = []
    for index, column in enumerate(columns):
        if column.key in at:
            continue
        taken = set(at.values())
        near = []
        if index and columns[index - 1].key in at:
            near.append(at[columns[index - 1].key] + 1)
        if index + 1 < len(columns) and columns[index + 1].key in at:
            near.append(at[columns[index + 1].key] - 1)
        free = [place for place in near if heads.get(place) and place not in taken]
        if free:
            at[column.key] = free[0]
        else:
            missing.append(column)
    return at, missing
