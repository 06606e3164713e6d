"""The cells of a column: formulas with the values shown until they are recalculated, inputs and constants."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from wbgen.model.inputs import Figures
from wbgen.sheets.column import Column
from wbgen.sheets.compile import Compiled, quoted
from wbgen.sheets.layout import Placed
from wbgen.sheets.number_format import number_format
from wbgen.writer.canvas import Canvas
from wbgen.writer.styles import KEY_SIZE, VERDICT_SIZE

Shown = str | float
"""A figure as a cell shows it; the empty text where there is none."""


def write_column(canvas: Canvas, placed: Placed, column: Column, figures: Figures, formula: Compiled | None) -> None:
    """Write every figure of a column. `figures` are bare numbers in the column's unit, or text."""
    style = _style(canvas, placed, column)
    values = shown(figures[: 1 if placed.single else placed.records])
    if column.look.style in ("verdict", "key", "upright") or column.page.lines > 1 or column.look.wrap:
        for record, value in enumerate(values):
            _room(canvas, *placed.cell(column.key, record), column, value)
    if column.page.wide > 1 and (placed.single or formula is not None):
        for record in range(len(values)):
            row, at = placed.cell(column.key, record)
            canvas.worksheet.merge_range(row, at, row, at + column.page.wide - 1, "", style)
    if formula is None:
        _write_given(canvas, placed, column, values, style)
    else:
        for record, (text, value) in enumerate(zip(formula.texts(len(values)), values, strict=True)):
            canvas.worksheet.write_formula(*placed.cell(column.key, record), text, style, value)


def shown(figures: Figures) -> list[Shown]:
    """The figures as cells show them: numbers to 15 digits, as spreadsheet programs keep them.

    In the digits beyond, processors differ. NaN is the figure that is not equal to itself.

    >>> import numpy as np
    >>> shown(np.array([0.1 + 0.2, np.nan]))
    [0.3, '']
    """
    if figures.dtype == object:
        return list(figures)
    return ["" if value != value else float(f"{value:.15g}") for value in figures.tolist()]


def _style(canvas: Canvas, placed: Placed, column: Column) -> Any:
    number = number_format(column, canvas.system)
    more: dict[str, Any] = {"text_wrap": True} if column.look.wrap else {}
    in_slot = bool(column.page.slot) and column.role == "formula"
    if column.meaning.type == "text" or (placed.single and not in_slot):
        more |= {"align": "left", "indent": 1}
    down = placed.table.direction == "down" and not placed.table.vanish  # whose used records alone are ruled off
    return canvas.style(column.role, number=number, variant=column.look.style, in_table=down, **more)


def _room(canvas: Canvas, row: int, at: int, column: Column, value: Shown) -> None:
    if column.look.style == "verdict":
        canvas.needs(row, at, "x", size=VERDICT_SIZE)
    elif column.look.style == "key":
        canvas.needs(row, at, "x", size=KEY_SIZE)
    elif column.look.style == "upright":
        canvas.needs(row, at, "x\nx\nx\nx")
    elif column.page.lines > 1:
        canvas.needs(row, at, "\n".join("x" * column.page.lines))
    elif isinstance(value, str):
        canvas.needs(row, at, value, cells=column.page.wide)


def _write_given(canvas: Canvas, placed: Placed, column: Column, values: Sequence[Shown], style: Any) -> None:
    """Write inputs and constants, and give the look of the column to those that are blank."""
    for record, value in enumerate(values):
        _write(canvas, *placed.cell(column.key, record), column, value, style)


def _write(canvas: Canvas, row: int, at: int, column: Column, value: Shown, style: Any) -> None:
    if value == "":
        canvas.worksheet.write_blank(row, at, None, style)
    elif not isinstance(value, str):
        canvas.worksheet.write_number(row, at, value, style)
    elif column.look.style == "link":
        canvas.worksheet.write_url(row, at, f"internal:{quoted(value)}!A1", style, value)
    else:
        canvas.worksheet.write_string(row, at, value, style)
