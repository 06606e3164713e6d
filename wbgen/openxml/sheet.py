"""The cells of one sheet, read while its part is looked through: formulas, stored values, what is hidden or lost.

Layout: ECMA-376 part 1, 18.3.1 (worksheets), 18.18.11 (kinds of cells). The reading is column by column, since a
planner is: `formulas[column][row]` and `values[column][row]`, rows and columns from 0.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Final

from wbgen.openxml.refusal import Limits, UnsafeFile, damaged
from wbgen.openxml.shared import moved

Scalar = float | str | bool
EPOCH: Final = datetime(1899, 12, 30)  # noqa: DTZ001 - spreadsheets know no time zones
_CELL: Final = re.compile(r"([A-Za-z]{1,3})([0-9]{1,7})")
_ROW: Final = re.compile(r"[0-9]{1,7}")
_DIGITS: Final = "0123456789"
_NONE: Final[Mapping[str, str]] = {}


class ErrorValue(str):
    """An error value that a program stored, such as #DIV/0!."""

    __slots__ = ()


@dataclass(slots=True)
class SheetContent:
    """What a sheet's part holds. `styles[column]` are (row, style) where the style differs from the row above."""

    formulas: dict[int, dict[int, str]] = field(default_factory=dict)
    values: dict[int, dict[int, Scalar]] = field(default_factory=dict)
    texts: list[tuple[int, int, int]] = field(default_factory=list)
    """Cells whose value is one of the file's shared texts: row, column, number of the text."""
    styles: dict[int, list[tuple[int, int]]] = field(default_factory=dict)
    hidden_rows: list[int] = field(default_factory=list)
    hidden_columns: list[tuple[int, int]] = field(default_factory=list)
    protected: bool = False
    validations: int = 0
    filtered: bool = False

    def take_texts(self, shared: list[str]) -> None:
        """Put the shared texts where they belong. Raises IndexError for a number that the file has no text of."""
        for row, column, number in self.texts:
            self.values.setdefault(column, {})[row] = shared[number]
        self.texts.clear()


