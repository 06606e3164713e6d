"""The cells of a column: formulas with the values shown until they are recalculated, inputs and constants."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from wbgen.model.inputs import Column as Figures
from wbgen.sheets.compile import Compiled, quoted
from wbgen.sheets.layout import Placed
from wbgen.sheets.template import Column, Digits
from wbgen.writer import styles
from wbgen.writer.canvas import Canvas
from wbgen.writer.styles import VERDICT_SIZE

Shown = str | float
"""A figure as a cell shows it; the empty text where there is none."""


def write_column(canvas: Canvas, placed: Placed, column: Column, figures: Figures, formula: Compiled | None) -> None:
    """Write every figure of a column. `figures` are bare numbers in the column's unit, or text."""
    style = _style(canvas, placed, column)
    values = shown(figures[: 1 if placed.single else placed.records])
    if column.style in ("verdict", "upright") or column.lines > 1 or column.wrap:
        for record, value in enumerate(values):
            _room(canvas, *placed.cell(column.key, record), column, value)
    if column.wide > 1 and (placed.single or formula is not None):
        for record in range(len(values)):
            row, at = placed.cell(column.key, record)
            canvas.worksheet.merge_range(row, at, row, at + column.wide - 1, "", style)
    if formula is None:
        _write_given(canvas, placed, column, values, style)
    else:
        for record, (text, value) in enumerate(zip(formula.texts(len(values)), values, strict=True)):
            canvas.worksheet.write_formula(*placed.cell(column.key, record), text, style, value)


def shown(figures: Figures) -> list[Shown]:
    """The figures as cells show them; NaN is the one that is not equal to itself.

    >>> import numpy as np
    >>> shown(np.array([1.5, np.nan]))
    [1.5, '']
    """
    return ["" if value != value else value for value in figures.tolist()]


def _style(canvas: Canvas, placed: Placed, column: Column) -> Any:
    digits = getattr(column.digits, canvas.system) if isinstance(column.digits, Digits) else column.digits
    number = styles.number_format(column.show, digits, column.type)
    more: dict[str, Any] = {"text_wrap": True} if column.wrap else {}
    if column.type == "text" or placed.single:
        more |= {"align": "left", "indent": 1}
    return canvas.style(column.role, number=number, variant=column.style, **more)


def _room(canvas: Canvas, row: int, at: int, column: Column, value: Shown) -> None:
    if column.style == "verdict":
        canvas.needs(row, at, "x", size=VERDICT_SIZE)
    elif column.style == "upright":
        canvas.needs(row, at, "x\nx\nx\nx")
    elif column.lines > 1:
        canvas.needs(row, at, "\n".join("x" * column.lines))
    elif isinstance(value, str):
        canvas.needs(row, at, value, cells=column.wide)


def _write_given(canvas: Canvas, placed: Placed, column: Column, values: Sequence[Shown], style: Any) -> None:
    """Write inputs and constants, and give the look of the column to those that are blank."""
    for record, value in enumerate(values):
        _write(canvas, *placed.cell(column.key, record), column, value, style)


def _write(canvas: Canvas, row: int, at: int, column: Column, value: Shown, style: Any) -> None:
    if value == "":
        canvas.worksheet.write_blank(row, at, None, style)
    elif not isinstance(value, str):
        canvas.worksheet.write_number(row, at, value, style)
    elif column.style == "link":
        canvas.worksheet.write_url(row, at, f"internal:{quoted(value)}!A1", style, value)
    else:
        canvas.worksheet.write_string(row, at, value, style)
