"""What stands round the figures of a table: its title, its bands, its headings, units and notes."""

from __future__ import annotations

from wbgen.sheets.column import Column
from wbgen.sheets.labels import CLOSING, heading_text, units_in_slots
from wbgen.sheets.layout import Placed, TableRows, slot_places
from wbgen.sheets.template import GUTTER
from wbgen.writer.canvas import Canvas
from wbgen.writer.hover import note_of, shape
from wbgen.writer.print_setup import page_starts
from wbgen.writer.styles import SIZE, SMALL_SIZE


def frame(canvas: Canvas, placed: Placed, rows: TableRows) -> None:
    """The title, the note and the bands of a table, the headings of its slots, and its closing row."""
    table = placed.table
    if table.standing:
        return
    down = table.direction == "down"
    across = max(placed.at[column.key] + column.page.wide - 1 for column in table.columns) if down else placed.last
    last = max(across, placed.left + 1)
    if table.title:
        canvas.blanks(rows.title, placed.left, last, "table")
        canvas.text(rows.title, placed.left, table.title, "table")
    if rows.note is not None:
        running_text(canvas, rows.note, table.note, "note", placed.left)
    _bands(canvas, placed, rows, last)
    if down:
        canvas.blanks(rows.headings, min(placed.at.values()), last, "heading")
    for words, _, stub in placed.folded:
        canvas.text(rows.headings, stub + 1, words, "stub")
    if rows.slots is not None:
        places, fits = slot_places(table), not table.plain
        for slot, heading in table.slots.items():
            text = getattr(heading, canvas.system) or slot
            numbers = all(one.meaning.type != "text" for one in table.columns if one.page.slot == slot)
            look = {"align": "right"} if numbers else {"align": "left", "indent": 1}
            canvas.text(rows.slots, placed.first + places[slot], text, "heading", text_wrap=fits, **look)
            if fits:
                canvas.needs(rows.slots, placed.first + places[slot], text, bold=True)
    if down and not table.plain:
        canvas.blanks(placed.closing, placed.left, last, "closing")
        canvas.text(placed.closing, placed.left - 1, CLOSING, "closing")


def running_text(canvas: Canvas, row: int, text: str, role: str, left: int = GUTTER) -> None:
    """A line of text; on a wide sheet it wraps within the columns that every page prints again, or it would be cut."""
    cells = canvas.sheet.repeat
    if not page_starts(canvas.sheet, canvas.layout) or len(text) <= canvas.room(left, cells):
        canvas.text(row, left, text, role)
        return
    if cells > 1:
        canvas.worksheet.merge_range(row, left, row, left + cells - 1, "", canvas.style(role, text_wrap=True))
    canvas.text(row, left, text, role, text_wrap=True)
    canvas.needs(row, left, text, cells=cells)


def _bands(canvas: Canvas, placed: Placed, rows: TableRows, last: int) -> None:
    """Headings of groups: above their columns, or above their lines."""
    if placed.table.direction == "across":
        for row, text in rows.groups.items():
            canvas.blanks(row, placed.left, last, "group")
            canvas.text(row, placed.left, text, "group")
        return
    row = rows.headings - 1 - (rows.units is not None)
    for start, text in rows.groups.items():
        following = [place - 1 for place in sorted(rows.groups) if place > start]
        canvas.blanks(row, start, following[0] if following else last, "group")
        canvas.text(row, start, text, "group")


def heading(canvas: Canvas, placed: Placed, rows: TableRows, column: Column) -> None:
    """The heading of a column, or of a line, with its unit and its note."""
    (_above if placed.table.direction == "down" else _beside)(canvas, placed, rows, column)


def _above(canvas: Canvas, placed: Placed, rows: TableRows, column: Column) -> None:
    at, unit = placed.at[column.key], canvas.unit(column.meaning.unit)
    if rows.units is not None and unit:
        canvas.text(rows.units, at, unit, "unit")
        canvas.needs(rows.units, at, unit, size=_small(canvas))
    left = column.meaning.type == "text"
    look = {"align": "left" if left else "right", "indent": int(left), "text_wrap": column.page.wide == 1}
    canvas.text(rows.headings, at, column.heading, "heading", **look)
    canvas.needs(rows.headings, at, column.heading, size=_small(canvas), cells=column.page.wide, bold=True)
    _hover(canvas, placed, column, rows.headings, at)


def _hover(canvas: Canvas, placed: Placed, column: Column, row: int, at: int) -> None:
    """The note of a heading, seen while one points at it."""
    unit = canvas.unit(column.meaning.unit)
    text = note_of(canvas.sheet, placed, column, unit, canvas.layout.placed, canvas.sources, canvas.system)
    if text:
        text = text[0].upper() + text[1:]
        canvas.worksheet.write_comment(row, at, text, shape(text))


def _small(canvas: Canvas) -> int:
    """The size of heads and units on a sheet, in points."""
    return SMALL_SIZE + canvas.sheet.size - SIZE


def _beside(canvas: Canvas, placed: Placed, rows: TableRows, column: Column) -> None:
    row, table = placed.at[column.key], placed.table
    look = {"valign": "top"} if column.look.style == "top" else {}
    if table.slots and column is not next(one for one in table.columns if placed.at[one.key] == row):
        return  # the first of a line's figures brings its heading
    words = heading_text(column, table, canvas.system) or column.heading
    wrapped = table.span == 1 and not table.joined
    canvas.text(row, placed.left, words, "line", text_wrap=wrapped, **look)
    if wrapped:
        canvas.needs(row, placed.left, words)
    unit = canvas.unit(column.meaning.unit)
    if rows.unit_column is not None and unit and not units_in_slots(table, canvas.system):
        beyond = column.page.wide - 1 if table.plain else 0
        canvas.text(row, rows.unit_column + beyond, unit, "unit_beside")
    if placed.beside.get(column.key, placed.first) == placed.first:  # of several in a line, the first
        _hover(canvas, placed, column, row, placed.left)
    if column.page.note and placed.single and rows.notes_column is not None:
        wrapped = canvas.sheet.notes_column is not None
        canvas.text(row, rows.notes_column, column.page.note, "note", text_wrap=wrapped, indent=1)
        if wrapped:
            canvas.needs(row, rows.notes_column, column.page.note)
