"""Small tables written by hand, for the model to work on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from wbgen.model.binding import Model
from wbgen.model.inputs import TEXT, Inputs, blank_column

Value = Any
Table = Mapping[str, tuple[str, Any]]
"""By column: its unit, and its figures from the first record on; the rest is blank. In a form, one figure."""

NO = np.nan


def planner(
    tables: Mapping[str, Table], records: Mapping[str, int], today: float = 0.0, misplaced: Sequence[str] = ()
) -> Model:
    """The model of the tables; those without a number of records are forms.

    `misplaced` names inputs (table.column, or table.column@2 for the third record) in which a text stands for a number:
    their figures are blank, whatever the tables say, as those of a file are.
    """
    texts = _marks(misplaced, records)

    def column(table: str, key: str, unit: str, figures: Any) -> Any:
        if table not in records:
            whole = np.array([figures], dtype=object if unit == TEXT else float)
        else:
            whole = blank_column(unit, records[table])
            whole[: len(figures)] = figures
        if (table, key) in texts:
            assert unit != TEXT, f"{table}.{key} is no column of figures"
            whole[texts[table, key]] = NO
        return whole

    return Model(
        Inputs(
            values={
                table: {key: column(table, key, unit, figures) for key, (unit, figures) in columns.items()}
                for table, columns in tables.items()
            },
            units={table: {key: unit for key, (unit, _) in columns.items()} for table, columns in tables.items()},
            records={table: records.get(table, 1) for table in tables},
            forms=frozenset(tables) - frozenset(records),
            today=today,
            misplaced=texts,
        )
    )


def _marks(misplaced: Sequence[str], records: Mapping[str, int]) -> dict[tuple[str, str], Any]:
    marks: dict[tuple[str, str], Any] = {}
    for place in misplaced:
        name, _, record = place.partition("@")
        table, _, key = name.partition(".")
        marks.setdefault((table, key), np.zeros(records.get(table, 1), dtype=bool))[int(record or 0)] = True
    return marks


def changed(tables: Mapping[str, Table], **columns: tuple[str, Any]) -> dict[str, Table]:
    """The tables with some columns replaced: `mix__date=("date", 5)` is the column `date` of `mix`."""
    found: dict[str, Table] = dict(tables)
    for name, column in columns.items():
        table, _, key = name.partition("__")
        found[table] = {**found.get(table, {}), key: column}
    return found


def bare(value: Value, unit: str = "") -> Any:
    """The figures as a list, or the one figure of a form; in a unit where one is given."""
    numbers = value.to(unit).magnitude if unit else value
    assert unit or not hasattr(numbers, "units"), "a unit that was not asked for"
    return numbers.tolist() if isinstance(numbers, np.ndarray) else numbers


def is_close(found: Any, expected: Any) -> bool:
    """The same figures, as many of them; an expected single figure stands for all."""
    alike = np.ndim(expected) == 0 or np.shape(found) == np.shape(expected)
    return alike and bool(np.allclose(found, expected, rtol=1e-12, atol=1e-12, equal_nan=True))
