"""The workbook of what verify found: a sheet of findings, one of what is only said, one of counts.

Every text is written as text, whatever it begins with: what stood in a planner never becomes a formula here.
"""

from __future__ import annotations

import io
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from functools import partial
from typing import Any, Final

import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.workbook import Workbook
from xlsxwriter.worksheet import Worksheet

from wbgen.sheets.layout import GUTTER
from wbgen.writer import styles
from wbgen.writer.canvas import LINE_HEIGHT
from wbgen.writer.print_setup import A4, MARGIN

MOST_LISTED: Final = 5_000
"""So many lines of one sheet are listed; the rest is counted."""
LONGEST_TEXT: Final = 8_192
"""Characters of the longest formula that a spreadsheet program takes; what is longer is cut."""
LONGEST_LINK: Final = 2_000
NO_DAY: Final = date(1980, 1, 1)
"""When a report was made whose planner was not recomputed for any day: the first day that a zip file can tell."""
HEADING, FIRST = 3, 4
"""Rows, from 0, of the headings and of the first line."""
ROOM: Final = 1.07
"""Letters of usual text in the width of a digit."""
WRAPPED: Final = 1.15
"""How much longer a text is for being wrapped between its words."""
HIGHEST: Final = 408.75
"""Points of the highest row that a spreadsheet program takes."""
ESCAPED: Final = str.maketrans({sign: f"%{ord(sign):02x}" for sign in '%#" <>[]^`{}'})

Plain = str | float | bool | None


@dataclass(frozen=True)
class CellAddress:
    """A cell of the planner; without a cell, a sheet or the whole file."""

    sheet: str
    cell: str


@dataclass(frozen=True)
class Line:
    """One finding, or one thing said."""

    at: CellAddress
    heading: str
    kind: str
    message: str
    found: Plain
    expected: Plain
    units: str
    cause: CellAddress | None
    remedy: str


@dataclass(frozen=True)
class Told:
    """What a report tells.

    `planner` is the way from the report's folder to the planner, with "/" between folders. `counts` has, by title,
    lines of a name, a figure and a remark.
    """

    planner: str
    day: date | None
    findings: Sequence[Line]
    findings_in_words: str
    said: Sequence[Line]
    said_in_words: str
    counts: Mapping[str, Sequence[tuple[str, Plain, str]]]


COLUMNS: Final = {
    "Place": 15, "Sheet": 11, "Cell": 7, "Heading": 18, "Kind": 15, "What is wrong": 29, "Found": 24, "Expected": 24,
    "Units": 16, "Cause": 15, "What to do": 32,
}  # fmt: skip
"""Headings of the findings, and how wide their columns are in characters."""
SAID_COLUMNS: Final = {
    "Place": 20, "Sheet": 16, "Cell": 8, "Heading": 24, "Kind": 18, "What is said": 46, "Found": 26, "Expected": 26,
}  # fmt: skip


def findings_workbook(told: Told) -> bytes:
    """The file as bytes: the same for the same arguments."""
    file = io.BytesIO()
    options = {
        "in_memory": True, "strings_to_formulas": False, "strings_to_urls": False,
        "default_format_properties": {"font_name": styles.FONT, "font_size": styles.SIZE},
    }  # fmt: skip
    with xlsxwriter.Workbook(file, options) as workbook:
        created = told.day or NO_DAY
        workbook.set_properties({"title": "Findings", "created": datetime(created.year, created.month, created.day)})  # noqa: DTZ001 - a day has no zone
        rows = [_finding(line) for line in told.findings]
        _Page(workbook, "Findings", told.findings_in_words, COLUMNS, told.planner).list(rows)
        rows = [_said(line) for line in told.said]
        _Page(workbook, "Said", told.said_in_words, SAID_COLUMNS, told.planner).list(rows)
        _Page(workbook, "Counts", "", {"": 34, " ": 20, "  ": 60}, told.planner).count(told.counts)
    return file.getvalue()


Cells = Sequence[Plain | CellAddress]


def _finding(line: Line) -> Cells:
    at = line.at
    return (
        at, at.sheet, at.cell, line.heading, line.kind, line.message, line.found, line.expected, line.units,
        line.cause, line.remedy,
    )  # fmt: skip


def _said(line: Line) -> Cells:
    return line.at, line.at.sheet, line.at.cell, line.heading, line.kind, line.message, line.found, line.expected


