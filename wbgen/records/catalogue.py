"""The product catalogue: every product and every source of some files, checked.

`load_catalogue` reads the files that belong to the planner and then a user's own, which may add products and override
single fields of known ones. A field that is overridden is replaced as a whole; a field that is given without a value
becomes "not stated". A fact may be written short (`facts`); one of a user's own that states no basis has the label, or
the user, for it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from collections.abc import Mapping as Keyed
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

from wbgen.files.diagnostics import Place, Report, did_you_mean, shown
from wbgen.files.yaml.nodes import Entry, Listing, Mapping, Node, Scalar, kind_of
from wbgen.files.yaml.records import Record, items_of, known_keys, read_record
from wbgen.files.yaml.tree import load
from wbgen.records.basis import UNSTATED, Basis, BasisOf, Source, basis_text
from wbgen.records.facts import spelt_out
from wbgen.records.meant import folded, slip_of
from wbgen.records.product import Product
from wbgen.records.product_rules import check_product


@dataclass(frozen=True)
class Catalogue:
    """Products in the order of the files, and the sources by key."""

    products: tuple[Product, ...]
    sources: Keyed[str, Source]

    def product(self, name: str) -> Product | None:
        """The product of a name or a synonym, ignoring case, or None."""
        return self._by_name.get(folded(name))

    def meant(self, name: str) -> str:
        """The name of the product that a name which is not known is a slip of, or ""."""
        return slip_of(name, self._names)

    @cached_property
    def _names(self) -> dict[str, str]:
        return {word: product.name for product in self.products for word in (product.name, *product.synonyms)}

    @cached_property
    def _by_name(self) -> dict[str, Product]:
        by_synonym = {folded(word): product for product in self.products for word in product.synonyms}
        return by_synonym | {folded(product.name): product for product in self.products}

    def basis_text(self, basis: Basis) -> str:
        """The basis of a fact as a sheet prints it."""
        return basis_text(basis, self.sources)


def load_catalogue(paths: Sequence[Path], own: Sequence[Path] = ()) -> Catalogue:
    """Read the files of a catalogue; a folder stands for the .yaml files in it, by name.

    `paths` may not name a product twice; the files `own`, in their order, override the products that they name again.
    Raises InputError with every finding of all the files.
    """
    report = Report()
    catalogue = read_catalogue(paths, own, report)
    report.raise_any()
    return catalogue


def read_catalogue(paths: Sequence[Path], own: Sequence[Path], report: Report) -> Catalogue:
    """As `load_catalogue`, but what is wrong goes to the report and what is right is returned."""
    products: dict[str, Node] = {}
    cited: dict[str, Entry] = {}
    bases: list[Basis] = []
    for path, overrides in [*((p, False) for p in _files(paths)), *((p, True) for p in _files(own))]:
        top = _top(path, report)
        basis, node = _basis_of_file(top.get("basis"), overrides, path, report)
        bases += [basis] if basis else []
        items = [spelt_out(item, node) for item in items_of(top.get("products"), "products", report)]
        _merge(products, items, overrides, report)
        _merge_sources(cited, top.get("sources"), report)
    sources = {key: source for key, entry in cited.items() if (source := read_record(Source, entry.value, report))}
    read = [product for node in products.values() if (product := read_record(Product, node, report))]
    check_synonyms(read, {str(path) for path in _files(own)}, report)
    for product in read:
        check_product(product, report)
        bases += _bases(product)
    _check_sources(bases, tuple(cited), report)
    _check_families(read, report)
    return Catalogue(tuple(read), sources)


def _files(paths: Sequence[Path]) -> Iterator[Path]:
    for path in paths:
        yield from sorted(path.glob("*.yaml")) if path.is_dir() else (path,)


def _top(path: Path, report: Report) -> dict[str, Node]:
    node = load(path, report)
    return known_keys(node, ("products", "sources", "basis"), report) if node else {}


class _Head(Record):
    basis: BasisOf | None = None


def _basis_of_file(node: Node | None, own: bool, path: Path, report: Report) -> tuple[Basis | None, Node | None]:
    """The basis that a file states for all of it, and what its facts without one have: in an own file never nothing."""
    place = Place(str(path))
    default = Scalar(place, UNSTATED, UNSTATED) if own else None
    if node is None:
        return None, default
    head = read_record(_Head, Mapping(place, (Entry("basis", node.place, node),)), report)
    return (head.basis, node) if head else (None, node)


def _merge(products: dict[str, Node], items: Sequence[Node], overrides: bool, report: Report) -> None:
    here: dict[str, Place] = {}
    words = {folded(word): key for key, node in products.items() for word in _names_in(node)}
    for item in items:
        name = item.get("name") if isinstance(item, Mapping) else None
        # One without a name that can be read is kept apart under its place, and reported when it is made a record.
        written = folded(name.text) if isinstance(name, Scalar) else str(item.place)
        key = words.get(written, written)
        place = name.place if name else item.place
        known = products.get(key)
        if key in here or (known and not overrides):
            first = here.get(key) or (known or item).place
            report.add("duplicate-name", place, "a product of this name is there already",
                       expected="a name once, ignoring case", found=f"also at {first}",
                       remedy="choose another name, or delete one of the two")  # fmt: skip
            continue
        here[key] = place
        if isinstance(name, Scalar) and _unclear(name, item, known, overrides, products, report):
            continue
        if isinstance(known, Mapping) and isinstance(item, Mapping):
            products[key] = _overridden(known, item)
        else:
            products[key] = item
        words |= {folded(word): key for word in _names_in(item)}


def _unclear(
    name: Scalar, item: Node, known: Node | None, overrides: bool, products: Keyed[str, Node], report: Report
) -> bool:
    """Whether an own product is likely to mean a known one, or is called by another name of it; the report says so."""
    whole = not isinstance(item, Mapping) or item.get("form") is not None
    if overrides and known is None and not whole and (near := _meant(name, products)):
        report.add("unknown-product", name.place, "there is no product of this name to override",
                   expected="a known product, or one with its form and family", found=shown(name.text),
                   remedy=f"did you mean {near}? For a new product, add form and family")  # fmt: skip
        return True
    own = next(iter(_names_in(known)), "") if known else ""
    if whole and own and folded(own) != folded(name.text):
        report.add("synonym", name.place, f"{shown(name.text)} is another name of {own}",
                   expected="the name of a new product, or of a known one", found=shown(name.text),
                   remedy=f"write name: {own} to change that one, or choose another name")  # fmt: skip
        return True
    return False


def _meant(name: Scalar, products: Keyed[str, Node]) -> str:
    """The known product of which a name is a slip, or ""."""
    return slip_of(name.text, {word: names[0] for node in products.values() if (names := _names_in(node))
                               for word in names})  # fmt: skip


def _names_in(product: Node) -> list[str]:
    """The name and the synonyms of a product that was not made a record yet."""
    if not isinstance(product, Mapping):
        return []
    synonyms = product.get("synonyms")
    nodes = (product.get("name"), *(synonyms.items if isinstance(synonyms, Listing) else ()))
    return [node.text for node in nodes if isinstance(node, Scalar)]


def check_synonyms(products: Sequence[Product], own: Set[str], report: Report) -> None:
    """A name or a synonym is of one product, and there once; of two the one in a file of the user's `own` is told."""
    named = [(product.name, product, product.place_of("name")) for product in products]
    synonyms = [(word, product, product.place_of(f"synonyms[{number}]"))
                for product in products for number, word in enumerate(product.synonyms, 1)]  # fmt: skip
    first: dict[str, tuple[str, Product, Place]] = {}
    for one in [*named, *sorted(synonyms, key=lambda synonym: synonym[2].file in own)]:
        word, product, place = one
        earlier = first.setdefault(folded(word), one)
        if earlier is one or one in named:
            continue
        said = f"is a name of {earlier[1].name}"
        if earlier[1] is product:
            said = "is its own name" if earlier in named else "is there twice"
        report.add("synonym", place, f"{product.name}: {shown(word)} {said}", expected="a name of one product, once",
                   found=f"also at {earlier[2]}", remedy="delete it, or choose another")  # fmt: skip


