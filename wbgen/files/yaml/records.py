"""Records read from a tree of YAML: frozen, strict, and each knowing where it and its values stand in the file.

A record is a subclass of `Record`; its fields use the leaves of `wbgen.files.yaml.fields`. `read_record` turns one
mapping into one record and puts everything that is wrong with it into the report, at the line and column of the very
key or value. A key that is not known is reported and, if it looks like a missing one, read as that one, so that its
value is checked in the same run. A key without a value counts as not given: blank means "not stated", never 0.
"""

from __future__ import annotations

import re
from collections.abc import Mapping as Keyed
from collections.abc import Sequence
from functools import cache
from typing import Annotated, Any, Final, TypeVar

from pydantic import BaseModel, ConfigDict, Field, SkipValidation, ValidationError, ValidationInfo, model_validator
from pydantic_core import ErrorDetails, PydanticCustomError

from wbgen.files.diagnostics import Place, Report, did_you_mean, nearest
from wbgen.files.yaml.nodes import Entry, Listing, Mapping, Node, Scalar, kind_of

# No key of a file holds a line break, so these can never be written by a person.
_PLACE: Final = "\nplace"
_PLACES: Final = "\nplaces"


class PlacedMapping(dict[str, Any]):
    """The keys and plain values of a mapping, and the node they came from."""

    def __init__(self, node: Mapping) -> None:
        super().__init__({entry.key: as_data(entry.value) for entry in node.entries if not _blank(entry.value)})
        self.node = node


class Record(BaseModel):
    """A mapping of the file. Field names are the file's keys, with _ for a space.

    `place` is where the mapping begins; `places` has the place of each of its values and of each item of its lists,
    by the file's keys: "left over", "lawns", "lawns[1]".
    """

    model_config = ConfigDict(
        strict=True, frozen=True, extra="forbid", arbitrary_types_allowed=True,
        alias_generator=lambda name: name.replace("_", " "),
    )  # fmt: skip

    place: Annotated[Place, SkipValidation] = Field(alias=_PLACE, repr=False)
    places: Annotated[Keyed[str, Place], SkipValidation] = Field(alias=_PLACES, repr=False)

    def place_of(self, key: str) -> Place:
        """Where the value of a key stands; where the record begins, if the key was not given."""
        return self.places.get(key, self.place)

    @model_validator(mode="before")
    @classmethod
    def _from_file(cls, data: object, info: ValidationInfo) -> object:
        if not isinstance(data, PlacedMapping):
            raise wrong("wrong-shape", f"this must be keys and values such as {_some(cls.file_keys())}",
                        expected="keys and values", found=found_text(data),
                        remedy=_as_keys(data, cls.file_keys()))  # fmt: skip
        given = _known(data, cls.file_keys(), report_of(info))
        return {**given, _PLACE: data.node.place, _PLACES: _places(data.node)}

    @classmethod
    def file_keys(cls) -> tuple[str, ...]:
        """The keys that the record may have in a file."""
        return _file_keys(cls)


@cache
def _file_keys(model: type[Record]) -> tuple[str, ...]:
    aliases = [field.alias or name for name, field in model.model_fields.items()]
    return tuple(alias for alias in aliases if alias not in (_PLACE, _PLACES))


def _as_keys(data: object, keys: tuple[str, ...]) -> str:
    """What to do about a single value or a list where keys and values are wanted."""
    if isinstance(data, tuple):
        return "take away the - or the brackets that make a list of it"
    text = data.text if isinstance(data, Scalar) else ""
    close = re.match(r"([^:]+):(.+)", text)
    if close and close[1] in keys:
        return f"write {close[1]}: {close[2]}, with a space after the colon"
    return f"write {keys[0]}: {text}, and the other keys on lines below it" if text else f"write {keys[0]}: ..."


R = TypeVar("R", bound=Record)


def read_record(model: type[R], node: Node, report: Report) -> R | None:
    """The record of a mapping, or None where one of its values cannot be used; the report says why."""
    try:
        return model.model_validate(as_data(node), context=report)
    except ValidationError as error:
        for detail in error.errors(include_url=False, include_input=False):
            _tell(detail, node, report)
    return None


def wrong(code: str, message: str, *, expected: str = "", found: str = "", remedy: str = "") -> PydanticCustomError:
    """The error that a leaf or a record raises; `read_record` makes it a finding with its place."""
    do = remedy or f"write {expected}"
    context = {"code": code, "message": message, "expected": expected, "found": found, "remedy": do}
    return PydanticCustomError("finding", "{message}", context)


def as_data(node: Node) -> PlacedMapping | tuple[Any, ...] | Scalar:
    """The node as pydantic takes it: mappings and lists become dict and tuple, single values stay as they are."""
    if isinstance(node, Mapping):
        return PlacedMapping(node)
    return tuple(as_data(item) for item in node.items) if isinstance(node, Listing) else node


def only_symbols(data: PlacedMapping, symbols: Sequence[str], report: Report) -> dict[str, Any]:
    """The values by nutrient; a key that is none of the symbols goes to the report and is left out."""
    for key in [key for key in data if key not in symbols]:
        report.add("unknown-nutrient", data.node.place_of(key), f"{key!r} is not the symbol of a nutrient here",
                   expected=f"one of: {', '.join(symbols)}", found=key, remedy=_symbol_meant(key, symbols))  # fmt: skip
    return {key: value for key, value in data.items() if key in symbols}


