"""Charts of a table's columns: units stand on their axes, and what they show can be told apart without colour."""

from __future__ import annotations

from typing import Any

from wbgen.sheets.layout import Placed
from wbgen.sheets.template import Chart
from wbgen.writer import styles
from wbgen.writer.canvas import Canvas

TWO_MONTHS = 60.875
"""Days between the dates that are named below a chart: a sixth of a year."""


def draw(canvas: Canvas, chart: Chart) -> None:
    """A chart beside its table, or where it says."""
    placed = canvas.layout.placed[chart.table]
    lines = _lines(canvas, chart, placed)
    drawn = lines
    if chart.bars:
        drawn = _bars(canvas, chart, placed)
        if chart.lines:
            drawn.combine(lines)
    up = placed.column((*chart.lines, *chart.bars)[0])
    small = {"name": styles.FONT, "size": styles.SMALL_SIZE, "color": styles.HINT}
    heading = {"name": styles.FONT, "size": styles.SIZE, "color": styles.INK}
    drawn.set_title({"name": f"{chart.title}, {canvas.unit(up.meaning.unit)}", "name_font": heading, "overlay": False})
    quiet = {"num_font": small, "line": {"color": styles.HINT}}
    along = quiet | {"major_gridlines": {"visible": False}}
    if placed.column(chart.over).meaning.type == "date":
        along |= {"num_format": "d mmm", "major_unit": TWO_MONTHS}
    drawn.set_x_axis(along)
    grid = {"visible": True, "line": {"color": styles.ROW_LINE, "width": 0.75}}
    drawn.set_y_axis(quiet | {"min": 0, "major_gridlines": grid, "line": {"none": True}})
    if chart.right:
        unit = canvas.unit(placed.column(chart.right[0]).meaning.unit)
        words = ", ".join([placed.column(key).heading for key in chart.right] + ([unit] if unit else []))
        low, high = chart.scale or (None, None)
        lines.set_y2_axis({"name": words, "min": low, "max": high, "major_gridlines": {"visible": False}} | quiet)
    drawn.set_legend({"position": "top", "font": small})
    drawn.set_chartarea({"border": {"none": True}, "fill": {"none": True}})
    drawn.set_size(dict(zip(("width", "height"), chart.size, strict=True)))
    place = chart.at or (placed.opening, max(placed.at.values()) + 1)
    shown = ", ".join(placed.column(key).heading for key in (*chart.bars, *chart.lines, *chart.right))
    options = {"object_position": 2, "x_offset": 0 if chart.at else 12, "description": f"{chart.title}: {shown}"}
    canvas.worksheet.insert_chart(*place, drawn, options)


def _lines(canvas: Canvas, chart: Chart, placed: Placed) -> Any:
    named = placed.column(chart.over).meaning.type == "text"
    drawn = canvas.workbook.add_chart({"type": "line"} if named else {"type": "scatter", "subtype": "straight"})
    for index, key in enumerate(chart.lines):
        over = chart.along[index] if chart.along else chart.over
        line = {"color": styles.LINES[index], "width": 2, "dash_type": styles.DASHES[index]}
        drawn.add_series(_series(placed, key, over) | {"line": line})
    for index, key in enumerate(chart.right, len(chart.lines)):
        colour, shape = styles.LINES[index], styles.MARKS[index - len(chart.lines)]
        marks = {"type": shape, "size": 7, "fill": {"color": colour}, "border": {"color": colour}}
        own = {"line": {"none": True}, "marker": marks, "y2_axis": True}
        drawn.add_series(_series(placed, key, chart.over) | own)
    return drawn


def _bars(canvas: Canvas, chart: Chart, placed: Placed) -> Any:
    """Bars behind the lines: an empty one and a full one."""
    drawn = canvas.workbook.add_chart({"type": "column"})
    for index, key in enumerate(chart.bars):
        look = {"border": {"color": styles.INK}, "fill": {"color": styles.BARS[index]}, "gap": 60, "overlap": 0}
        drawn.add_series(_series(placed, key, chart.over) | look)
    return drawn


def _series(placed: Placed, key: str, over: str) -> dict[str, Any]:
    return {"name": placed.column(key).heading, "categories": _cells(placed, over), "values": _cells(placed, key)}


def _cells(placed: Placed, key: str) -> list[Any]:
    at = placed.at[key]
    return [placed.sheet, placed.first, at, placed.last, at]
