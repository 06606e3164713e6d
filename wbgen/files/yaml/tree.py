"""YAML files read into a tree in which every key, value and item knows its line and column.

Only plain data passes: mappings with text as keys, lists, and single values. Tags, anchors and aliases are refused
(an alias can make a small file endless), so are keys given twice and words that YAML readers disagree on
(`plain_scalars`). Nothing in a file makes this module raise: what is wrong goes to the report.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any, Final

import yaml

from wbgen.files.diagnostics import Place, Report, shown
from wbgen.files.yaml import look_alikes
from wbgen.files.yaml.look_alikes import CURLY, UNREADABLE
from wbgen.files.yaml.nodes import Entry, Listing, Mapping, Node, Scalar, kind_of
from wbgen.files.yaml.plain_scalars import Trap, read_plain
from wbgen.files.yaml.syntax import ADVICE, tell_syntax

LARGEST_FILE: Final = 5_000_000
"""Longest file that is read, in bytes."""
MOST_KEYS: Final = 1000
"""How many keys a mapping may have."""
DEEPEST: Final = 20
"""How many mappings and lists may stand within each other."""

_BREAK: Final = re.compile(r"\r\n|[\n\r\x85\u2028\u2029]")
_TOO_CLOSE: Final = re.compile(r"(\w[\w ]*):([^\s:/].*)")
_LOST_NUMBER: Final = re.compile(r"[ \t]+#[0-9]")
_read_plain: Final = lru_cache(10_000)(read_plain)  # the lines of a diary say the same words again and again
PARSER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""Makes plain data of YAML and nothing else. The one in C is 20 times as fast, and not everywhere."""


def load(path: Path, report: Report) -> Node | None:
    """Read a file; None where it cannot be read at all, with the reason in the report.

    An empty file is a `Scalar` whose value is None.
    """
    place = Place(str(path))
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "not a name of a file"
        report.add("unreadable-file", place, f"the file cannot be read: {reason.lower()}",
                   expected="a file of YAML", remedy="check the name and the folder")  # fmt: skip
        return None
    if len(data) > LARGEST_FILE:
        report.add("file-too-large", place, "the file is too large", expected=f"at most {LARGEST_FILE} bytes",
                   remedy="split it, or take out what does not belong in it")  # fmt: skip
        return None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start]
        line, column = before.count(b"\n") + 1, len(before.rpartition(b"\n")[2]) + 1
        report.add("not-utf-8", Place(str(path), line, column), "the file is not UTF-8 text", expected="UTF-8",
                   found=f"byte {data[error.start]:#04x}", remedy="save the file as UTF-8")  # fmt: skip
        return None
    return load_text(text, str(path), report)


def load_text(text: str, file: str, report: Report) -> Node | None:
    """Read the text of a YAML file; `file` is the name for messages.

    >>> tree = load_text("area: 240 m²", "lawns.yaml", Report())
    >>> tree.get("area").text, tree.get("area").place
    ('240 m²', Place(file='lawns.yaml', line=1, column=7, key='area'))
    """
    lines = _BREAK.split(text)
    if look_alikes.refuse_characters(lines, file, report):
        return None
    try:
        return _Reader(_events(text), lines, file, report).document()
    except _Stop:
        return None
    except yaml.MarkedYAMLError as error:
        tell_syntax(error, lines, file, report)
    except (yaml.YAMLError, ValueError, OverflowError) as error:
        report.add("yaml-syntax", Place(file), f"this is not YAML: {shown(error)}", remedy=ADVICE)
    return None


def _events(text: str) -> Iterator[Any]:
    loader = PARSER(text)
    try:
        while loader.check_event():
            yield loader.get_event()
    finally:
        loader.dispose()


class _Stop(Exception):  # noqa: N818 - it ends the reading and is no error by itself
    pass