class SheetReader:
    """Takes the elements of one worksheet. `other` is told of those that hold no cells."""

    def __init__(self, part: str, limits: Limits, other: Callable[[str, Mapping[str, str]], None]) -> None:
        self.part, self.limits, self.other = part, limits, other
        self.content = SheetContent()
        self.row = self.column = -1
        self.top = self.left = 1 << 30
        self.bottom = self.right = -1
        self.kind = "n"
        self.formula: str | None = None
        self.value: str | None = None
        self.formula_kind = _NONE
        self.masters: dict[str, tuple[int, int, str]] = {}
        self.children: list[tuple[str, int, int]] = []
        self.columns: dict[str, int] = {}
        self.last_styles: dict[int, str] = {}
        self.phonetic = self.within = False

    def start(self, element: str, attributes: Mapping[str, str]) -> None:
        """An element begins that is neither a cell nor its value."""
        if element == "f":
            self.formula_kind = attributes
        elif element == "row":
            self._row(attributes)
        elif element == "sheetProtection":
            self.content.protected = attributes.get("sheet") in ("1", "true")
        elif element == "sheetData":
            self.within = True
        elif element == "dataValidation":
            self.content.validations += attributes.get("type", "none") != "none"
        elif element == "autoFilter":
            self.content.filtered = True
        elif element == "col" and attributes.get("hidden") in ("1", "true"):
            self.content.hidden_columns.append((int(attributes["min"]) - 1, int(attributes["max"]) - 1))
        elif element == "rPh":
            self.phonetic = True
        else:
            self.other(element, attributes)

    def end(self, element: str) -> None:
        """An element ends that holds cells or texts."""
        if element == "sheetData":
            self.within = False
        elif element == "rPh":
            self.phonetic = False

    def foreign(self, element: str) -> None:
        """An element begins that is named as one of cells are, and is of another kind: other readers pass it over."""
        if self.within:
            raise damaged(f"{self.part} with a foreign {element!r} in {self._here()}")

    def text(self, element: str, text: str) -> None:
        """The text of an element."""
        if element == "v":
            if self.value is not None:
                raise damaged(f"{self.part} with two values in {self._here()}")
            self.value = text
        elif element == "f":
            if self.formula is not None:
                raise damaged(f"{self.part} with two formulas in {self._here()}")
            self.formula = text
        elif element == "t" and not self.phonetic:
            self.value = (self.value or "") + text

    def close_cell(self) -> None:
        """A cell ends: keep what was read of it."""
        if self.formula is not None:
            self._keep_formula()
        if self.value is not None:
            self._keep_value()

    def finish(self) -> None:
        """Write out formulas that were stored once for many cells."""
        for number, row, column in self.children:
            if number not in self.masters:
                raise damaged(f"{self.part} with a shared formula {number[:20]!r} that stands nowhere")
            first_row, first_column, text = self.masters[number]
            self.content.formulas.setdefault(column, {})[row] = moved(text, row - first_row, column - first_column)

    def _row(self, attributes: Mapping[str, str]) -> None:
        number = attributes.get("r")
        if number is None:
            self.row += 1
        elif _ROW.fullmatch(number):
            before, self.row = self.row, int(number) - 1
            if self.row <= before:
                raise damaged(f"{self.part} with row {number} after row {before + 1}")
        else:
            raise damaged(f"{self.part} with a row {number[:20]!r}")
        self.column = -1
        if attributes.get("hidden") in ("1", "true"):
            self.content.hidden_rows.append(self.row)

    def cell(self, attributes: Mapping[str, str]) -> None:
        """A cell begins. Raises UnsafeFile where cells span more than the limits."""
        reference = attributes.get("r")
        if reference is None:
            self.column += 1
        else:
            letters = reference.rstrip(_DIGITS)
            column = self.columns.get(letters)
            if column is None or not 0 < len(reference) - len(letters) < 8:
                column = self._new_column(reference)
            if column <= self.column or int(reference[len(letters) :]) - 1 != self.row:
                raise damaged(f"{self.part} with a cell {reference} out of its order")
            self.column = column
        self.formula = self.value = None
        self.formula_kind = _NONE
        self.kind = attributes.get("t", "n")
        if self.row > self.bottom or self.column > self.right or self.row < self.top or self.column < self.left:
            self._extend()
        style = attributes.get("s", "0")
        if self.last_styles.get(self.column) != style:
            self.last_styles[self.column] = style
            self.content.styles.setdefault(self.column, []).append((self.row, int(style)))

    def _new_column(self, reference: str) -> int:
        found = _CELL.fullmatch(reference)
        if found is None:
            raise damaged(f"{self.part} with a cell {reference[:20]!r}")
        column = 0
        for letter in found[1].upper():
            column = 26 * column + ord(letter) - 64
        self.columns[found[1]] = column - 1
        return column - 1

    def _here(self) -> str:
        return f"row {self.row + 1}, column {self.column + 1}"

    def _extend(self) -> None:
        self.top, self.bottom = min(self.top, self.row), max(self.bottom, self.row)
        self.left, self.right = min(self.left, self.column), max(self.right, self.column)
        if (self.bottom - self.top + 1) * (self.right - self.left + 1) > self.limits.extent:
            raise UnsafeFile(
                "too-wide",
                f"cells within {self.limits.extent:,} of each other",
                f"{self.part}, with a cell in row {self.bottom + 1}, column {self.right + 1}",
                "delete the stray cells far below or to the right, or all rows and columns after the last used",
            )

    def _keep_formula(self) -> None:
        kind, text = self.formula_kind.get("t"), self.formula or ""
        if kind == "shared":
            number = self.formula_kind.get("si", "")
            if not text:
                self.children.append((number, self.row, self.column))
                return
            self.masters[number] = (self.row, self.column, text)
        elif kind == "array":
            text = "{" + text + "}"
        elif kind == "dataTable":
            text = "{TABLE}"
        self.content.formulas.setdefault(self.column, {})[self.row] = text

    def _keep_value(self) -> None:
        kind, text = self.kind, self.value or ""
        if not text and kind not in ("str", "inlineStr"):
            return
        if kind == "s":
            if not text.strip().isdigit():
                raise damaged(f"{self.part} with a shared text {text[:20]!r}")
            self.content.texts.append((self.row, self.column, int(text)))
        else:
            self.content.values.setdefault(self.column, {})[self.row] = _scalar(kind, text)


def _scalar(kind: str, text: str) -> Scalar:
    """A stored value: a number, text, a truth value or an error value. What is no number stays text."""
    if kind == "n":
        try:
            number = float(text)
        except ValueError:
            return text
        return number if math.isfinite(number) else text
    if kind == "b":
        return text.strip() in ("1", "true")
    if kind == "e":
        return ErrorValue(text)
    if kind == "d":
        try:
            return (datetime.fromisoformat(text.removesuffix("Z")) - EPOCH).total_seconds() / 86_400
        except (ValueError, TypeError):
            return text
    return text
