"""All templates together: read, expanded, proven, ready to be laid out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any

import yaml
from pydantic import ValidationError

from wbgen.files import shipped
from wbgen.files.xlsx.addresses import letters
from wbgen.files.yaml.tree import PARSER
from wbgen.sheets.compile import Compiled, Piece, compile_formula, guarded, pieces_of, quoted, resolve
from wbgen.sheets.formula_tree import FormulaError, Node, parse
from wbgen.sheets.layout import Placed
from wbgen.sheets.proof.algebra import Conversion
from wbgen.sheets.proof.dimension import DATE, TEXT, Edit, Type, prove
from wbgen.sheets.template import Column, Sheet, System, Table
from wbgen.trade.families import described, family, for_all, for_member
from wbgen.units.quantity import parse_unit

ORDER = Path("order.yaml")


class TemplateError(ValueError):
    """What is wrong with the templates, one line each: file, table, key, what was found."""

    def __init__(self, problems: list[str]) -> None:
        super().__init__("\n".join(problems))
        self.problems = problems


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


def read_sheets(folder: Path) -> tuple[Sheet, ...]:
    """The sheets of the templates in `folder`, in the order of order.yaml, with families expanded.

    Raises TemplateError with everything that is not as a template should be.
    """
    problems: list[str] = []
    sheets: list[Sheet] = []
    for name in _plain(folder / ORDER)["sheets"]:
        path = folder / f"{name}.yaml"
        try:
            sheets.append(_expanded(Sheet.model_validate(_plain(path))))
            problems += [f"{path.name}: {twice}" for table in sheets[-1].tables for twice in _twice(table)]
        except ValidationError as error:
            problems += [f"{path.name}: {'.'.join(map(str, e['loc']))}: {e['msg']}" for e in error.errors()]
        except (KeyError, yaml.YAMLError) as error:
            problems.append(f"{path.name}: {error}")
    if problems:
        raise TemplateError(problems)
    return tuple(sheets)


def _plain(path: Path) -> Any:
    return yaml.load(path.read_text("utf-8"), PARSER)  # noqa: S506 - a safe one


NARROW = 10
STANDING = "standing_"
"""Begins the key of the small form that shows the state of the checks on every sheet but the first."""


def _standing(sheet: Sheet) -> tuple[Table, ...]:
    if any(table.key == "start" for table in sheet.tables):
        return ()
    column = Column(key="state", heading="Checks", type="text", formula='start.master_check&""')
    span = 2 if sheet.widths and sheet.widths[1] < NARROW else 1
    key = STANDING + sheet.name.lower().replace(" ", "_")
    return (Table(key=key, title="", direction="across", plain=True, span=span, columns=(column,)),)


def _twice(table: Table) -> list[str]:
    """Keys and headings that two columns share: a column could not be found by them again in a file."""
    keys = [column.key for column in table.columns]
    seen: dict[tuple[str, str | None], str] = {}
    return [f"{table.key}: the key {key} stands twice" for key in dict.fromkeys(keys) if keys.count(key) > 1] + [
        f"{table.key}: {seen[column.heading, column.slot]} and {column.key} are both headed {column.heading!r}"
        for column in table.columns
        if seen.setdefault((column.heading, column.slot), column.key) != column.key
    ]


def _expanded(sheet: Sheet) -> Sheet:
    tables = list(_standing(sheet))
    for table in sheet.tables:
        families = {key: column.each for column in table.columns if column.each for key in _names(table, column)}
        columns = tuple(_in_order([(column, _members(column, families)) for column in table.columns]))
        tables.append(table.model_copy(update={"columns": columns}))
    return sheet.model_copy(update={"tables": tuple(tables)})


def _in_order(made: Sequence[tuple[Column, tuple[Column, ...]]]) -> Iterator[Column]:
    """The columns of a table, members of a family in turn with those of the columns that stand beside it."""
    abreast: list[tuple[Column, ...]] = []
    for column, members in made:
        if not column.beside:
            yield from _in_turn(abreast)
            abreast = []
        abreast.append(members)
    yield from _in_turn(abreast)


def _in_turn(abreast: Sequence[tuple[Column, ...]]) -> Iterator[Column]:
    return (column for turn in zip(*abreast, strict=True) for column in turn)


def _names(table: Table, column: Column) -> tuple[str, str]:
    return column.key, f"{table.key}.{column.key}"


def _members(column: Column, families: Mapping[str, str]) -> tuple[Column, ...]:
    if column.formula is not None:
        column = column.model_copy(update={"formula": for_all(column.formula, families)})
    if column.each is None:
        return (column,)
    made = []
    own_look = column.show == "each"
    for index, member in enumerate(family(column.each)):
        unit = column.unit and column.unit.model_copy(
            update={"metric": described(column.unit.metric, member), "us": described(column.unit.us, member)}
        )
        default = column.default
        made.append(
            column.model_copy(
                update={
                    "key": for_member(column.key, member),
                    "heading": described(column.heading, member),
                    "formula": for_member(described(column.formula, member), member)
                    if column.formula is not None
                    else None,
                    "unit": unit,
                    "note": described(column.note, member) if index == 0 or "{" in column.note else "",
                    "blank_unless": column.blank_unless
                    and tuple(for_member(key, member) for key in column.blank_unless),
                    "choices": tuple(described(text, member) for text in column.choices)
                    if isinstance(column.choices, tuple)
                    else column.choices,
                    "default": described(default, member) if isinstance(default, str) else default,
                    "group": column.group if index == 0 else None,
                    "page": column.page and index == 0,
                    **({"show": member.says["show"], "digits": int(member.says["digits"])} if own_look else {}),
                }
            )
        )
    return tuple(made)


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


@lru_cache
def planner_book(system: System) -> Book:
    """The book of wbgen's own templates."""
    return prove_book(read_sheets(shipped.templates()), system)


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


__all__ = [
    "STANDING", "Book", "Proven", "TemplateError", "compile_book", "planner_book", "prove_book", "read_sheets",
    "references", "type_of",
]  # fmt: skip
