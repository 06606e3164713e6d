"""Facts of a product as people write them, spelt out: `price: 9.50` is `price: {value: 9.50, basis: ...}`.

A fact without a basis has that of its product, or else that of its file. Only the shape changes here: what is wrong in
a value or a basis is told where records are read, at the place where it was written.
"""

from __future__ import annotations

from functools import cache
from typing import Final, get_args

from wbgen.files.diagnostics import nearest
from wbgen.files.yaml.nodes import Entry, Mapping, Node, Scalar
from wbgen.files.yaml.records import Record
from wbgen.records.product import Analysis, Product
from wbgen.trade.nutrients import FORMS

_BASIS: Final = "basis"
_CONTENTS: Final = "contents"


def spelt_out(product: Node, basis: Node | None) -> Node:
    """The product with every fact as keys and values, each with a basis; `basis` is the file's, None for none."""
    if not isinstance(product, Mapping):
        return product
    own = product.get(_BASIS)
    lent = own if own and not _nothing(own) else basis
    return Mapping(product.place, tuple(_entry(entry, lent) for entry in product.entries))


@cache
def _facts() -> dict[str, type[Record]]:
    """The record of each key of a product that is a fact."""
    return {
        field.alias or name: kind
        for name, field in Product.model_fields.items()
        for kind in get_args(field.annotation)
        if isinstance(kind, type) and issubclass(kind, Record)
    }


def _entry(entry: Entry, basis: Node | None) -> Entry:
    kind = _facts().get(_key(entry.key))
    if kind is None or _nothing(entry.value):
        return entry
    value, plain = entry.value, getattr(kind, "PLAIN", "")
    if not isinstance(value, Mapping):
        if not plain:
            return entry
        value = Mapping(value.place, (Entry(plain, value.place, value),))
    elif kind is Analysis:
        value = _with_contents(value)
    if basis and value.get(_BASIS) is None:
        value = Mapping(value.place, (*value.entries, Entry(_BASIS, value.place, basis)))
    return Entry(entry.key, entry.place, value)


def _key(written: str) -> str:
    """The key of a product that is meant: one that is not known is read as the one it looks like."""
    keys = Product.file_keys()
    return written if written in keys else nearest(written, keys)


def _with_contents(analysis: Mapping) -> Mapping:
    """An analysis whose nutrients stand in it without the word `contents`."""
    keys = Analysis.file_keys()
    shares = tuple(entry for entry in analysis.entries if not nearest(entry.key, keys))
    if analysis.get(_CONTENTS) is not None or not any(share.key in FORMS for share in shares):
        return analysis
    rest = tuple(entry for entry in analysis.entries if entry not in shares)
    return Mapping(analysis.place, (*rest, Entry(_CONTENTS, shares[0].place, Mapping(shares[0].place, shares))))


def _nothing(node: Node) -> bool:
    return isinstance(node, Scalar) and node.value is None and not node.trapped
