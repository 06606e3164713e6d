"""The head of a sheet: its name, then a row of links to its neighbours in the work and what it is for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from wbgen.sheets.compile import quoted
from wbgen.sheets.template import GUTTER
from wbgen.writer.canvas import Canvas
from wbgen.writer.headings import running_text
from wbgen.writer.styles import SIZE

TITLE_ROW, LINKS_ROW = 0, 1
APART: Final = 2.0
"""Characters between the end of a link and the next, at the least."""


def head(canvas: Canvas, purposes: Mapping[str, str]) -> None:
    """Write the head of a sheet. `purposes` are those of all sheets, by name: a link says that of where it leads."""
    sheet = canvas.sheet
    canvas.text(TITLE_ROW, GUTTER, sheet.name, "title")
    column = GUTTER
    for name in sheet.links:
        style = canvas.style("ground", variant="link")
        canvas.worksheet.write_url(LINKS_ROW, column, f"internal:{quoted(name)}!A1", style, name, purposes[name])
        column = _after(canvas, column, name)
    if column == GUTTER:
        running_text(canvas, LINKS_ROW, sheet.purpose, "purpose")
    else:
        canvas.text(LINKS_ROW, column, sheet.purpose, "purpose")


def _after(canvas: Canvas, column: int, text: str) -> int:
    """The first column that begins clear of a text, which begins in another column and runs on over the next."""
    wanted = len(text) * canvas.sheet.size / SIZE + APART
    end = column + 1
    while canvas.room(column, end - column) < wanted:
        end += 1
    return end