class _Reader:
    """Builds the tree from the parser's events, which come in the order of the file."""

    def __init__(self, events: Iterator[Any], lines: list[str], file: str, report: Report) -> None:
        self._events, self._lines, self._file, self._report = events, lines, file, report

    def document(self) -> Node:
        """The file's one document."""
        root: Node = Scalar(Place(self._file, 1, 1), None, "")
        seen = False
        for event in self._events:
            if isinstance(event, yaml.DocumentStartEvent):
                if seen:
                    self._add("second-document", self._place(event, ""), "a second document begins here",
                              "one document a file", "---", "delete the line, or make two files")  # fmt: skip
                    break
                root, seen = self._node(next(self._events), "", 0), True
        return root

    def _place(self, event: Any, key: str) -> Place:
        # What the end of the file leaves out, the parser puts on a line after the last.
        line = min(event.start_mark.line + 1, max(1, len(self._lines)))
        return Place(self._file, line, event.start_mark.column + 1, key)

    def _add(self, code: str, place: Place, message: str, expected: str, found: str, remedy: str) -> None:
        self._report.add(code, place, message, expected=expected, found=found, remedy=remedy)

    def _node(self, event: Any, key: str, depth: int) -> Node:
        place = self._place(event, key)
        if depth > DEEPEST:
            self._add("too-deep", place, "too many levels within each other", f"at most {DEEPEST}", "", "flatten it")
            raise _Stop
        if isinstance(event, yaml.AliasEvent):
            self._add("alias", place, "aliases are not read", "the value itself", f"*{event.anchor}",
                      "write the value out again, or put the text in quotes")  # fmt: skip
            return Scalar(place, None, f"*{event.anchor}", trapped=True)
        self._refuse_marks(event, place)
        if isinstance(event, yaml.MappingStartEvent):
            return self._mapping(place, key, depth)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._listing(place, key, depth)
        return self._scalar(event, place)

    def _refuse_marks(self, event: Any, place: Place) -> None:
        if event.anchor is not None:
            self._add("anchor", place, "anchors are not read", "the value alone", f"&{event.anchor}",
                      "delete the anchor, or put the text in quotes")  # fmt: skip
        if event.tag is not None:
            self._add("tag", place, "tags are not read", "the value alone", shown(event.tag),
                      "delete the tag, or put the text in quotes")  # fmt: skip

    def _listing(self, place: Place, key: str, depth: int) -> Listing:
        items: list[Node] = []
        for event in self._events:
            if isinstance(event, yaml.SequenceEndEvent):
                break
            if (split := self._split(event)) and items and not event.value.isdigit():
                items[-1] = self._parted(split, items[-1].place)
                continue
            items.append(self._node(event, f"{key}[{len(items) + 1}]", depth + 1))
        return Listing(place, tuple(items))

    def _mapping(self, place: Place, key: str, depth: int) -> Mapping:
        entries: dict[str, Entry] = {}
        for event in self._events:
            if isinstance(event, yaml.MappingEndEvent):
                break
            if (split := self._split(event)) and entries:
                last = entries[next(reversed(entries))]
                entries[last.key] = Entry(last.key, last.place, self._parted(split, last.value.place))
                self._node(next(self._events), key, depth + 1)
                continue
            entry = self._entry(event, key, depth)
            if entry.key in entries:
                self._add("duplicate-key", entry.place, f"the key {shown(entry.key)} is given twice",
                          "each key once", f"also on line {entries[entry.key].place.line}",
                          "keep one of the two, or begin the next item of a list with -")  # fmt: skip
            elif entry.key:
                entries[entry.key] = entry
            if len(entries) > MOST_KEYS:
                self._add("too-many-keys", entry.place, "too many keys in one place", f"at most {MOST_KEYS}", "",
                          "write a list where a list is meant")  # fmt: skip
                raise _Stop
        return Mapping(place, tuple(entries.values()))

    def _entry(self, event: Any, path: str, depth: int) -> Entry:
        node = self._node(event, path, depth + 1)
        word = node.text if isinstance(node, Scalar) and not isinstance(event, yaml.AliasEvent) else ""
        if look_alikes.odd_beginning(word) and look_alikes.tell_beginnings(self._lines, self._file, self._report):
            raise _Stop
        if not word.isprintable():
            word = ""
        if not word and not isinstance(event, yaml.AliasEvent):
            self._add("unusable-key", node.place, "this cannot be a key", "a word on one line", kind_of(node),
                      "write a word before the colon")  # fmt: skip
        key = f"{path}.{word}" if path and word else path or word
        value = self._node(next(self._events), key, depth + 1)
        if isinstance(value, Scalar) and not value.text and (close := _TOO_CLOSE.fullmatch(word)):
            self._add("missing-space", self._place(event, key), "a space is missing after the colon",
                      "a colon and a space", shown(word), f"write {close[1]}: {close[2]}")  # fmt: skip
            return Entry(close[1], self._place(event, key), Scalar(value.place, close[2], close[2], trapped=True))
        return Entry(word, self._place(event, key), value)

    def _split(self, event: Any) -> tuple[str, str] | None:
        """The number that a comma before this word parted, and what to write; None where none did."""
        if getattr(event, "value", None) is None or event.style:
            return None
        before = self._lines[event.start_mark.line][: event.start_mark.column]
        return look_alikes.split_number(before[:-1], event.value) if before.endswith(",") else None

    def _parted(self, split: tuple[str, str], place: Place) -> Scalar:
        self._add("parted-number", place, "a comma parts this number in two", "a decimal point", shown(split[0]),
                  split[1])  # fmt: skip
        return Scalar(place, split[0], split[0], trapped=True)

    def _scalar(self, event: Any, place: Place) -> Scalar:
        text: str = event.value
        # The file itself has no such character; only an escape sequence in double quotes can make one.
        if event.style == '"' and (wrong := UNREADABLE.search(text)):
            self._add("unreadable-character", place, "the text has a control character",
                      "text that can be read", f"U+{ord(wrong.group()):04X}", "take the \\ sequence out")  # fmt: skip
            return Scalar(place, UNREADABLE.sub("", text), text, trapped=True)
        if event.style:
            return Scalar(place, text, text)
        if len(text) > 2 and text[0] in CURLY and text[-1] in CURLY:
            self._add("curly-quotes", place, "to a program these curly quotes are letters of the text",
                      "straight quotes, or none", shown(text), f'write "{text.strip(CURLY)}"')  # fmt: skip
            return Scalar(place, text, text, trapped=True)
        value = _read_plain(text)
        if isinstance(value, Trap):
            self._add("ambiguous-word", place, f"without quotes some programs read {shown(text)} as {value.taken_for}",
                      "a word that all programs read alike", shown(text), value.remedy)  # fmt: skip
            return Scalar(place, text, text, trapped=True)
        self._refuse_lost_number(event, place, text)
        return Scalar(place, value, text)

    def _refuse_lost_number(self, event: Any, place: Place, text: str) -> None:
        line = self._lines[event.end_mark.line] if event.end_mark.line < len(self._lines) else ""
        if text and _LOST_NUMBER.match(line, event.end_mark.column):
            self._add("lost-text", place, "all from # on is a comment and is not read", "text in quotes",
                      shown(line[event.end_mark.column :].strip()),
                      "put the text in quotes, or a space after # if it is a comment")  # fmt: skip
