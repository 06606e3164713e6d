"""XML read with distrust: no document type, no entities, no encoding but UTF-8 and UTF-16, no bottomless nesting.

A document type is where entities are declared, and an entity may stand for gigabytes or for a file elsewhere.
Office Open XML forbids it (ECMA-376 part 2, 8.1.4), so a part that has one is refused whatever it says. expat
does the reading, so the encoding is found as every other XML reader finds it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Final, Protocol
from xml.parsers import expat

from wbgen.files.xlsx.refusal import DISTRUST, Limits, UnsafeFile, damaged, too_deep
from wbgen.files.xlsx.sheet_cells import SheetReader

_ENCODINGS: Final = frozenset({"utf-8", "utf-16", "us-ascii"})
_NAMED_AS_XML: Final = (".xml", ".rels", ".vml")
_SPACE: Final = " "
_MAIN: Final = (
    "http://schemas.openxmlformats.org/spreadsheetml/2006/main",
    "http://purl.oclc.org/ooxml/spreadsheetml/main",
)
"""The namespaces of a worksheet, transitional and strict: ECMA-376 part 4 and part 1, annex A."""
_BEFORE_MARKUP: Final = b"\xef\xbb\xbf\xff\xfe\x00 \t\r\n"


class Visitor(Protocol):
    """What is told of a part while it is read. Names of elements come without their namespace.

    `home` is whether the element is of the namespace of the part's root: what others mean by the same name is theirs.
    """

    def start(self, element: str, attributes: Mapping[str, str], depth: int, home: bool) -> None:
        """An element begins; the root has depth 1."""

    def text(self, element: str, text: str, home: bool = True) -> None:
        """The whole text of an element that is `wanted`."""

    def cells(self) -> SheetReader:
        """A worksheet begins: its elements are told to what is given back, and the others to this."""

    @property
    def wanted(self) -> frozenset[str]:
        """The elements whose text is told."""


def is_markup(part: str, beginning: bytes) -> bool:
    """Whether a part is XML by its name or by its first bytes, whichever its content type claims.

    >>> is_markup("xl/media/image1.png", b"\\x89PNG"), is_markup("xl/media/image1.bin", b"<svg/>")
    (False, True)
    """
    return part.lower().endswith(_NAMED_AS_XML) or beginning.lstrip(_BEFORE_MARKUP).startswith(b"<")


def scan(part: str, blocks: Iterable[bytes], limits: Limits, visitor: Visitor) -> None:
    """Read one XML part from its blocks of bytes and tell `visitor` of it.

    Raises `UnsafeFile` for a document type, an encoding other than UTF-8 or UTF-16, nesting over the limit,
    or XML that is not well formed. Drawings of comments (.vml) are not well formed in files of spreadsheet
    programs themselves; from the first fault on such a part is not read.
    """
    reading = _Reading(part, limits, visitor)
    faulty = False
    for block in blocks:
        faulty = faulty or not reading.feed(block)
    if not faulty:
        reading.feed(b"", last=True)


class _Reading:
    def __init__(self, part: str, limits: Limits, visitor: Visitor) -> None:
        self.part, self.limits, self.visitor, self.wanted = part, limits, visitor, visitor.wanted
        self.depth = 0
        self.home = ""
        self.words: list[str] = []
        self.parser = expat.ParserCreate(namespace_separator=_SPACE)
        self.parser.buffer_text = True
        self.parser.XmlDeclHandler = self.declaration
        self.parser.StartDoctypeDeclHandler = self.document_type
        self.parser.StartElementHandler = self.start
        self.parser.EndElementHandler = self.end

    def feed(self, block: bytes, last: bool = False) -> bool:
        """Whether the part is well formed so far."""
        try:
            self.parser.Parse(block, last)
        except expat.ExpatError as error:
            if self.part.lower().endswith(".vml") and self.depth:
                return False
            raise damaged(f"{self.part}, which is not well-formed XML ({error})") from None
        return True

    def declaration(self, version: str, encoding: str | None, standalone: int) -> None:
        del version, standalone
        if encoding is not None and encoding.lower() not in _ENCODINGS:
            raise UnsafeFile("odd-encoding", "XML in UTF-8 or UTF-16", f"{self.part} in {encoding[:40]!r}", DISTRUST)

    def document_type(self, name: str, *_: object) -> None:
        raise UnsafeFile(
            "document-type",
            "XML without a document type",
            f"{self.part} with a document type {name[:40]!r}, which may declare entities",
            DISTRUST,
        )

    def start(self, name: str, attributes: dict[str, str]) -> None:
        self.depth += 1
        if self.depth > self.limits.depth:
            raise too_deep(self.part, self.limits)
        namespace, _, element = name.rpartition(_SPACE)
        if self.depth == 1:
            self.home = namespace
        if element == "worksheet" and self.depth == 1:
            if namespace not in _MAIN:
                raise damaged(f"{self.part}, whose sheet is of an unknown kind, {namespace[:80]!r}")
            self.read_cells(namespace)
            return
        if element in self.wanted:
            self.words = []
            self.parser.CharacterDataHandler = self.words.append
        self.visitor.start(element, attributes, self.depth, namespace == self.home)

    def read_cells(self, namespace: str) -> None:
        """Tell a worksheet's elements to its own reader: there are millions of them."""
        handlers = self.visitor.cells().handlers(namespace, self.wanted, self.visitor.text)
        self.parser.StartElementHandler, self.parser.EndElementHandler, self.parser.CharacterDataHandler = handlers

    def end(self, name: str) -> None:
        self.depth -= 1
        namespace, _, element = name.rpartition(_SPACE)
        if element in self.wanted:
            self.parser.CharacterDataHandler = None
            self.visitor.text(element, "".join(self.words), namespace == self.home)
