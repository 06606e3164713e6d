"""Writes a workbook: the only place that knows xlsxwriter."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.workbook import Workbook
from xlsxwriter.worksheet import Worksheet

from wbgen import styles
from wbgen.inputs import Column as Figures
from wbgen.print_setup import set_up_page
from wbgen.sheets.book import STANDING, Book
from wbgen.sheets.formula import Compiled, letters, quoted
from wbgen.sheets.layout import GUTTER, Dress, Laid, Placed
from wbgen.sheets.template import Chart, Column, Digits, Sheet, Unit
from wbgen.units import label
from wbgen.validation import rules_for

TABLE_NAME = "table_"
"""Begins the defined name of every table; a table is found by it again."""
NOTE_WIDTH = 64.0

Values = Mapping[str, Mapping[str, Figures]]


def write(
    path: Path,
    book: Book,
    laid: Laid,
    compiled: Mapping[str, Mapping[str, Compiled]],
    values: Values,
    currency: str,
    created: datetime,
) -> None:
    """Write the workbook to `path`. `values` are the figures of every column, in the unit of the column.

    The same arguments give the same bytes. Raises OSError where the file cannot be written.
    """
    options = {
        "strings_to_formulas": False,
        "strings_to_urls": False,
        "default_format_properties": {"font_name": styles.FONT, "font_size": styles.SIZE},
    }
    with xlsxwriter.Workbook(str(path), options) as workbook:
        workbook.set_properties({"title": "Lawn feeding planner", "created": created})
        workbook.set_calc_mode("auto")
        _Writer(workbook, book, laid, compiled, values, currency).write()


class _Writer:
    def __init__(
        self,
        workbook: Workbook,
        book: Book,
        laid: Laid,
        compiled: Mapping[str, Mapping[str, Compiled]],
        values: Values,
        currency: str,
    ) -> None:
        self.workbook = workbook
        self.book = book
        self.laid = laid
        self.compiled = compiled
        self.values = values
        self.currency = currency
        self.formats: dict[tuple[Any, ...], Format] = {}

    def write(self) -> None:
        for sheet in self.book.sheets:
            worksheet = self.workbook.add_worksheet(sheet.name)
            self.worksheet, self.sheet = worksheet, sheet
            self.lines: dict[int, float] = {}
            worksheet.hide_gridlines(2)
            self._widths()
            worksheet.write_string(0, GUTTER, sheet.name, self.style("title", size=sheet.size))
            worksheet.write_string(1, GUTTER, sheet.purpose, self.style("purpose", size=sheet.size))
            for table in sheet.tables:
                placed, dress = self.laid.placed[table.key], self.laid.dress[table.key]
                self._frame(placed, dress)
                for column in table.columns:
                    self._heading(placed, dress, column)
                    self._figures(placed, column)
                    self._validate(placed, column)
                self._vanish(placed)
                self._name(placed)
            self._heights()
            self._emphasis()
            set_up_page(worksheet, sheet, self.laid, self.widths)
            for chart in sheet.charts:
                self._chart(chart)
            worksheet.protect(
                "",
                {
                    "sort": True, "autofilter": True, "insert_rows": True, "delete_rows": True,
                    "format_cells": True, "format_columns": True, "format_rows": True,
                },
            )  # fmt: skip

    def style(self, role: str, *, number: str = "", variant: str | None = None, size: int = 0, **more: Any) -> Format:
        key = (role, number, variant, size or self.sheet.size, tuple(sorted(more.items())))
        if key not in self.formats:
            own = styles.ROLES["plain_formula" if role == "formula" and self.sheet.bare else role]
            properties = styles.base(size or self.sheet.size) | own | styles.VARIANTS.get(variant or "", {})
            if role == "table":
                properties["font_size"] = max(self.sheet.size, properties["font_size"])
            if number:
                properties["num_format"] = number
            self.formats[key] = self.workbook.add_format(properties | more)
        return self.formats[key]

    def _unit(self, unit: Unit | None) -> str:
        text = getattr(unit, self.book.system) if unit else ""
        return label(text, self.currency) if text else ""

    def _needs(self, row: int, at: int, text: str, size: float = 0, cells: int = 1, bold: bool = False) -> None:
        """Note how high a row must be for a text that wraps in its cell."""
        width = sum(self.widths.get(at + step, 8.43) for step in range(cells))
        size = size or self.sheet.size
        room = max(1.0, width * 10.5 / size * (0.9 if bold else 1.0))
        lines = sum(max(1, math.ceil(_longest(part, room) / room)) for part in text.split("\n"))
        self.lines[row] = max(self.lines.get(row, 0.0), lines * size * 1.32 + 1)

    def _heights(self) -> None:
        for row, points in self.lines.items():
            if points > self.sheet.size * 1.6:
                self.worksheet.set_row(row, points)

    def _widths(self) -> None:
        self.widths = column_widths(self.sheet, self.laid)
        self.worksheet.set_column(0, 0, 2, self.style("constant"))
        for column, width in self.widths.items():
            self.worksheet.set_column(column, column, width, self.style("constant"))

    def _frame(self, placed: Placed, dress: Dress) -> None:
        table = placed.table
        if table.key.startswith(STANDING):
            return
        last = max([*placed.at.values(), *placed.beside.values()]) if table.direction == "down" else placed.last
        last = max(last, GUTTER + 1)
        for column in range(GUTTER, last + 1):
            self.worksheet.write_blank(dress.title, column, None, self.style("table"))
        self.worksheet.write_string(dress.title, GUTTER, table.title, self.style("table"))
        if dress.note is not None:
            self.worksheet.write_string(dress.note, GUTTER, table.note, self.style("note"))
        for place, text in dress.groups.items():
            if table.direction == "down":
                self._band(dress.headings - 1 - (dress.units is not None), place, text, dress, last)
            else:
                for column in range(GUTTER, last + 1):
                    self.worksheet.write_blank(place, column, None, self.style("group"))
                self.worksheet.write_string(place, GUTTER, text, self.style("group"))
        if dress.slots is not None:
            for index, (slot, heading) in enumerate(table.slots.items()):
                text = getattr(heading, self.book.system)
                self.worksheet.write_string(dress.slots, placed.first + index, text or slot, self.style("heading"))
        if table.direction == "down" and not table.plain:
            for column in range(GUTTER, last + 1):
                self.worksheet.write_blank(placed.closing, column, None, self.style("closing"))
            self.worksheet.write_string(placed.closing, 0, "▲", self.style("closing"))

    def _band(self, row: int, start: int, text: str, dress: Dress, last: int) -> None:
        ends = [place - 1 for place in sorted(dress.groups) if place > start] or [last]
        for column in range(start, ends[0] + 1):
            self.worksheet.write_blank(row, column, None, self.style("group"))
        self.worksheet.write_string(row, start, text, self.style("group"))

    def _heading(self, placed: Placed, dress: Dress, column: Column) -> None:
        unit = self._unit(column.unit)
        if placed.table.direction == "down":
            at = placed.at[column.key]
            align = "left" if column.type == "text" else "right"
            if dress.units is not None and unit:
                self.worksheet.write_string(dress.units, at, unit, self.style("unit"))
            self.worksheet.write_string(dress.headings, at, column.heading, self._heading_style(column, align))
            self._needs(dress.headings, at, column.heading, cells=column.wide, bold=True)
            if column.note:
                self.worksheet.write_comment(dress.headings, at, column.note, {"x_scale": 2.0, "font_size": 9})
            return
        row = placed.at[column.key]
        self.worksheet.write_string(row, GUTTER, column.heading, self.style("line", text_wrap=placed.table.span == 1))
        if placed.table.span == 1:
            self._needs(row, GUTTER, column.heading)
        slotted_units = any("/" in getattr(slot, self.book.system) for slot in placed.table.slots.values())
        if dress.unit_column is not None and unit and not slotted_units:
            self.worksheet.write_string(row, dress.unit_column, unit, self.style("unit_beside"))
        if column.note and not placed.single:
            self.worksheet.write_comment(row, GUTTER, column.note, {"x_scale": 2.0, "font_size": 9})
        elif column.note and dress.notes_column is not None:
            wrapped = self.sheet.notes_column is not None
            self.worksheet.write_string(row, dress.notes_column, column.note, self.style("note", text_wrap=wrapped, indent=1))
            if wrapped:
                self._needs(row, dress.notes_column, column.note)

    def _heading_style(self, column: Column, align: str) -> Format:
        return self.style("heading", align=align, indent=int(align == "left"), text_wrap=column.wide == 1)

    def _chart(self, chart: Chart) -> None:
        placed = self.laid.placed[chart.table]
        drawn = self.workbook.add_chart({"type": "scatter", "subtype": "straight"})
        for index, key in enumerate(chart.lines):
            column = placed.column(key)
            drawn.add_series(
                {
                    "name": column.heading,
                    "categories": self._cells(placed, chart.over),
                    "values": self._cells(placed, key),
                    "line": {"color": styles.LINES[index], "width": 2, "dash_type": styles.DASHES[index]},
                }
            )
        over, up = placed.column(chart.over), placed.column(chart.lines[0])
        drawn.set_title({"name": chart.title, "name_font": {"name": styles.FONT, "size": 11}})
        drawn.set_x_axis({"name": over.heading, "num_format": "d mmm", "major_gridlines": {"visible": False}})
        drawn.set_y_axis({"name": f"{up.heading}, {self._unit(up.unit)}", "min": 0})
        drawn.set_legend({"position": "bottom"})
        drawn.set_size({"width": 620, "height": 340})
        last = max(placed.at.values())
        self.worksheet.insert_chart(placed.opening, last + 2, drawn, {"object_position": 2})

    def _cells(self, placed: Placed, key: str) -> list[Any]:
        at = placed.at[key]
        return [placed.sheet, placed.first, at, placed.last, at]

    def _vanish(self, placed: Placed) -> None:
        """Let the small numbers of unused records fade, and rule off the used ones."""
        key = placed.table.vanish
        if key is None:
            return
        first, last = min(placed.at.values()), max(placed.at.values())
        at = f"${letters(placed.at[key])}{placed.first + 1}"
        area = (placed.first, first, placed.last, last)
        unused = self.workbook.add_format({"font_color": "#FFFFFF"})
        used = self.workbook.add_format({"bottom": 1, "bottom_color": styles.RULE})
        self.worksheet.conditional_format(*area, {"type": "formula", "criteria": f'={at}=""', "format": unused})
        self.worksheet.conditional_format(*area, {"type": "formula", "criteria": f'={at}<>""', "format": used})

    def _figures(self, placed: Placed, column: Column) -> None:
        digits = getattr(column.digits, self.book.system) if isinstance(column.digits, Digits) else column.digits
        number = styles.number_format(column.show, digits, column.type)
        more: dict[str, Any] = {"text_wrap": True} if column.wrap else {}
        if column.type == "text" or placed.single:
            more |= {"align": "left", "indent": 1}
        style = self.style(column.role, number=number, variant=column.style, **more)
        figures = self.values[placed.table.key][column.key]
        formula = self.compiled[placed.table.key].get(column.key)
        for record in range(placed.records if not placed.single else 1):
            row, at = placed.cell(column.key, record)
            value = figures[record]
            blank = value == "" or (isinstance(value, float) and math.isnan(value))
            if column.wide > 1:
                self.worksheet.merge_range(row, at, row, at + column.wide - 1, "", style)
            if column.style == "verdict":
                self._needs(row, at, "x", 20)
            elif column.lines > 1:
                self._needs(row, at, "x\n" * (column.lines - 1) + "x")
            elif column.wrap and isinstance(value, str):
                self._needs(row, at, value, cells=column.wide)
            if formula is not None:
                self.worksheet.write_formula(row, at, "=" + formula.text(record), style, "" if blank else value)
            elif blank:
                self.worksheet.write_blank(row, at, None, style)
            elif isinstance(value, str):
                if column.style == "link":
                    self.worksheet.write_url(row, at, f"internal:{quoted(value)}!A1", style, value)
                else:
                    self.worksheet.write_string(row, at, value, style)
            else:
                self.worksheet.write_number(row, at, float(value), style)

    def _validate(self, placed: Placed, column: Column) -> None:
        if column.role != "input":
            return
        first, last = placed.cell(column.key), placed.cell(column.key, 0 if placed.single else placed.records - 1)
        self.worksheet.data_validation(*first, *last, rules_for(placed, column, self.laid.placed, self._unit(column.unit)))

    def _name(self, placed: Placed) -> None:
        rows = sorted({row for row, _ in _corners(placed)})
        columns = sorted({column for _, column in _corners(placed)})
        area = xlsxwriter.utility.xl_range_abs(rows[0], columns[0], rows[-1], columns[-1])
        self.workbook.define_name(TABLE_NAME + placed.table.key, f"={quoted(placed.sheet)}!{area}")

    def _emphasis(self) -> None:
        """Shade the cells that say a verdict, after their words."""
        for words, fill in (("Do not mix", styles.STOP_FILL), ("Ask first", styles.ASK_FILL), ("Go", styles.GO_FILL)):
            style = self.workbook.add_format({"bg_color": fill, "bold": True})
            self.worksheet.conditional_format(
                0, 0, 400, 20, {"type": "cell", "criteria": "==", "value": f'"{words}"', "format": style}
            )


def _longest(text: str, room: float) -> float:
    """The length of a text with what is lost at the ends of its lines."""
    return len(text) * (1.12 if len(text) > room else 1.0)


def _corners(placed: Placed) -> list[tuple[int, int]]:
    """Cells that a table's defined name covers: its headings and all its figures."""
    keys = [column.key for column in placed.table.columns]
    cells = [placed.cell(key, record) for key in keys for record in (0, 0 if placed.single else placed.records - 1)]
    if placed.table.direction == "down":
        return [*cells, (placed.opening, placed.at[keys[0]]), (placed.closing, placed.at[keys[-1]])]
    return [*cells, (placed.at[keys[0]], GUTTER), (placed.at[keys[0]], placed.last)]


def column_widths(sheet: Sheet, laid: Laid) -> dict[int, float]:
    """The widest that any table of a sheet wants each of its columns; a sheet's own widths come first."""
    widths: dict[int, float] = {}
    for table in sheet.tables:
        placed = laid.placed[table.key]
        if table.direction == "down":
            for column in table.columns:
                at = placed.at[column.key]
                widths[at] = max(widths.get(at, 0.0), column.width or (20.0 if column.type == "text" else 10.0))
        elif not table.key.startswith(STANDING):
            widths[GUTTER] = max(widths.get(GUTTER, 0.0), 34.0)
            for at in range(GUTTER + table.span, placed.last + 1):
                widths[at] = max(widths.get(at, 0.0), 13.0)
    for at, width in enumerate(sheet.widths):
        widths[at] = width
    return widths
