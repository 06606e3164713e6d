"""From the names of a template to A1 references."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache

from wbgen.files.diagnostics import did_you_mean
from wbgen.files.xlsx.addresses import letters
from wbgen.sheets.column import Column
from wbgen.sheets.formula_tree import FormulaError, Node
from wbgen.sheets.layout import Placed
from wbgen.sheets.macros import written_out
from wbgen.sheets.proof.prover import Edit
from wbgen.sheets.template import SCOPES, Table

STORED_WITH_PREFIX = ("MAXIFS", "MINIFS", "CONCAT")
"""Functions newer than the file format, which a file stores with a prefix."""


def guarded(table: Table, column: Column) -> str:
    """The formula of a column, written out, with its guard: empty text where a record lacks what the formula needs.

    What another of the columns that are asked needs itself is not asked again: that one is blank then.
    """
    needs = needs_of(table, column)
    lacking = [_lacking(table, need) for need in needs]
    asked = [key for key in needs if not any(key in lacks for lacks in lacking)]
    tests = ",".join(f'{key}=""' for key in asked)
    formula = written_out(column.meaning.formula or "")
    if not tests:
        return formula
    return f'IF({f"OR({tests})" if "," in tests else tests},"",{formula})'


def needs_of(table: Table, column: Column) -> tuple[str, ...]:
    """The columns without which a computed one is blank, in the order of the templates."""
    own = column.meaning.blank_unless
    if column.meaning.formula is None or own == ():
        return ()
    return tuple(dict.fromkeys(key for key in (*table.blank_unless, *(own or ())) if key != column.key))


def _lacking(table: Table, key: str) -> set[str]:
    """All columns without which this one is blank, its needs' own needs too; none of a column elsewhere."""
    needs = (need for column in table.columns if column.key == key for need in needs_of(table, column))
    return {lack for need in needs for lack in (need, *_lacking(table, need))}


@dataclass(frozen=True)
class Name:
    """A name in a formula: a column of `table`, seen from a record as `this`, `so_far`, `from_here` or `all`."""

    table: str
    key: str
    scope: str


class UnknownNameError(FormulaError):
    """A formula names what no template has; `table` is where it was looked for."""

    def __init__(self, message: str, table: str, **said: str) -> None:
        super().__init__(message, **said)
        self.table = table


def resolve(name: str, table: str, columns: Mapping[str, Mapping[str, Column]]) -> Name:
    """What `name` stands for in a formula of `table`. Raises UnknownNameError with the nearest one."""
    owner, dot, key = name.rpartition(".")
    scope = "this"
    if owner in SCOPES:
        scope, owner = owner, table
    elif dot:
        scope = "all"
    else:
        owner = table
    if owner not in columns:
        raise UnknownNameError(
            f"names the table {owner!r}, which no template has", owner, code="unknown-table", expected="a table",
            found=owner, remedy=did_you_mean(owner, columns),
        )  # fmt: skip
    if key not in columns[owner]:
        raise UnknownNameError(
            f"names {name!r}, which {owner} does not have", owner, code="unknown-column",
            expected=f"a column of {owner}", found=key, remedy=did_you_mean(key, columns[owner]),
        )  # fmt: skip
    return Name(owner, key, scope)


GAP = "\0"
"""Stands for the record in the pattern of a formula: no cell and no name of a sheet can hold it."""


@dataclass(frozen=True)
class Compiled:
    """Formula text with gaps for the record."""

    pattern: str
    start: int
    down: bool

    @cached_property
    def _parts(self) -> list[str]:
        return self.pattern.split(GAP)

    def text(self, record: int) -> str:
        """The formula of a record, from 0, without its equals sign."""
        return _line(self.start + record, self.down).join(self._parts)

    def texts(self, records: int) -> list[str]:
        """The formulas of the first `records`."""
        parts = self._parts
        return [line.join(parts) for line in _lines(self.start, records, self.down)]


def _line(at: int, down: bool) -> str:
    """A row's number or a column's letters, as a reference writes it."""
    return str(at + 1) if down else letters(at)


@lru_cache
def _lines(start: int, records: int, down: bool) -> tuple[str, ...]:
    """Those of the first records, from `start` on; all columns of a table ask for the same."""
    return tuple(_line(start + record, down) for record in range(records))


@dataclass(frozen=True)
class Factor:
    """The factor of a conversion in a formula, by the conversion's key."""

    key: str


@dataclass(frozen=True)
class Heading:
    """The cell of a column's heading, from which a link counts the lines: it moves as the column does."""

    name: Name


Piece = str | Name | Factor | Heading


def pieces_of(
    source: str,
    tree: Node,
    edits: tuple[Edit, ...],
    table: str,
    columns: Mapping[str, Mapping[str, Column]],
    sheets: Mapping[str, str],
) -> tuple[Piece, ...]:
    """A formula of `table` cut at its names, with its conversions put in: the same wherever the tables stand.

    `columns` are those of each table, `sheets` the names of their sheets.
    """
    around = {(edit.start, edit.end): edit.conversion.key for edit in edits}
    cut = _Cut(source, around, lambda node: resolve(str(node.value), table, columns), sheets).pieces(tree, bare=True)
    pieces = [_literal(source[: tree.start]), *cut, _literal(source[tree.end :])]
    joined: list[Piece] = []
    for piece in pieces:
        if isinstance(piece, str) and joined and isinstance(joined[-1], str):
            joined[-1] += piece
        else:
            joined.append(piece)
    return tuple(joined)


