"""A stored workbook cut at its cells, so that many can be exchanged at once and the rest stays byte for byte."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from html import escape, unescape
from pathlib import Path
from typing import Final

PIECE: Final = re.compile(r'(<c r="[A-Z]+[0-9]+"[^>]*?(?:/>|>.*?</c>))', re.DOTALL)
PLACE: Final = re.compile(r'<c r="([A-Z]+[0-9]+)"')
SHEET: Final = re.compile(r"<sheet [^>]*>")
LINK: Final = re.compile(r"<Relationship [^>]*>")


@dataclass(frozen=True)
class Held:
    """What a cell holds: its formula (None where it has none) and its value as text, with the type of the file format.

    `type` is n, str (text that a formula gave), inlineStr, s (text, by number), b, e, or "" for none.
    """

    style: str
    formula: str | None = None
    type: str = ""
    value: str | None = None

    def xml(self, place: str) -> str:
        style = f' s="{self.style}"' if self.style else ""
        kind = f' t="{self.type}"' if self.type else ""
        formula = "" if self.formula is None else f"<f>{escape(self.formula, quote=False)}</f>"
        value = ""
        if self.value is not None:
            said = escape(self.value, quote=False)
            inline = f'<is><t xml:space="preserve">{said}</t></is>'
            value = inline if self.type == "inlineStr" else f"<v>{said}</v>"
        return f'<c r="{place}"{style}{kind}>{formula}{value}</c>'


@dataclass(frozen=True)
class Part:
    """A sheet's XML: text and cells in turn, and where each cell stands among them."""

    name: str
    pieces: tuple[str, ...]
    at: Mapping[str, int]


@dataclass(frozen=True)
class Workbook:
    """A stored workbook. `sheets` go by their printed names, `rest` are all other parts."""

    sheets: Mapping[str, Part]
    rest: Mapping[str, bytes]

    def cell(self, sheet: str, place: str) -> Held:
        return _held(self.sheets[sheet].pieces[self.sheets[sheet].at[place]])

    def planted(self, target: Path, cells: Mapping[tuple[str, str], Held]) -> Path:
        """A copy with other cells, by sheet and A1 address. Every one of them must be there."""
        changed: dict[str, list[str]] = {}
        for (sheet, place), held in cells.items():
            part = self.sheets[sheet]
            if sheet not in changed:
                changed[sheet] = list(part.pieces)
            changed[sheet][part.at[place]] = held.xml(place)
        sheets = {part.name: "".join(changed.get(sheet, part.pieces)).encode() for sheet, part in self.sheets.items()}
        return packed(target, {**self.rest, **sheets})


def packed(target: Path, parts: Mapping[str, bytes]) -> Path:
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as package:
        for name, content in parts.items():
            package.writestr(name, content)
    return target


def workbook(path: Path) -> Workbook:
    with zipfile.ZipFile(path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    links = {
        _attribute(tag, "Id"): _attribute(tag, "Target")
        for tag in LINK.findall(parts["xl/_rels/workbook.xml.rels"].decode())
    }
    sheets = {}
    for tag in SHEET.findall(parts["xl/workbook.xml"].decode()):
        name = "xl/" + links[_attribute(tag, "r:id")].removeprefix("/xl/")
        pieces = tuple(PIECE.split(parts.pop(name).decode()))
        places = {PLACE.findall(piece)[0]: index for index, piece in enumerate(pieces) if index % 2}
        sheets[unescape(_attribute(tag, "name"))] = Part(name, pieces, places)
    return Workbook(sheets, parts)


def _attribute(tag: str, name: str) -> str:
    found = re.search(rf' {name}="([^"]*)"', tag)
    return found[1] if found else ""


def _held(piece: str) -> Held:
    head = piece[: piece.index(">")]
    formula = re.search(r"<f[^>]*>(.*?)</f>", piece, re.DOTALL)
    value = re.search(r"<v[^>]*>(.*?)</v>", piece, re.DOTALL)
    return Held(
        _attribute(head, "s"), unescape(formula[1]) if formula else None, _attribute(head, "t"),
        unescape(value[1]) if value else None,
    )  # fmt: skip
