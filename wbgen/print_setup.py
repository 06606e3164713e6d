"""How a sheet prints: one page wide, or for a wide table, page by page with its first columns repeated."""

from __future__ import annotations

from xlsxwriter.worksheet import Worksheet

from wbgen.sheets.layout import GUTTER, Laid
from wbgen.sheets.template import Sheet

A4 = 9
MARGIN = 0.5


def set_up_page(worksheet: Worksheet, sheet: Sheet, laid: Laid) -> None:
    """Paper, margins, what repeats, where pages begin, and what stays in view while scrolling."""
    worksheet.set_paper(A4)
    if sheet.orientation == "landscape":
        worksheet.set_landscape()
    worksheet.set_margins(MARGIN, MARGIN, 0.6, 0.7)
    worksheet.set_footer("&L&8&A&C&8page &P of &N&R&8The product label comes first")
    breaks = [
        laid.placed[table.key].at[column.key]
        for table in sheet.tables
        if table.direction == "down"
        for column in table.columns
        if column.page
    ]
    if breaks:
        worksheet.set_v_pagebreaks(breaks)
        worksheet.repeat_columns(0, GUTTER + sheet.repeat - 2)
        worksheet.set_print_scale(70)
    elif sheet.scale:
        worksheet.set_print_scale(sheet.scale)
    else:
        worksheet.fit_to_pages(1, 0)
    rows = [laid.dress[table.key].title for table in sheet.tables if table.page]
    if rows:
        worksheet.set_h_pagebreaks(rows)
    main = next((t for t in sheet.tables if t.direction == "down" and not t.key.startswith("standing")), None)
    if sheet.freeze and main is not None and main is sheet.tables[-1 if len(sheet.tables) == 2 else 0] or breaks:
        placed = laid.placed[main.key] if main else None
        if placed:
            worksheet.freeze_panes(placed.first, GUTTER + sheet.repeat - 1)
            if sum(t.direction == "down" for t in sheet.tables) == 1:
                worksheet.repeat_rows(placed.opening - 2, placed.opening)
