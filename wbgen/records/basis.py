"""How a fact is known: published, printed on a label, by stoichiometry, common practice, from memory, or invented."""

from __future__ import annotations

from collections.abc import Mapping as Keyed
from dataclasses import dataclass
from typing import Annotated, Any, Final, Literal

from pydantic_core import core_schema

from wbgen.files.diagnostics import Place, did_you_mean
from wbgen.files.yaml.fields import NumberLeaf, OneOf, Text
from wbgen.files.yaml.nodes import Listing, Scalar
from wbgen.files.yaml.records import PlacedMapping, Record, found_text, wrong

UNSTATED: Final = "label or own figure"
"""The basis of a fact in a user's own file that states none."""
WORDS: Final = ("label", "stoichiometry", "common practice", "memory", "invented", UNSTATED)
_EXPECTED: Final = "{published: <key of a source>} or one of: " + ", ".join(WORDS)


@dataclass(frozen=True, slots=True)
class Basis:
    """`kind` is "published" or one of `WORDS`; `sources` are the keys of the sources, each with its place."""

    kind: str
    sources: tuple[tuple[str, Place], ...] = ()


class _BasisLeaf:
    def __get_pydantic_core_schema__(self, source: object, handler: object) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    def _read(self, data: Any) -> Basis:
        if isinstance(data, Scalar) and data.text in WORDS:
            return Basis(data.text)
        if isinstance(data, PlacedMapping) and set(data) == {"published"}:
            return Basis("published", _sources(data))
        first = next(iter(data), "") if isinstance(data, PlacedMapping) else ""
        word = data.text if isinstance(data, Scalar) else first
        raise wrong("wrong-basis", "this is not a basis", expected=_EXPECTED, found=found_text(data),
                    remedy=did_you_mean(word, ("published", *WORDS)))  # fmt: skip


def _sources(data: PlacedMapping) -> tuple[tuple[str, Place], ...]:
    node = data.node.get("published")
    items = node.items if isinstance(node, Listing) else (node,)
    keys = tuple((item.text, item.place) for item in items if isinstance(item, Scalar) and item.text)
    if not keys or len(keys) < len(items):
        raise wrong("wrong-basis", "this must name a source", expected="{published: <key>} or {published: [key, key]}",
                    found=found_text(data["published"]))  # fmt: skip
    return keys


BasisOf = Annotated[Basis, _BasisLeaf()]


SEEN: Final = {"seen": "read", "secondary": "read in a page that quotes it", "memory": "from memory"}
"""How a source was read, in the words of a sheet."""


class Source(Record):
    """A publication. `seen`: whether it was read in a stored copy, in a page that quotes it, or is from memory."""

    author: Text | None = None
    publisher: Text | None = None
    title: Text
    year: Annotated[int, NumberLeaf(1700, 2100, whole=True)] | None = None
    where: Text | None = None
    seen: Annotated[Literal["seen", "secondary", "memory"], OneOf("seen", "secondary", "memory")]
    note: Text | None = None

    def cited(self) -> str:
        """The source as a reader needs it: who, title, year, where, and whether it was read."""
        parts = (self.author, self.publisher, self.title, str(self.year or ""), self.where)
        return ", ".join(part for part in parts if part) + f" ({SEEN[self.seen]})"


def basis_text(basis: Basis, sources: Keyed[str, Source]) -> str:
    """The basis as a sheet prints it beside the fact; the sources must be known.

    >>> basis_text(Basis("common practice"), {}), basis_text(Basis("memory"), {})
    ('common practice, no source', 'from memory')
    """
    words = {"common practice": "common practice, no source", "memory": "from memory"}
    if basis.kind == "published":
        return "; ".join(sources[key].cited() for key, _ in basis.sources)
    return words.get(basis.kind, basis.kind)
