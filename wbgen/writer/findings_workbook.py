"""Writes the workbook of what verify found: sheets of findings, of warnings, of notices (called Said), of counts.

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

from wbgen.files.findings import CellAddress, Finding
from wbgen.sheets.template import GUTTER
from wbgen.writer import styles
from wbgen.writer.canvas import LINE_HEIGHT
from wbgen.writer.print_setup import A4, MARGIN

MOST_LISTED: Final = 5_000
"""So many lines of one sheet are listed; the rest is counted."""
LONGEST_FORMULA: Final = 8_192
"""Characters of the longest formula that a spreadsheet program takes; a text that is longer is cut."""
LONGEST_LINK: Final = 2_000
"""Characters of the longest link that is written; a cell with a longer one has none."""
NO_DAY: Final = date(1980, 1, 1)
"""The day of creation of a report whose planner was not recomputed for any day: the first that a zip file can hold."""
HEADING, FIRST_ROW = 3, 4
"""Rows, from 0, of the headings and of the first line."""
ROOM: Final = 1.07
"""Letters of usual text in the width of a digit."""
WRAPPED: Final = 1.15
"""How much longer a text is for being wrapped between its words."""
HIGHEST: Final = 408.75
"""Points of the highest row that a spreadsheet program takes."""
ESCAPED: Final = str.maketrans({sign: f"%{ord(sign):02x}" for sign in '%#" <>[]^`{}'})

Value = str | float | bool | CellAddress | None
Cells = Sequence[Value]
Count = tuple[str, str | int, str]
"""A name, a figure or a word, and a remark."""


@dataclass(frozen=True)
class Content:
    """What the workbook holds.

    `planner` is the path from the report's folder to the planner, with "/" between folders. `day` is the day for which
    the planner was recomputed, None for none. The summaries stand at the top of their sheets. `counts` are by
    title.
    """

    planner: str
    day: date | None
    findings: Sequence[Finding]
    findings_summary: str
    warnings: Sequence[Finding]
    warnings_summary: str
    notices: Sequence[Finding]
    notices_summary: str
    counts: Mapping[str, Sequence[Count]]


COLUMNS: Final = {
    "Place": 15, "Sheet": 11, "Cell": 7, "Heading": 18, "Kind": 15, "What is wrong": 29, "Found": 24, "Expected": 24,
    "Units": 16, "Cause": 15, "What to do": 32,
}  # fmt: skip
"""Headings of the findings, and how wide their columns are in characters."""
NOTICE_COLUMNS: Final = {
    "Place": 20, "Sheet": 16, "Cell": 8, "Heading": 24, "Kind": 18, "What is said": 46, "Found": 26, "Expected": 26,
}  # fmt: skip
WARNING_COLUMNS: Final = NOTICE_COLUMNS | {"What is said": 50, "Found": 24, "Expected": 24, "What to do": 32}


def findings_workbook(content: Content) -> bytes:
    """The file as bytes: the same for the same arguments."""
    file = io.BytesIO()
    options = {
        "in_memory": True, "strings_to_formulas": False, "strings_to_urls": False,
        "default_format_properties": {"font_name": styles.FONT, "font_size": styles.SIZE},
    }  # fmt: skip
    with xlsxwriter.Workbook(file, options) as workbook:
        created = content.day or NO_DAY
        workbook.set_properties({"title": "Findings", "created": datetime(created.year, created.month, created.day)})  # noqa: DTZ001 - a day has no zone
        rows = [_finding_row(finding) for finding in content.findings]
        _Page(workbook, "Findings", content.findings_summary + _unlisted(rows), COLUMNS, content.planner).list(rows)
        rows = [(*_notice_row(finding), finding.kind.remedy) for finding in content.warnings]
        summary = content.warnings_summary + _unlisted(rows)
        _Page(workbook, "Warnings", summary, WARNING_COLUMNS, content.planner).list(rows)
        rows = [_notice_row(finding) for finding in content.notices]
        _Page(workbook, "Said", content.notices_summary + _unlisted(rows), NOTICE_COLUMNS, content.planner).list(rows)
        _Page(workbook, "Counts", "", {"": 34, " ": 20, "  ": 60}, content.planner).count(content.counts)
    return file.getvalue()


def _unlisted(rows: Sequence[Cells]) -> str:
    more = len(rows) - MOST_LISTED
    return f" Only the first {MOST_LISTED} are listed: {more} more are counted, not listed." if more > 0 else ""


def _finding_row(finding: Finding) -> Cells:
    return *_notice_row(finding), finding.units, finding.cause, finding.kind.remedy


def _notice_row(finding: Finding) -> Cells:
    return (
        finding.address, finding.sheet, finding.cell, finding.heading, finding.kind, finding.message,
        _storable(finding.found), _storable(finding.expected),
    )  # fmt: skip


def _storable(value: Any) -> Value:
    """A value as a cell holds it: numbers that a cell cannot hold, and all else, as text."""
    if value is None or isinstance(value, str | bool):
        return value
    return float(value) if isinstance(value, int | float) and math.isfinite(value) else str(value)


class _Page:
    """One sheet while it is written."""

    def __init__(self, workbook: Workbook, name: str, purpose: str, columns: Mapping[str, float], planner: str) -> None:
        self.sheet: Worksheet = workbook.add_worksheet(name)
        self.style = partial(_style, workbook, {})
        self.columns, self.planner = columns, planner
        self.sheet.hide_gridlines(2)
        self.sheet.set_column(0, 0, 2)
        for column, width in enumerate(columns.values(), GUTTER):
            self.sheet.set_column(column, column, width)
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
        for column, heading in enumerate(self.columns, GUTTER):
            self.sheet.write_string(HEADING, column, heading, self.style("heading"))
        cause = list(self.columns).index("Cause") if "Cause" in self.columns else None
        for row, cells in enumerate(rows[:MOST_LISTED], FIRST_ROW):
            role = "shaded" if cause is not None and cells[cause] is not None else "constant"
            for column, value in enumerate(cells, GUTTER):
                self._cell(row, column, value, role)
            self.sheet.set_row(row, self._height(cells))
        self.sheet.freeze_panes(FIRST_ROW, 0)
        self.sheet.repeat_rows(HEADING)
        if rows:
            last = (HEADING + min(len(rows), MOST_LISTED), GUTTER + len(self.columns) - 1)
            self.sheet.autofilter(HEADING, GUTTER, *last)
            area = xlsxwriter.utility.xl_range(FIRST_ROW, GUTTER, *last)
            self.sheet.ignore_errors({"number_stored_as_text": area})

    def count(self, counts: Mapping[str, Sequence[Count]]) -> None:
        """A block under each title."""
        row = 2
        for title, lines in counts.items():
            self.sheet.write_string(row, GUTTER, title, self.style("table"))
            for column in range(1, len(self.columns)):
                self.sheet.write_blank(row, GUTTER + column, None, self.style("table"))
            for row, cells in enumerate(lines, row + 1):  # noqa: B020 - the next block begins below the last line
                for column, value in enumerate(cells, GUTTER):
                    self._cell(row, column, value, "constant")
            row += 2

    def _height(self, cells: Cells) -> float:
        """Points that a row needs for its longest text: not every program finds that by itself."""
        lines = 1
        for value, width in zip(cells, self.columns.values(), strict=True):
            text = _shown(value) if isinstance(value, CellAddress) else str("" if value is None else value)
            lines = max(lines, sum(_lines(part, width) for part in text.split("\n")))
        return min(HIGHEST, lines * styles.SIZE * LINE_HEIGHT + 2)

    def _cell(self, row: int, column: int, value: Value, role: str) -> None:
        if isinstance(value, CellAddress):
            self._link(row, column, value, role)
        elif isinstance(value, bool):
            self.sheet.write_boolean(row, column, value, self.style(role, wrapped=True))
        elif isinstance(value, float | int):
            self.sheet.write_number(row, column, value, self.style(role, wrapped=True))
        elif value:
            cut = value if len(value) <= LONGEST_FORMULA else value[: LONGEST_FORMULA - 1] + "…"
            self.sheet.write_string(row, column, cut, self.style(role, wrapped=True, text=True))
        else:
            self.sheet.write_blank(row, column, None, self.style(role, wrapped=True))

    def _link(self, row: int, column: int, address: CellAddress, role: str) -> None:
        """An address that leads to its cell of the planner; one without a cell leads nowhere."""
        name = address.sheet.replace("'", "''")
        link = f"external:{self.planner.translate(ESCAPED)}#'{name}'!{address.cell}"
        shown = _shown(address)
        if address.cell and len(link) <= LONGEST_LINK:
            style = self.style(role, variant="link", wrapped=True, text=True)
            self.sheet.write_url(row, column, link, style, shown)
        else:
            self.sheet.write_string(row, column, shown, self.style(role, wrapped=True, text=True))


def _shown(address: CellAddress) -> str:
    return f"{address.sheet}!{address.cell}" if address.cell else address.sheet


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
        properties = styles.look(role, variant=variant)
        if wrapped:
            properties |= {
                "text_wrap": True, "valign": "top", "align": "left", "bottom": 1, "bottom_color": styles.ROW_LINE,
            }  # fmt: skip
        made[key] = workbook.add_format(properties | {"quote_prefix": text})
    return made[key]
