"""What holds a workbook's sheets together: their names and parts, defined names, shared texts, number formats.

Layout: ECMA-376 part 1, 18.2 (workbook), 18.4 (shared texts), 18.8 (styles), and part 2, 9.3 (relationships).
"""

from __future__ import annotations

import posixpath
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from wbgen.files.xlsx.attributes import whole
from wbgen.files.xlsx.conditional_formats import Look
from wbgen.files.xlsx.refusal import DISTRUST, UnsafeFile, damaged

BUILT_IN: Final = {
    0: "General", 1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 5: "$#,##0_);($#,##0)", 6: "$#,##0_);($#,##0)",
    7: "$#,##0.00_);($#,##0.00)", 8: "$#,##0.00_);($#,##0.00)", 9: "0%", 10: "0.00%", 11: "0.00E+00", 12: "# ?/?",
    13: "# ??/??", 14: "yyyy-mm-dd", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy", 18: "h:mm AM/PM", 19: "h:mm:ss AM/PM",
    20: "h:mm", 21: "h:mm:ss", 22: "yyyy-mm-dd h:mm", 37: "#,##0", 38: "#,##0", 39: "#,##0.00", 40: "#,##0.00",
    41: '_(* #,##0_);_(* (#,##0);_(* "-"_);_(@_)', 42: '_($* #,##0_);_($* (#,##0);_($* "-"_);_(@_)',
    43: '_(* #,##0.00_);_(* (#,##0.00);_(* "-"??_);_(@_)', 44: '_($* #,##0.00_);_($* (#,##0.00);_($* "-"??_);_(@_)',
    45: "mm:ss", 46: "[h]:mm:ss", 47: "mm:ss.0", 48: "##0.0E+0", 49: "@",
}  # fmt: skip
"""ECMA-376 part 1, 18.8.30: formats that a file names by number alone; 5 to 8 and 41 to 44 from common practice."""
_IN_EACH_COUNTRY: Final = frozenset((5, 6, 7, 8, 41, 42, 43, 44))
"""Of these, files have formats of their own, with the country's money."""
_LINKS: Final = (
    "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
    "http://purl.oclc.org/ooxml/officeDocument/relationships",
)
"""The namespaces of a sheet's link to its part, transitional and strict: ECMA-376 part 4 and part 1, annex A."""
PROPERTY: Final = "lpwstr"
"""The element of a property's text: ECMA-376 part 1, 22.4.2.14."""
_FIRST_OWN: Final = 164
"""Numbers from here on mean what the file says, and nothing where it says nothing."""


@dataclass(slots=True)
class Index:
    """Collected while the parts are read, in whatever order they come."""

    sheets: list[tuple[str, str, str]] = field(default_factory=list)
    """Name, state and relationship of each sheet, in order."""
    targets: dict[str, dict[str, str]] = field(default_factory=dict)
    """By part of relationships: what each of them leads to."""
    names: dict[str, str] = field(default_factory=dict)
    """The text of each defined name of the whole file, by its name in lower case."""
    texts: list[str] = field(default_factory=list)
    formats: dict[int, str] = field(default_factory=lambda: dict(BUILT_IN))
    styles: list[int] = field(default_factory=list)
    """The number format of each cell style."""
    looks: list[Look] = field(default_factory=list)
    """What conditional formats change, in the order in which rules name them."""
    filling: set[int] = field(default_factory=set)
    """The cell styles that repeat what a cell holds until it is full."""
    by_hand: bool = False
    """Whether the program calculates only when it is told to."""
    full_precision: bool = True
    in_circles: bool = False
    """Whether formulas may read themselves."""
    dates_from_1904: bool = False
    properties: dict[str, str] = field(default_factory=dict)
    """What programs and people noted of the document under names of their own."""
    parts: dict[str, str] = field(default_factory=dict)
    """By the root of each part there may be one of: the part."""

    @property
    def workbook(self) -> str:
        """The part that holds the workbook."""
        return self.parts.get("workbook", "")

    def part_of(self, relationship: str) -> str:
        """The part that a relationship of the workbook leads to; "" where there is none."""
        folder, name = posixpath.split(self.workbook)
        target = self.targets.get(posixpath.join(folder, "_rels", name + ".rels"), {}).get(relationship, "")
        return posixpath.normpath(posixpath.join("/" + folder, target)).lstrip("/") if target else ""

    def look_of(self, named: int | Look | None) -> Look:
        """The look of a rule of conditional formats; one that changes nothing where the file has none."""
        if isinstance(named, Look):
            return named
        return self.looks[named] if named is not None and named < len(self.looks) else Look()

    def format_of(self, style: int) -> str:
        """The number format of a cell style; General where the file does not say.

        "[built-in 27]" for a number that has no one meaning: one that each country's programs fill in their own way,
        or one that the file fills in another way than all programs do.
        """
        number = self.styles[style] if style < len(self.styles) else 0
        code = self.formats.get(number)
        if number >= _FIRST_OWN:
            return code or "General"
        settled = number in _IN_EACH_COUNTRY or code == BUILT_IN.get(number)
        return code if code is not None and settled else f"[built-in {number}]"


