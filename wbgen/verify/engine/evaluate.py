"""Evaluates the file's own formulas on the file's own inputs, by formualizer."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any, Final

import formualizer

from wbgen.files.dates import EPOCH, date_of, serial

REFUSALS: Final = (
    ValueError, RuntimeError, OSError, formualizer.FormualizerHostError, formualizer.ExcelEvaluationError,
)  # fmt: skip
"""What formualizer raises where it cannot take a file or one of its formulas."""

_ERRORS: Final = {
    "Div": "#DIV/0!", "Na": "#N/A", "Name": "#NAME?", "Null": "#NULL!", "Num": "#NUM!", "Ref": "#REF!",
    "Value": "#VALUE!",
}  # fmt: skip
"""The errors as spreadsheets show them (ECMA-376 part 1, 18.17.3), by the names that formualizer has for them."""

Values = dict[str, list[list[Any]]]
"""The cells of each sheet, by row and column from 0: float, str, bool, None, or an error as {"error": "#N/A"}."""


def loaded(path: Path) -> formualizer.Workbook:
    """The file in the engine, to be calculated once: no log of edits, no range noted cell by cell in the graph of what
    depends on what, and no second thread, which costs more than it gives (the other core reads the file).

    Its first reader refuses a file with a stored error value that is new to it, such as #SPILL!; its second one,
    which takes longer, does not.
    """
    evaluation = formualizer.EvaluationConfig()
    evaluation.enable_parallel = False
    evaluation.range_expansion_limit = 0
    once = formualizer.WorkbookConfig(eval_config=evaluation, enable_changelog=False)
    try:
        return formualizer.Workbook.from_path(str(path), config=once)
    except OSError:
        return formualizer.Workbook.from_path(str(path), backend="umya", config=once)


def take_out(workbook: formualizer.Workbook, cells: Iterable[tuple[str, int, int]]) -> None:
    """Let formulas that the engine may refuse be errors, so that all that reads them is an error too, and no figure."""
    for sheet, row, column in cells:
        workbook.set_formula(sheet, row + 1, column + 1, "=NA()")


def evaluate(workbook: formualizer.Workbook, today: float) -> None:
    """Evaluate every formula, with the clock set to noon of `today` (a serial date)."""
    day = date_of(today)
    workbook.set_deterministic_clock(datetime(day.year, day.month, day.day, 12, tzinfo=UTC))
    workbook.set_temporal_egress("serial")
    workbook.evaluate_all()


def values(workbook: formualizer.Workbook, extents: Mapping[str, tuple[int, int]]) -> Values:
    """What the cells hold, of so many rows and columns of each sheet."""
    return {
        name: [
            [_scalar(value) for value in row]
            for row in workbook.sheet(name).get_values(formualizer.RangeAddress(name, 1, 1, rows, columns))
        ]
        for name, (rows, columns) in extents.items()
        if rows and columns
    }


def _scalar(value: Any) -> Any:
    """A value of the engine as JSON has it."""
    if isinstance(value, float):
        return value if math.isfinite(value) else {"error": _ERRORS["Num"]}
    if value is None or isinstance(value, (str, bool)):
        return value
    if isinstance(value, int):
        return float(value)
    if isinstance(value, datetime):
        return (value.replace(tzinfo=None) - EPOCH).total_seconds() / 86_400
    if isinstance(value, date):
        return serial(value)
    if isinstance(value, dict):
        kind = str(value.get("kind", "Error"))
        return {"error": _ERRORS.get(kind, f"#{kind.upper()}!")}
    return str(value)
