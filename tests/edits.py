"""Edits of single cells in a workbook file as wbgen wrote it; everything else stays, stored values too."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from html import escape, unescape
from pathlib import Path
from typing import Final

from openpyxl.utils import get_column_letter

CELL: Final = re.compile(r'<c r="([A-Z]+[0-9]+)"((?: [a-z]+="[^"]*")*?)(?:/>|>(.*?)</c>)', re.DOTALL)
SHEET: Final = re.compile(r'<sheet name="([^"]*)"[^>]*r:id="rId([0-9]+)"')


@dataclass(frozen=True)
class CellText:
    """A cell of a sheet's XML: its style, its formula (None where it has none), and the value stored with its type."""

    style: str
    formula: str | None = None
    stored: str = ""
    type: str = ""

    def written(self, place: str) -> str:
        kind = f' t="{self.type}"' if self.type else ""
        formula = "" if self.formula is None else f"<f>{escape(self.formula, quote=False)}</f>"
        tag = ("<is><t>", "</t></is>") if self.type == "inlineStr" else ("<v>", "</v>")
        inside = formula + (self.stored and self.stored.join(tag))
        return f'<c r="{place}"{self.style}{kind}' + (f">{inside}</c>" if inside else "/>")


Edit = Callable[[CellText], CellText]


def typed(new: float | str) -> Edit:
    """A value in the place of whatever stands there."""
    if isinstance(new, str):
        return lambda cell: CellText(cell.style, None, escape(new), "inlineStr")
    return lambda cell: CellText(cell.style, None, repr(new))


def emptied(cell: CellText) -> CellText:
    return CellText(cell.style)


def unstored(cell: CellText) -> CellText:
    """The same formula with no value stored for it."""
    return CellText(cell.style, cell.formula)


def formula(change: Callable[[str], str]) -> Edit:
    """Another formula with the value that was stored for the old one."""
    return lambda cell: CellText(cell.style, change(cell.formula or ""), cell.stored, cell.type)


def stored(new: float | str) -> Edit:
    """Another stored value for the same formula."""
    if isinstance(new, str):
        return lambda cell: CellText(cell.style, cell.formula, escape(new), "str")
    return lambda cell: CellText(cell.style, cell.formula, repr(new))


def place(row: int, column: int) -> str:
    """The A1 address of a cell; row and column from 0."""
    return f"{get_column_letter(column + 1)}{row + 1}"


def edited(path: Path, target: Path, edits: Mapping[tuple[str, str], Edit]) -> Path:
    """A copy of a workbook with the cells (sheet and A1 address) edited. Every one of them must be there."""
    with zipfile.ZipFile(path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    left = set(edits)
    for sheet, number in SHEET.findall(parts["xl/workbook.xml"].decode()):
        name = f"xl/worksheets/sheet{number}.xml"

        def change(match: re.Match[str], sheet: str = unescape(sheet)) -> str:
            edit = edits.get((sheet, match[1]))
            if edit is None:
                return match[0]
            left.discard((sheet, match[1]))
            return edit(_read(match)).written(match[1])

        if any(at[0] == unescape(sheet) for at in edits):
            parts[name] = CELL.sub(change, parts[name].decode()).encode()
    assert not left, f"no such cells: {sorted(left)[:5]}"
    return packed(target, parts)


def packed(target: Path, parts: Mapping[str, bytes]) -> Path:
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as package:
        for name, content in parts.items():
            package.writestr(name, content)
    return target


def replaced(path: Path, target: Path, part: str, old: str, new: str) -> Path:
    """A copy of a workbook with a piece of one of its parts replaced."""
    with zipfile.ZipFile(path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    text = parts[part].decode()
    assert old in text, f"{part} has no {old}"
    return packed(target, {**parts, part: text.replace(old, new, 1).encode()})


def _read(match: re.Match[str]) -> CellText:
    attributes, inside = match[2], match[3] or ""
    kind = re.search(r' t="([^"]*)"', attributes)
    style = re.search(r' s="[^"]*"', attributes)
    held = re.search(r"<f>(.*?)</f>", inside, re.DOTALL)
    kept = re.search(r"<v>(.*?)</v>", inside, re.DOTALL)
    return CellText(
        style[0] if style else "", unescape(held[1]) if held else None, kept[1] if kept else "", kind[1] if kind else ""
    )
