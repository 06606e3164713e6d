"""What is laid over the figures: shades that repeat a verdict's words, records that fade, charts."""

from __future__ import annotations

from typing import Any

from wbgen.files.xlsx.addresses import address, letters
from wbgen.sheets.layout import Placed
from wbgen.sheets.number_format import fixed
from wbgen.sheets.template import Chart, Column
from wbgen.writer import styles
from wbgen.writer.canvas import Canvas

CHART_SIZE = {"width": 520, "height": 330}


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
    if canvas.sheet.bare and placed.single:
        for column in placed.table.columns:
            row, at = placed.cell(column.key)
            if column.role == "formula":
                empty = {"type": "formula", "criteria": f'=${letters(at)}${row + 1}=""', "format": faded}
                canvas.worksheet.conditional_format(row, placed.left, row, placed.last + 1, empty)
    if key is None:
        return
    area = (placed.first, min(placed.at.values()), placed.last, max(placed.at.values()))
    first = f"${letters(placed.at[key])}{placed.first + 1}"
    used = canvas.workbook.add_format({"bottom": 1, "bottom_color": styles.ROW_LINE})
    for test, style in ((f'={first}=""', faded), (f'={first}<>""', used)):
        canvas.worksheet.conditional_format(*area, {"type": "formula", "criteria": test, "format": style})


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


def draw(canvas: Canvas, chart: Chart) -> None:
    """A chart beside its table; units stand on its axes, and dashes tell its lines apart."""
    placed = canvas.layout.placed[chart.table]
    named = placed.column(chart.over).meaning.type == "text"
    drawn = canvas.workbook.add_chart({"type": "line"} if named else {"type": "scatter", "subtype": "straight"})
    for index, key in enumerate(chart.lines):
        line = {"color": styles.LINES[index], "width": 2, "dash_type": styles.DASHES[index]}
        name = placed.column(key).heading
        drawn.add_series(
            {"name": name, "categories": _cells(placed, chart.over), "values": _cells(placed, key), "line": line}
        )
    for index, key in enumerate(chart.right, len(chart.lines)):
        _add_marks(drawn, placed, chart, key, styles.LINES[index], styles.MARKS[index - len(chart.lines)])
    up = placed.column(chart.lines[0])
    drawn.set_title({"name": chart.title, "name_font": {"name": styles.FONT, "size": 11}})
    along = {"name": placed.column(chart.over).heading, "major_gridlines": {"visible": False}}
    drawn.set_x_axis(along if named else along | {"num_format": "d mmm"})
    drawn.set_y_axis({"name": f"{chart.of or up.heading}, {canvas.unit(up.meaning.unit)}", "min": 0})
    if chart.right:
        unit = canvas.unit(placed.column(chart.right[0]).meaning.unit)
        words = ", ".join([placed.column(key).heading for key in chart.right] + ([unit] if unit else []))
        low, high = chart.scale or (None, None)
        drawn.set_y2_axis({"name": words, "min": low, "max": high, "major_gridlines": {"visible": False}})
    drawn.set_legend({"position": "bottom"})
    drawn.set_size(CHART_SIZE)
    place = (placed.opening, max(placed.at.values()) + 1)
    canvas.worksheet.insert_chart(*place, drawn, {"object_position": 2, "x_offset": 12})


def _add_marks(drawn: Any, placed: Placed, chart: Chart, key: str, colour: str, shape: str) -> None:
    marks = {"type": shape, "size": 7, "fill": {"color": colour}, "border": {"color": colour}}
    drawn.add_series({
        "name": placed.column(key).heading, "categories": _cells(placed, chart.over), "values": _cells(placed, key),
        "line": {"none": True}, "marker": marks, "y2_axis": True,
    })  # fmt: skip


def _cells(placed: Placed, key: str) -> list[Any]:
    at = placed.at[key]
    return [placed.sheet, placed.first, at, placed.last, at]
