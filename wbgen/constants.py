"""The constant columns of a planner: conversions, units of label rates, sources, and the texts of the templates."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import wbgen
from wbgen.basis import Basis
from wbgen.catalogue import Catalogue
from wbgen.families import MONTH_NAMES
from wbgen.nutrients import NUTRIENTS, oxide_factor, oxide_factor_derivation
from wbgen.product import Product
from wbgen.records import Record
from wbgen.rows import Row
from wbgen.sheets.book import Book
from wbgen.units import convert, definition, label, rate_units

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
_SEEN = {"seen": "read", "secondary": "read in a page that quotes it", "memory": "from memory"}


def constants(book: Book, catalogue: Catalogue, built_on: date) -> dict[str, tuple[Row, ...]]:
    """The records of every table that a build fills by itself."""
    found: dict[str, tuple[Row, ...]] = {
        key: tuple(dict(row) for row in table.rows) for key, table in book.tables.items() if table.rows
    }
    months: tuple[Row, ...] = tuple({"month": name} for name in MONTH_NAMES)
    return found | fixed_constants(book) | {
        "months": months,
        "months_together": months,
        "season_months": months,
        "growth_months": months,
        "budget_months": months,
        "budget_running": months,
        "response_months": months,
        "contents": tuple({"sheet": sheet.name, "holds": sheet.purpose} for sheet in book.sheets[1:]),
        "sources": tuple(_sources(catalogue)),
        "facts": tuple(_facts(catalogue)),
        "start": ({"units": book.system, "built_by": f"wbgen {wbgen.__version__}", "built_on": built_on.isoformat()},),
    }  # fmt: skip


def fixed_constants(book: Book) -> dict[str, tuple[Row, ...]]:
    """The constants that follow from definitions alone, the same in every planner of one system of units."""
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
        "rate_units": tuple(_rate_units(book)),
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


def _sources(catalogue: Catalogue) -> Iterator[Row]:
    for key, source in sorted(catalogue.sources.items()):
        yield {"source": key, "citation": source.cited(), "seen": _SEEN[source.seen]}
    for n in NUTRIENTS:
        if n.oxide:
            yield {
                "source": f"{n.element} in {n.printed}",
                "citation": oxide_factor_derivation(n.symbol),
                "seen": "worked out",
            }


def _facts(catalogue: Catalogue) -> Iterator[Row]:
    for product in catalogue.products:
        for name, basis, note in _based(product):
            known = "published: " + ", ".join(key for key, _ in basis.sources) if basis.sources else None
            words = {"common practice": "common practice, no source", "memory": "from memory"}
            text = known or words.get(basis.kind, basis.kind)
            yield {"product": product.name, "fact": name, "basis": f"{text}. {note}" if note else text}


def _based(product: Product) -> Iterator[tuple[str, Basis, str]]:
    for name, value in product:
        if isinstance(value, Record):
            basis = getattr(value, "basis", None)
            if isinstance(basis, Basis):
                yield name.replace("_", " "), basis, getattr(value, "note", None) or ""
