"""Evaluates the file's own formulas on the file's own inputs, by formualizer."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import formualizer

from wbgen.files.dates import EPOCH, date_of, serial
from wbgen.files.xlsx.cell_types import ErrorValue
from wbgen.files.xlsx.refusal import SAVE_ANEW, UnsafeFile


def evaluate(path: Path, extents: Mapping[str, tuple[int, int]], today: float) -> dict[str, list[list[Any]]]:
    """The value of every cell of each sheet, by row and column from 0, with the clock set to `today` (a serial date).

    `extents` are the numbers of rows and columns of each sheet. Values are float, str, bool, None or ErrorValue.
    Raises UnsafeFile where the engine cannot load the file.
    """
    try:
        workbook = _loaded(path)
        day = date_of(today)
        workbook.set_deterministic_clock(datetime(day.year, day.month, day.day, 12, tzinfo=UTC))
        workbook.set_temporal_egress("serial")
        workbook.evaluate_all()
    except (
        ValueError, RuntimeError, OSError, formualizer.FormualizerHostError, formualizer.ExcelEvaluationError,
    ) as error:  # fmt: skip
        raise _refusal(str(error)) from error
    values = {}
    for name, (rows, columns) in extents.items():
        if rows and columns:
            area = formualizer.RangeAddress(name, 1, 1, rows, columns)
            values[name] = [[_scalar(value) for value in row] for row in workbook.sheet(name).get_values(area)]
    return values


def _refusal(reason: str) -> UnsafeFile:
    """The engine's own words name a formula; those of a reader that gave up say nothing to a person."""
    if "panicked" in reason or "open failed" in reason:
        return UnsafeFile(
            "unreadable", "a file that every reader opens", "one that the engine's reader does not open", SAVE_ANEW
        )
    return UnsafeFile("unreadable", "formulas that can be evaluated", reason, "look at the formula that is named")


def _loaded(path: Path) -> formualizer.Workbook:
    """The file in the engine, to be calculated once: no log of edits, no range noted cell by cell in the graph of what
    depends on what, and no second thread, which costs more than it gives (the other core is the model's).

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


def _scalar(value: Any) -> Any:
    """A value of the engine as float, str, bool, None or ErrorValue."""
    if isinstance(value, float):
        return value if math.isfinite(value) else ErrorValue("#NUM!")
    if value is None or isinstance(value, (str, bool)):
        return value
    if isinstance(value, int):
        return float(value)
    if isinstance(value, datetime):
        return (value.replace(tzinfo=None) - EPOCH).total_seconds() / 86_400
    if isinstance(value, date):
        return serial(value)
    if isinstance(value, dict):
        return ErrorValue("#" + str(value.get("kind", "ERROR")).upper())
    return str(value)
