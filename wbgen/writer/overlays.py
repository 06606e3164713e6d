"""What is laid over the figures: shades that repeat a verdict's words, records that fade."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from wbgen.files.xlsx.addresses import address, letters
from wbgen.sheets.column import BARS, Column
from wbgen.sheets.layout import Placed
from wbgen.sheets.number_format import fixed
from wbgen.writer import styles
from wbgen.writer.canvas import Canvas


def emphasise(canvas: Canvas) -> None:
    """Shade the cells that say a verdict, after their words: what is asked for, and at the verdict itself also *Go*."""
    for words, fill in (("Do not mix", styles.STOP_FILL), ("Ask first", styles.ASK_FILL)):
        canvas.worksheet.conditional_format(0, 0, 400, 20, _saying(canvas, words, fill))
    for table in canvas.sheet.tables:
        for column in table.columns:
            if column.look.style == "verdict":
                row, at = canvas.layout.placed[table.key].cell(column.key)
                rule = _saying(canvas, "Go", styles.GO_FILL)
                canvas.worksheet.conditional_format(row, at, row, at + column.page.wide - 1, rule)


def _saying(canvas: Canvas, words: str, fill: str) -> dict[str, Any]:
    """A rule that gives the cells that say `words` a fill."""
    style = canvas.workbook.add_format({"bg_color": fill, "font_color": styles.INK, "bold": True})
    return {"type": "cell", "criteria": "==", "value": f'"{words}"', "format": style}


def let_vanish(canvas: Canvas, placed: Placed) -> None:
    """Let unused records, and on a bare sheet empty lines, fade from sight; rule off the used ones."""
    key = placed.table.vanish
    faded = canvas.workbook.add_format({"font_color": canvas.ground})
    if canvas.sheet.bare and placed.single and not placed.table.slots:
        for column in placed.table.columns:
            row, at = placed.cell(column.key)
            if column.role == "formula":
                empty = {"type": "formula", "criteria": f'=${letters(at)}${row + 1}=""', "format": faded}
                canvas.worksheet.conditional_format(row, placed.left, row, placed.last + 1, empty)
    if key is None:
        return
    first = f"${letters(placed.at[key])}{placed.first + 1}"
    used = canvas.workbook.add_format({"bottom": 1, "bottom_color": styles.ROW_LINE})
    for test, style in ((f'={first}=""', faded), (f'={first}<>""', used)):
        for left, right in _beside_bars(placed):
            area = (placed.first, left, placed.last, right)
            canvas.worksheet.conditional_format(*area, {"type": "formula", "criteria": test, "format": style})


def _beside_bars(placed: Placed) -> list[tuple[int, int]]:
    """The table's columns from left to right but for its bars: some programs take one rule a cell."""
    bars = sorted(placed.at[column.key] for column in placed.table.columns if column.look.style in BARS)
    ends = [min(placed.at.values()) - 1, *bars, max(placed.at.values()) + 1]
    return [(left + 1, right - 1) for left, right in pairwise(ends) if left + 1 < right]


def draw_bars(canvas: Canvas, placed: Placed) -> None:
    """Draw shares from 0 to 1 as bars, in the place of their numbers."""
    for style, fill in (("bar", styles.BAR_FILL), ("beyond", styles.BEYOND_FILL)):
        ends = [placed.cell(column.key, record) for column in placed.table.columns if column.look.style == style
                for record in (0, placed.count - 1)]  # fmt: skip
        for at in sorted({at for _, at in ends}):
            rows = [row for row, column in ends if column == at]
            bar = {
                "type": "data_bar", "bar_only": True, "bar_solid": True, "bar_color": fill, "bar_no_border": True,
                "bar_direction": "left", "min_type": "num", "max_type": "num", "min_value": 0, "max_value": 1,
                "data_bar_2010": True,
            }  # fmt: skip
            canvas.worksheet.conditional_format(min(rows), at, max(rows), at, bar)


def drop_zeros(canvas: Canvas, placed: Placed, column: Column) -> None:
    """Show no decimals that a person need not weigh: 300, not 300.00."""
    first, last = placed.cell(column.key), placed.cell(column.key, 0 if placed.single else placed.records - 1)
    at = address(*first)
    ruled = (
        {"bottom": 1, "bottom_color": styles.ROW_LINE} if placed.table.vanish else {}
    )  # some programs take one rule a cell
    for digits in range(min(2, column.look.digits_in(canvas.system) or 0)):
        look = {"num_format": fixed(digits)}
        plain = canvas.workbook.add_format(look | ruled)
        rule = {"type": "formula", "criteria": f"=AND(ISNUMBER({at}),ROUND({at},{digits})={at})", "format": plain}
        canvas.worksheet.conditional_format(*first, *last, rule)
