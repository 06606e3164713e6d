"""The records of a site with every product called by its own name, whatever name of it the file has."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, TypeVar

from wbgen.files.yaml.records import Record
from wbgen.records.catalogue import Catalogue

R = TypeVar("R", bound=Record)


def called_as_in(catalogue: Catalogue, records: Sequence[R], key: str = "product") -> tuple[R, ...]:
    """The records with the catalogue's name of the product whose name or synonym is at `key`; others as they are."""
    return tuple(_with(record, _called(catalogue, record, key)) for record in records)


def _called(catalogue: Catalogue, record: Record, key: str) -> dict[str, Any]:
    product = catalogue.product(getattr(record, key))
    return {key: product.name} if product else {}


def _with(record: R, changes: Mapping[str, Any]) -> R:
    return record.model_copy(update=dict(changes)) if changes else record


def with_list(record: R, key: str, items: Sequence[Record] | None) -> R:
    """The record with another list at `key`."""
    return _with(record, {key: items} if items else {})
