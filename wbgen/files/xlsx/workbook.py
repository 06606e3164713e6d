"""Reads a workbook as cells, once the file has been looked through for danger; nothing in it is followed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from wbgen.files.accepted_values import as_read
from wbgen.files.xlsx.addresses import COLUMNS, ROWS
from wbgen.files.xlsx.cell_types import Scalar
from wbgen.files.xlsx.hazards import Note
from wbgen.files.xlsx.package import Package, inspect, unseen
from wbgen.files.xlsx.package_index import Index
from wbgen.files.xlsx.references import Area, area_of
from wbgen.files.xlsx.refusal import DISTRUST, UnsafeFile
from wbgen.files.xlsx.sheet_cells import SheetContent


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell that is not empty: a formula (without its equals sign) and the value last stored for it, or a value."""

    formula: str | None
    value: Scalar | None


class Cells(Mapping[tuple[int, int], Cell]):
    """The cells of a sheet by row and column, both from 0."""

    def __init__(self, content: SheetContent) -> None:
        self._formulas, self._values = content.formulas, content.values

    def __getitem__(self, at: tuple[int, int]) -> Cell:
        row, column = at
        formula = self._formulas.get(column, {}).get(row)
        value = self._values.get(column, {}).get(row)
        if formula is None and value is None:
            raise KeyError(at)
        return Cell(formula, value)

    def __iter__(self) -> Iterator[tuple[int, int]]:
        for column in self._formulas.keys() | self._values.keys():
            formulas, values = self._formulas.get(column, {}), self._values.get(column, {})
            for row in formulas:
                yield row, column
            for row in values:
                if row not in formulas:
                    yield row, column

    def __len__(self) -> int:
        return sum(
            len(self._formulas.get(column, {}).keys() | self._values.get(column, {}).keys())
            for column in self._formulas.keys() | self._values.keys()
        )


@dataclass(frozen=True)
class SheetCells:
    """A sheet. `content` has its cells column by column, `cells` by their places."""

    name: str
    hidden: bool
    content: SheetContent = field(default_factory=SheetContent)

    @property
    def cells(self) -> Cells:
        return Cells(self.content)

    def formula(self, row: int, column: int) -> str | None:
        return self.content.formulas.get(column, {}).get(row)

    def value(self, row: int, column: int) -> Scalar | None:
        """What a cell shows: its value, or the value last stored for its formula."""
        return self.content.values.get(column, {}).get(row)

    def down(self, column: int, first: int, last: int) -> tuple[list[str | None], list[Scalar | None]]:
        """The formulas and the values of a column's cells, from row `first` to row `last`."""
        rows = range(first, last + 1)
        formulas, values = self.content.formulas.get(column, {}), self.content.values.get(column, {})
        return list(map(formulas.get, rows)), list(map(values.get, rows))

    @property
    def extent(self) -> tuple[int, int]:
        """The numbers of rows and columns that hold all its cells."""
        rows = [max(cells, default=-1) for kept in (self.content.formulas, self.content.values)
                for cells in kept.values()]  # fmt: skip
        columns = [*self.content.formulas, *self.content.values]
        return max(rows, default=-1) + 1, max(columns, default=-1) + 1


@dataclass(frozen=True)
class File:
    """A workbook file: its sheets in order, its defined ranges by name in lower case, and what is unusual about it."""

    path: Path
    sheets: tuple[SheetCells, ...]
    names: Mapping[str, Area]
    notes: tuple[Note, ...]
    index: Index = field(default_factory=Index)

    def sheet(self, name: str) -> SheetCells | None:
        return next((sheet for sheet in self.sheets if sheet.name == name), None)

    def text_at(self, name: str, row: int, column: int) -> str:
        """What stands in a cell, as text: a formula with its equals sign, "" for nothing and where no sheet is."""
        sheet = self.sheet(name)
        if sheet is None or row < 0 or column < 0:
            return ""
        formula, value = sheet.formula(row, column), sheet.value(row, column)
        return f"={formula}" if formula is not None else "" if value is None else str(value)


def read(path: Path, look: Callable[[SheetContent], None] = unseen) -> File:
    """The cells of a workbook; each sheet is shown to `look` when it has been read, while others have not.

    Raises UnsafeFile where the file is refused or cannot be read.
    """
    package = inspect(path, look=look)
    _refuse_twins([name for name, _, _ in package.index.sheets])
    return File(path, tuple(_sheets(package)), dict(_areas(package.index.names)), package.notes, package.index)


def _refuse_twins(names: Sequence[str]) -> None:
    seen: dict[str, str] = {}
    for name in names:
        other = seen.setdefault(as_read(name), name)
        if other is not name:
            raise UnsafeFile("two-faced", "each sheet with a name of its own", f"{other!r} and {name!r}", DISTRUST)


LOST: Final = "take another copy of the file: what stood on this sheet is lost here"


def _sheets(package: Package) -> Iterator[SheetCells]:
    known: dict[str, str] = {}
    for name, state, link in package.index.sheets:
        part = package.index.part_of(link)
        if part not in package.parts:
            raise UnsafeFile(
                "damaged-file", f"a part for each sheet that {package.index.workbook} lists",
                f"the sheet {name!r} without one" + (f": there is no {part}" if part else ""), LOST,
            )  # fmt: skip
        other = known.setdefault(part, name)
        if other != name:
            raise UnsafeFile("two-faced", "each sheet with a part of its own", f"{other!r} and {name!r}", DISTRUST)
        content = package.sheets.get(part)
        yield SheetCells(name, state != "visible", content if content is not None else SheetContent())


def _areas(names: Mapping[str, str]) -> Iterator[tuple[str, Area]]:
    """The names that stand for cells of one sheet; those of whole rows or columns, however written, are none."""
    for name, text in names.items():
        area = area_of(text.removeprefix("="), "")
        if area is None or not area.sheet:
            continue
        whole = (area.top, area.bottom) == (0, ROWS - 1) or (area.left, area.right) == (0, COLUMNS - 1)
        if not whole:
            yield name, area
