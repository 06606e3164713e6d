"""How a sheet prints: one page wide, or for a wide table, page by page with its first columns repeated."""

from __future__ import annotations

from collections.abc import Mapping

from xlsxwriter.worksheet import Worksheet

from wbgen.files.diagnostics import Diagnostic, InputError
from wbgen.sheets.column import System
from wbgen.sheets.layout import Layout
from wbgen.sheets.template import FIRST_ROW, GUTTER, Sheet, Table
from wbgen.writer.page_breaks import blocks_of, breaks_between
from wbgen.writer.styles import SIZE

LETTER, A4 = 1, 9
MARGIN = 0.45
WIDE, NARROW = 11.0, 8.27
"""The shorter long side and the shorter short side of A4 and Letter, in inches."""
INCH = 96.0
"""Pixels; a column of n characters is 7 n + 5 of them."""
SLACK = 0.92
"""Programs draw columns a little wider than each other; a page must not spill over for it."""
LEAST_SCALE = 55
CHECKS_ROW = 2
"""What stands above it, the links, is no use on paper."""
LONGEST_SCALE = 100
POINTS = 72.0
PAGE_LINES, SPARE_LINES = 24, 8
"""Of a table that grows: so many lines are printed at least, and so many spare ones."""


def set_up_page(
    worksheet: Worksheet,
    sheet: Sheet,
    layout: Layout,
    widths: Mapping[int, float],
    heights: Mapping[int, float],
    in_use: Mapping[str, int],
    system: System,
) -> None:
    """Paper, margins, what repeats, where pages begin, and what stays in view while scrolling.

    `heights` are those of rows that are not as high as usual, `in_use` the records of tables that are filled in.
    Raises InputError where a page of the sheet would need print too small to read.
    """
    worksheet.set_paper(LETTER if system == "us" else A4)
    if sheet.orientation == "landscape":
        worksheet.set_landscape()
    top, bottom = (0.4, 0.6) if sheet.size > SIZE else (0.6, 0.7)
    worksheet.set_margins(MARGIN, MARGIN, top, bottom)
    last, lines = _last_printed(sheet, layout, in_use)
    worksheet.set_footer(f"&L&8&A{lines}&C&8page &P of &N&R&8The product label comes first")
    breaks = page_starts(sheet, layout)
    first = FIRST_ROW if sheet.headless else CHECKS_ROW if sheet.paper else 0
    if sheet.printed:
        widths = {at: width for at, width in widths.items() if at < sheet.printed}
        worksheet.print_area(first, 0, last, sheet.printed - 1)
    elif sheet.paper or lines:
        worksheet.print_area(first, 0, last, max(widths))
    repeated = GUTTER + sheet.repeat - 1
    folded = any(table.outlines for table in sheet.tables)
    if breaks:
        worksheet.set_v_pagebreaks(breaks)
        worksheet.repeat_columns(0, repeated)
        worksheet.print_across()
    scale = _scale(sheet, breaks, repeated, widths)
    scale = min(LONGEST_SCALE, int(scale * SLACK))
    page = (NARROW if sheet.orientation == "landscape" else WIDE) - top - bottom
    rows = _row_breaks(sheet, layout, heights, (first, last), page * POINTS * LONGEST_SCALE / scale)
    if breaks or rows:
        worksheet.set_print_scale(scale)
    else:
        worksheet.fit_to_pages(1, 0)
    if rows:
        worksheet.set_h_pagebreaks(rows)
    _freeze(worksheet, sheet, layout, repeated + 1 if breaks or folded else GUTTER)


def page_starts(sheet: Sheet, layout: Layout) -> list[int]:
    """The sheet columns with which a printed page begins, but for the first page; none for a sheet one page wide."""
    return sorted({
        layout.placed[table.key].at[column.key]
        for table in sheet.tables
        if table.direction == "down"
        for column in table.columns
        if column.page.begins
    })  # fmt: skip


def _printed(sheet: Sheet) -> tuple[Table, ...]:
    """The tables that are printed: all, or those down to the one that the sheet names."""
    keys = [table.key for table in sheet.tables]
    return sheet.tables[: keys.index(sheet.last_printed) + 1] if sheet.last_printed else sheet.tables


def _last_printed(sheet: Sheet, layout: Layout, in_use: Mapping[str, int]) -> tuple[int, str]:
    """The last row that is printed; and which lines these are, "" for all that there is room for.

    Of a long table with room to grow the lines in use are printed, and as many spare ones as fill a page.
    """
    placed = {table.key: layout.placed[table.key] for table in _printed(sheet)}
    ends = {key: one.last if one.table.direction == "down" else max(one.at.values()) for key, one in placed.items()}
    key = max(ends, key=ends.__getitem__)
    one, lines = placed[key], max(in_use.get(key, 0) + SPARE_LINES, PAGE_LINES)
    if one.table.direction != "down" or key not in in_use or lines >= one.records:
        return ends[key], ""
    return one.first + lines - 1, f", lines 1 to {lines}: for others, print a selection"


def _row_breaks(
    sheet: Sheet, layout: Layout, heights: Mapping[int, float], rows: tuple[int, int], page: float
) -> list[int]:
    """The rows with which a printed page begins; those that the template
    sets, if any. None where the program is to choose: beside a chart, in one table."""
    first, last = rows
    tables = [table for table in _printed(sheet) if not table.standing]
    forced = [row for table in tables if table.page and (row := layout.rows[table.key].title) <= last]
    if forced or sheet.charts or len(tables) < 2:
        return forced
    ends = [
        (layout.rows[one.key].title, placed.closing if one.direction == "down" else max(placed.at.values()))
        for one in tables
        for placed in (layout.placed[one.key],)
    ]
    return breaks_between(blocks_of(ends), first, heights, page)


def _scale(sheet: Sheet, breaks: list[int], repeated: int, widths: Mapping[int, float]) -> int:
    """The percentage at which the widest page fits both A4 and Letter."""
    room = (WIDE if sheet.orientation == "landscape" else NARROW) - 2 * MARGIN
    last = max(widths, default=GUTTER)
    starts, ends = [0, *breaks], [*breaks, last + 1]
    inches = [_inches(range(start, end), widths) for start, end in zip(starts, ends, strict=True)]
    again = _inches(range(repeated + 1), widths)
    widest = max([inches[0], *(again + one for one in inches[1:])])
    scale = int(100 * room / widest)
    if scale < LEAST_SCALE:
        raise InputError([Diagnostic(
            "print-too-small", sheet.written.place, f"{LEAST_SCALE} % or more", f"{scale} %", "begin more pages",
            f"the sheet {sheet.name} would print too small to read",
        )])  # fmt: skip
    return scale


def _inches(columns: range, widths: Mapping[int, float]) -> float:
    return sum(7 * widths.get(at, 2.0 if at == 0 else 8.43) + 5 for at in columns) / INCH


def _freeze(worksheet: Worksheet, sheet: Sheet, layout: Layout, column: int) -> None:
    """A sheet with one long table, and no form above it, keeps its headings in view and prints them on every page."""
    down = [table for table in _printed(sheet) if table.direction == "down" and not table.standing]
    if len(down) != 1 or not sheet.freeze or any(t.title for t in sheet.tables[: sheet.tables.index(down[0])]):
        return
    placed, rows = layout.placed[down[0].key], layout.rows[down[0].key]
    worksheet.repeat_rows(min(rows.headings, rows.units or rows.headings) - bool(rows.groups), rows.headings)
    if not any(table.direction == "down" for table in sheet.tables[sheet.tables.index(down[0]) + 1 :]):
        worksheet.freeze_panes(placed.first, column)
