"""Planners in which single figures are changed, to see whether anything follows from them.

A `Scene` is the filled planner of one lawns.yaml in one system of units, worked out by the model. `changed` gives
another scene, with some inputs replaced; `moved` the computed columns that are not as they were.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cache, cached_property
from pathlib import Path
from typing import Any, Final

import numpy as np

from wbgen.files import shipped
from wbgen.files.diagnostics import Report
from wbgen.inputs.from_site import fill
from wbgen.inputs.rows import Cell, cell_value
from wbgen.model.binding import Model
from wbgen.model.figures import magnitudes
from wbgen.model.inputs import TEXT, Inputs
from wbgen.records.site.site import load_site_and_catalogue
from wbgen.sheets.book import Book, shipped_templates
from wbgen.sheets.column import Column, System
from wbgen.sheets.formula_tree import Node, parse
from wbgen.sheets.macros import written_out

TODAY: Final = date(2026, 6, 30)
DIARY_ROWS: Final = 20

At = tuple[str, str]
"""A column: its table and its key."""
Changes = Mapping[str, Cell]
"""New figures by place, text with its unit: ``table.column`` is the first record, ``table.column@2`` the third, and
``table.column@Urea`` the one of that name."""


class Pasted(str):
    """A text that stands where a number or a date belongs."""

    __slots__ = ()


def place_of(place: str) -> tuple[str, str, str]:
    """Table and column of a place, and the number or the name of its record.

    >>> place_of("diary.lawn@4"), place_of("weather.wind")
    (('diary', 'lawn', '4'), ('weather', 'wind', '0'))
    """
    name, _, record = place.partition("@")
    table, _, key = name.partition(".")
    return table, key, record or "0"


@dataclass(frozen=True)
class Scene:
    """One filled planner. Its figures are worked out when they are first asked for, but for those that are `kept`."""

    book: Book
    inputs: Inputs
    capacities: Mapping[str, int]
    kept: Mapping[At, Any] = field(default_factory=dict)

    @cached_property
    def model(self) -> Model:
        return Model(self.inputs, self.kept)

    @cached_property
    def reads(self) -> Mapping[At, set[At]]:
        """What each computed column read, the figures of all of them being there."""
        for at in computed(self.book):
            self.model.column(*at)
        return self.model.reads

    def figures(self, name: str) -> Any:
        """The bare figures of ``table.column``, one a record, in the unit of the column."""
        table, key, _ = place_of(name)
        return self._bare(self.model, (table, key))

    def figure(self, place: str) -> Any:
        """One bare figure."""
        return self.figures(place)[self.place(place)[2]]

    def place(self, place: str) -> tuple[str, str, int]:
        """Table, column and record (from 0) of a place."""
        table, key, record = place_of(place)
        if record.isdigit():
            return table, key, int(record)
        return table, key, list(self.inputs.values[table]["name"]).index(record)

    def changed(self, changes: Changes) -> Scene:
        """The same planner with some inputs replaced. None, and the empty text, empty a cell."""
        values = {table: dict(columns) for table, columns in self.inputs.values.items()}
        misplaced = dict(self.inputs.misplaced)
        for place, cell in changes.items():
            table, key, record = self.place(place)
            unit = self.inputs.units[table][key]
            figures = values[table][key].copy()
            pasted = isinstance(cell, Pasted)
            figures[record] = ("" if unit == TEXT else np.nan) if cell is None or pasted else cell_value(cell, unit)
            values[table][key] = figures
            if pasted:
                marks = misplaced.get((table, key), np.zeros(len(figures), dtype=bool)).copy()
                marks[record] = True
                misplaced[table, key] = marks
        return replace(self, inputs=replace(self.inputs, values=values, misplaced=misplaced), kept={})

    def cut(self, table: str, records: int) -> Scene:
        """The same planner with only the first records of a table, as after rows were inserted in all the others."""
        values = {key: column[:records] for key, column in self.inputs.values[table].items()}
        inputs = replace(
            self.inputs,
            values={**self.inputs.values, table: values},
            records={**self.inputs.records, table: records},
        )
        return replace(self, inputs=inputs, kept={})

    def moved(self, changes: Changes) -> set[At]:
        """The computed columns in which some figure differs once the changes are made."""
        other = self.followed(changes)
        anew = (at for at, figures in other.kept.items() if figures is not self.model.column(*at))
        return {at for at in anew if not same(self._bare(self.model, at), self._bare(other.model, at))}

    def followed(self, changes: Changes) -> Scene:
        """As `changed`, all worked out: what reads a column that has other figures, anew; the rest is kept."""
        other, kept = self.changed(changes), dict[At, Any]()
        model = Model(other.inputs)
        model.given = kept
        differs = {place_of(place)[:2] for place in changes}
        for at in self._in_order:
            before = kept[at] = self.model.column(*at)
            if not differs.isdisjoint(self.reads[at]):
                del kept[at]
                kept[at] = model.column(*at)
                if not _identical(before, kept[at]):
                    differs.add(at)
        return replace(other, kept=kept)

    @cached_property
    def _in_order(self) -> list[At]:
        """The computed columns, each after those that it read."""
        found: dict[At, None] = {}

        def after_its_own(at: At) -> None:
            for one in self.reads[at] - found.keys():
                if one in self.reads:
                    after_its_own(one)
            found[at] = None

        for at in self.reads:
            if at not in found:
                after_its_own(at)
        return list(found)

    def _bare(self, model: Model, at: At) -> Any:
        return magnitudes(model.column(*at), self.inputs.units[at[0]][at[1]], self.inputs.records[at[0]])


def same(one: Any, other: Any) -> bool:
    """Whether two columns hold the same, the noise of floats aside."""
    if one.dtype == object:
        return list(one) == list(other)
    return bool(np.allclose(one, other, rtol=1e-9, atol=0, equal_nan=True))


def _identical(one: Any, other: Any) -> bool:
    """Whether two columns are the same to the last digit, in the same unit."""
    if getattr(one, "units", None) != getattr(other, "units", None):
        return False
    bare, there = (np.asarray(getattr(column, "magnitude", column)) for column in (one, other))
    numbers = bare.dtype.kind == there.dtype.kind == "f"
    return np.array_equal(bare, there, equal_nan=True) if numbers else bare.tolist() == there.tolist()


def columns(book: Book, role: str) -> Iterator[tuple[str, Column]]:
    """Every column of one role, with the key of its table."""
    for table in book.tables.values():
        for column in table.columns:
            if column.role == role:
                yield table.key, column


def computed(book: Book) -> Iterator[At]:
    for table, column in columns(book, "formula"):
        yield table, column.key


@cache
def scene(text: str, system: System, products: str = "") -> Scene:
    """The planner of a lawns.yaml; `products` is the text of the user's own products, which it names own.yaml."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "lawns.yaml").write_text(text, encoding="utf-8")
        (folder / "own.yaml").write_text(products, encoding="utf-8")
        site, catalogue = load_site_and_catalogue(folder / "lawns.yaml", (shipped.product_catalogue(),))
    report = Report()
    filled = fill(shipped_templates().book(system), site, catalogue, DIARY_ROWS, TODAY, report)
    report.raise_any()
    return Scene(shipped_templates().book(system), filled.inputs, filled.capacities)