@dataclass(frozen=True)
class _Cut:
    """Cuts a formula: its text, the conversions round parts of it by where these begin and end, and what a name is.
    `sheets` are the sheets of the tables."""

    source: str
    around: Mapping[tuple[int, int], str]
    name: Callable[[Node], Name]
    sheets: Mapping[str, str]

    def pieces(self, node: Node, bare: bool) -> list[Piece]:
        """The pieces of a node; `bare` where a product needs no brackets round it."""
        key = self.around.get((node.start, node.end))
        out = list(self._inside(node))
        if key is None:
            return out
        if node.kind == "operator" and node.value not in _BINDING:
            out = ["(", *out, ")"]
        return [*out, "*", Factor(key)] if bare else ["(", *out, "*", Factor(key), ")"]

    def _inside(self, node: Node) -> Iterator[Piece]:
        if node.kind == "reference":
            yield self.name(node)
            return
        if node.kind == "function" and node.value == "LEADS":
            yield from self._leads(*node.children)
            return
        cursor = node.start
        if node.kind == "function" and node.value in STORED_WITH_PREFIX:
            yield "_xlfn."
        for child in node.children:
            before = self.source[cursor : child.start]
            alone = before.rstrip().endswith("(") or node.kind == "function" or _loose(node, child)
            yield from (_literal(before), *self.pieces(child, alone))
            cursor = child.end
        yield _literal(self.source[cursor : node.end])

    def _leads(self, words: Node, *places: Node) -> Iterator[Piece]:
        """A link: columns and the numbers of their lines take turns among the places.

        The sheet's name is the one that it was built with: a link is text, in which no program changes a name.
        """
        yield "HYPERLINK("
        for turn, (column, line) in enumerate(zip(places[::2], places[1::2], strict=True)):
            name = self.name(column)
            yield '&":"&' if turn else f'"#{quoted(self.sheets[name.table])}!"&'
            yield from ("ADDRESS(ROW(", Heading(name), ")+", *self.pieces(line, bare=False))
            yield from (",COLUMN(", Heading(name), "))")
        yield from (",", *self.pieces(words, bare=True), ")")


def compile_formula(
    pieces: tuple[Piece, ...], home: Placed, placed: Mapping[str, Placed], conversions: Mapping[str, str]
) -> Compiled:
    """The pattern of a formula of `home`; `conversions` are the address of each conversion's factor."""

    def written(piece: Piece) -> str:
        if isinstance(piece, str):
            return piece
        if isinstance(piece, Heading):
            return _heading(placed[piece.name.table], piece.name.key, home)
        return conversions[piece.key] if isinstance(piece, Factor) else address(piece, home, placed)

    return Compiled("".join(map(written, pieces)), home.first, home.table.direction == "down")


_BINDING = ("*", "/", "^")
"""The operators that bind as a product does, or more closely."""


def _loose(node: Node, child: Node) -> bool:
    """Whether a product may stand for `child` in `node` without brackets, since it is worked out first all the same."""
    if node.kind != "operator" or node.value == "^":
        return False
    return node.value not in _BINDING or child is node.children[0]


@lru_cache(maxsize=4096)
def _literal(text: str) -> str:
    """Source text as part of a pattern, without the white space between its tokens."""
    parts = re.split(r'("(?:[^"]|"")*")', text)
    return "".join(part if part.startswith('"') else re.sub(r"\s+", "", part) for part in parts)


def address(name: Name, home: Placed, placed: Mapping[str, Placed]) -> str:
    """The A1 reference of `name` in a formula of `home`: GAP stands for the record.

    None refers to the record before: that would break where one is inserted or deleted between."""
    target = placed[name.table]
    prefix = "" if target.sheet == home.sheet else f"{quoted(target.sheet)}!"
    down = target.table.direction == "down"
    if name.scope == "this" and not target.single:
        return f"{letters(target.at[name.key])}{GAP}" if down else f"{GAP}{target.at[name.key] + 1}"
    if name.scope == "so_far":
        if down:
            column = letters(target.at[name.key])
            return f"{column}${target.opening + 1}:{column}{GAP}"
        return f"${letters(target.first)}{target.at[name.key] + 1}:{GAP}{target.at[name.key] + 1}"
    if name.scope == "from_here":
        if down:
            column = letters(target.at[name.key])
            return f"{column}{GAP}:{column}${target.closing + 1}"
        return f"{GAP}{target.at[name.key] + 1}:${letters(target.last)}{target.at[name.key] + 1}"
    if target.single:
        row, column_index = target.cell(name.key)
        return f"{prefix}${letters(column_index)}${row + 1}"
    if down:
        column = letters(target.at[name.key])
        return f"{prefix}${column}${target.opening + 1}:${column}${target.closing + 1}"
    row = target.at[name.key] + 1
    return f"{prefix}${letters(target.first)}${row}:${letters(target.last)}${row}"


def _heading(target: Placed, key: str, home: Placed) -> str:
    """The cell above the first record of a column that runs down, in a formula of `home`."""
    prefix = "" if target.sheet == home.sheet else f"{quoted(target.sheet)}!"
    return f"{prefix}${letters(target.at[key])}${target.opening + 1}"


def quoted(sheet: str) -> str:
    """A sheet's name as a reference writes it."""
    return sheet if re.fullmatch(r"[A-Za-z_]+", sheet) else "'" + sheet.replace("'", "''") + "'"
