"""The constant columns of a planner: what is defined, sources, and the texts of the templates."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import wbgen
from wbgen.files.yaml.records import Record
from wbgen.inputs.constants import defined, of_templates, rate_unit_rows
from wbgen.inputs.rows import Row
from wbgen.records.basis import SEEN, Basis
from wbgen.records.catalogue import Catalogue
from wbgen.records.product import Product
from wbgen.sheets.book import Book
from wbgen.trade.nutrients import NUTRIENTS, oxide_factor_derivation
from wbgen.units.label_rates import RateUnit, offered_units


def constants(book: Book, catalogue: Catalogue, built_on: date) -> dict[str, tuple[Row, ...]]:
    """The records of every table that a build fills by itself."""
    same = of_templates(book) | defined(book)
    if "rate_units" in same:
        same["rate_units"] += tuple(rate_unit_rows(book, _own_rate_units(catalogue)))
    return same | {
        "sources": tuple(_sources(catalogue)),
        "facts": tuple(_facts(catalogue)),
        "start": ({"units": book.system, "built_by": f"wbgen {wbgen.__version__}", "built_on": built_on.isoformat()},),
    }  # fmt: skip


def _own_rate_units(catalogue: Catalogue) -> list[RateUnit]:
    """The units of the products' label rates that are not those that every planner offers, each once."""
    rates = (rates for product in catalogue.products for rates in (product.spray, product.dry) if rates)
    offered = {unit.printed for unit in offered_units()}
    return [unit for unit in dict.fromkeys(rate.usual.label_unit for rate in rates) if unit.printed not in offered]


def _sources(catalogue: Catalogue) -> Iterator[Row]:
    for key, source in sorted(catalogue.sources.items()):
        yield {"source": key, "citation": source.cited(), "seen": SEEN[source.seen]}
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
