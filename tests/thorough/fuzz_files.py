"""Drawn planners as workbooks: written with the model's figures, and heard by the witnesses."""

from __future__ import annotations

import re
import shutil
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final

from thorough.fuzzing import Case
from wbgen.files.findings import Finding
from wbgen.files.xlsx.addresses import letters
from wbgen.files.xlsx.cell_types import ErrorValue
from wbgen.files.xlsx.workbook import read
from wbgen.inputs.design import Design
from wbgen.inputs.from_workbook import tables_in
from wbgen.model.binding import Model
from wbgen.model.figures import all_figures
from wbgen.sheets.book import Book
from wbgen.sheets.layout import Layout
from wbgen.verify.engine.process import evaluating
from wbgen.verify.judge import judge
from wbgen.verify.recomputed import recompute
from wbgen.verify.witnesses import ColumnWitnesses
from wbgen.writer.workbook import write

INVALID: Final = ("input not valid", "name twice", "unknown name")
"""Findings about what is typed: the case may hold such, and formulas and model must still agree."""


@dataclass(frozen=True)
class Heard:
    """What the witnesses said of a case: findings about its formulas, and the formula cells with an error value."""

    findings: tuple[Finding, ...]
    errors: tuple[str, ...]
    cells: int


def written(case: Case, path: Path) -> Path:
    """The case as a workbook, figures by the model, and some of its blank input cells holding an empty text."""
    inputs, book, layout = case.inputs(), case.book, case.base.layout
    figures = all_figures(Model(inputs), book.formulas)
    write(path, book, layout, case.base.compiled, figures, "EUR", datetime(2026, 6, 30))  # noqa: DTZ001
    _paste_empty(case, layout, path, case.pasted)
    return path


def _paste_empty(case: Case, layout: Layout, path: Path, share: float) -> None:
    """Make a share of the blank input cells hold an empty text, as they do after pasting values."""
    if not share:
        return
    names = {sheet.name: f"xl/worksheets/sheet{number}.xml" for number, sheet in enumerate(case.book.sheets, 1)}
    chosen: dict[str, set[str]] = {}
    for key, placed in layout.placed.items():
        for column in placed.table.columns:
            for record in range(case.records[key] if column.role == "input" else 0):
                row, at = placed.cell(column.key, record)
                if case.draw.random() < share:
                    chosen.setdefault(names[placed.sheet], set()).add(f"{letters(at)}{row + 1}")
    beside = path.with_suffix(".new")
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(beside, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            text = old.read(name)
            new.writestr(name, _emptied(text.decode(), chosen[name]).encode() if name in chosen else text)
    shutil.move(beside, path)


BLANK_CELL: Final = re.compile(r'<c r="([A-Z]+[0-9]+)"( s="[0-9]+")?/>')


def _emptied(text: str, cells: set[str]) -> str:
    def one(found: re.Match[str]) -> str:
        empty = f'<c r="{found[1]}"{found[2] or ""} t="inlineStr"><is><t></t></is></c>'
        return empty if found[1] in cells else found[0]

    return BLANK_CELL.sub(one, text)


def heard(path: Path, book: Book) -> Heard:
    """What the witnesses say of a workbook, findings about what was typed left out."""
    with evaluating(path) as engine:
        file = read(path)
        recomputed = recompute(file, book, tables_in(file, book), Design(), engine)
    findings = [*judge(recomputed), *recomputed.input_findings]
    return Heard(
        tuple(finding for finding in findings if finding.kind not in INVALID),
        tuple(_errors(recomputed.columns.values())),
        sum(len(column.cells) for column in recomputed.columns.values()),
    )


def _errors(columns: Iterable[ColumnWitnesses]) -> Iterator[str]:
    for column in columns:
        for (row, at), value in zip(column.cells, column.engine, strict=True):
            if isinstance(value, ErrorValue):
                yield f"{column.placed.sheet}!{letters(at)}{row + 1} {column.placed.table.key}.{column.key}: {value}"
