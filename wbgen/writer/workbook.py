"""A planner, sheet by sheet: its tables, what an input takes, charts, how it prints and what is locked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any

import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.utility import xl_range_abs
from xlsxwriter.workbook import Workbook

from wbgen.model.inputs import Figures
from wbgen.sheets.book import MARK, Book
from wbgen.sheets.column import Column, is_bar
from wbgen.sheets.compile import Compiled, quoted
from wbgen.sheets.layout import TABLE_NAME, Layout, Placed
from wbgen.sheets.template import Sheet
from wbgen.writer import styles
from wbgen.writer.canvas import Canvas
from wbgen.writer.cells import shown, write_column
from wbgen.writer.charts import draw
from wbgen.writer.data_validation import rules_for
from wbgen.writer.head import head
from wbgen.writer.headings import frame, heading
from wbgen.writer.hover import sources_of
from wbgen.writer.overlays import draw_bars, drop_zeros, emphasise, let_vanish
from wbgen.writer.print_setup import set_up_page
from wbgen.writer.worksheet import PlannerWorksheet


def _options() -> dict[str, Any]:
    """xlsxwriter's options, made anew for each workbook: it writes into them, and the second would differ."""
    return {
        "strings_to_formulas": False,
        "strings_to_urls": False,
        "default_format_properties": {"font_name": styles.FONT, "font_size": styles.SIZE},
    }


ALLOWED = dict.fromkeys(
    ("sort", "autofilter", "insert_rows", "delete_rows", "format_cells", "format_columns", "format_rows"), True
)
"""What a protected sheet lets a person do; the protection has no password."""

Values = Mapping[str, Mapping[str, Figures]]


def write(
    path: Path,
    book: Book,
    layout: Layout,
    compiled: Mapping[str, Mapping[str, Compiled]],
    values: Values,
    currency: str,
    created: datetime,
    mark: str = "",
) -> None:
    """Write the workbook to `path`. `values` are the figures of every column, in the unit of the column; `mark` is that
    of the templates.

    The same arguments give the same bytes. Raises OSError where the file cannot be written.
    """
    workbook = xlsxwriter.Workbook(str(path), _options())
    workbook.set_properties({"title": "Lawn feeding planner", "created": created})
    if mark:
        workbook.set_custom_property(MARK, mark, "text")
    workbook.set_calc_mode("auto")
    formats: dict[tuple[Any, ...], Format] = {}
    sources = sources_of(book)
    for sheet in book.sheets:
        worksheet = workbook.add_worksheet(sheet.name, worksheet_class=PlannerWorksheet)
        canvas = Canvas(workbook, worksheet, sheet, layout, book.system, currency, formats, sources)
        _write_sheet(canvas, book.sheets, compiled, values)
    workbook.close()  # not where a sheet was refused: of the sheets that lack, the file would complain as well


def _write_sheet(
    canvas: Canvas, sheets: Sequence[Sheet], compiled: Mapping[str, Mapping[str, Compiled]], values: Values
) -> None:
    sheet, layout = canvas.sheet, canvas.layout
    head(canvas, {one.name: one.purpose for one in sheets})
    for table in sheet.tables:
        placed, rows = layout.placed[table.key], layout.rows[table.key]
        frame(canvas, placed, rows)
        for column in table.columns:
            heading(canvas, placed, rows, column)
            write_column(canvas, placed, column, values[table.key][column.key], compiled[table.key].get(column.key))
            if column.role == "input":
                _validate(canvas, placed, column)
            if sheet.bare and column.meaning.type == "number" and column.role == "formula" and not is_bar(column):
                drop_zeros(canvas, placed, column)
        let_vanish(canvas, placed)
        draw_bars(canvas, placed)
        if table.filter:
            canvas.worksheet.autofilter(placed.opening, min(placed.at.values()), placed.last, max(placed.at.values()))
        _name(canvas.workbook, placed)
    canvas.set_heights()
    emphasise(canvas)
    set_up_page(canvas.worksheet, sheet, layout, canvas.widths, canvas.heights, _in_use(sheet, values), canvas.system)
    for chart in sheet.charts:
        draw(canvas, chart)
    canvas.worksheet.protect("", ALLOWED)


def _in_use(sheet: Sheet, values: Values) -> dict[str, int]:
    """The last record of each table that has an input filled in, counted from 1; 0 for none."""
    found = {}
    for table in sheet.tables:
        given = [shown(values[table.key][one.key]) for one in table.columns if one.role == "input"]
        filled = [number for column in given for number, one in enumerate(column, 1) if one != ""]
        if given:
            found[table.key] = max(filled, default=0)
    return found


def _validate(canvas: Canvas, placed: Placed, column: Column) -> None:
    first, last = placed.cell(column.key), placed.cell(column.key, 0 if placed.single else placed.records - 1)
    rules = rules_for(placed, column, canvas.layout.placed, canvas.unit(column.meaning.unit), canvas.system)
    canvas.worksheet.data_validation(*first, *last, rules)


def _name(workbook: Workbook, placed: Placed) -> None:
    rows = [row for row, _ in _corners(placed)]
    columns = [column for _, column in _corners(placed)]
    area = xl_range_abs(min(rows), min(columns), max(rows), max(columns))
    workbook.define_name(TABLE_NAME + placed.table.key, f"={quoted(placed.sheet)}!{area}")


def _corners(placed: Placed) -> list[tuple[int, int]]:
    """Cells that a table's defined name covers: its headings and all its figures."""
    keys = [column.key for column in placed.table.columns]
    cells = [placed.cell(key, record) for key in keys for record in (0, 0 if placed.single else placed.records - 1)]
    if placed.table.direction == "down":
        return [*cells, (placed.opening, placed.at[keys[0]]), (placed.closing, placed.at[keys[-1]])]
    return [*cells, (placed.at[keys[0]], placed.left), (placed.at[keys[0]], placed.last)]
