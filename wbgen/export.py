"""Any table of a workbook as rows for other programs."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from wbgen.files.diagnostics import Diagnostic, InputError, Place, did_you_mean
from wbgen.files.xlsx.refusal import UnsafeFile
from wbgen.files.xlsx.workbook import read
from wbgen.inputs.design import Design
from wbgen.inputs.from_workbook import book_of, tables_in
from wbgen.model.inputs import DATE, TEXT
from wbgen.units.quantity import label
from wbgen.verify.compare import is_blank
from wbgen.verify.engine.process import Engine, evaluating
from wbgen.verify.figure_text import plain_value
from wbgen.verify.recomputed import recompute

FORMULA_SIGNS = ("=", "+", "-", "@")


@dataclass(frozen=True)
class Exported:
    """A table's columns (key, heading, unit) and its rows, blank figures as None, dates as ISO text."""

    table: str
    columns: tuple[dict[str, str], ...]
    rows: tuple[dict[str, Any], ...]


def export(path: Path, table: str, design: Design | None = None) -> Exported:
    """The rows of a table, as the file's own formulas give them; rows without any input are left out.

    `design` None is wbgen's own planner.

    Raises UnsafeFile where the file is refused, InputError where it has no such table.
    """
    with evaluating(path) as engine:
        return _exported(path, table, design or Design(), engine)


def _exported(path: Path, table: str, design: Design, engine: Engine) -> Exported:
    file = read(path, engine.look)
    book = book_of(file, design)
    found = tables_in(file, book)
    if table not in found.placed:
        known = sorted(found.placed)
        raise InputError([
            Diagnostic("unknown-table", Place(str(path)), ", ".join(known), table, did_you_mean(table, known),
                       "there is no such table"),
        ])  # fmt: skip
    if found.lost:
        raise UnsafeFile("not-whole", "every table of a planner", f"{len(found.lost)} lost", "run wbgen verify on it")
    recomputed = recompute(file, book, found, design, engine)
    placed = found.placed[table]
    units = book.units[table]
    columns = tuple(
        {"key": c.key, "heading": c.heading, "unit": "" if units[c.key] in ("", TEXT, DATE) else label(units[c.key])}
        for c in placed.table.columns
    )
    inputs, formulas = recomputed.inputs.values[table], recomputed.columns
    figures = {
        c.key: list(inputs[c.key]) if c.role != "formula" else formulas[table, c.key].engine
        for c in placed.table.columns
    }
    given = [c.key for c in placed.table.columns if c.role != "formula" and not c.meaning.running] or list(figures)
    rows = tuple(
        {key: plain_value(values[record], units[key]) for key, values in figures.items()}
        for record in range(recomputed.inputs.records[table])
        if any(not is_blank(figures[key][record]) for key in given)
    )
    return Exported(table, columns, rows)


def as_json(exported: Exported) -> str:
    """One object: table, columns, rows."""
    return json.dumps(
        {"table": exported.table, "columns": exported.columns, "rows": exported.rows}, ensure_ascii=False, indent=2
    )


def as_csv(exported: Exported) -> str:
    """A line of keys, a line of units, then the rows.

    Text that a spreadsheet program would take for a formula gets an apostrophe before it.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([column["key"] for column in exported.columns])
    writer.writerow([column["unit"] for column in exported.columns])
    for row in exported.rows:
        writer.writerow([_safe(value) for value in row.values()])
    return out.getvalue()


def _safe(value: Any) -> Any:
    return "'" + value if isinstance(value, str) and value.startswith(FORMULA_SIGNS) else value
