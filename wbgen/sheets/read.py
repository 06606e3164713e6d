"""The files of a folder of templates, as records: every mistake in them with its place, and all of them at once.

`sheet_order.yaml` names the sheets. Each is a file, or a folder in which `sheet.yaml` has the sheet's own keys and
names its tables, and each of these has a file of its own.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final, TypeVar

from wbgen.files.diagnostics import Place, Report, did_you_mean
from wbgen.files.yaml.nodes import Entry, Listing, Mapping, Node, Scalar, kind_of
from wbgen.files.yaml.records import Record, items_of, known_keys, read_record
from wbgen.files.yaml.tree import load
from wbgen.sheets.leaves import KEY
from wbgen.sheets.records import ChartKeys, ColumnKeys, SheetKeys, TableFileKeys, TableKeys

ORDER: Final = "sheet_order.yaml"
SHEET: Final = "sheet.yaml"
"""In the folder of a sheet: its own keys, and the order of its tables."""


@dataclass(frozen=True)
class TableFile:
    """A table as it is written: its key with its place, its other keys, its columns."""

    key: str
    place: Place
    keys: TableFileKeys
    columns: tuple[ColumnKeys, ...]


@dataclass(frozen=True)
class SheetFile:
    """A sheet as it is written."""

    keys: SheetKeys
    tables: tuple[TableFile, ...]
    charts: tuple[ChartKeys, ...]


@dataclass
class Unread:
    """What could not be read and was reported: a name that is not found may stand there, and is no further mistake."""

    tables: set[str] = field(default_factory=set)
    """Tables of which the whole or a column could not be read."""
    endless: set[str] = field(default_factory=set)
    """Tables whose guards ask for each other in a circle, so that no formula of them can be written out."""
    more: bool = False
    """True where there may be tables of which not even the key could be read."""

    def may_be(self, table: str) -> bool:
        """Whether there may be such a table, though it was not found."""
        return self.more or table in self.tables


def read_templates(folder: Path, unread: Unread, report: Report) -> tuple[SheetFile, ...]:
    """The sheets of the templates in `folder` as they are written, in the order of sheet_order.yaml."""
    reader = _Reader(unread, report)
    return tuple(reader.sheets(folder))


R = TypeVar("R", bound=Record)


@dataclass(frozen=True)
class _Reader:
    unread: Unread
    report: Report

    def sheets(self, folder: Path) -> Iterator[SheetFile]:
        root = load(folder / ORDER, self.report)
        if root is None:
            self.unread.more = True
            return
        listed = known_keys(root, ("sheets",), self.report)
        if "sheets" not in listed:
            self.unread.more = True
            if isinstance(root, Mapping):
                self._missing(root.place, "sheets")
            return
        names = list(self._names(listed["sheets"], "sheets"))
        if not isinstance(listed["sheets"], Listing):
            return
        found = {path.stem for path in folder.glob("*.yaml")} | {
            path.name for path in folder.iterdir() if path.is_dir()
        }
        self._compare(folder, names, found - {Path(ORDER).stem}, ORDER)
        for name, _ in names:
            path = folder / f"{name}.yaml"
            if (folder / name).is_dir():
                if path.exists():
                    self.report.add("twice", Place(str(path)), f"the sheet {name} is a file and a folder",
                                    expected="one of the two", remedy="delete one of them")  # fmt: skip
                path = folder / name / SHEET
            elif not path.exists():
                self.unread.more = True
                continue
            sheet = self._sheet(path)
            if sheet is not None:
                yield sheet

    def _names(self, node: Node, what: str) -> Iterator[tuple[str, Place]]:
        """Names of files in a list, each once; a word that is none goes to the report."""
        seen: dict[str, Place] = {}
        self.unread.more = self.unread.more or not isinstance(node, Listing)
        for item in items_of(node, what, self.report):
            name = item.text if isinstance(item, Scalar) else ""
            if not KEY.fullmatch(name):
                self.report.add("wrong-value", item.place, "this must be the name of a file without its ending",
                                expected="lower-case letters, words joined by _", found=kind_of(item))  # fmt: skip
                self.unread.more = True
            elif name in seen:
                self.report.add("twice", item.place, f"{name} is named twice", expected="each name once",
                                found=f"also on line {seen[name].line}", remedy="delete one of the two")  # fmt: skip
            else:
                seen[name] = item.place
                yield name, item.place

    def _compare(self, folder: Path, names: list[tuple[str, Place]], found: set[str], listed_in: str) -> None:
        """Report the names without a file and the files without a name."""
        known = {name for name, _ in names}
        for name, place in names:
            if name not in found:
                self.report.add("missing-file", place, f"there is no file {name}.yaml", expected=f"{name}.yaml",
                                remedy=did_you_mean(name, sorted(found - known)) or "write it")  # fmt: skip
        for name in sorted(found - known):
            path = folder / name if (folder / name).is_dir() else folder / f"{name}.yaml"
            self.report.add("unlisted-file", Place(str(path)), f"{listed_in} does not name {name}",
                            expected=f"{name} in {listed_in}", remedy="name it there, or delete it")  # fmt: skip

    def _sheet(self, path: Path) -> SheetFile | None:
        node = load(path, self.report)
        if node is None:
            self.unread.more = True
            return None
        keys, below = self._record(SheetKeys, node, ("tables", "charts"))
        if "tables" not in below:
            self.unread.more = True
            if isinstance(node, Mapping):
                self._missing(node.place, "tables")
            return None
        tables = self._table_files if path.name == SHEET else self._tables
        found = tuple(tables(path.parent, below["tables"]))
        charts = [
            read_record(ChartKeys, item, self.report) for item in items_of(below.get("charts"), "charts", self.report)
        ]
        return SheetFile(keys, found, tuple(filter(None, charts))) if keys else None

    def _tables(self, _: Path, node: Node) -> Iterator[TableFile]:
        """The tables that stand in the file of their sheet."""
        for item in items_of(node, "tables", self.report):
            keys, below = self._record(TableKeys, item, ("columns",))
            named = item.get("key") if isinstance(item, Mapping) else None
            key = named.text if isinstance(named, Scalar) else ""
            place = named.place if named else item.place
            yield from self._table(key, place, keys, item, below)

    def _table_files(self, folder: Path, node: Node) -> Iterator[TableFile]:
        """The tables that stand in files beside that of their sheet."""
        names = list(self._names(node, "names of tables"))
        if not isinstance(node, Listing):
            return
        self._compare(folder, names, {path.stem for path in folder.glob("*.yaml")} - {Path(SHEET).stem}, SHEET)
        for name, place in names:
            path = folder / f"{name}.yaml"
            root = load(path, self.report) if path.exists() else None
            if root is None:
                self.unread.tables.add(name)
                continue
            keys, below = self._record(TableFileKeys, root, ("columns",))
            yield from self._table(name, place, keys, root, below)

    def _table(
        self, key: str, place: Place, keys: TableFileKeys | None, node: Node, below: dict[str, Node]
    ) -> Iterator[TableFile]:
        items = items_of(below.get("columns"), "columns", self.report)
        columns = [read_record(ColumnKeys, item, self.report) for item in items]
        if isinstance(node, Mapping) and not columns:
            self._missing(node.place, "columns", "one column or more")
        if keys is None:
            self.unread.tables.add(key)
            self.unread.more = self.unread.more or not key
            return
        if not all(columns):
            self.unread.tables.add(key)
        yield TableFile(key, place, keys, tuple(filter(None, columns)))

    def _record(self, model: type[R], node: Node, apart: Iterable[str]) -> tuple[R | None, dict[str, Node]]:
        """A record without the lists that are read item by item, and these."""
        if not isinstance(node, Mapping):
            return read_record(model, node, self.report), {}
        below = {key: found for key, found in known_keys(node, model.file_keys(), self.report).items() if key in apart}
        rest = tuple(entry for entry in node.entries if not _is_one_of(entry, below))
        return read_record(model, Mapping(node.place, rest), self.report), below

    def _missing(self, place: Place, key: str, expected: str = "") -> None:
        self.report.add(
            "missing-key", place, f"the key {key!r} is missing", expected=expected, remedy=f"add {key}: ..."
        )


def _is_one_of(entry: Entry, below: dict[str, Node]) -> bool:
    return any(entry.value is node for node in below.values())