def _overridden(known: Mapping, own: Mapping) -> Mapping:
    """The product with the user's fields in place of its own; it keeps the place and the name it has."""
    new = {entry.key: entry for entry in own.entries if entry.key != "name"}
    kept = [new.pop(entry.key, entry) for entry in known.entries]
    return replace(known, entries=(*kept, *new.values()))


def _merge_sources(sources: dict[str, Entry], node: Node | None, report: Report) -> None:
    if node is None:
        return
    if not isinstance(node, Mapping):
        report.add("wrong-shape", node.place, "this must be sources by key", expected="keys and values",
                   found=kind_of(node), remedy="write key: {title: ..., where: ..., seen: ...}")  # fmt: skip
        return
    for entry in node.entries:
        first = sources.setdefault(entry.key, entry)
        if first is not entry:
            report.add("duplicate-name", entry.place, f"a source {entry.key!r} is there already",
                       found=f"also at {first.place}", remedy="choose another key")  # fmt: skip


def _check_sources(bases: Sequence[Basis], sources: Sequence[str], report: Report) -> None:
    for basis in bases:
        for key, place in basis.sources:
            if key not in sources:
                report.add("unknown-source", place, f"there is no source {shown(key)}",
                           expected="a key under sources", found=shown(key),
                           remedy=did_you_mean(key, sources) or "add it under sources")  # fmt: skip


def _bases(product: Product) -> Iterator[Basis]:
    if product.basis:
        yield product.basis
    for _, value in product:
        if isinstance(value, Record) and isinstance(basis := getattr(value, "basis", None), Basis):
            yield basis


def _check_families(products: Sequence[Product], report: Report) -> None:
    spelt: dict[str, Product] = {}
    for product in products:
        first = spelt.setdefault(product.family.casefold(), product)
        if first.family != product.family:
            report.add("family-spelling", product.place_of("family"), "this family is spelt in two ways",
                       expected=first.family, found=product.family, remedy=f"write {first.family}")  # fmt: skip
