"""Looks through all parts of a workbook file: refuses what is unsafe, says what is unusual, keeps the cells."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import chain
from operator import attrgetter
from pathlib import Path
from typing import BinaryIO

from wbgen.files.xlsx.archive import Entry, entries, unpacked
from wbgen.files.xlsx.hazards import Note, PartReader, notes_of_name, refuse_other_kinds
from wbgen.files.xlsx.markup import is_markup, scan
from wbgen.files.xlsx.package_index import Index
from wbgen.files.xlsx.refusal import DEFAULT_LIMITS, Limits, UnsafeFile, damaged, too_wide
from wbgen.files.xlsx.sheet_cells import SheetContent


@dataclass(frozen=True, slots=True)
class Package:
    """A workbook file found safe to open: its parts by name, their size unpacked in bytes, and what to say of it."""

    path: Path
    parts: tuple[str, ...]
    size: int
    notes: tuple[Note, ...]
    index: Index = field(default_factory=Index)
    sheets: Mapping[str, SheetContent] = field(default_factory=dict)
    """The cells of each worksheet, by its part."""


def unseen(_: SheetContent) -> None:
    """Nobody looks at the sheets before all are read."""


def inspect(path: Path, limits: Limits = DEFAULT_LIMITS, look: Callable[[SheetContent], None] = unseen) -> Package:
    """Look through a workbook file without trusting it; each sheet is shown to `look` when it has been read.

    Raises `UnsafeFile` where it cannot be read, is no plain .xlsx or .xlsm file, is damaged, is over one of
    the limits, has names that lead outside it, or declares a document type in any of its XML.
    """
    if not path.is_file():
        raise UnsafeFile("unreadable", "a workbook file", f"no file {path}", "check the name and the folder")
    try:
        with path.open("rb") as file:
            return _inspected(path, file, limits, look)
    except OSError as error:
        reason = error.strerror or "a failure to read"
        raise UnsafeFile(
            "unreadable", "a file that can be read", reason, "check the file and its permissions"
        ) from None


def _inspected(path: Path, file: BinaryIO, limits: Limits, look: Callable[[SheetContent], None]) -> Package:
    size = 0
    notes: dict[str, list[Note]] = {}
    roots: set[str] = set()
    index = Index()
    sheets: dict[str, SheetContent] = {}
    found = entries(file, limits)
    for entry in sorted(found, key=attrgetter("size")):  # who looks learns soon what the small sheets tell
        reader = PartReader(entry.name, limits, index)
        _read(file, entry, limits, limits.total - size, reader)
        size += entry.size
        roots.add(reader.root)
        if reader.sheet is not None:
            sheets[entry.name] = reader.sheet.content
            look(reader.sheet.content)
        notes[entry.name] = [*notes_of_name(entry.name), *reader.notes.values()]
    names = tuple(entry.name for entry in found)
    refuse_other_kinds(frozenset(names), frozenset(roots))
    try:
        for content in sheets.values():
            content.take_texts(index.texts)
    except IndexError:
        raise damaged("a cell with a shared text that the file does not hold") from None
    for part, content in sheets.items():
        _refuse_emptiness(part, content, limits)
    _refuse_unknown_styles(index, sheets)
    return Package(path, names, size, tuple(chain.from_iterable(map(notes.__getitem__, names))), index, sheets)


def _refuse_emptiness(part: str, content: SheetContent, limits: Limits) -> None:
    """A reader that makes a grid of all cells from A1 on would fill the memory with empty ones."""
    if content.ends[0] * content.ends[1] <= limits.grid:
        return
    held = {
        at: content.formulas.get(at, {}).keys() | content.values.get(at, {}).keys()
        for at in content.formulas.keys() | content.values.keys()
    }
    rows, columns = max(map(max, filter(None, held.values())), default=-1) + 1, max(held, default=-1) + 1
    full = sum(map(len, held.values()))
    if rows * columns > max(limits.grid, limits.emptiness * full):
        raise too_wide(
            f"at most {limits.grid:,} cells from A1 to the last one, where most are empty",
            f"{part}, of {rows:,} rows and {columns:,} columns, all but {full:,} of the cells empty",
        )


def _refuse_unknown_styles(index: Index, sheets: Mapping[str, SheetContent]) -> None:
    """Which look a cell of a style that is none has, each program would decide for itself."""
    for part, content in sheets.items():
        most = max((style for changes in content.styles.values() for _, style in changes), default=0)
        if most >= max(len(index.styles), 1):
            raise damaged(f"{part} with a cell of style {most}, which the file does not hold")


def _read(file: BinaryIO, entry: Entry, limits: Limits, room: int, reader: PartReader) -> None:
    """Read a part to its end, as XML where it is XML; `room` is what is left of the total, in bytes."""
    blocks = unpacked(file, entry, limits, room)
    first = next(blocks, b"")
    if is_markup(entry.name, first):
        scan(entry.name, chain([first], blocks), limits, reader)
        reader.finish()
    else:
        deque(blocks, maxlen=0)
