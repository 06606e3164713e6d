"""How wide the columns of a sheet are, in characters."""

from __future__ import annotations

from wbgen.sheets.layout import Layout
from wbgen.sheets.template import Sheet
from wbgen.writer.font import INDENTED, column_pixels, lines_in
from wbgen.writer.styles import SMALL_SIZE

DEFAULT_WIDTH = 8.43
TEXT_WIDTH, NUMBER_WIDTH, LINE_WIDTH, FIGURE_WIDTH = 20.0, 10.0, 34.0, 13.0
NARROWEST, HEADING_LINES = 6.0, 3


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
            for words, first, last in placed.folded:
                want(last + 1, len(words) + 1.0)
                for column in table.columns:
                    if first <= placed.at[column.key] <= last:
                        want(placed.at[column.key], _of_three_lines(column.heading))
        elif not table.standing:
            want(placed.left, LINE_WIDTH)
            for at in range(placed.left + table.span, placed.last + 1):
                want(at, FIGURE_WIDTH)
    return widths | dict(enumerate(sheet.widths))


def _of_three_lines(heading: str) -> float:
    """So wide that a heading takes three lines at most: what is folded away makes no row of the face higher."""
    width = NARROWEST
    while lines_in(heading, column_pixels(width) - INDENTED, SMALL_SIZE, bold=True) > HEADING_LINES:
        width += 0.5
    return width
