"""The cells of a column: formulas with the values shown until they are recalculated, inputs and constants."""

from __future__ import annotations

import math
from typing import Any

from wbgen.inputs import Column as Figures
from wbgen.sheets.formula import Compiled, quoted
from wbgen.sheets.layout import Placed
from wbgen.sheets.template import Column, Digits
from wbgen.writer import styles
from wbgen.writer.canvas import Canvas
from wbgen.writer.styles import VERDICT_SIZE


def write_column(canvas: Canvas, placed: Placed, column: Column, figures: Figures, formula: Compiled | None) -> None:
    """Write every figure of a column. `figures` are bare numbers in the column's unit, or text."""
    style = _style(canvas, placed, column)
    for record in range(1 if placed.single else placed.records):
        row, at = placed.cell(column.key, record)
        value = figures[record]
        if column.wide > 1 and placed.single:
            canvas.worksheet.merge_range(row, at, row, at + column.wide - 1, "", style)
        _room(canvas, row, at, column, value)
        _write(canvas, row, at, column, value, formula.text(record) if formula else None, style)


def _style(canvas: Canvas, placed: Placed, column: Column) -> Any:
    digits = getattr(column.digits, canvas.system) if isinstance(column.digits, Digits) else column.digits
    number = styles.number_format(column.show, digits, column.type)
    more: dict[str, Any] = {"text_wrap": True} if column.wrap else {}
    if column.type == "text" or placed.single:
        more |= {"align": "left", "indent": 1}
    return canvas.style(column.role, number=number, variant=column.style, **more)


def _room(canvas: Canvas, row: int, at: int, column: Column, value: Any) -> None:
    if column.style == "verdict":
        canvas.needs(row, at, "x", size=VERDICT_SIZE)
    elif column.lines > 1:
        canvas.needs(row, at, "\n".join("x" * column.lines))
    elif column.wrap and isinstance(value, str):
        canvas.needs(row, at, value, cells=column.wide)


def _write(canvas: Canvas, row: int, at: int, column: Column, value: Any, formula: str | None, style: Any) -> None:
    blank = value == "" or (isinstance(value, float) and math.isnan(value))
    if formula is not None:
        canvas.worksheet.write_formula(row, at, "=" + formula, style, "" if blank else value)
    elif blank:
        canvas.worksheet.write_blank(row, at, None, style)
    elif not isinstance(value, str):
        canvas.worksheet.write_number(row, at, float(value), style)
    elif column.style == "link":
        canvas.worksheet.write_url(row, at, f"internal:{quoted(value)}!A1", style, value)
    else:
        canvas.worksheet.write_string(row, at, value, style)
