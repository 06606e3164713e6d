"""The constants that are the same in every planner of one system: what follows from definitions, what templates say."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Any, Final

from wbgen.inputs.rows import Row, cell_value
from wbgen.sheets.book import Book
from wbgen.sheets.template import Table
from wbgen.trade.families import MONTH_NAMES
from wbgen.trade.nutrients import NUTRIENTS, counted_form, oxide_factor
from wbgen.units.label_rates import RateUnit, offered_units, rate_unit
from wbgen.units.quantity import UnitError, definition, label

_PER_AREA: Final = {"mass rate": "mass_rate", "volume rate": "volume_rate", "pack rate": "pack_rate"}
_DILUTED: Final = {"dilution by volume": "volume_dilution", "dilution by mass": "mass_dilution"}
COLUMN_OF_KIND: Final = {**_PER_AREA, **{f"{n.name} rate": f"rate_{n.key}" for n in NUTRIENTS}, **_DILUTED}
"""The kinds of label rates in the order of their numbers (from 1), each with the column that says what one is."""


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
        "rate_units": tuple(rate_unit_rows(book, offered_units())) if "rate_units" in book.tables else (),
        "oxides": ({f"element_in_{n.key}": float(oxide_factor(n.symbol)) for n in NUTRIENTS if n.oxide},),
    }


def rate_unit_rows(book: Book, units: Iterable[RateUnit]) -> Iterator[Row]:
    """What one of each unit of a label rate is. A nutrient's is of the form that is counted: of P as P₂O₅."""
    for unit in units:
        kind, factor = unit.kind, Fraction(1)
        if unit.nutrient:
            form = counted_form(unit.nutrient)
            kind, factor = f"{form.nutrient.name} rate", form.factor
        column = COLUMN_OF_KIND[kind]
        target = book.units["rate_units"][column]
        if unit.nutrient:
            target = target.replace(f"_{form.nutrient.symbol}/", f"_{unit.nutrient}/")
        yield {
            "rate_unit": unit.printed,
            "kind": kind,
            "kind_number": float(list(COLUMN_OF_KIND).index(kind) + 1),
            column: unit.one_in(target, factor),
        }


def rate_units_said(texts: Sequence[str]) -> Iterator[RateUnit | None]:
    """The units of a planner's own label rates, which stand below those that every planner offers, by their texts.

    None for a text that is no such unit.
    """
    for text in texts[len(offered_units()) :]:
        try:
            yield rate_unit(text)
        except UnitError:
            yield None


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


def given_constants(book: Book, rate_units: Sequence[str] = ()) -> Mapping[tuple[str, str], Sequence[Any]]:
    """The constants that are the same in every planner of one system, by table and column, record by record.

    None where a record has none. `rate_units` are the units of label rates that a planner has, by their texts: what
    one of each is follows from the text.
    """
    rows: dict[str, Sequence[Row]] = {**defined(book), **of_templates(book), "start": [{"units": book.system}]}
    for own in rate_units_said(rate_units):
        rows["rate_units"] = (*rows["rate_units"], *(rate_unit_rows(book, [own]) if own else [{}]))
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
