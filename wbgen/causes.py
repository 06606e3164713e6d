"""Which cell a disagreement follows from: found along the references of the file's own formulas."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from wbgen.finding import Disagreement, Spot
from wbgen.reader import File
from wbgen.sheets.tree import FormulaError, parse

FOLLOWS, WRONG = "follows", "wrong result"
_PLACE = re.compile(r"\$?([A-Z]{1,3})\$?([0-9]+)")


@dataclass(frozen=True)
class Range:
    """A range of cells that a formula refers to; rows and columns from 0."""

    sheet: str
    top: int
    left: int
    bottom: int
    right: int

    def holds(self, sheet: str, row: int, column: int) -> bool:
        return sheet == self.sheet and self.top <= row <= self.bottom and self.left <= column <= self.right


def references(formula: str, sheet: str) -> Iterator[Range]:
    """The ranges that a formula of `sheet` refers to; none where it cannot be read."""
    try:
        tree = parse(formula)
    except FormulaError:
        return
    for node in tree.walk():
        if node.kind == "reference":
            yield from _range(str(node.value), sheet)


def _range(text: str, sheet: str) -> Iterator[Range]:
    name, mark, cells = text.rpartition("!")
    if mark:
        sheet = name.strip("'").replace("''", "'")
    ends = [_PLACE.fullmatch(part) for part in cells.split(":")]
    if any(end is None for end in ends):
        return
    places = [(int(end[2]) - 1, _number(end[1])) for end in ends if end]
    rows, columns = zip(*places, strict=True)
    yield Range(sheet, min(rows), min(columns), max(rows), max(columns))


def _number(column: str) -> int:
    number = 0
    for letter in column:
        number = number * 26 + ord(letter) - 64
    return number - 1


def follow(found: Mapping[Spot, Disagreement], inputs: set[Spot], file: File) -> list[Disagreement]:
    """The findings, each that follows from another with its cause."""
    spots = {**dict.fromkeys(inputs), **dict.fromkeys(found)}
    by_place = [(spot, *_place(spot)) for spot in spots]
    causes: dict[Spot, Spot | None] = {}

    def cause(spot: Spot, seen: frozenset[Spot]) -> Spot | None:
        if spot in inputs or found[spot].kind != FOLLOWS:
            return spot
        if spot in causes:
            return causes[spot]
        sheet = file.sheet(spot.sheet)
        cell = sheet.cells.get(_place(spot)) if sheet else None
        result: Spot | None = None
        for area in references(cell.formula, spot.sheet) if cell and cell.formula else ():
            for other, row, column in by_place:
                if other not in seen and area.holds(other.sheet, row, column):
                    result = cause(other, seen | {other})
                    if result is not None:
                        break
            if result is not None:
                break
        causes[spot] = result
        return result

    def starts_wrong(spot: Spot) -> Spot | None:
        """The wrong input that a formula reads directly, if any."""
        sheet = file.sheet(spot.sheet)
        cell = sheet.cells.get(_place(spot)) if sheet else None
        for area in references(cell.formula, spot.sheet) if cell and cell.formula else ():
            for other, row, column in by_place:
                if other in inputs and area.holds(other.sheet, row, column):
                    return other
        return None

    for spot, finding in list(found.items()):
        if finding.kind == WRONG:
            first = starts_wrong(spot)
            if first is not None:
                message = "this follows from another cell"
                found = {**found, spot: replace(finding, kind=FOLLOWS, message=message)}
    return [
        replace(finding, cause=cause(spot, frozenset({spot})) if finding.kind == FOLLOWS else None)
        for spot, finding in found.items()
    ]


def _place(spot: Spot) -> tuple[int, int]:
    match = _PLACE.fullmatch(spot.cell)
    return (int(match[2]) - 1, _number(match[1])) if match else (-1, -1)

