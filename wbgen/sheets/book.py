"""All templates together: read, expanded, proven, ready to be laid out."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache, cached_property
from hashlib import sha256
from pathlib import Path
from typing import Final

from wbgen.files import shipped
from wbgen.files.diagnostics import Diagnostic, Place, Report, did_you_mean, shown
from wbgen.files.xlsx.addresses import letters
from wbgen.sheets.check import check, columns_of, is_lost, lost_names, tell_circle
from wbgen.sheets.circles import circles
from wbgen.sheets.column import Column, System
from wbgen.sheets.compile import (
    Compiled,
    Piece,
    UnknownNameError,
    compile_formula,
    guarded,
    pieces_of,
    quoted,
    resolve,
)  # fmt: skip
from wbgen.sheets.expand import expand
from wbgen.sheets.formula_tree import FormulaError, Node, parse
from wbgen.sheets.layout import Placed
from wbgen.sheets.macros import MACROS
from wbgen.sheets.proof.algebra import Conversion
from wbgen.sheets.proof.dimension import prove
from wbgen.sheets.proof.functions import RULES
from wbgen.sheets.proof.prover import Edit
from wbgen.sheets.proof.types import ANY, DATE, TEXT, Type
from wbgen.sheets.read import Unread, read_templates
from wbgen.sheets.template import Sheet, Table
from wbgen.units.quantity import UnitError, parse_unit


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
        sheets = {table.key: sheet.name for sheet in self.sheets for table in sheet.tables}
        return {
            table: {
                key: pieces_of(proven.source, proven.tree, proven.edits, table, columns, sheets)
                for key, proven in formulas.items()
            }
            for table, formulas in self.formulas.items()
        }


def type_of(column: Column, system: System) -> Type:
    """The type of a column's figures in a system of units. Raises UnitError where its unit is none."""
    meaning = column.meaning
    if meaning.type != "number":
        return TEXT if meaning.type == "text" else DATE
    unit = getattr(meaning.unit, system) if meaning.unit else ""
    return Type("quantity", parse_unit(unit) if unit else "")


_UNIT_WORDS: Final = re.compile(r"\[([^][|]*)\|([^][|]*)\]")
"""In a text of a formula, the unit in metric and in US words: [g/m²|oz/1000 ft²]."""


def _in_system(sheet: Sheet, system: System) -> Sheet:
    """The sheet with the units in the texts of its formulas in the words of one system."""

    def spoken(column: Column) -> Column:
        formula = column.meaning.formula
        if formula is None or "[" not in formula:
            return column
        words = _UNIT_WORDS.sub(r"\1" if system == "metric" else r"\2", formula)
        return replace(column, meaning=replace(column.meaning, formula=words))

    return replace(sheet, tables=tuple(replace(t, columns=tuple(map(spoken, t.columns))) for t in sheet.tables))


