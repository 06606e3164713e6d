"""No figure is too wide for its column, in a program that draws columns a tenth narrower than LibreOffice does.

LibreOffice draws 7.8 pixels for each character of a column's width (measured); others are said to draw 7 and the
column's own 5 (from memory). A figure that does not fit is shown as ###.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any, Final

from support.planners import Built
from wbgen.model.inputs import TEXT
from wbgen.sheets.column import Column
from wbgen.sheets.layout import Placed
from wbgen.sheets.number_format import number_format
from wbgen.writer.font import text_width
from wbgen.writer.styles import KEY_SIZE, SIZE, VARIANTS
from wbgen.writer.widths import DEFAULT_WIDTH, column_widths

CHARACTER: Final = 7
AIR: Final = 3
"""Pixels beside a figure that programs leave free."""
NO_FIGURE: Final = {"upright", "bar", "beyond"}
"""Styles that turn a figure on its side, or show a bar in its place."""
FIRST_DAY: Final = date(1899, 12, 30)


def shown(value: float, code: str) -> str:
    """A figure as its number format shows it.

    >>> shown(0.125, "0.0%"), shown(46204.0, "yyyy-mm-dd"), shown(46204.0, "d mmm"), shown(3.0, "General")
    ('12.5%', '2026-07-01', '1 Jul', '3')
    """
    day = FIRST_DAY + timedelta(days=max(0, int(value))) if "d" in code and abs(value) < 1e6 else None
    if code.startswith("yyyy"):
        return f"{day}" + (" 00:00" if "hh" in code else "")
    if day is not None:
        return f"{day.day} {day:%b}"
    if code == "General":
        return f"{value:.0f}" if value == int(value) else f"{value:.3g}"
    share, digits = code.endswith("%"), len(code.rstrip("%").partition(".")[2])
    return f"{value * 100 if share else value:.{digits}f}" + "%" * share


def pixels(widths: Mapping[int, float], placed: Placed, column: Column, at: int) -> float:
    """The room of a figure in its cell, or in the cells that are made one, on a sheet with columns of these widths."""
    cells = column.page.wide if placed.single else 1
    indent = 9 if placed.single else 0
    return sum(CHARACTER * widths.get(at + step, DEFAULT_WIDTH) + 5 for step in range(cells)) - AIR - indent


def size_of(planner: Built, placed: Placed, column: Column) -> float:
    sheet = next(one for one in planner.book.sheets if one.name == placed.sheet)
    return {"key": KEY_SIZE, "fading": 8}.get(column.look.style or "", sheet.size or SIZE)


def test_no_figure_is_too_wide_for_its_column(planner: Built) -> None:
    values: Any = planner.values
    widths = {sheet.name: column_widths(sheet, planner.made.layout) for sheet in planner.book.sheets}
    narrow, seen = [], 0
    for role in ("formula", "input", "constant"):
        for placed, column in planner.columns(role):
            if planner.book.units[placed.table.key][column.key] == TEXT or column.look.style in NO_FIGURE:
                continue
            code, size = number_format(column, planner.book.system), size_of(planner, placed, column)
            bold = bool(VARIANTS.get(column.look.style or "", {}).get("bold"))
            widest, room = 0.0, float("inf")
            for record in range(placed.count):
                row, at = placed.cell(column.key, record)
                value = values[placed.sheet][row][at]
                if isinstance(value, int | float) and not isinstance(value, bool):
                    seen += 1
                    widest = max(widest, text_width(shown(value, code), size, bold=bold))
                    room = min(room, pixels(widths[placed.sheet], placed, column, at))
            if widest > room:
                narrow.append(f"{placed.sheet}: {placed.table.key}.{column.key} needs {widest:.0f} of {room:.0f}")
    assert seen > 1000
    assert not narrow, "\n".join(narrow)
