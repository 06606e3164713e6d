"""One sheet while it is written: its formats, its units, and how high its rows must be."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from xlsxwriter.format import Format
from xlsxwriter.workbook import Workbook
from xlsxwriter.worksheet import Worksheet

from wbgen.sheets.column import System, Unit
from wbgen.sheets.layout import Layout
from wbgen.sheets.template import Sheet
from wbgen.units.quantity import label
from wbgen.writer import styles
from wbgen.writer.font import INDENTED, column_pixels, lines_in
from wbgen.writer.hover import Sources
from wbgen.writer.widths import DEFAULT_WIDTH, column_widths
from wbgen.writer.worksheet import LAST_COLUMN

LINE_HEIGHT = 1.32
"""Points of a line of text for each point of its size."""
CLOSE = 1.18
"""The same for rows of one line on a sheet in large print, which is to fit on paper."""
TITLE_HEIGHT = 22.5
"""Points: 30 pixels, with air below the title."""


@dataclass
class Canvas:
    workbook: Workbook
    worksheet: Worksheet
    sheet: Sheet
    layout: Layout
    system: System
    currency: str
    formats: dict[tuple[Any, ...], Format]
    """Shared by the sheets of a workbook: a format is made once."""
    sources: Sources
    """What each answer is worked out from."""
    widths: Mapping[int, float] = field(init=False)
    ground: str = field(init=False)
    """The colour that the sheet's cells stand on, but for the boxes of inputs."""
    heights: dict[int, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.widths = column_widths(self.sheet, self.layout)
        self.ground = styles.PAPER if self.sheet.paper else styles.DESK
        self.worksheet.hide_gridlines(2)
        self.worksheet.set_tab_color(styles.TABS[self.sheet.part])
        self.worksheet.set_column(0, 0, 2, self.style("ground"))
        for column in range(1, max(self.widths, default=0) + 1):
            width = self.widths.get(column, DEFAULT_WIDTH)
            self.worksheet.set_column(column, column, width, self.style("ground"), self._folding(column))
        beyond = self.workbook.add_format(styles.look("ground", ground=styles.DESK))
        # A look of columns without a cell: the sheet does not end there, or each row would be gone through to that end.
        ends_at = self.worksheet.dim_colmax
        self.worksheet.set_column(max(self.widths, default=0) + 1, LAST_COLUMN, DEFAULT_WIDTH, beyond)
        self.worksheet.dim_colmax = ends_at

    def _folding(self, column: int) -> dict[str, int]:
        """How a column is folded away, or what is folded away before it."""
        for table in self.sheet.tables:
            for _, first, last in self.layout.placed[table.key].folded:
                if first <= column <= last:
                    return {"level": 1, "hidden": 1}
                if column == last + 1:
                    return {"collapsed": 1}
        return {}

    def style(
        self, role: str, *, number: str = "", variant: str | None = None, in_table: bool = False, **more: Any
    ) -> Format:
        """The format of a role (see `styles`), on the sheet's ground and at its size."""
        key = (role, number, variant, in_table, self.sheet.size, self.ground, tuple(sorted(more.items())))
        if key not in self.formats:
            properties = styles.look(role, size=self.sheet.size, ground=self.ground, variant=variant, in_table=in_table)
            if number:
                properties["num_format"] = number
            self.formats[key] = self.workbook.add_format(properties | more)
        return self.formats[key]

    def unit(self, unit: Unit | None) -> str:
        """A unit as the sheet prints it, in the workbook's system; "" for a plain number."""
        text = getattr(unit, self.system) if unit else ""
        return label(text, self.currency) if text else ""

    def text(self, row: int, column: int, text: str, role: str, **more: Any) -> None:
        self.worksheet.write_string(row, column, text, self.style(role, **more))

    def blanks(self, row: int, first: int, last: int, role: str) -> None:
        """Give empty cells the look of a role, so that a rule or a band runs through."""
        for column in range(first, last + 1):
            self.worksheet.write_blank(row, column, None, self.style(role))

    def needs(self, row: int, column: int, text: str, *, size: float = 0, cells: int = 1, bold: bool = False) -> None:
        """Note how high a row must be for a text that wraps in its cell, or in so many cells."""
        size = size or self.sheet.size
        room = column_pixels(self.room(column, cells)) - INDENTED
        lines = sum(lines_in(part, room, size, bold=bold) for part in text.split("\n"))
        self.heights[row] = max(self.heights.get(row, 0.0), lines * size * LINE_HEIGHT + 1)

    def room(self, column: int, cells: int) -> float:
        """The width of so many cells, in characters of the usual size."""
        return sum(self.widths.get(column + step, DEFAULT_WIDTH) for step in range(cells))

    def set_heights(self) -> None:
        high = {0: TITLE_HEIGHT}
        if self.sheet.size > styles.SIZE:
            high = dict.fromkeys(range(self._end()), self.sheet.size * CLOSE) | high
        high |= {row: points for row, points in self.heights.items() if points > self.sheet.size * 1.6}
        self.heights = high
        for row, points in high.items():
            self.worksheet.set_row(row, points)

    def _end(self) -> int:
        """The row (from 0) after the last of the sheet's tables."""
        tables = [self.layout.placed[table.key] for table in self.sheet.tables]
        return 1 + max(one.closing if one.table.direction == "down" else max(one.at.values()) for one in tables)