def _symbol_meant(key: str, symbols: Sequence[str]) -> str:
    """A symbol of other letters is another nutrient: only its case, or a nought for an O, is a slip."""
    meant = [symbol for symbol in symbols if symbol.casefold() == key.casefold().replace("0", "o")]
    return f"did you mean {meant[0]}?" if meant else f"use one of: {', '.join(symbols)}"


def report_of(info: ValidationInfo) -> Report:
    """The report of the reading that a validator is part of."""
    if not isinstance(info.context, Report):
        raise TypeError("a record is made by read_record only")
    return info.context


def found_text(data: object) -> str:
    """What a plain value is, for a message."""
    if isinstance(data, Scalar):
        return kind_of(data)
    return "keys and values" if isinstance(data, PlacedMapping) else "a list"


def known_keys(node: Node, keys: tuple[str, ...], report: Report) -> dict[str, Node]:
    """The values of a file's top level by key; unknown keys and a top level of another shape go to the report."""
    if not isinstance(node, Mapping):
        empty = isinstance(node, Scalar) and node.value is None and not node.trapped
        report.add("empty-file" if empty else "wrong-shape", node.place,
                   "the file is empty" if empty else "the file must begin with a key",
                   expected=f"keys such as {_some(keys)}", found="" if empty else kind_of(node))  # fmt: skip
        return {}
    found, present = {}, {entry.key for entry in node.entries}
    for entry in node.entries:
        key = _key(entry, keys, present, report)
        if key and not _blank(entry.value):
            found[key] = entry.value
    return found


def items_of(node: Node | None, what: str, report: Report) -> tuple[Node, ...]:
    """The items of a list; anything else goes to the report. `what` names an item for the message."""
    if node is None or isinstance(node, Listing):
        return node.items if node else ()
    report.add("wrong-shape", node.place, f"this must be a list of {what}", expected="a list", found=kind_of(node),
               remedy="write - and a space before the first key of each")  # fmt: skip
    return ()


def _blank(node: Node) -> bool:
    return isinstance(node, Scalar) and node.value is None and not node.trapped


def _known(data: PlacedMapping, keys: tuple[str, ...], report: Report) -> dict[str, Any]:
    given: dict[str, Any] = {}
    present = {entry.key for entry in data.node.entries}
    for entry in data.node.entries:
        key = _key(entry, keys, present, report)
        if key and entry.key in data:
            given[key] = data[entry.key]
    return given


def _key(entry: Entry, keys: tuple[str, ...], present: set[str], report: Report) -> str:
    if entry.key in keys:
        return entry.key
    report.add("unknown-key", entry.place, f"there is no key {entry.key!r} here", expected=f"one of: {', '.join(keys)}",
               found=entry.key, remedy=did_you_mean(entry.key, keys))  # fmt: skip
    near = nearest(entry.key, keys)
    return "" if near in present else near


def _places(node: Mapping) -> dict[str, Place]:
    places = {}
    for entry in node.entries:
        places[entry.key] = entry.value.place
        if isinstance(entry.value, Listing):
            places.update({f"{entry.key}[{n}]": item.place for n, item in enumerate(entry.value.items, 1)})
    return places


def _tell(detail: ErrorDetails, root: Node, report: Report) -> None:
    if detail["type"] == "missing":
        *above, key = detail["loc"]
        report.add("missing-key", _walk(root, above).place, f"the key {key!r} is missing", remedy=f"add {key}: ...")
        return
    node = _walk(root, detail["loc"])
    if isinstance(node, Scalar) and node.trapped:
        return
    if detail["type"] == "finding":
        said = detail["ctx"]
        report.add(said["code"], node.place, said["message"], expected=said["expected"], found=said["found"],
                   remedy=said["remedy"])  # fmt: skip
    elif detail["type"] == "tuple_type":
        report.add("wrong-shape", node.place, "this must be a list", expected="a list", found=kind_of(node),
                   remedy=f"write [{node.text}]" if isinstance(node, Scalar) and node.text else
                   "write [first, second], or each on a line that begins with -")  # fmt: skip
    elif detail["type"] == "dict_type":
        report.add("wrong-shape", node.place, "this must be keys and values", expected="keys and values",
                   found=kind_of(node), remedy="write {key: value}, or key: value on lines of their own")  # fmt: skip
    else:
        report.add("wrong-shape", node.place, detail["msg"], found=kind_of(node))


def _walk(node: Node, loc: Sequence[int | str]) -> Node:
    """The node that an error's path leads to, or the last one on the way."""
    for step in loc:
        below: Node | None = None
        if isinstance(node, Mapping) and isinstance(step, str):
            # A key that was read as the one it looks like is found the same way again.
            below = node.get(step) or node.get(nearest(step, [entry.key for entry in node.entries]))
        elif isinstance(node, Listing) and isinstance(step, int):
            below = node.items[step]
        node = below or node
    return node


def _some(keys: tuple[str, ...]) -> str:
    return ", ".join(keys[:4])
