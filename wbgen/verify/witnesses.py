"""Gathers the four witnesses of each formula cell: its text, the engine's value, the model's, and the stored one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.inputs.design import Design
from wbgen.inputs.locate import column_cells
from wbgen.model.figures import magnitudes
from wbgen.model.inputs import DATE, TEXT, Figures, Inputs, blank_column
from wbgen.sheets.book import Book
from wbgen.sheets.compile import Compiled
from wbgen.sheets.layout import Placed
from wbgen.units.quantity import FLOAT
from wbgen.units.registry import float_unit
from wbgen.verify.compare import Mask, Side, agree

ColumnKey = tuple[str, str]
"""A column: the key of its table and its own."""


@dataclass
class ColumnWitnesses:
    """What the witnesses say of one computed column, record by record.

    `expected` are the template's formulas, `texts` the file's (None where there is none), without their equals signs.
    `engine`, `global_model`, `local_model` and `stored` are values in `unit`. The global model works from the inputs.
    The local one is the model's function of this column, fed with the engine's values of its arguments; it is the same
    array as the global one where engine and model agree on the column and on all that it reads. `engine`, `evaluated`
    and `agreed` are empty until `add_engine_values` has filled them in.
    """

    placed: Placed
    key: str
    unit: str
    expected: list[str]
    texts: list[str | None]
    stored: list[Any]
    engine: list[Any] = field(default_factory=list)
    global_model: Figures = field(default_factory=lambda: np.zeros(0))
    local_model: Figures = field(default_factory=lambda: np.zeros(0))
    reads: frozenset[ColumnKey] = frozenset()
    """The columns that the model's function read, by table and key."""
    evaluated: Side = field(default_factory=lambda: Side([]))
    """`engine`, ready to be compared."""
    agreed: Mask = field(default_factory=lambda: np.zeros(0, dtype=bool))
    """Where engine and model agree."""

    @property
    def cells(self) -> list[tuple[int, int]]:
        """Row and column of each record, from 0."""
        return [self.placed.cell(self.key, record) for record in range(len(self.texts))]


CellGrid = Sequence[Sequence[Any]]
"""The cells of a sheet, row by row or column by column."""


@dataclass(frozen=True)
class Modelled:
    """What the model makes of the inputs, column by column, and what each column read."""

    figures: Mapping[ColumnKey, Figures]
    reads: Mapping[ColumnKey, set[ColumnKey]]


def text_and_model(
    book: Book, file: File, placed: Mapping[str, Placed], compiled: Mapping[str, Mapping[str, Compiled]],
    modelled: Modelled,
) -> dict[ColumnKey, ColumnWitnesses]:  # fmt: skip
    """The witnesses of all computed columns but the engine, by table and column. `modelled` is from `run_model`."""
    columns = {}
    for table, formulas in book.formulas.items():
        in_file = placed[table]
        sheet = file.sheet(in_file.sheet) or SheetCells(in_file.sheet, False)
        for key in formulas:
            texts, stored = column_cells(sheet, in_file, key)
            column = ColumnWitnesses(
                in_file, key, book.units[table][key], compiled[table][key].texts(in_file.count), texts, stored,
                reads=frozenset(modelled.reads.get((table, key), ())),
            )  # fmt: skip
            column.global_model = column.local_model = modelled.figures[table, key][: len(texts)]
            columns[table, key] = column
    return columns


def add_engine_values(
    columns: Mapping[ColumnKey, ColumnWitnesses],
    engine: Mapping[str, list[list[Any]]],
    inputs: Inputs,
    design: Design,
) -> None:
    """Fill in the engine's values, where they agree with the model, and the local model.

    `engine` has the value of every cell by sheet, row and column from 0.
    """
    sheets = {column.placed.sheet for column in columns.values() if column.placed.table.direction == "down"}
    transposed = {sheet: list(zip(*engine.get(sheet, []), strict=True)) for sheet in sheets}
    for column in columns.values():
        placed = column.placed
        column.engine = _engine_values(
            engine.get(placed.sheet, []), transposed.get(placed.sheet, []), placed, column.key
        )
        column.evaluated = Side(column.engine)
        column.agreed = agree(column.evaluated, Side(column.global_model))
    _add_local_model(columns, inputs, design)


def _add_local_model(columns: Mapping[ColumnKey, ColumnWitnesses], inputs: Inputs, design: Design) -> None:
    """Work out the local model where it can differ from the global one: where witnesses differ on a column or on one
    that it reads."""
    differing = {key for key, column in columns.items() if not column.agreed.all()}
    if not differing:
        return
    local = design.model(inputs, {key: _as_argument(column, key[0], inputs) for key, column in columns.items()})
    with np.errstate(all="ignore"):  # what somebody typed may be of any size
        for (table, key), column in columns.items():
            if (table, key) in differing or column.reads & differing:
                column.local_model = magnitudes(local.compute(table, key), column.unit, inputs.records[table])[
                    : len(column.texts)
                ]


def _engine_values(rows: CellGrid, columns: CellGrid, placed: Placed, key: str) -> list[Any]:
    """A column of an engine's values; None for records beyond the last cell of the sheet that is not empty."""
    row, column = placed.cell(key)
    down = placed.table.direction == "down"
    lines, line, first = (columns, column, row) if down else (rows, row, column)
    values = list(lines[line][first : first + placed.count]) if line < len(lines) else []
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


def _as_argument(column: ColumnWitnesses, table: str, inputs: Inputs) -> Any:
    """An engine's column as the model takes it."""
    figures = blank_column(column.unit, inputs.records[table])
    if column.unit == TEXT:
        figures[: len(column.engine)] = ["" if value is None else str(value) for value in column.engine]
    else:
        figures[: len(column.engine)] = [value if isinstance(value, float) else np.nan for value in column.engine]
    figures.flags.writeable = False
    value = figures[0] if table in inputs.forms else figures
    return value if column.unit in ("", TEXT, DATE) else FLOAT.Quantity(value, float_unit(column.unit))
