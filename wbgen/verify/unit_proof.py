"""Proves the units of formulas as they stand in a file, where a reference is an address and not a name."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from wbgen.files.xlsx.references import Area, area_of
from wbgen.sheets.book import Book, type_of
from wbgen.sheets.column import Column
from wbgen.sheets.formula_tree import FormulaError, Node, parse
from wbgen.sheets.layout import Placed
from wbgen.sheets.proof.algebra import conversion
from wbgen.sheets.proof.dimension import prove
from wbgen.sheets.proof.prover import product
from wbgen.sheets.proof.types import ANY, PLAIN, ClashError, Type
from wbgen.units.quantity import label
from wbgen.units.spelling import UnitError

_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


@dataclass(frozen=True)
class Field:
    """Cells that hold figures of one type: a column of a table, or the factor of one conversion."""

    area: Area
    type: Type
    column: Column


class UnitsInFile:
    """The columns of a file's tables by sheet and column, and what their units say of a formula."""

    def __init__(self, book: Book, placed: Mapping[str, Placed]) -> None:
        self.columns: dict[tuple[str, int], list[Field]] = {}
        for table in placed.values():
            for field in _fields(book, table):
                for column in range(field.area.left, field.area.right + 1):
                    self.columns.setdefault((table.sheet, column), []).append(field)
        self.last = max((column for _, column in self.columns), default=0)

    def verdict(self, formula: str, sheet: str, cell: tuple[int, int] | None) -> str:
        """What is wrong with the units of a formula of `sheet`; "" where nothing is.

        `formula` is as the file stores it, without its equals sign. `cell` is its row and column from 0; of one
        that stands in no table, and of None, only the inside is proven, with any numbers.
        """
        home = next(iter(self.fields(Area(sheet, *cell, *cell))), None) if cell else None
        try:
            tree = parse(formula)
            _refuse_lost_references(tree, formula)
            self._prove(tree, sheet, home)
        except ClashError as clash:
            return clash.words.format(*map(_word, clash.types)) + _scale(clash.types)
        except FormulaError as error:
            return str(error).partition(": Parser")[0]
        return ""

    def _prove(self, tree: Node, sheet: str, home: Field | None) -> None:
        def lookup(reference: str) -> Type:
            area = area_of(reference, sheet)
            types = list(dict.fromkeys(field.type for field in self.fields(area))) if area else []
            if len(types) > 1:
                cells = reference.rpartition("!")[2].replace("$", "")
                raise ClashError(f"takes {{1}} and {{0}} in one range, {cells}", types[1], types[0])
            return types[0] if types else ANY

        if home is not None and home.column.role == "formula":
            prove(tree, lookup, home.type, home.column.meaning.literals, strict=True)
            return
        # A person may calculate in an input cell: plain numbers are then of the unit of its column.
        written = tuple(float(node.value) for node in tree.walk() if node.kind == "number")
        found = prove(tree, lookup, None, written, strict=True).type
        if home is not None and found != PLAIN:
            prove(tree, lookup, home.type, written, strict=True)

    def fields(self, area: Area) -> list[Field]:
        """The fields that have a cell in `area`, by its columns."""
        columns = range(area.left, min(area.right, self.last) + 1)
        found: dict[int, Field] = {}
        for column in columns:
            for field in self.columns.get((area.sheet, column), ()):
                if field.area.top <= area.bottom and area.top <= field.area.bottom:
                    found[id(field)] = field
        return list(found.values())


def _fields(book: Book, placed: Placed) -> Iterator[Field]:
    if placed.table.key == "conversions":
        factor = placed.column("factor")
        for record, found in enumerate(book.conversions[: placed.records]):
            cell = placed.cell(factor.key, record)
            unit = product(Type("quantity", found.target), "/", Type("quantity", found.source))
            yield Field(Area(placed.sheet, *cell, *cell), unit, factor)
    for column in placed.table.columns:
        if (placed.table.key, column.key) != ("conversions", "factor"):
            yield Field(_area(placed, column.key), type_of(column, book.system), column)


def _area(placed: Placed, key: str) -> Area:
    """The cells of a column that ranges run over: its records, and the rows that close it above and below."""
    row, column = placed.cell(key)
    if placed.single:
        return Area(placed.sheet, row, column, row, column)
    if placed.table.direction == "down":
        return Area(placed.sheet, placed.opening, column, placed.closing, column)
    return Area(placed.sheet, row, placed.first, row, placed.last)


def _refuse_lost_references(tree: Node, formula: str) -> None:
    for node in tree.walk():
        if node.kind == "text" and formula[node.start] != '"':
            raise FormulaError(f"has {node.value} in it: what it read is not there")


def _word(found: Type) -> str:
    """A type as a reader knows it."""
    if found.kind != "quantity":
        return {"date": "a date", "truth": "a truth value", "any": "an unknown figure"}.get(found.kind, found.kind)
    if not found.unit:
        return "a plain number"
    try:
        return label(found.unit)
    except UnitError:  # a power that no one writes
        return re.sub(r"([A-Za-z]\w*)(?:\*\*([0-9.]+))?", _factor, found.unit).replace("*", "·")


def _factor(match: re.Match[str]) -> str:
    name, power = match.groups()
    sign = power.translate(_RAISED) if power and power.isdigit() else f"^{power}" if power else ""
    return label(name) + sign


def _scale(types: tuple[Type, ...]) -> str:
    """How much one unit is of the other, where they are of one dimension."""
    units = [found.unit for found in types if found.kind == "quantity"]
    if len(units) != 2:
        return ""
    try:
        found = conversion(*units)
    except FormulaError:
        return ""
    if found is None:
        return ""
    one, other = (f"{figure} {_word(unit)}" if unit.unit else figure for figure, unit in
                  zip(("1", f"{float(found.factor):.6g}"), types, strict=True))  # fmt: skip
    return f" ({one} is {other})"
