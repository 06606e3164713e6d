"""The four witnesses of a formula cell: its text, an engine's value, the model's, and the value stored in the file."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from wbgen.engine import EngineError
from wbgen.figures import bare
from wbgen.inputs import DATE, TEXT, Column, Inputs
from wbgen.model import Model
from wbgen.openxml import UnsafeFile
from wbgen.reader import File
from wbgen.sheets.book import Book
from wbgen.sheets.formula import Compiled
from wbgen.sheets.layout import Placed
from wbgen.units import FLOAT

RELATIVE, ABSOLUTE = 1e-9, 1e-12
"""How far two witnesses' numbers may lie apart: of their size, and near zero."""


@dataclass
class ColumnWitnesses:
    """What the witnesses say of one computed column, record by record.

    `expected` are the template's formulas, `texts` the file's (None where there is none), `engine`, `model`,
    `alone` and `stored` values; `alone` is the model's function fed with the engine's values of its arguments.
    """

    placed: Placed
    key: str
    unit: str
    cells: list[tuple[int, int]]
    expected: list[str]
    texts: list[str | None]
    engine: list[Any]
    stored: list[Any]
    model: Column = field(default_factory=lambda: np.zeros(0))
    alone: Column = field(default_factory=lambda: np.zeros(0))


def normalised(formula: str) -> str:
    """A formula as programs may rewrite it without changing it: no white space, no needless quotes or prefixes.

    >>> normalised("'Diary'!A1 + _xlfn.maxifs(B1:B3,'c d'!C1:C3,\\"a b\\")")
    'Diary!A1+MAXIFS(B1:B3,\\'c d\\'!C1:C3,"a b")'
    """
    parts = re.split(r'("(?:[^"]|"")*")', formula)
    return "".join(part if part.startswith('"') else _outside(part) for part in parts)


def _outside(text: str) -> str:
    text = re.sub(r"'([A-Za-z_]+)'!", r"\1!", text)
    text = re.sub(r"_xlfn\.", "", text, flags=re.IGNORECASE)
    text = re.sub(r"(?<!')\s+(?![^']*'!)", "", text)
    return re.sub(r"([A-Za-z][A-Za-z.]*)\(", lambda match: match.group(1).upper() + "(", text)


def same(one: Any, other: Any) -> bool:
    """Whether two witnesses say the same: both blank, the same text, or numbers within the tolerance."""
    if isinstance(one, (bool, np.bool_)) or isinstance(other, (bool, np.bool_)):
        return type(one) is type(other) and one == other
    if is_blank(one) or is_blank(other):
        return is_blank(one) and is_blank(other)
    if isinstance(one, str) or isinstance(other, str):
        return (
            isinstance(one, str) and isinstance(other, str) and not _error(one) and not _error(other) and one == other
        )
    return bool(abs(one - other) <= ABSOLUTE + RELATIVE * max(abs(one), abs(other)))


def _error(value: str) -> bool:
    return isinstance(value, EngineError)


def is_blank(value: Any) -> bool:
    return value is None or value == "" or (isinstance(value, float) and np.isnan(value))


def gather(
    book: Book, file: File, placed: Mapping[str, Placed], compiled: Mapping[str, Mapping[str, Compiled]],
    engine: Mapping[str, list[list[Any]]], inputs: Inputs,
) -> dict[tuple[str, str], ColumnWitnesses]:  # fmt: skip
    """All witnesses of all computed columns, by table and column."""
    found = {}
    for table, formulas in book.formulas.items():
        sheet = file.sheet(placed[table].sheet)
        cells_of = sheet.cells if sheet else {}
        values = engine.get(placed[table].sheet, [])
        for key in formulas:
            cells = [placed[table].cell(key, record) for record in range(inputs.records[table])]
            texts = [one.formula if (one := cells_of.get(at)) else None for at in cells]
            found[table, key] = ColumnWitnesses(
                placed[table], key, book.units[table][key], cells,
                [compiled[table][key].text(record) for record in range(len(cells))],
                texts,
                [values[row][at] if row < len(values) and at < len(values[row]) else None for row, at in cells],
                [one.value if (one := cells_of.get(at)) else None for at in cells],
            )  # fmt: skip
    try:
        _hear_model(found, inputs)
    except ValueError as error:
        raise UnsafeFile(
            "out-of-step", "tables that go together to have as many records as each other", str(error),
            "look whether rows of one table were inserted or deleted, or its defined name was changed",
        ) from error  # fmt: skip
    return found


def _hear_model(found: Mapping[tuple[str, str], ColumnWitnesses], inputs: Inputs) -> None:
    """The model twice: on the inputs alone, and each function on the engine's values of its arguments."""
    whole = Model(inputs)
    given = {at: _as_value(column, at[0] in inputs.forms) for at, column in found.items()}
    local = Model(inputs, given)
    for (table, key), column in found.items():
        records = inputs.records[table]
        column.model = bare(whole.column(table, key), column.unit, records)
        column.alone = bare(local.compute(table, key), column.unit, records)


def _as_value(column: ColumnWitnesses, form: bool) -> Any:
    """An engine's column as the model takes it."""
    if column.unit == TEXT:
        texts = np.array(["" if value is None else str(value) for value in column.engine], dtype=object)
        return texts[0] if form else texts
    numbers = np.array([value if isinstance(value, float) else np.nan for value in column.engine], dtype=float)
    figures = numbers[0] if form else numbers
    return figures if column.unit in ("", DATE) else FLOAT.Quantity(figures, column.unit)


def cells(found: Mapping[tuple[str, str], ColumnWitnesses]) -> Iterator[tuple[ColumnWitnesses, int]]:
    """Every formula cell, as its column and record."""
    for column in found.values():
        for record in range(len(column.cells)):
            yield column, record
