"""How wide the columns of a sheet are, in characters."""

from __future__ import annotations

from wbgen.sheets.layout import Layout
from wbgen.sheets.template import Sheet

DEFAULT_WIDTH = 8.43
TEXT_WIDTH, NUMBER_WIDTH, LINE_WIDTH, FIGURE_WIDTH = 20.0, 10.0, 34.0, 13.0


def column_widths(sheet: Sheet, layout: Layout) -> dict[int, float]:
    """The widest that any table of a sheet wants each of its columns; a sheet's own widths come first."""
    widths: dict[int, float] = {}

    def want(at: int, width: float) -> None:
        widths[at] = max(widths.get(at, 0.0), width)

    for table in sheet.tables:
        placed = layout.placed[table.key]
        if table.direction == "down":
            for column in table.columns:
                usual = TEXT_WIDTH if column.meaning.type == "text" else NUMBER_WIDTH
                want(placed.at[column.key], column.page.width or usual)
        elif not table.standing:
            want(placed.left, LINE_WIDTH)
            for at in range(placed.left + table.span, placed.last + 1):
                want(at, FIGURE_WIDTH)
    return widths | dict(enumerate(sheet.widths))