class _Page:
    """One sheet while it is written."""

    def __init__(self, workbook: Workbook, name: str, purpose: str, columns: Mapping[str, float], planner: str) -> None:
        self.sheet: Worksheet = workbook.add_worksheet(name)
        self.style = partial(_style, workbook, {})
        self.columns, self.planner = columns, planner
        self.sheet.hide_gridlines(2)
        self.sheet.set_column(0, 0, 2)
        for at, width in enumerate(columns.values(), GUTTER):
            self.sheet.set_column(at, at, width)
        self.sheet.write_string(0, GUTTER, name, self.style("title"))
        if purpose:
            self.sheet.write_string(1, GUTTER, purpose, self.style("purpose"))
        self.sheet.set_paper(A4)
        self.sheet.set_landscape()
        self.sheet.set_margins(MARGIN, MARGIN, 0.6, 0.7)
        self.sheet.set_footer("&L&8&A&C&8page &P of &N")
        self.sheet.fit_to_pages(1, 0)

    def list(self, rows: Sequence[Cells]) -> None:
        """A table with a line for each of `rows`; one that follows from another line is shaded."""
        for at, heading in enumerate(self.columns, GUTTER):
            self.sheet.write_string(HEADING, at, heading, self.style("heading"))
        follow = list(self.columns).index("Cause") if "Cause" in self.columns else None
        for row, cells in enumerate(rows[:MOST_LISTED], FIRST):
            role = "formula" if follow is not None and cells[follow] is not None else "constant"
            for at, value in enumerate(cells, GUTTER):
                self._cell(row, at, value, role)
            self.sheet.set_row(row, self._height(cells))
        self.sheet.freeze_panes(FIRST, 0)
        self.sheet.repeat_rows(HEADING)
        if rows:
            last = (HEADING + min(len(rows), MOST_LISTED), GUTTER + len(self.columns) - 1)
            self.sheet.autofilter(HEADING, GUTTER, *last)
            area = xlsxwriter.utility.xl_range(FIRST, GUTTER, *last)
            self.sheet.ignore_errors({"number_stored_as_text": area})

    def count(self, counts: Mapping[str, Sequence[tuple[str, Plain, str]]]) -> None:
        """A block under each title."""
        row = 2
        for title, lines in counts.items():
            self.sheet.write_string(row, GUTTER, title, self.style("table"))
            for at in range(1, len(self.columns)):
                self.sheet.write_blank(row, GUTTER + at, None, self.style("table"))
            for row, cells in enumerate(lines, row + 1):  # noqa: B020 - the next block begins below the last line
                for at, value in enumerate(cells, GUTTER):
                    self._cell(row, at, value, "constant")
            row += 2

    def _height(self, cells: Cells) -> float:
        """Points that a row needs for its longest text: not every program finds that by itself."""
        lines = 1
        for value, width in zip(cells, self.columns.values(), strict=True):
            text = _shown(value) if isinstance(value, CellAddress) else str("" if value is None else value)
            lines = max(lines, sum(_lines(part, width) for part in text.split("\n")))
        return min(HIGHEST, lines * styles.SIZE * LINE_HEIGHT + 2)

    def _cell(self, row: int, at: int, value: Plain | CellAddress, role: str) -> None:
        if isinstance(value, CellAddress):
            self._link(row, at, value, role)
        elif isinstance(value, bool):
            self.sheet.write_boolean(row, at, value, self.style(role, wrapped=True))
        elif isinstance(value, float | int):
            self.sheet.write_number(row, at, value, self.style(role, wrapped=True))
        elif value:
            cut = value if len(value) <= LONGEST_TEXT else value[: LONGEST_TEXT - 1] + "…"
            self.sheet.write_string(row, at, cut, self.style(role, wrapped=True, text=True))
        else:
            self.sheet.write_blank(row, at, None, self.style(role, wrapped=True))

    def _link(self, row: int, at: int, spot: CellAddress, role: str) -> None:
        """A spot that leads to its cell of the planner; one without a cell leads nowhere."""
        name = spot.sheet.replace("'", "''")
        link = f"external:{self.planner.translate(ESCAPED)}#'{name}'!{spot.cell}"
        shown = _shown(spot)
        if spot.cell and len(link) <= LONGEST_LINK:
            style = self.style(role, variant="link", wrapped=True, text=True)
            self.sheet.write_url(row, at, link, style, shown)
        else:
            self.sheet.write_string(row, at, shown, self.style(role, wrapped=True, text=True))


def _shown(spot: CellAddress) -> str:
    return f"{spot.sheet}!{spot.cell}" if spot.cell else spot.sheet


def _lines(text: str, width: float) -> int:
    """Lines of a text that wraps in so many characters, with what is lost at the ends of the lines.

    >>> _lines("", 10), _lines("ten of ten", 10), _lines("eleven char", 10)
    (1, 1, 2)
    """
    room = width * ROOM
    return 1 if len(text) <= room else math.ceil(len(text) * WRAPPED / room)


def _style(
    workbook: Workbook, made: dict[tuple[Any, ...], Format], role: str, *,
    variant: str = "", wrapped: bool = False, text: bool = False,
) -> Format:  # fmt: skip
    """The format of a role (see `styles`). `text` stays text when somebody edits it."""
    key = (role, variant, wrapped, text)
    if key not in made:
        properties = styles.base(styles.SIZE) | styles.ROLES[role] | styles.VARIANTS.get(variant, {})
        if wrapped:
            properties |= {
                "text_wrap": True, "valign": "top", "align": "left", "bottom": 1, "bottom_color": styles.BAND,
            }  # fmt: skip
        made[key] = workbook.add_format(properties | {"quote_prefix": text})
    return made[key]