class IndexReader:
    """Takes the elements of one part and adds what it says to the index."""

    def __init__(self, part: str, index: Index) -> None:
        self.part, self.index = part, index
        self.section = ""
        self.sections: set[str] = set()
        self.name: str | None = None
        self.aside = False

    def start(self, root: str, element: str, attributes: Mapping[str, str], depth: int) -> None:
        """An element begins in a part whose root is `root`.

        Raises UnsafeFile for a second workbook, table of texts or styles: which of them counts is a program's choice.
        """
        if depth == 1 and root in ("workbook", "sst", "styleSheet"):
            first = self.index.parts.setdefault(root, self.part)
            if first != self.part:
                raise UnsafeFile("two-faced", f"one part with the {root}", f"{self.part} beside {first}", DISTRUST)
        if depth == 2:
            self._once(root, element)
            self.section = element
        if root == "workbook":
            self._workbook(element, attributes, depth)
        elif root == "Relationships" and element == "Relationship":
            self.index.targets.setdefault(self.part, {})[attributes.get("Id", "")] = attributes.get("Target", "")
        elif root == "sst":
            self._shared(element)
        elif root == "styleSheet":
            self._style(element, attributes)
        elif root == "Properties":  # ECMA-376 part 1, 15.2.12.2: a property, and in it its value
            self.name = attributes.get("name") if depth == 2 else self.name

    def text(self, root: str, element: str, text: str) -> None:
        """The text of an element."""
        if root == "sst" and element == "t" and not self.aside and self.index.texts:
            self.index.texts[-1] += text
        elif root == "workbook" and element == "definedName" and self.name is not None:
            self.index.names[self.name] = text

    def value(self, text: str) -> None:
        """The text of a property's value."""
        if self.name is not None:
            self.index.properties[self.name] = text

    def _once(self, root: str, element: str) -> None:
        """Raise UnsafeFile for a section of the workbook or of the styles that stands twice."""
        if root in ("workbook", "styleSheet"):
            if element in self.sections and element not in ("fileRecoveryPr", "extLst"):
                raise damaged(f"{self.part} with {element} twice")
            self.sections.add(element)

    def _workbook(self, element: str, attributes: Mapping[str, str], depth: int) -> None:
        if element == "sheet" and self.section == "sheets" and depth == 3:
            link = next((attributes[f"{space} id"] for space in _LINKS if f"{space} id" in attributes), "")
            self.index.sheets.append((attributes.get("name", ""), attributes.get("state", "visible"), link))
        elif element == "definedName":
            whole = self.section == "definedNames" and depth == 3 and "localSheetId" not in attributes
            self.name = attributes.get("name", "").lower() if whole else None
        elif element == "calcPr" and depth == 2:
            self.index.by_hand = attributes.get("calcMode") == "manual"
            self.index.full_precision = self._truth(attributes, "fullPrecision", True)
            self.index.in_circles = self._truth(attributes, "iterate", False)
        elif element == "workbookPr" and depth == 2:
            self.index.dates_from_1904 = self._truth(attributes, "date1904", False)

    def _truth(self, attributes: Mapping[str, str], name: str, default: bool) -> bool:
        """ECMA-376 part 1, 22.9.2.17 and W3C XML Schema part 2, 3.2.2: a truth value is 1, 0, true or false."""
        text = attributes.get(name, str(default).lower())
        if text not in ("1", "0", "true", "false"):
            raise damaged(f"{self.part} with {name}={text[:20]!r}, which is neither true nor false")
        return text in ("1", "true")

    def _shared(self, element: str) -> None:
        if element == "si":
            self.index.texts.append("")
        if element in ("si", "r", "rPh"):
            self.aside = element == "rPh"

    def _style(self, element: str, attributes: Mapping[str, str]) -> None:
        if element == "numFmt" and self.section == "numFmts":
            number = whole(attributes.get("numFmtId"), self.part, "a number format")
            self.index.formats[number] = attributes.get("formatCode", "")
        elif element == "xf" and self.section == "cellXfs":
            number = whole(attributes.get("numFmtId", "0"), self.part, "a style of number format")
            self.index.styles.append(number)
        elif element == "dxf" and self.section == "dxfs":
            self.index.looks.append(Look())
        elif self.section == "dxfs" and self.index.looks:
            self.index.looks[-1].take(element, attributes)
        elif element == "alignment" and self.section == "cellXfs" and attributes.get("horizontal") == "fill":
            self.index.filling.add(len(self.index.styles) - 1)
