"""Finds what a formula refers to; of a range that INDEX picks from, the one cell that it picks."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from wbgen.files.xlsx.references import Area
from wbgen.sheets.formula_tree import FormulaError, Node, parse
from wbgen.verify.causes import references

Values = Callable[[tuple[str, int, int]], Any]
"""The value at sheet, row and column (from 0); None where nothing stands."""


def precedents(formula: str, sheet: str, values: Values) -> tuple[Area, ...]:
    """What a formula of `sheet` refers to, each once and in its order.

    Of a range that INDEX picks single cells from, and that is used in no other way, these cells.
    """
    try:
        tree = parse(formula)
    except FormulaError:
        return ()
    used: Counter[Area] = Counter()
    chosen: dict[Area, list[Area | None]] = {}
    for node in tree.walk():
        if node.kind == "reference":
            used.update(references(str(node.value), sheet))
        elif node.kind == "function" and node.value == "INDEX" and (area := _area(node.children[0], sheet)):
            chosen.setdefault(area, []).append(_cell(area, node, sheet, values))
    found: dict[Area, None] = {}
    for area in used:
        cells = [cell for cell in chosen.get(area, ()) if cell is not None]
        all_known = cells and len(cells) == used[area]
        found.update(dict.fromkeys(cells if all_known else [area]))
    return tuple(found)


def _area(node: Node, sheet: str) -> Area | None:
    areas = references(str(node.value), sheet) if node.kind == "reference" else ()
    return areas[0] if areas else None


def _cells(area: Area) -> Iterator[tuple[str, int, int]]:
    for row in range(area.top, area.bottom + 1):
        for column in range(area.left, area.right + 1):
            yield area.sheet, row, column


def _cell(area: Area, index: Node, sheet: str, values: Values) -> Area | None:
    """The cell that an INDEX with one number picks from a single row or column."""
    number = _number(index.children[1], sheet, values) if len(index.children) == 2 else None
    if number is None or number < 1 or (area.top != area.bottom and area.left != area.right):
        return None
    step = int(number) - 1
    row, column = (area.top + step, area.left) if area.left == area.right else (area.top, area.left + step)
    inside = row <= area.bottom and column <= area.right
    return Area(area.sheet, row, column, row, column) if inside else None


def _number(node: Node, sheet: str, values: Values) -> float | None:
    """The value of a part of a formula where it is simple: a number, a cell, a sum, or a search for an exact match."""
    found: float | None = None
    if node.kind == "number":
        found = float(node.value)
    elif node.kind == "reference":
        value = _value(node, sheet, values)
        found = float(value) if isinstance(value, (int, float, np.floating)) and np.isfinite(value) else None
    elif node.kind == "operator" and node.value in ("+", "-"):
        left, right = (_number(child, sheet, values) for child in node.children)
        if left is not None and right is not None:
            found = left + right if node.value == "+" else left - right
    elif node.kind == "function" and node.value == "MATCH" and len(node.children) == 3:
        found = _match(node, sheet, values)
    return found


def _value(node: Node, sheet: str, values: Values) -> Any:
    area = _area(node, sheet)
    single = area is not None and (area.top, area.left) == (area.bottom, area.right)
    return values((area.sheet, area.top, area.left)) if area is not None and single else None


def _match(node: Node, sheet: str, values: Values) -> float | None:
    """The number, from 1, of the first cell that equals the one sought, as MATCH with 0 finds it."""
    sought, area = _value(node.children[0], sheet, values), _area(node.children[1], sheet)
    if sought in (None, "") or area is None or node.children[2].value != 0:
        return None
    folded = _folded(sought)
    return next((number for number, cell in enumerate(_cells(area), 1) if _folded(values(cell)) == folded), None)


def _folded(value: Any) -> Any:
    return value.casefold() if isinstance(value, str) else value
