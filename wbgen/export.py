"""Any table of a workbook as rows for other programs."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from wbgen.files.dates import day_text
from wbgen.files.diagnostics import Diagnostic, InputError, Place, did_you_mean
from wbgen.files.xlsx.package import UnsafeFile
from wbgen.files.xlsx.workbook import read
from wbgen.inputs.design import Design
from wbgen.inputs.from_workbook import book_of, tables_in
from wbgen.model.inputs import DATE, TEXT
from wbgen.units.quantity import label
from wbgen.verify.compare import is_blank
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
    file = read(path)
    design = design or Design()
    book = book_of(file, design)
    found = tables_in(file, book)
    if table not in found.placed:
        known = sorted(found.placed)
        finding = Diagnostic(
            "unknown-table",
            Place(str(path)),
            ", ".join(known),
            table,
            did_you_mean(table, known),
            "there is no such table",
        )
        raise InputError([finding])
    if found.lost:
        raise UnsafeFile("not-whole", "every table of a planner", f"{len(found.lost)} lost", "run wbgen verify on it")
    opened = recompute(file, book, found, design)
    placed = found.placed[table]
    units = book.units[table]
    columns = tuple(
        {"key": c.key, "heading": c.heading, "unit": "" if units[c.key] in ("", TEXT, DATE) else label(units[c.key])}
        for c in placed.table.columns
    )
    figures = {
        c.key: list(opened.inputs.values[table][c.key]) if c.role != "formula" else opened.columns[table, c.key].engine
        for c in placed.table.columns
    }
    typed = [c.key for c in placed.table.columns if c.role != "formula" and not c.running] or list(figures)
    rows = tuple(
        {key: _plain(values[record], units[key]) for key, values in figures.items()}
        for record in range(opened.inputs.records[table])
        if any(not is_blank(figures[key][record]) for key in typed)
    )
    return Exported(table, columns, rows)


def _plain(value: Any, unit: str) -> Any:
    if is_blank(value):
        return None
    if unit == DATE and not isinstance(value, str):
        return day_text(value)
    return str(value) if isinstance(value, str) else float(value)


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
