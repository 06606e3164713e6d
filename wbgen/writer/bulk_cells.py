"""Long columns of formulas and of blank cells, laid straight into a worksheet.

xlsxwriter searches every formula's text some thirty times for functions that a file stores with a prefix, which takes
most of the time of a build. A formula of a template has its prefixes already, and those of one column differ in row
numbers alone. So the first and the last cell of a column go through xlsxwriter's own methods; where these leave the
text as it was, the cells between are laid into its table of cells as records that it takes for its own. Their texts
are made one at a time when the file is written, which keeps them out of memory.
"""

from __future__ import annotations

from collections.abc import Sequence

from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from wbgen.sheets.compile import Compiled


class Formula:
    """A cell of formula `record` of a column.

    xlsxwriter asks a cell for the name of its class, and one of this name for `formula`, `format` and `value`.
    """

    __slots__ = ("column", "record", "value")

    def __init__(self, column: Column, record: int, value: str | float) -> None:
        self.column, self.record, self.value = column, record, value

    @property
    def formula(self) -> str:
        return self.column.formula.text(self.record)

    @property
    def format(self) -> Format:
        return self.column.format


class Column:
    """What the formulas of a column share."""

    __slots__ = ("format", "formula")

    def __init__(self, formula: Compiled, style: Format) -> None:
        self.formula, self.format = formula, style


def lay_formulas(
    sheet: Worksheet, row: int, at: int, formula: Compiled, style: Format, values: Sequence[str | float]
) -> None:
    """Write a formula a row, from `row` down in the column `at`; `values` are shown until they are recalculated."""

    def write(record: int) -> None:
        sheet.write_formula(row + record, at, "=" + formula.text(record), style, values[record])

    last, table, column = len(values) - 1, sheet.table, Column(formula, style)
    write(0)
    first = table[row][at]
    if type(first).__name__ == Formula.__name__ and first.formula == formula.text(0):
        for record in range(1, last):
            table[row + record][at] = Formula(column, record, values[record])
    else:
        for record in range(1, last):
            write(record)
    write(last)


def lay_blanks(sheet: Worksheet, cells: Sequence[tuple[int, int]], style: Format) -> None:
    """Give empty cells, by row and column and in order, a look."""
    for row, at in {cells[0], cells[-1]} if cells else ():
        sheet.write_blank(row, at, None, style)
    table = sheet.table
    for row, at in cells[1:-1]:
        table[row][at] = table[cells[0][0]][cells[0][1]]
