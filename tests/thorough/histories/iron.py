"""A workbook in IronCalc: fast, so that many histories can be tried."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from html import escape
from pathlib import Path
from typing import Final

import ironcalc
from openpyxl.formula.translate import Translator
from openpyxl.utils import get_column_letter, range_boundaries

from thorough.histories.editor import Value, shifted
from thorough.mutations.planting import packed
from wbgen.files.xlsx.references import Area

RANGE: Final = re.compile(r"('(?:[^']|'')+'|[^'!]+)!([$A-Z0-9:]+)")
NAME: Final = re.compile(r'(<definedName name="([a-z_]+)">)[^<]*<')
WORKBOOK: Final = "xl/workbook.xml"
ODD: Final = re.compile(r"[-+=@'0-9.$%]|true$|false$", re.IGNORECASE)
LANGUAGE: Final = "en"


Place = tuple[int, int]


@dataclass(frozen=True)
class Start:
    """A workbook as IronCalc holds it, and the texts in it that look like something else, by sheet."""

    held: bytes
    odd: Mapping[str, Mapping[Place, str]]


@cache
def _loaded(path: Path) -> Start:
    model = ironcalc.load_from_xlsx(str(path), "en", "UTC", LANGUAGE)
    names = [properties["name"] for properties in model.get_worksheets_properties()]
    odd: dict[str, dict[Place, str]] = {name: {} for name in names}
    for sheet, row, column in model.get_all_cells():
        value = model.get_cell_value(sheet, row, column)
        if isinstance(value, str) and ODD.match(value) and model.get_cell_formula(sheet, row, column) is None:
            odd[names[sheet]][row - 1, column - 1] = value
    return Start(model.to_bytes(), odd)


class Iron:
    """An editor.

    IronCalc moves references, but leaves defined names where they were, and types the texts that it moves anew, so
    that "03" becomes 3 and "=1+1" a formula. Names are moved and such texts put back here.
    """

    def __init__(self, path: Path) -> None:
        start = _loaded(path)
        self.model = ironcalc.load_from_bytes(start.held, LANGUAGE)
        self.sheets = {properties["name"]: n for n, properties in enumerate(self.model.get_worksheets_properties())}
        self.odd = {sheet: dict(texts) for sheet, texts in start.odd.items()}
        self.named = dict(self._named())

    def _named(self) -> Mapping[str, Area]:
        found = {}
        for name in self.model.get_defined_name_list():
            match = RANGE.fullmatch(name["formula"])
            if name["scope"] is None and match is not None:
                left, top, right, bottom = (int(bound) - 1 for bound in range_boundaries(match[2].replace("$", "")))
                found[name["name"]] = Area(_bare(match[1]), top, left, bottom, right)
        return found

    def areas(self) -> Mapping[str, Area]:
        return self.named

    def shown(self, sheet: str, row: int, column: int) -> Value:
        value = self.model.get_cell_value(self.sheets[sheet], row + 1, column + 1)
        return None if value in (None, "") else float(value) if isinstance(value, (int, float)) else str(value)

    def type_in(self, sheet: str, row: int, column: int, value: Value) -> None:
        at = self.sheets[sheet], row + 1, column + 1
        self.odd[sheet].pop((row, column), None)
        if isinstance(value, str) and ODD.match(value):
            self.odd[sheet][row, column] = value
        if value is None:
            self.model.clear_cell_contents(*at)
        elif isinstance(value, str):
            self.model.update_cell_with_text(*at, value)
        else:
            self.model.update_cell_with_number(*at, value)

    def insert_rows(self, sheet: str, row: int, count: int) -> None:
        self.model.insert_rows(self.sheets[sheet], row + 1, count)
        self._moved(sheet, row, count, 0, 0)

    def delete_rows(self, sheet: str, row: int, count: int) -> None:
        self.model.delete_rows(self.sheets[sheet], row + 1, count)
        self.odd[sheet] = {at: text for at, text in self.odd[sheet].items() if not row <= at[0] < row + count}
        self._moved(sheet, row, -count, 0, 0)

    def insert_columns(self, sheet: str, column: int, count: int) -> None:
        self.model.insert_columns(self.sheets[sheet], column + 1, count)
        self._moved(sheet, 0, 0, column, count)

    def _moved(self, sheet: str, row: int, rows: int, column: int, columns: int) -> None:
        self.odd[sheet] = {
            (shifted(at[0], row, rows), shifted(at[1], column, columns)): text for at, text in self.odd[sheet].items()
        }
        for at, text in self.odd[sheet].items():
            self.model.update_cell_with_text(self.sheets[sheet], at[0] + 1, at[1] + 1, text)
        for name, area in self.named.items():
            if area.sheet == sheet:
                self.named[name] = replace(
                    area,
                    top=shifted(area.top, row, rows),
                    bottom=shifted(area.bottom, row, rows),
                    left=shifted(area.left, column, columns),
                    right=shifted(area.right, column, columns),
                )

    def fill_row(self, sheet: str, source: int, target: int, columns: range, emptied: Sequence[int]) -> None:
        number = self.sheets[sheet]
        for column in columns:
            read, written = (number, source + 1, column + 1), (number, target + 1, column + 1)
            self.model.set_cell_style(*written, self.model.get_cell_style(*read))
            formula = self.model.get_cell_formula(*read)
            if formula is not None:
                letter = get_column_letter(column + 1)
                moved = Translator(formula, f"{letter}{source + 1}").translate_formula(f"{letter}{target + 1}")
                self.model.update_cell_with_formula(*written, moved)
            elif column not in emptied:
                self.type_in(sheet, target, column, self.shown(sheet, source, column))

    def sort_rows(self, area: Area, by: int, typed: Sequence[int]) -> None:
        """The figures change places, and the formulas stay: they are the same in every row."""
        rows = range(area.top, area.bottom + 1)
        self.model.evaluate()
        held = {row: [self.shown(area.sheet, row, column) for column in typed] for row in rows}
        keys = {row: self.shown(area.sheet, row, by) for row in rows}
        for row, other in zip(rows, sorted(rows, key=lambda one: _order(keys[one])), strict=True):
            for column, value in zip(typed, held[other], strict=True):
                self.type_in(area.sheet, row, column, value)

    def rename_sheet(self, sheet: str, name: str) -> None:
        self.model.rename_sheet(self.sheets[sheet], name)
        self.sheets[name] = self.sheets.pop(sheet)
        self.odd[name] = self.odd.pop(sheet)
        self.named = {
            key: replace(area, sheet=name) if area.sheet == sheet else area for key, area in self.named.items()
        }

    def hide_rows(self, sheet: str, row: int, count: int) -> None:
        for one in range(row, row + count):
            self.model.set_row_hidden(self.sheets[sheet], one + 1, True)

    def hide_columns(self, sheet: str, column: int, count: int) -> None:
        for one in range(column, column + count):
            self.model.set_column_hidden(self.sheets[sheet], one + 1, True)

    def save(self, target: Path) -> Path:
        """Calculate and save. IronCalc's own way to change a name takes long: they are written into its file."""
        self.model.evaluate()
        with zipfile.ZipFile(io.BytesIO(self.model.to_xlsx())) as package:
            parts = {name: package.read(name) for name in package.namelist()}
        parts[WORKBOOK] = NAME.sub(self._moved_name, parts[WORKBOOK].decode()).encode()
        return packed(target, parts)

    def _moved_name(self, found: re.Match[str]) -> str:
        area = self.named.get(found[2])
        return found[0] if area is None else f"{found[1]}{escape(_written(area))}<"


def _bare(sheet: str) -> str:
    return sheet[1:-1].replace("''", "'") if sheet.startswith("'") else sheet


def _written(area: Area) -> str:
    sheet = area.sheet.replace("'", "''")
    first = f"${get_column_letter(area.left + 1)}${area.top + 1}"
    return f"'{sheet}'!{first}:${get_column_letter(area.right + 1)}${area.bottom + 1}"


def _order(value: Value) -> tuple[int, float, str]:
    """Numbers, then texts without their case, then blanks, as programs sort."""
    if value is None:
        return 2, 0.0, ""
    return (0, value, "") if isinstance(value, float) else (1, 0.0, value.casefold())