def own_formula(book: Book, at: At) -> Node:
    """The tree of a column's formula without its guard."""
    column = next(one for one in book.tables[at[0]].columns if one.key == at[1])
    return parse(written_out(column.meaning.formula or ""))


def is_echo(node: Node) -> bool:
    """Whether a formula only shows a figure that stands elsewhere, or nothing where that is empty.

    >>> is_echo(parse('IF(INDEX(own.rate,line)="","",INDEX(own.rate,line))')), is_echo(parse("rate*area"))
    (True, False)
    """
    match node.kind, node.value:
        case "reference", _:
            return True
        case "function", "INDEX":
            return node.children[0].kind == "reference"
        case "function", "N":
            return is_echo(node.children[0])
        case "function", "IFERROR":
            return is_echo(node.children[0]) and _nothing(node.children[1])
        case "function", "IF":
            condition, *branches = node.children
            shown = [branch for branch in branches if not _nothing(branch)]
            return condition.value in ("=", "<>") and _nothing(condition.children[1]) and all(map(is_echo, shown))
        case "operator", "&":
            return is_echo(node.children[0]) and _nothing(node.children[1])
    return False


def _nothing(node: Node) -> bool:
    return node.kind == "text" and node.value == ""


def said(node: Node) -> Iterator[str]:
    """The texts that a formula may show, or a part of it: not those that it only compares or looks for.

    A text that begins with what SUBSTITUTE takes away may stand first, and so without it.

    >>> list(said(parse('TRIM(IF(kind="jar","thick; ","")&name&" so")')))
    ['thick; ', ' so']
    >>> list(said(parse('SUBSTITUTE(IF(kind="jar","; thick",""),"; ","",1)')))
    ['thick']
    """
    children = node.children
    match node.kind, node.value:
        case "text", text if text:
            yield str(text)
        case "operator", "&":
            shown = children
        case "function", "IF" | "CHOOSE":
            shown = children[1:]
        case "function", "IFERROR":
            shown = children
        case "function", "SUBSTITUTE":
            yield from (text.removeprefix(str(children[1].value)) for text in said(children[0]))
            return
        case "function", "TRIM" | "LEFT" | "MID":
            shown = children[:1]
        case _:
            return
    if node.kind != "text":
        for child in shown:
            yield from said(child)
