"""Formulas of a file, looked at as text and as trees, for tests."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache

from openpyxl.utils import column_index_from_string

from wbgen.sheets.formula_tree import Node, parse

Cell = tuple[int, int]
TEXTS = re.compile(r'("(?:[^"]|"")*")')
SHEETS = re.compile(r"('(?:[^']|'')+'!|[A-Za-z_]+!)")
CELL = re.compile(r"(?<![\w.])(\$?)([A-Z]{1,3})(\$?)([0-9]+)(?![\w(.])")
PLACE = re.compile(r"(?:(?P<sheet>'(?:[^']|'')+'|[A-Za-z_]+)!)?\$?[A-Z]{1,3}\$?[0-9]+(?::\$?[A-Z]{1,3}\$?[0-9]+)?")


def relative(formula: str, row: int, column: int) -> str:
    """The formula with each place as its way from the cell (row and column from 0): the same in every record.

    >>> relative('SUM(A$4:A9,B9)&"A1"', 8, 2)
    'SUM(R3C[-2]:R[0]C[-2],R[0]C[-1])&"A1"'
    """

    def away(match: re.Match[str]) -> str:
        fixed_column, letters, fixed_row, digits = match.groups()
        at, down = column_index_from_string(letters) - 1, int(digits) - 1
        across = f"C{at}" if fixed_column else f"C[{at - column}]"
        return (f"R{down}" if fixed_row else f"R[{down - row}]") + across

    parts = TEXTS.split(formula)
    return "".join(part if part.startswith('"') else _outside(part, away) for part in parts)


def _outside(text: str, away: Callable[[re.Match[str]], str]) -> str:
    pieces = SHEETS.split(text)
    return "".join(piece if piece.endswith("!") else CELL.sub(away, piece) for piece in pieces)


@cache
def tree_of(formula: str) -> Node:
    return parse(formula)


def calls(node: Node) -> Iterator[Node]:
    """Every function call of a tree."""
    return (one for one in node.walk() if one.kind == "function")


def areas(formula: str, home: str) -> Iterator[tuple[str, Cell, Cell]]:
    """Sheet, first and last cell (row and column from 0) of each reference of a formula of the sheet `home`."""
    for node in tree_of(formula).walk():
        if node.kind == "reference":
            text = str(node.value)
            sheet = PLACE.fullmatch(text)
            assert sheet, f"{text} is no plain place"
            name = (sheet["sheet"] or home).strip("'").replace("''", "'")
            ends = [
                (int(found[4]) - 1, column_index_from_string(found[2]) - 1)
                for found in CELL.finditer(text.rpartition("!")[2])
            ]
            yield name, ends[0], ends[-1]


def literals(node: Node, inside: str = "", place: int = 0) -> Iterator[tuple[float, str, int]]:
    """Each number of a tree with the function that it is an argument of, and its place among the arguments."""
    if node.kind == "number":
        yield float(node.value), inside, place
    for index, child in enumerate(node.children):
        name = str(node.value) if node.kind == "function" else ""
        yield from literals(child, name, index)
