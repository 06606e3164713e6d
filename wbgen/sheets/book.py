"""All templates together: read, expanded, proven, ready to be laid out."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache, cached_property
from pathlib import Path

from wbgen.files import shipped
from wbgen.files.xlsx.addresses import letters
from wbgen.sheets.compile import Compiled, Piece, compile_formula, guarded, pieces_of, quoted, resolve
from wbgen.sheets.expand import expand
from wbgen.sheets.formula_tree import FormulaError, Node, parse
from wbgen.sheets.layout import Placed
from wbgen.sheets.proof.algebra import Conversion
from wbgen.sheets.proof.dimension import DATE, TEXT, Edit, Type, prove
from wbgen.sheets.read import TemplateError, read_sheets
from wbgen.sheets.template import Column, Sheet, System, Table
from wbgen.units.quantity import parse_unit


@dataclass(frozen=True)
class Proven:
    """A formula with its guard, its tree, and the conversions that its units need."""

    source: str
    tree: Node
    edits: tuple[Edit, ...]


@dataclass(frozen=True)
class Book:
    """The sheets of a workbook in one system of units.

    `formulas[table][column]` are the proven formulas, `units[table][column]` each column's unit as pint
    text ("" for a plain number), "text" or "date".
    """

    system: System
    sheets: tuple[Sheet, ...]
    formulas: Mapping[str, Mapping[str, Proven]]
    units: Mapping[str, Mapping[str, str]]
    conversions: tuple[Conversion, ...]

    @property
    def tables(self) -> dict[str, Table]:
        return {table.key: table for sheet in self.sheets for table in sheet.tables}

    @cached_property
    def pieces(self) -> dict[str, dict[str, tuple[Piece, ...]]]:
        """Each formula cut at its names; put together by `compile_book`."""
        columns = {key: {column.key: column for column in table.columns} for key, table in self.tables.items()}
        return {
            table: {
                key: pieces_of(proven.source, proven.tree, proven.edits, table, columns)
                for key, proven in formulas.items()
            }
            for table, formulas in self.formulas.items()
        }


def type_of(column: Column, system: System) -> Type:
    """The type of a column's figures in a system of units."""
    if column.type == "text":
        return TEXT
    if column.type == "date":
        return DATE
    unit = getattr(column.unit, system) if column.unit else ""
    return Type("quantity", _canonical(unit))


def _canonical(unit: str) -> str:
    return parse_unit(unit) if unit else ""


_UNIT_WORDS = re.compile(r"\[([^][|]*)\|([^][|]*)\]")
"""In a text of a formula, the unit in metric and in US words: [g/m²|oz/1000 ft²]."""


def _in_system(sheet: Sheet, system: System) -> Sheet:
    """The sheet with the units in the texts of its formulas in the words of one system."""

    def spoken(column: Column) -> Column:
        if column.formula is None or "[" not in column.formula:
            return column
        words = _UNIT_WORDS.sub(r"\1" if system == "metric" else r"\2", column.formula)
        return column.model_copy(update={"formula": words})

    tables = tuple(table.model_copy(update={"columns": tuple(map(spoken, table.columns))}) for table in sheet.tables)
    return sheet.model_copy(update={"tables": tables})


def prove_book(sheets: tuple[Sheet, ...], system: System) -> Book:
    """The templates with every formula parsed and its units proven. Raises TemplateError with all that fail."""
    sheets = tuple(_in_system(sheet, system) for sheet in sheets)
    columns = {t.key: {c.key: c for c in t.columns} for s in sheets for t in s.tables}
    types = {table: {key: type_of(c, system) for key, c in of.items()} for table, of in columns.items()}
    formulas: dict[str, dict[str, Proven]] = {}
    found: dict[str, Conversion] = {}
    problems: list[str] = []
    for sheet in sheets:
        for table in sheet.tables:
            formulas[table.key] = {}

            def lookup(name: str, home: str = table.key) -> Type:
                at = resolve(name, home, columns)
                return types[at.table][at.key]

            for column in table.columns:
                if column.formula is None:
                    continue
                where = f"{sheet.name}: {table.key}.{column.key}"
                try:
                    source = guarded(table, column)
                    tree = parse(source)
                    proof = prove(tree, lookup, types[table.key][column.key], column.literals)
                except FormulaError as error:
                    problems.append(f"{where}: {error}\n    {column.formula}")
                    continue
                formulas[table.key][column.key] = Proven(source, tree, proof.edits)
                found |= {edit.conversion.key: edit.conversion for edit in proof.edits}
    if problems:
        raise TemplateError(problems)
    units = {
        table: {key: t.unit if t.kind == "quantity" else t.kind for key, t in of.items()} for table, of in types.items()
    }
    return Book(system, sheets, formulas, units, tuple(found[key] for key in sorted(found)))


@dataclass(frozen=True)
class Templates:
    """A folder of templates; each of its books is made when it is first asked for, and kept."""

    folder: Path
    _books: dict[System, Book] = field(default_factory=dict, init=False, repr=False, compare=False)

    @cached_property
    def sheets(self) -> tuple[Sheet, ...]:
        """The sheets of both systems of units. Raises TemplateError with everything that is wrong in their files."""
        return expand(read_sheets(self.folder))

    def book(self, system: System) -> Book:
        """The book of these templates. Raises TemplateError with everything that is wrong in their files."""
        if system not in self._books:
            self._books[system] = prove_book(self.sheets, system)
        return self._books[system]


@cache
def shipped_templates() -> Templates:
    """wbgen's own templates."""
    return Templates(shipped.templates())


def planner_book(system: System) -> Book:
    """The book of wbgen's own templates."""
    return shipped_templates().book(system)


def references(book: Book) -> dict[tuple[str, str], set[tuple[str, str]]]:
    """The columns that each formula refers to, its guard's too, but for itself; all by table and key."""
    columns = {name: {column.key: column for column in table.columns} for name, table in book.tables.items()}
    found = {}
    for table, formulas in book.formulas.items():
        for key, proven in formulas.items():
            nodes = (node for node in proven.tree.walk() if node.kind == "reference")
            names = (resolve(str(node.value), table, columns) for node in nodes)
            found[table, key] = {(name.table, name.key) for name in names} - {(table, key)}
    return found


def compile_book(book: Book, placed: Mapping[str, Placed]) -> dict[str, dict[str, Compiled]]:
    """The formula pattern of every computed column, for the places that the tables have."""
    factors = placed["conversions"]
    rows = {found.key: factors.cell("factor", index) for index, found in enumerate(book.conversions)}
    cells = {key: f"{quoted(factors.sheet)}!${letters(column)}${row + 1}" for key, (row, column) in rows.items()}
    return {
        table: {key: compile_formula(cut, placed[table], placed, cells) for key, cut in pieces.items()}
        for table, pieces in book.pieces.items()
    }
