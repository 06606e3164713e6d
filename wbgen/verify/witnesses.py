"""The four witnesses of a formula cell: its text, an engine's value, the model's, and the value stored in the file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.inputs.design import Design
from wbgen.inputs.locate import column_cells
from wbgen.model.figures import magnitudes
from wbgen.model.inputs import DATE, TEXT, Column, Inputs, blank_column
from wbgen.sheets.book import Book
from wbgen.sheets.compile import Compiled
from wbgen.sheets.layout import Placed
from wbgen.units.quantity import FLOAT
from wbgen.units.registry import float_unit
from wbgen.verify.compare import Mask, Side, agree


@dataclass
class ColumnWitnesses:
    """What the witnesses say of one computed column, record by record.

    `expected` are the template's formulas, `texts` the file's (None where there is none), `engine`, `global_model`,
    `local_model` and `stored` values. The global model was given the inputs; the local one is the model's function
    alone, fed with the engine's values of its arguments, which is the global one where engine and model agree on the
    column and on all that it reads. `engine`, `evaluated` and `agreed` are empty until `add_engine_values` has filled
    them in.
    """

    placed: Placed
    key: str
    unit: str
    expected: list[str]
    texts: list[str | None]
    stored: list[Any]
    engine: list[Any] = field(default_factory=list)
    global_model: Column = field(default_factory=lambda: np.zeros(0))
    local_model: Column = field(default_factory=lambda: np.zeros(0))
    reads: frozenset[tuple[str, str]] = frozenset()
    """The columns that the model's function read, by table and key."""
    evaluated: Side = field(default_factory=lambda: Side([]))
    """`engine`, ready to be compared."""
    agreed: Mask = field(default_factory=lambda: np.zeros(0, dtype=bool))
    """Where engine and model agree."""

    @property
    def cells(self) -> list[tuple[int, int]]:
        """Row and column of each record, from 0."""
        return [self.placed.cell(self.key, record) for record in range(len(self.texts))]


Lines = Sequence[Sequence[Any]]
"""The cells of a sheet, row by row or column by column."""


@dataclass(frozen=True)
class Modelled:
    """What the model makes of the inputs, column by column, and what each column read."""

    figures: Mapping[tuple[str, str], Column]
    reads: Mapping[tuple[str, str], set[tuple[str, str]]]


def text_and_model(
    book: Book, file: File, placed: Mapping[str, Placed], compiled: Mapping[str, Mapping[str, Compiled]],
    modelled: Modelled,
) -> dict[tuple[str, str], ColumnWitnesses]:  # fmt: skip
    """The witnesses of all computed columns but the engine, by table and column. `modelled` is from `run_model`."""
    found = {}
    for table, formulas in book.formulas.items():
        one = placed[table]
        sheet = file.sheet(one.sheet) or SheetCells(one.sheet, False)
        for key in formulas:
            texts, stored = column_cells(sheet, one, key)
            column = ColumnWitnesses(
                one, key, book.units[table][key], compiled[table][key].texts(one.count), texts, stored,
                reads=frozenset(modelled.reads.get((table, key), ())),
            )  # fmt: skip
            column.global_model = column.local_model = modelled.figures[table, key][: len(texts)]
            found[table, key] = column
    return found


def add_engine_values(
    columns: Mapping[tuple[str, str], ColumnWitnesses],
    engine: Mapping[str, list[list[Any]]],
    inputs: Inputs,
    design: Design,
) -> None:
    """Fill in what the engine says of every cell, sheet by sheet, row by row, and what follows from it."""
    sheets = {column.placed.sheet for column in columns.values() if column.placed.table.direction == "down"}
    across = {sheet: list(zip(*engine.get(sheet, []), strict=True)) for sheet in sheets}
    for column in columns.values():
        placed = column.placed
        column.engine = _values(engine.get(placed.sheet, []), across.get(placed.sheet, []), placed, column.key)
        column.evaluated = Side(column.engine)
        column.agreed = agree(column.evaluated, Side(column.global_model))
    _feed_with_engine(columns, inputs, design)


def _feed_with_engine(found: Mapping[tuple[str, str], ColumnWitnesses], inputs: Inputs, design: Design) -> None:
    """Work out `alone` where it can differ from the model: where a column or what it reads is not agreed upon."""
    astray = {at for at, column in found.items() if not column.agreed.all()}
    if not astray:
        return
    local = design.model(inputs, {at: _as_value(column, at[0], inputs) for at, column in found.items()})
    for (table, key), column in found.items():
        if (table, key) in astray or column.reads & astray:
            column.local_model = magnitudes(local.compute(table, key), column.unit, inputs.records[table])[
                : len(column.texts)
            ]


def _values(rows: Lines, columns: Lines, placed: Placed, key: str) -> list[Any]:
    """A column of an engine's values; None for records beyond the last cell of the sheet that is not empty."""
    row, column = placed.cell(key)
    lines, at, first = (columns, column, row) if placed.table.direction == "down" else (rows, row, column)
    values = list(lines[at][first : first + placed.count]) if at < len(lines) else []
    return values + [None] * (placed.count - len(values))


def run_model(book: Book, inputs: Inputs, design: Design) -> Modelled:
    """What the model makes of the inputs: it has seen no formula and no result.

    Tables of one kind may have fewer rows in a file than each other; the model knows them in one length.
    """
    model = design.model(inputs)
    figures = {
        (table, key): magnitudes(model.column(table, key), book.units[table][key], inputs.records[table])
        for table, formulas in book.formulas.items()
        for key in formulas
    }
    return Modelled(figures, model.reads)


def _as_value(column: ColumnWitnesses, table: str, inputs: Inputs) -> Any:
    """An engine's column as the model takes it."""
    figures = blank_column(column.unit, inputs.records[table])
    if column.unit == TEXT:
        figures[: len(column.engine)] = ["" if value is None else str(value) for value in column.engine]
    else:
        figures[: len(column.engine)] = [value if isinstance(value, float) else np.nan for value in column.engine]
    figures.flags.writeable = False
    value = figures[0] if table in inputs.forms else figures
    return value if column.unit in ("", TEXT, DATE) else FLOAT.Quantity(value, float_unit(column.unit))
