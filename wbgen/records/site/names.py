"""The names of a file: which others may refer to them, and that each is there once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from wbgen.files.accepted_values import as_read
from wbgen.files.diagnostics import Place, Report, did_you_mean, shown
from wbgen.files.yaml.nodes import Listing, Mapping, Node, Scalar
from wbgen.records.catalogue import Catalogue
from wbgen.records.meant import offer
from wbgen.records.product import Product


class Names:
    """The names that others may refer to, taken from the file even where the rest of a record is wrong."""

    def __init__(self, lawns: Sequence[Node], sprayers: Sequence[Node], people: Node | None) -> None:
        self.lawns, self.sprayers = _texts(lawns, "name"), _texts(sprayers, "name")
        self.groups = _texts(lawns, "group")
        items = people.items if isinstance(people, Listing) else ()
        self.people = tuple(item.text for item in items if isinstance(item, Scalar))


def check_names(nodes: Sequence[Node], what: str, report: Report) -> None:
    """Every record's name is there once, ignoring case."""
    named = (node.get("name") for node in nodes if isinstance(node, Mapping))
    unique(((name.text, name.place) for name in named if isinstance(name, Scalar)), what, report)


def check_people(people: Sequence[tuple[str, Place]], report: Report) -> None:
    """Every person is there once, ignoring case."""
    unique(people, "a person", report)


def known(name: str, place: Place, names: Sequence[str], what: str, report: Report) -> None:
    """A name must be one of those that are known, without regard to case."""
    if name.casefold() in {one.casefold() for one in names}:
        return
    report.add(f"unknown-{what}", place, f"there is no {what} {shown(name)}", expected=f"the name of a {what}",
               found=shown(name), remedy=did_you_mean(name, names) or f"add the {what}")  # fmt: skip


def known_product(name: str, place: Place, catalogue: Catalogue, report: Report) -> Product | None:
    """The product of a name; None where the catalogue has none, which the report says."""
    product = catalogue.product(name)
    if product is None:
        names = [one.name for one in catalogue.products]
        report.add("unknown-product", place, f"there is no product {shown(name)}", expected="the name of a product",
                   found=shown(name), remedy=offer(catalogue.meant(name), names) or "add the product")  # fmt: skip
    return product


def unique(named: Iterable[tuple[str, Place]], what: str, report: Report) -> None:
    """Each name must be there once, ignoring case."""
    first: dict[str, Place] = {}
    for name, place in named:
        earlier = first.setdefault(as_read(name), place)
        if earlier is not place:
            report.add("duplicate-name", place, f"{what} {shown(name)} is there already", found=f"also at {earlier}",
                       expected="a name once, ignoring case", remedy="choose another name, or delete one")  # fmt: skip


def _texts(nodes: Iterable[Node], key: str) -> tuple[str, ...]:
    found = (node.get(key) for node in nodes if isinstance(node, Mapping))
    return tuple(one.text for one in found if isinstance(one, Scalar))


def tell(report: Report, place: Place, message: str, *, expected: str = "", found: str = "", remedy: str = "") -> None:
    """Report a rule of a site that does not hold."""
    report.add("site-rule", place, message, expected=expected, found=found, remedy=remedy)
