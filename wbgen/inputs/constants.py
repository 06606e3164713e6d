"""The constants that are the same in every planner of one system: what follows from definitions, what templates say."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from wbgen.inputs.rows import Row, cell_value
from wbgen.sheets.book import Book
from wbgen.sheets.template import Table
from wbgen.trade.families import MONTH_NAMES
from wbgen.trade.nutrients import NUTRIENTS, oxide_factor
from wbgen.units.quantity import convert, definition, label, rate_units

KINDS = (
    "mass rate", "volume rate", "pack rate", "nitrogen rate", "iron rate", "dilution by volume", "dilution by mass",
)  # fmt: skip
"""The kinds of label rates, in the order of their numbers (from 1)."""

_COLUMN_OF_KIND = dict(
    zip(
        KINDS,
        ("mass_rate", "volume_rate", "pack_rate", "nitrogen_rate", "iron_rate", "volume_dilution", "mass_dilution"),
        strict=True,
    )
)


def defined(book: Book) -> dict[str, tuple[Row, ...]]:
    """Their records by table: the same in every planner of one system of units."""
    return {
        "conversions": tuple(
            {
                "conversion": found.key.replace("_", " "),
                "source_unit": label(found.source),
                "target_unit": label(found.target),
                "factor": float(found.factor),
                "definition": definition(found.source, found.target),
            }
            for found in book.conversions
        ),
        "rate_units": tuple(_rate_units(book)) if "rate_units" in book.tables else (),
        "oxides": ({f"element_in_{n.key}": float(oxide_factor(n.symbol)) for n in NUTRIENTS if n.oxide},),
    }


def _rate_units(book: Book) -> Iterator[Row]:
    for unit in rate_units():
        kind = unit.kind
        if kind == "nutrient rate":
            kind = {"N": "nitrogen rate", "Fe": "iron rate"}[unit.nutrient or ""]
        column = _COLUMN_OF_KIND[kind]
        yield {
            "rate_unit": unit.printed,
            "kind": kind,
            "kind_number": float(KINDS.index(kind) + 1),
            column: convert(1, unit.unit, book.units["rate_units"][column]),
        }


def of_templates(book: Book) -> dict[str, tuple[Row, ...]]:
    """What the templates themselves say: records that are written in them, the months, the contents of the book."""
    tables = book.tables.items()
    months: tuple[Row, ...] = tuple({"month": name} for name in MONTH_NAMES)
    return {
        **{key: tuple(dict(row) for row in table.rows) for key, table in tables if table.rows},
        **{key: months for key, table in tables if table.records == "months"},
        "contents": tuple({"sheet": sheet.name, "holds": sheet.purpose} for sheet in book.sheets[1:]),
    }


def settings_tables(book: Book) -> Iterator[Table]:
    """The forms whose inputs are settings of the user's, as far as the book has them."""
    tables = book.tables
    return (tables[key] for key in ("settings", "limits", "rules") if key in tables)


def given_constants(book: Book) -> Mapping[tuple[str, str], Sequence[Any]]:
    """The constants that are the same in every planner of one system, by table and column, record by record.

    None where a record has none.
    """
    rows: dict[str, Sequence[Row]] = {**defined(book), **of_templates(book), "start": [{"units": book.system}]}
    tables = book.tables
    return {
        (key, column.key): [
            None if (cell := row.get(column.key)) is None else cell_value(cell, book.units[key][column.key])
            for row in records
        ]
        for key, records in rows.items()
        if key in tables
        for column in tables[key].columns
        if column.role == "constant" and (key != "start" or column.key == "units")
    }
