"""What a workbook file holds beside cells: said, never followed. Nothing here opens, loads or runs anything."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from wbgen.files.findings import Kind
from wbgen.files.xlsx.addresses import COLUMNS, ROWS, column_of
from wbgen.files.xlsx.attributes import whole
from wbgen.files.xlsx.conditional_formats import ELEMENTS, RuleReader
from wbgen.files.xlsx.package_index import PROPERTY, Index, IndexReader
from wbgen.files.xlsx.refusal import DISTRUST, Limits, UnsafeFile, damaged, too_large
from wbgen.files.xlsx.sheet_cells import SheetReader


@dataclass(frozen=True, slots=True)
class Note:
    """One thing worth saying about a file: its kind, the `part` of the file that shows it, and a sentence."""

    kind: Kind
    part: str
    text: str


_BY_NAME: Final = tuple(
    (re.compile(pattern, re.IGNORECASE), kind, text)
    for pattern, kind, text in (
        (r"vba\w*\.bin$", Kind.MACROS, "The file holds macros"),
        (r"/macrosheets/|/intlmacrosheets/", Kind.MACROS, "The file holds a macro sheet"),
        (r"/dialogsheets/", Kind.MACROS, "The file holds a dialog sheet"),
        (r"/customui/|^customui/", Kind.MACROS, "The file changes the program's menus"),
        (r"/externallinks/[^/]+$", Kind.EXTERNAL_LINK, "The file draws values from another file or program"),
        (r"/connections\.xml$", Kind.DATA_CONNECTION, "The file holds connections to data elsewhere"),
        (r"/querytables/|/model/item\.data$", Kind.DATA_QUERY, "The file holds a query of data elsewhere"),
        (r"/embeddings/", Kind.EMBEDDED_OBJECT, "The file holds an embedded object"),
        (r"/activex/|/ctrlprops/", Kind.EMBEDDED_OBJECT, "The file holds form controls"),
        (r"/webextensions/", Kind.EMBEDDED_OBJECT, "The file holds a web extension"),
    )
)
_MACRO_TYPE: Final = re.compile(r"macroEnabled|vbaProject|macrosheet", re.IGNORECASE)
_QUOTED: Final = re.compile(r"\"[^\"]*\"|'[^']*'")
_OUTSIDE: Final = ("WEBSERVICE", "DDE", "RTD", "CALL", "REGISTER", "EXEC", "IMAGE", "STOCKHISTORY")
_REACHES_OUT: Final = re.compile(rf"\b(?:{'|'.join(_OUTSIDE)})(?:\.ID)?\s*\(", re.IGNORECASE)
_CELL: Final = re.compile(r"([A-Za-z]{1,3})([0-9]{1,7})")
_FORMULAS: Final = frozenset({"f", "definedName", "formula", "formula1", "formula2"})
_NOT_FETCHED: Final = ("/hyperlink", "/externalLinkPath")
"""Kinds of outside target that need no note: a link waits for a click, and an external link has its own note."""


def notes_of_name(part: str) -> list[Note]:
    """What a part's name alone says.

    >>> [str(note.kind) for note in notes_of_name("xl/vbaProject.bin")], notes_of_name("xl/workbook.xml")
    (['macros'], [])
    """
    return [Note(kind, part, text) for pattern, kind, text in _BY_NAME if pattern.search(part)]


class PartReader:
    """Collects what one XML part says.

    `notes` has each kind of note once, with its first example, and each hidden sheet.

    Raises `UnsafeFile` for a sheet whose cells or merged cells span more than the limits: a reader that
    walks over such a sheet, or that makes a record of every merged cell, would not come back.
    """

    wanted: Final = _FORMULAS | ELEMENTS | {"t", PROPERTY}

    def __init__(self, part: str, limits: Limits, index: Index) -> None:
        self.part, self.limits = part, limits
        self.root = ""
        self.notes: dict[tuple[Kind, str], Note] = {}
        self.index = IndexReader(part, index)
        self.sheet: SheetReader | None = None
        self.rules: RuleReader | None = None

    def cells(self) -> SheetReader:
        """See `markup.Visitor`."""
        self.root = "worksheet"
        self.sheet = SheetReader(self.part, self.limits, self._sheet_element)
        self.rules = RuleReader(self.part, self.sheet.content.rules)
        return self.sheet

    def start(self, element: str, attributes: Mapping[str, str], depth: int, home: bool) -> None:
        """See `markup.Visitor`."""
        if depth == 1:
            self.root = element
        if home:
            self.index.start(self.root, element, attributes, depth)
        if element == "sheet" and self.root == "workbook":
            self._sheet(attributes)
        elif element == "Relationship":
            self._relationship(attributes)
        elif element in ("Override", "Default") and _MACRO_TYPE.search(attributes.get("ContentType", "")):
            self._note(Kind.MACROS, "The file says that it holds macros")
        elif element == "ddeLink":
            self._note(Kind.DDE, f"The file asks the program {attributes.get('ddeService', '')!r} for values (DDE)")
        elif element == "DataMashup":
            self._note(Kind.DATA_QUERY, "The file holds a query of data elsewhere")

    def text(self, element: str, text: str, home: bool = True) -> None:
        """See `markup.Visitor`."""
        if home:
            self.index.text(self.root, element, text)
        elif element == PROPERTY and self.root == "Properties":
            self.index.value(text)
        if element in _FORMULAS:
            self._formula(text)
        if element in ELEMENTS and self.rules is not None:
            self.rules.text(element, text)

    def finish(self) -> None:
        """Look through the formulas of a sheet, and write out those that were stored once for many cells."""
        if self.sheet is None:
            return
        self.sheet.finish()
        for column in self.sheet.content.formulas.values():
            together = "\n".join(column.values()).upper()  # to look at thousands one by one takes long
            if any(word in together for word in ("|", *_OUTSIDE)):
                for text in column.values():
                    self._formula(text)

    def _formula(self, text: str) -> None:
        bare = _QUOTED.sub("", text)
        if "|" in bare:
            self._note(Kind.DDE, f"A formula asks another program for values (DDE): {text[:80]!r}")
        if _REACHES_OUT.search(bare):
            self._note(Kind.REACHES_OUT, f"A formula reaches outside the file: {text[:80]!r}")

    def _note(self, kind: Kind, text: str, subject: str = "") -> None:
        self.notes.setdefault((kind, subject), Note(kind, self.part, text))

    def _sheet_element(self, element: str, attributes: Mapping[str, str]) -> None:
        if element == "mergeCell":
            self._merged(attributes.get("ref", ""))
        elif self.rules is not None:
            self.rules.start(element, attributes)

    def _merged(self, reference: str) -> None:
        first, _, last = reference.partition(":")
        (top, bottom), (left, right) = map(sorted, zip(self._address(first), self._address(last or first), strict=True))
        if (bottom - top + 1) * (right - left + 1) > self.limits.merged:
            raise too_large(
                f"{self.part} with {reference[:40]} merged", f"at most {self.limits.merged:,} cells merged into one"
            )
        if self.sheet is not None:
            self.sheet.content.merged.append((top - 1, left - 1, bottom - 1, right - 1))

    def _sheet(self, attributes: Mapping[str, str]) -> None:
        if attributes.get("state", "visible") != "visible":
            name = attributes.get("name", "")
            self._note(Kind.HIDDEN_SHEET, f"The sheet {name!r} is hidden", name)

    def _relationship(self, attributes: Mapping[str, str]) -> None:
        relation = attributes.get("Type", "")
        if attributes.get("TargetMode") == "External" and not relation.endswith(_NOT_FETCHED):
            target = attributes.get("Target", "")[:80]
            what = f"The file refers to {target!r} outside itself ({relation.rpartition('/')[2]})"
            self._note(Kind.OUTSIDE_TARGET, what)

    def _address(self, reference: str) -> tuple[int, int]:
        """Row and column, both from 1."""
        found = _CELL.fullmatch(reference)
        column = column_of(found[1].upper()) if found else 0
        if found is None or column >= COLUMNS:
            raise damaged(f"{self.part} with a cell {reference[:20]!r}")
        return whole(found[2], self.part, "a cell in row", 1, ROWS), column + 1


OTHER_KINDS: Final = (
    ("content.xml", "an OpenDocument file"),
    ("xl/workbook.bin", "a binary workbook (.xlsb)"),
    ("word/document.xml", "a text document"),
    ("ppt/presentation.xml", "a presentation"),
)


def refuse_other_kinds(parts: frozenset[str], roots: frozenset[str]) -> None:
    """Raise `UnsafeFile` unless the parts, and the names of their root elements, are those of a workbook."""
    if "[Content_Types].xml" in parts and "workbook" in roots:
        return
    found = next((kind for part, kind in OTHER_KINDS if part in parts), "a zip file without a workbook in it")
    raise UnsafeFile("not-a-workbook", "an .xlsx workbook", found, DISTRUST if "zip" in found else "save it as .xlsx")
