"""One workbook with all vectors of a planner in it, recalculated by LibreOffice, and what it and the model say."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from pathlib import Path
from typing import Any, Final

from support import office
from vectors.cases import NAMED_BY, PLANNERS, Answer, Vector, files_of
from wbgen.files import shipped
from wbgen.files.diagnostics import Report
from wbgen.files.xlsx.workbook import File, read
from wbgen.inputs.from_site import fill
from wbgen.inputs.from_workbook import stored_value, tables_in
from wbgen.inputs.locate import Found
from wbgen.inputs.rows import cell_value
from wbgen.model.binding import Model
from wbgen.model.figures import all_figures
from wbgen.model.inputs import NOT_YET, Inputs, blank_column
from wbgen.records.site.site import load_site_and_catalogue
from wbgen.sheets.book import Book, compile_book, shipped_templates
from wbgen.sheets.column import System
from wbgen.sheets.layout import lay_out
from wbgen.units.quantity import convert
from wbgen.writer.workbook import write

TODAY: Final = date(2026, 12, 31)
Figures = Mapping[str, Mapping[str, Any]]
Readings = dict[str, list[Any]]
"""By vector: what a witness has in each of its cells, in the unit of the answer."""


@dataclass(frozen=True)
class Drafted:
    """The planner of some vectors before it is written: its inputs, and the model's figures."""

    book: Book
    inputs: Inputs
    capacities: Mapping[str, int]
    figures: Figures

    def readings(self, chosen: Sequence[Vector], read_cell: Callable[[Answer, int], Any]) -> Readings:
        """What `read_cell` finds in each cell; its number is that of the record that the answer means."""
        return {
            vector.id: [_shown(read_cell(one, _record(self.figures, one)), self.book, one) for one in vector.cells]
            for vector in chosen
        }


def by_model(planner: str, chosen: Sequence[Vector], folder: Path) -> Readings:
    """What the model has."""
    drafted = _drafted(planner, chosen, folder)
    return drafted.readings(chosen, lambda cell, index: drafted.figures[cell.table][cell.column][index])


def by_workbook(planner: str, chosen: Sequence[Vector], folder: Path) -> Readings:
    """What the planner has that is written in `folder` and recalculated.

    It is written without one computed figure, so that whatever it holds afterwards is LibreOffice's own.
    """
    drafted = _drafted(planner, chosen, folder)
    book, layout = drafted.book, lay_out(drafted.book.sheets, drafted.capacities)
    path, midnight = folder / f"{planner}.xlsx", datetime.combine(TODAY, time())
    bare = _bare(book, drafted.inputs)
    write(path, book, layout, compile_book(book, layout.placed), bare, "EUR", midnight)
    file = read(office.recalculate(path, folder / "recalculated"))
    found = tables_in(file, book)
    assert stored_value(file, found, "start", "recalculated") not in (None, "", NOT_YET), "nothing was recalculated"
    return drafted.readings(chosen, lambda cell, index: _stored(file, found, cell, index))


def _drafted(planner: str, chosen: Sequence[Vector], folder: Path) -> Drafted:
    """The planner of the vectors, whose files go into `folder`."""
    folder.mkdir()
    system: System = "us" if PLANNERS[planner] == "us" else "metric"
    lawns, products = files_of(chosen, system)
    (folder / "lawns.yaml").write_text(lawns, encoding="utf-8")
    (folder / "products.yaml").write_text(products, encoding="utf-8")
    site, catalogue = load_site_and_catalogue(folder / "lawns.yaml", (shipped.product_catalogue(),))
    book, report = shipped_templates().book(system), Report()
    filled = fill(book, site, catalogue, 0, TODAY, report)
    report.raise_any()
    inputs = _typed(filled.inputs, chosen)
    return Drafted(book, inputs, filled.capacities, all_figures(Model(inputs), book.formulas))


def _typed(inputs: Inputs, chosen: Sequence[Vector]) -> Inputs:
    """The inputs with what the vectors type into the workbook itself."""
    values = {
        table: {key: column.copy() for key, column in columns.items()} for table, columns in inputs.values.items()
    }
    for vector in chosen:
        for where, given in vector.typed.items():
            table, _, column = where.partition(".")
            for name, text in given.items() if isinstance(given, dict) else [("", given)]:
                names = values[table].get(NAMED_BY.get(table, "name"), [""])
                index = list(names).index(name) if name else 0
                values[table][column][index] = cell_value(text, inputs.units[table][column])
    return replace(inputs, values=values)


def _bare(book: Book, inputs: Inputs) -> dict[str, dict[str, Any]]:
    figures = {
        key: {
            column.key: inputs.values[key][column.key]
            if column.role != "formula"
            else blank_column(book.units[key][column.key], inputs.records[key])
            for column in table.columns
        }
        for key, table in book.tables.items()
    }
    figures["start"]["recalculated"][0] = NOT_YET
    return figures


def _record(figures: Figures, answer: Answer) -> int:
    """The number of the one record that an answer means; a form has only one."""
    columns = figures.get(answer.table, {})
    if answer.column not in columns:
        raise LookupError(f"there is no column {answer.table}.{answer.column}")
    records = [
        index
        for index in range(len(columns[answer.column]))
        if all(columns[key][index] == value for key, value in answer.at.items())
    ]
    if answer.at and len(records) != 1:
        raise LookupError(f"{len(records)} records of {answer.table} have {dict(answer.at)}")
    return records[0]


def _stored(file: File, found: Found, answer: Answer, index: int) -> Any:
    placed = found.placed[answer.table]
    sheet = file.sheet(placed.sheet)
    cell = sheet.cells.get(placed.cell(answer.column, index)) if sheet else None
    return "" if cell is None or cell.value is None else cell.value


def _shown(value: Any, book: Book, answer: Answer) -> float | str:
    """A figure of a cell in the answer's unit; text, and blank as empty text, stay as they are."""
    if isinstance(value, str) or value != value:
        return value if isinstance(value, str) else ""
    unit = book.units[answer.table][answer.column]
    return convert(float(value), unit, answer.unit) if answer.unit else float(value)
