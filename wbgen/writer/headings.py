"""What stands round the figures of a table: its title, its bands, its headings, units and notes."""

from __future__ import annotations

from wbgen.sheets.layout import GUTTER, Placed, TableRows
from wbgen.sheets.template import Column
from wbgen.writer.canvas import Canvas
from wbgen.writer.print_setup import page_starts

NOTE = {"x_scale": 2.0, "font_size": 9}


def frame(canvas: Canvas, placed: Placed, dress: TableRows) -> None:
    """The title, the note and the bands of a table, the headings of its slots, and its closing row."""
    table = placed.table
    if table.standing:
        return
    down = table.direction == "down"
    across = max(placed.at[column.key] + column.wide - 1 for column in table.columns) if down else placed.last
    last = max(across, GUTTER + 1)
    canvas.blanks(dress.title, GUTTER, last, "table")
    canvas.text(dress.title, GUTTER, table.title, "table")
    if dress.note is not None:
        running_text(canvas, dress.note, table.note, "note")
    _bands(canvas, dress, last, down=down)
    if down:
        canvas.blanks(dress.headings, min(placed.at.values()), last, "heading")
    if dress.slots is not None:
        for index, (slot, heading) in enumerate(table.slots.items()):
            text = getattr(heading, canvas.system) or slot
            canvas.text(dress.slots, placed.first + index, text, "heading")
            canvas.needs(dress.slots, placed.first + index, text, bold=True)
    if down and not table.plain:
        canvas.blanks(placed.closing, GUTTER, last, "closing")
        canvas.text(placed.closing, 0, "▲", "closing")


def running_text(canvas: Canvas, row: int, text: str, role: str) -> None:
    """A line of text; on a wide sheet it wraps within the columns that every page prints again, or it would be cut."""
    cells = canvas.sheet.repeat
    if not page_starts(canvas.sheet, canvas.laid) or len(text) <= canvas.room(GUTTER, cells):
        canvas.text(row, GUTTER, text, role)
        return
    if cells > 1:
        canvas.worksheet.merge_range(row, GUTTER, row, GUTTER + cells - 1, "", canvas.style(role, text_wrap=True))
    canvas.text(row, GUTTER, text, role, text_wrap=True)
    canvas.needs(row, GUTTER, text, cells=cells)


def _bands(canvas: Canvas, dress: TableRows, last: int, *, down: bool) -> None:
    """Headings of groups: above their columns, or above their lines."""
    if not down:
        for row, text in dress.groups.items():
            canvas.blanks(row, GUTTER, last, "group")
            canvas.text(row, GUTTER, text, "group")
        return
    row = dress.headings - 1 - (dress.units is not None)
    for start, text in dress.groups.items():
        following = [place - 1 for place in sorted(dress.groups) if place > start]
        canvas.blanks(row, start, following[0] if following else last, "group")
        canvas.text(row, start, text, "group")


def heading(canvas: Canvas, placed: Placed, dress: TableRows, column: Column) -> None:
    """The heading of a column, or of a line, with its unit and its note."""
    (_above if placed.table.direction == "down" else _beside)(canvas, placed, dress, column)


def _above(canvas: Canvas, placed: Placed, dress: TableRows, column: Column) -> None:
    at, unit = placed.at[column.key], canvas.unit(column.unit)
    if dress.units is not None and unit:
        canvas.text(dress.units, at, unit, "unit")
        canvas.needs(dress.units, at, unit)
    left = column.type == "text"
    look = {"align": "left" if left else "right", "indent": int(left), "text_wrap": column.wide == 1}
    canvas.text(dress.headings, at, column.heading, "heading", **look)
    canvas.needs(dress.headings, at, column.heading, cells=column.wide, bold=True)
    if column.note:
        canvas.worksheet.write_comment(dress.headings, at, column.note, NOTE)


def _beside(canvas: Canvas, placed: Placed, dress: TableRows, column: Column) -> None:
    row, table = placed.at[column.key], placed.table
    look = {"valign": "top"} if column.style == "top" else {}
    canvas.text(row, GUTTER, column.heading, "line", text_wrap=table.span == 1, **look)
    if table.span == 1:
        canvas.needs(row, GUTTER, column.heading)
    unit = canvas.unit(column.unit)
    units_in_slots = any("/" in getattr(slot, canvas.system) for slot in table.slots.values())
    if dress.unit_column is not None and unit and not units_in_slots:
        canvas.text(row, dress.unit_column, unit, "unit_beside")
    if column.note and not placed.single:
        canvas.worksheet.write_comment(row, GUTTER, column.note, NOTE)
    elif column.note and dress.notes_column is not None:
        wrapped = canvas.sheet.notes_column is not None
        canvas.text(row, dress.notes_column, column.note, "note", text_wrap=wrapped, indent=1)
        if wrapped:
            canvas.needs(row, dress.notes_column, column.note)
