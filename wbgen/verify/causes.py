"""Finds the cell that a disagreement follows from, along the references of the file's own formulas."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from wbgen.files.findings import CellAddress, Finding, Kind
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
    wrong_inputs: set[CellAddress],
    file: File,
    model_only: Mapping[CellAddress, Sequence[CellAddress]] | None = None,
) -> list[Finding]:
    """The findings, each that follows from another with its cause.

    `model_only` are disagreeing cells that the model read for a cell and its formula does not refer to.

    A formula that reads a wrong input directly is not blamed for its result. One whose cause cannot be found along
    the references keeps None: it is then itself what a reader has to look at.
    """
    kinds = {address: finding.kind for address, finding in found.items()}
    search = _Search(kinds, wrong_inputs, file, model_only or {})
    kinds |= {
        address: Kind.FOLLOWS
        for address, finding in found.items()
        if _spoilt_by_another(finding, search.read_by(address), found)
    }
    findings = []
    for address, finding in found.items():
        cause = search.wrong_input(address) if finding.kind is Kind.WRONG_RESULT else None
        if cause is None and kinds[address] is not Kind.FOLLOWS:
            findings.append(finding)
            continue
        cause = cause or search.cause(address, frozenset({address}))
        findings.append(replace(finding, kind=Kind.FOLLOWS, message="this follows from another cell", cause=cause))
    return findings


def _spoilt_by_another(finding: Finding, read: Iterable[CellAddress], found: Mapping[CellAddress, Finding]) -> bool:
    """Whether a wrong or stale value says nothing of its own formula, because of the disagreeing cells that it reads.

    An error value is no answer where an argument is not what it should be; an empty cell reads as nothing here and as
    0 there; and a stale value that was worked out from another one may lie behind, or be, a wrong one.
    """
    if finding.kind not in (Kind.WRONG_RESULT, Kind.STALE_RESULT):
        return False
    return any(address in found and found[address].kind is not Kind.STALE_RESULT for address in read)


class _Search:
    def __init__(
        self,
        kinds: Mapping[CellAddress, Kind],
        wrong_inputs: set[CellAddress],
        file: File,
        model_only: Mapping[CellAddress, Sequence[CellAddress]],
    ) -> None:
        self.kinds = kinds
        self.model_only = model_only
        self.wrong_inputs = wrong_inputs
        self.file = file
        self.columns: dict[tuple[str, int], list[tuple[int, CellAddress]]] = {}
        for address in {**dict.fromkeys(wrong_inputs), **dict.fromkeys(kinds)}:
            row, column = row_and_column(address.cell)
            self.columns.setdefault((address.sheet, column), []).append((row, address))
        for rows in self.columns.values():
            rows.sort(key=lambda row: row[0])
        self.known: dict[CellAddress, CellAddress | None] = {}

    def read_by(self, address: CellAddress) -> Iterator[CellAddress]:
        """The disagreeing cells and wrong inputs that a cell's formula refers to, in the order of its references.

        Then those that the model alone read for it.
        """
        sheet = self.file.sheet(address.sheet)
        formula = sheet.formula(*row_and_column(address.cell)) if sheet else None
        for area in references(formula, address.sheet) if formula else ():
            yield from (other for other in self._inside(area) if other != address)
        yield from self.model_only.get(address, ())

    def _inside(self, area: Area) -> Iterator[CellAddress]:
        """The disagreeing cells and wrong inputs in a range, column by column."""
        for column in range(area.left, area.right + 1):
            rows = self.columns.get((area.sheet, column), [])
            first = bisect_left(rows, area.top, key=lambda row: row[0])
            for row, address in rows[first:]:
                if row > area.bottom:
                    break
                yield address

    def wrong_input(self, address: CellAddress) -> CellAddress | None:
        """The first wrong input that a cell reads."""
        return next((other for other in self.read_by(address) if other in self.wrong_inputs), None)

    def cause(self, address: CellAddress, seen: frozenset[CellAddress]) -> CellAddress | None:
        """The cell at the end of the way that begins at `address`; None where no way ends at a cause."""
        if address in self.wrong_inputs:
            return address
        kind = self.kinds[address]
        if kind is Kind.STALE_RESULT:  # no witness reads what is stored: nothing follows from it
            return None
        if kind is Kind.WRONG_RESULT:
            return self.wrong_input(address) or address
        if kind is not Kind.FOLLOWS:
            return address
        if address not in self.known:
            causes = (self.cause(other, seen | {other}) for other in self.read_by(address) if other not in seen)
            self.known[address] = next((cause for cause in causes if cause is not None), None)
        return self.known[address]


def row_and_column(cell: str) -> tuple[int, int]:
    """Row and column of a cell, from 0; -1 for both where it is no cell.

    >>> row_and_column("B7"), row_and_column("")
    ((6, 1), (-1, -1))
    """
    return position_of(cell) or (-1, -1)
