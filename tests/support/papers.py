"""Workbooks laid out and never written: the formulas of the templates as text, by name."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Final

from wbgen.files.xlsx.addresses import letters
from wbgen.inputs.capacity import FIXED
from wbgen.sheets.book import Book, compile_book, shipped_templates
from wbgen.sheets.column import System
from wbgen.sheets.compile import Compiled, Name, address, quoted
from wbgen.sheets.layout import Placed, lay_out
from wbgen.verify.unit_proof import UnitsInFile

RECORDS: Final = 9
LATER: Final = 5


@dataclass(frozen=True)
class Paper:
    """A workbook that is laid out, and never written."""

    book: Book
    placed: Mapping[str, Placed]
    compiled: Mapping[str, Mapping[str, Compiled]]
    units: UnitsInFile

    def text(self, column: str, record: int = 0) -> str:
        table, key = column.split(".")
        return self.compiled[table][key].text(record)

    def verdict(self, column: str, formula: str, record: int = 0) -> str:
        table, key = column.split(".")
        return self.units.verdict(formula, self.placed[table].sheet, self.placed[table].cell(key, record))

    def spelled(self, text: str, column: str, record: int) -> str:
        """Text whose {table.column}, {all:table.column} and {by:conversion} are as a formula of the cell has them."""
        home = self.placed[column.split(".")[0]]

        def place(match: re.Match[str]) -> str:
            how, name = match.groups()
            if how == "by":
                (index,) = (index for index, found in enumerate(self.book.conversions) if found.key == name)
                row, at = self.placed["conversions"].cell("factor", index)
                return f"{quoted(self.placed['conversions'].sheet)}!${letters(at)}${row + 1}"
            table, key = name.split(".")
            pattern = address(Name(table, key, how or "this"), home, self.placed)
            return Compiled(pattern, home.first, home.table.direction == "down").text(record)

        return re.sub(r"\{(?:(all|by):)?([\w.]+)\}", place, text)


@cache
def paper(system: System, *, renamed: bool = False) -> Paper:
    book = shipped_templates().book(system)
    named = {table.records for sheet in book.sheets for table in sheet.tables if isinstance(table.records, str)}
    small = {name: size for name, size in FIXED.items() if name in named and size < RECORDS}
    capacities = dict.fromkeys(named, RECORDS) | small | {"conversions": len(book.conversions)}
    placed = dict(lay_out(book.sheets, capacities).placed)
    if renamed:
        placed = {key: replace(one, sheet=f"{one.sheet}'s own") for key, one in placed.items()}
    return Paper(book, placed, compile_book(book, placed), UnitsInFile(book, placed))


def formulas(paper: Paper) -> Iterator[tuple[str, int, str]]:
    """Every formula column with its first record and a later one."""
    for table, columns in paper.compiled.items():
        later = min(LATER, paper.placed[table].count - 1)
        for key, compiled in columns.items():
            for record in {0, later}:
                yield f"{table}.{key}", record, compiled.text(record)
