"""Where cells are: the letters of a column and the address of a cell. Rows and columns count from 0."""

from __future__ import annotations

import re
from typing import Final

ROWS, COLUMNS = 1_048_576, 16_384
"""How many rows and columns a sheet of the file format has."""
_ADDRESS: Final = re.compile(r"\$?([A-Z]{1,3})\$?([1-9][0-9]{0,6})")


def letters(column: int) -> str:
    """The letters of a column.

    >>> letters(0), letters(27), letters(COLUMNS - 1)
    ('A', 'AB', 'XFD')
    """
    text = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        text = chr(65 + rest) + text
    return text


def column_of(letters: str) -> int:
    """The column of its capital letters.

    >>> column_of("A"), column_of("AB"), column_of("XFD") == COLUMNS - 1
    (0, 27, True)
    """
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number - 1


def address(row: int, column: int) -> str:
    """The address of a cell.

    >>> address(4, 27)
    'AB5'
    """
    return f"{letters(column)}{row + 1}"


def position_of(address: str) -> tuple[int, int] | None:
    """Row and column of an address in capital letters, with or without its signs of a fixed cell; None of no cell.

    >>> position_of("$AB$5"), position_of("A0"), position_of("B:B")
    ((4, 27), None, None)
    """
    match = _ADDRESS.fullmatch(address)
    return (int(match[2]) - 1, column_of(match[1])) if match else None
