"""What a YAML file is as a tree: single values, lists, and keys with their values, each with its place in the file."""

from __future__ import annotations

from dataclasses import dataclass

from wbgen.files.diagnostics import Place, shown
from wbgen.files.yaml.plain_scalars import Value


@dataclass(frozen=True, slots=True)
class Scalar:
    """A single value: `value` as read, `text` as written. `trapped`: it was refused already, and is kept as text."""

    place: Place
    value: Value
    text: str
    trapped: bool = False


@dataclass(frozen=True, slots=True)
class Listing:
    """A list; the `place` is that of its first item or bracket."""

    place: Place
    items: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """A key of a mapping, where the key stands, and its value."""

    key: str
    place: Place
    value: Node


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys and values in the order written; every key is there once."""

    place: Place
    entries: tuple[Entry, ...]

    def get(self, key: str) -> Node | None:
        """The value of a key, or None where there is none."""
        return next((entry.value for entry in self.entries if entry.key == key), None)

    def place_of(self, key: str) -> Place:
        """Where a key stands; the mapping's own place where there is no such key."""
        return next((entry.place for entry in self.entries if entry.key == key), self.place)


Node = Scalar | Listing | Mapping


def kind_of(node: Node) -> str:
    """What a node is, for a message.

    >>> kind_of(Listing(Place("a.yaml"), ())), kind_of(Scalar(Place("a.yaml"), 5, "5"))
    ('a list', "'5'")
    """
    if isinstance(node, Scalar):
        return shown(node.text) if node.text else "nothing"
    return "a list" if isinstance(node, Listing) else "keys and values"
