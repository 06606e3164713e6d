"""A formula that is stored once for many cells, moved to one of them.

Layout: ECMA-376 part 1, 18.3.1.40: the first cell holds the text, the others read it as if it had been filled to them.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Final

from wbgen.files.xlsx.addresses import COLUMNS, ROWS, column_of, letters

_PARTS: Final = re.compile(
    r"""("(?:[^"]|"")*"|'(?:[^']|'')*'!?|\[[^\]]*\])"""  # text, quoted sheets, books: left alone
    r"|(?<![\w.$!\]])((?:[A-Za-z_][\w.]*!)?)(\$?[A-Za-z]{1,3}\$?[0-9]{1,7}(?![\w(.!]))"
    r"|(?<=!)(\$?[A-Za-z]{1,3}\$?[0-9]{1,7}(?![\w(.]))"
)
_PLACE: Final = re.compile(r"(\$?)([A-Za-z]{1,3})(\$?)([0-9]{1,7})")
CellReference = tuple[bool, int, bool, int]
"""A cell of a formula: column fixed or not, the column, row fixed or not, the row, both from 0."""


def moved(formula: str, rows: int, columns: int) -> str:
    """The formula as it reads when filled `rows` down and `columns` to the right.

    >>> moved('A1*$B$1+SUM(C$1:C1)&"A1"', 2, 1)
    'B3*$B$1+SUM(D$1:D3)&"A1"'
    """
    return "".join(part if isinstance(part, str) else _written(part, rows, columns) for part in _parts(formula))


@lru_cache(maxsize=4096)
def _parts(formula: str) -> tuple[str | CellReference, ...]:
    """The text between the cells of a formula, and the cells."""
    parts: list[str | CellReference] = []
    cursor = 0
    for match in _PARTS.finditer(formula):
        group = 3 if match[3] else 4
        if not match[group]:
            continue
        parts.append(formula[cursor : match.start(group)])
        fixed_column, column, fixed_row, row = _PLACE.findall(match[group])[0]
        parts.append((bool(fixed_column), column_of(column.upper()), bool(fixed_row), int(row) - 1))
        cursor = match.end(group)
    return (*parts, formula[cursor:])


def _written(place: CellReference, rows: int, columns: int) -> str:
    fixed_column, column, fixed_row, row = place
    row = row if fixed_row else (row + rows) % ROWS
    column = column if fixed_column else (column + columns) % COLUMNS
    return ("$" if fixed_column else "") + letters(column) + ("$" if fixed_row else "") + str(row + 1)
