"""Which cell a disagreement follows from: found along the references of the file's own formulas."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from wbgen.files.findings import FOLLOWS, STALE, WRONG, CellAddress, Finding
from wbgen.files.xlsx.addresses import position_of
from wbgen.files.xlsx.references import Area, area_of
from wbgen.files.xlsx.workbook import File
from wbgen.sheets.formula_tree import FormulaError, parse


@lru_cache(maxsize=65_536)
def references(formula: str, sheet: str) -> tuple[Area, ...]:
    """The ranges that a formula of `sheet` refers to; none where it cannot be read."""
    try:
        tree = parse(formula)
    except FormulaError:
        return ()
    named = [str(node.value) for node in tree.walk() if node.kind == "reference"]
    return tuple(area for name in named if (area := area_of(name, sheet)) is not None)


def follow(
    found: Mapping[CellAddress, Finding],
    inputs: set[CellAddress],
    file: File,
    beside: Mapping[CellAddress, Sequence[CellAddress]] | None = None,
) -> list[Finding]:
    """The findings, each that follows from another with its cause.

    `beside` are disagreeing cells that the model read for a cell, whether or not its formula refers to them.

    A formula that reads a wrong input directly is not blamed for its result. One whose cause cannot be found along
    the references keeps None: it is then itself what a reader has to look at.
    """
    kinds = {spot: finding.kind for spot, finding in found.items()}
    search = _Search(kinds, inputs, file, beside or {})
    kinds |= {spot: FOLLOWS for spot, finding in found.items() if _astray(finding, search.read_by(spot), found)}
    told = []
    for spot, finding in found.items():
        cause = search.wrong_input(spot) if finding.kind == WRONG else None
        if cause is not None:
            told.append(replace(finding, kind=FOLLOWS, message="this follows from another cell", cause=cause))
        elif kinds[spot] == FOLLOWS:
            by = search.cause(spot, frozenset({spot}))
            told.append(replace(finding, kind=FOLLOWS, message="this follows from another cell", cause=by))
        else:
            told.append(finding)
    return told


def _astray(finding: Finding, read: Iterable[CellAddress], found: Mapping[CellAddress, Finding]) -> bool:
    """Whether a wrong or stale value says nothing of its own formula, because of the disagreeing cells that it reads.

    An error value is no answer where an argument is not what it should be; an empty cell reads as nothing here and as
    0 there; and a stale value that was worked out from another one may lie behind, or be, a wrong one.
    """
    if finding.kind not in (WRONG, STALE):
        return False
    return any(spot in found and found[spot].kind != STALE for spot in read)


class _Search:
    def __init__(
        self,
        kinds: Mapping[CellAddress, str],
        inputs: set[CellAddress],
        file: File,
        beside: Mapping[CellAddress, Sequence[CellAddress]],
    ) -> None:
        self.kinds = kinds
        self.beside = beside
        self.inputs = inputs
        self.file = file
        self.columns: dict[tuple[str, int], list[tuple[int, CellAddress]]] = {}
        for spot in {**dict.fromkeys(inputs), **dict.fromkeys(kinds)}:
            row, column = row_and_column(spot.cell)
            self.columns.setdefault((spot.sheet, column), []).append((row, spot))
        for column_places in self.columns.values():
            column_places.sort(key=lambda place: place[0])
        self.known: dict[CellAddress, CellAddress | None] = {}

    def read_by(self, spot: CellAddress) -> Iterator[CellAddress]:
        """The disagreeing cells and wrong inputs that a cell's formula refers to, in the order of its references.

        Then those that the model read for it.
        """
        sheet = self.file.sheet(spot.sheet)
        formula = sheet.formula(*row_and_column(spot.cell)) if sheet else None
        for area in references(formula, spot.sheet) if formula else ():
            yield from (other for other in self._held(area) if other != spot)
        yield from self.beside.get(spot, ())

    def _held(self, area: Area) -> Iterator[CellAddress]:
        """The disagreeing cells and wrong inputs in a range, column by column."""
        for column in range(area.left, area.right + 1):
            places = self.columns.get((area.sheet, column), [])
            first = bisect_left(places, area.top, key=lambda place: place[0])
            for row, spot in places[first:]:
                if row > area.bottom:
                    break
                yield spot

    def wrong_input(self, spot: CellAddress) -> CellAddress | None:
        return next((other for other in self.read_by(spot) if other in self.inputs), None)

    def cause(self, spot: CellAddress, seen: frozenset[CellAddress]) -> CellAddress | None:
        if spot in self.inputs:
            return spot
        if self.kinds[spot] == STALE:  # no witness reads what is stored: nothing follows from it
            return None
        if self.kinds[spot] != FOLLOWS:
            return self.wrong_input(spot) or spot if self.kinds[spot] == WRONG else spot
        if spot not in self.known:
            ways = (self.cause(other, seen | {other}) for other in self.read_by(spot) if other not in seen)
            self.known[spot] = next((way for way in ways if way is not None), None)
        return self.known[spot]


def row_and_column(cell: str) -> tuple[int, int]:
    """Row and column of a cell, from 0; -1 for both where it is no cell.

    >>> row_and_column("B7"), row_and_column("")
    ((6, 1), (-1, -1))
    """
    return position_of(cell) or (-1, -1)