class _Prover:
    """Proves the formulas of one system; what fails goes to the report, at the place of the formula."""

    def __init__(self, sheets: Sequence[Sheet], system: System, unread: Unread, report: Report) -> None:
        self.unread, self.report = unread, report
        self.columns = columns_of(sheets)
        self.types = {
            table: {key: _type_or_any(column, system) for key, column in of.items()}
            for table, of in self.columns.items()
        }
        self.needs: dict[tuple[str, str], set[tuple[str, str]]] = {}
        self.told: set[Place] = set()

    def formulas(self, table: Table) -> dict[str, Proven]:
        """The proven formulas of a table by column."""
        found = {}
        for column in table.columns if table.key not in self.unread.endless else ():
            if column.meaning.formula is not None:
                proven = self._proven(table, column)
                if proven:
                    found[column.key] = proven
        return found

    def circles(self) -> None:
        """Report the columns that need themselves."""
        for circle in circles(self.needs):
            table, key = circle[0]
            place = self.columns[table][key].written.of("formula")
            tell_circle([".".join(at) for at in circle], place, self.report)

    def _proven(self, table: Table, column: Column) -> Proven | None:
        needs = self.needs[table.key, column.key] = set()
        lost = set(lost_names(table, column, self.columns))

        def lookup(name: str) -> Type:
            if name in lost:
                return ANY
            try:
                at = resolve(name, table.key, self.columns)
            except UnknownNameError as error:
                if is_lost(error.table, self.columns, self.unread):
                    return ANY
                raise
            needs.add((at.table, at.key))
            return self.types[at.table][at.key]

        try:
            source = guarded(table, column)
            tree = parse(source)
            proof = prove(tree, lookup, self.types[table.key][column.key], column.meaning.literals)
        except FormulaError as error:
            self._tell(error, table, column)
            return None
        return Proven(source, tree, proof.edits)

    def _tell(self, error: FormulaError, table: Table, column: Column) -> None:
        """Report a mistake in a formula; one that all members of a family share is told of the first."""
        place = column.written.of("formula")
        if place in self.told or (table.standing and isinstance(error, UnknownNameError)):
            return  # `check` tells of what every sheet shows and no template has
        self.told.add(place)
        found, remedy = error.found, error.remedy
        if error.code == "wrong-formula" and found:
            found = shown(column.meaning.formula)
        if error.code == "unknown-function":
            remedy = did_you_mean(found, (*RULES, *MACROS))
        self.report.add(error.code, place, f"the formula of {table.key}.{column.key} {error}",
                        expected=error.expected, found=found, remedy=remedy)  # fmt: skip


def _type_or_any(column: Column, system: System) -> Type:
    """The type of a column; of one whose unit cannot be read, which is reported elsewhere, any."""
    try:
        return type_of(column, system)
    except UnitError:
        return ANY


def _prove(sheets: Sequence[Sheet], system: System, unread: Unread, report: Report) -> Book:
    """The book of sheets, every formula of which is parsed and its units proven; what fails goes to the report."""
    sheets = tuple(_in_system(sheet, system) for sheet in sheets)
    prover = _Prover(sheets, system, unread, report)
    formulas = {table.key: prover.formulas(table) for sheet in sheets for table in sheet.tables}
    prover.circles()
    units = {
        table: {key: t.unit if t.kind == "quantity" else t.kind for key, t in of.items()}
        for table, of in prover.types.items()
    }
    found = {edit.conversion.key: edit.conversion for of in formulas.values() for p in of.values() for edit in p.edits}
    return Book(system, sheets, formulas, units, tuple(found[key] for key in sorted(found)))


MARK: Final = "wbgen templates"
"""The property of a planner that says from which templates it was built; spreadsheet programs keep it."""


@dataclass(frozen=True)
class Templates:
    """A folder of templates; each of its books is made when it is first asked for, and kept."""

    folder: Path
    _books: dict[System, Book] = field(default_factory=dict, init=False, repr=False, compare=False)

    @cached_property
    def mark(self) -> str:
        """What tells these templates from all others: a digest of their files, however these end their lines."""
        digest = sha256()
        for path in sorted(self.folder.rglob("*.yaml")):
            text = path.read_text("utf-8", "surrogateescape")
            digest.update(f"{path.relative_to(self.folder).as_posix()}\0{text}\0".encode("utf-8", "surrogateescape"))
        return digest.hexdigest()[:16]

    @cached_property
    def _read(self) -> tuple[tuple[Sheet, ...], Unread, tuple[Diagnostic, ...]]:
        """The sheets of both systems of units, what is missing among them, and what is wrong with them."""
        unread, report = Unread(), Report()
        sheets = expand(read_templates(self.folder, unread, report), unread, report)
        check(sheets, self.folder, unread, report)
        return sheets, unread, report.diagnostics

    def book(self, system: System) -> Book:
        """The book of these templates. Raises InputError with every mistake in their files."""
        if system not in self._books:
            sheets, unread, found = self._read
            report = Report()
            for one in found:
                report.add(one.code, one.place, one.message, expected=one.expected, found=one.found, remedy=one.remedy)
            book = _prove(sheets, system, unread, report)
            report.raise_any()
            self._books[system] = book
        return self._books[system]


@cache
def shipped_templates() -> Templates:
    """wbgen's own templates."""
    return Templates(shipped.templates())


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
