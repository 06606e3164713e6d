"""The cells of one sheet, read while its part is looked through: formulas, stored values, what is hidden or lost.

Layout: ECMA-376 part 1, 18.3.1 (worksheets), 18.18.11 (kinds of cells). The reading is column by column, since a
planner is: `formulas[column][row]` and `values[column][row]`, rows and columns from 0.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from operator import itemgetter
from typing import Final

from wbgen.files.xlsx.addresses import COLUMNS, column_of, letters
from wbgen.files.xlsx.attributes import whole
from wbgen.files.xlsx.cell_types import Scalar, as_number, as_scalar
from wbgen.files.xlsx.conditional_formats import Rule
from wbgen.files.xlsx.refusal import Limits, damaged, too_deep, too_large, too_wide
from wbgen.files.xlsx.shared_formulas import moved

_COLUMN: Final = re.compile(r"[A-Za-z]{1,3}")
_OF_CELLS: Final = ("sheetData", "row", "c", "f", "v", "is", "t", "rPh")
LOWEST, NARROWEST = 3.0, 0.4
"""Rows lower (in points) and columns narrower (in characters) than these are as good as hidden."""
_NONE: Final[Mapping[str, str]] = {}


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
    merged: list[tuple[int, int, int, int]] = field(default_factory=list)
    """Cells made one: top, left, bottom, right."""
    ends: tuple[int, int] = (0, 0)
    """The numbers of rows and columns that hold all cells of the part, those without content too."""
    rules: list[Rule] = field(default_factory=list)
    """Conditional formats."""
    links: list[tuple[str, str]] = field(default_factory=list)
    """The cells of a link, and the place in the file that it leads to; "" where it leads out of it."""
    hides_zeros: bool = False
    protected: bool = False
    validations: int = 0
    filtered: bool = False

    def style(self, row: int, column: int) -> int:
        """The style of a cell that is there."""
        styles = self.styles.get(column, [])
        before = bisect_right(styles, row, key=itemgetter(0))
        return styles[before - 1][1] if before else 0

    def take_texts(self, shared: list[str]) -> None:
        """Put the shared texts where they belong. Raises IndexError for a number that the file has no text of."""
        for row, column, number in self.texts:
            self.values.setdefault(column, {})[row] = shared[number]
        self.texts.clear()


class _Column:
    """The cells of a column while they are read; `style` is that of the last."""

    __slots__ = ("at", "formulas", "style", "values")

    def __init__(self, at: int) -> None:
        self.at, self.style = at, "0"
        self.formulas: dict[int, str] = {}
        self.values: dict[int, Scalar] = {}


class SheetReader:
    """Takes the elements of one worksheet. `other` is told of those that hold no cells."""

    def __init__(self, part: str, limits: Limits, other: Callable[[str, Mapping[str, str]], None]) -> None:
        self.part, self.limits, self.other = part, limits, other
        self.content = SheetContent()
        self.columns: dict[str, _Column] = {}
        self.masters: dict[int, tuple[int, int, str]] = {}
        self.children: list[tuple[int, int, int]] = []
        self.extent = (1 << 30, 1 << 30, -1, -1)
        self.phonetic = self.within = self.low = False

    def handlers(  # noqa: C901 - four functions that share their variables
        self, namespace: str, wanted: frozenset[str], told: Callable[[str, str], None]
    ) -> tuple[Callable[[str, dict[str, str]], None], Callable[[str], None], Callable[[str], None]]:
        """What expat is to call at the beginning and the end of an element, and with text.

        `told` is given the texts of elements that are `wanted` and are none of a cell. A sheet has millions of
        elements: so what is done for each keeps its state in variables of this function, and calls little else.
        """
        cell, formula_of, value_of, line = (f"{namespace} {element}" for element in ("c", "f", "v", "row"))
        of_cells = {f"{namespace} {element}": element for element in ("sheetData", "is", "t", "rPh")}
        columns, styles, deepest = self.columns, self.content.styles, self.limits.depth
        words: list[str] = []
        row, number, digits = -1, "0", 1
        here, at, kind = _Column(-1), -1, None
        formula: str | None = None
        value: str | None = None
        formula_kind = _NONE
        depth = 1
        bottom = right = -1

        def start(name: str, attributes: dict[str, str]) -> None:
            nonlocal row, number, digits, at, formula_kind, depth
            depth += 1
            if depth > deepest:
                raise too_deep(self.part, self.limits)
            if name == cell:
                open_cell(attributes)
                return
            words.clear()
            if name == formula_of:
                if formula is not None:
                    raise damaged(f"{self.part} with two formulas in row {row + 1}, column {at + 1}")
                formula_kind = attributes
            elif name == value_of:
                if value is not None:
                    raise damaged(f"{self.part} with two values in row {row + 1}, column {at + 1}")
            elif name == line:
                row = self._row(row, attributes)
                number, at = str(row + 1), -1
                digits = len(number)
            else:
                self._start(of_cells.get(name), name.rpartition(" ")[2], attributes)

        def open_cell(attributes: dict[str, str]) -> None:
            nonlocal here, at, kind, formula, value, bottom, right
            reference = attributes.get("r") or letters(at + 1) + number
            here = columns.get(reference[:-digits]) or self._new_column(reference[:-digits], reference)
            if here.at <= at or not reference.endswith(number):
                raise damaged(f"{self.part} with a cell {reference[:20]} out of its order, in row {row + 1}")
            at, kind, formula, value = here.at, attributes.get("t"), None, None
            if row > bottom or at > right:
                bottom, right = row, max(at, right)
                self._extend(row, at)
            if attributes.get("s", "0") != here.style:
                here.style = attributes.get("s", "0")
                styles.setdefault(at, []).append((row, whole(here.style, self.part, "a cell of style")))

        def end(name: str) -> None:
            nonlocal formula, value, depth
            depth -= 1
            if name == cell:
                close_cell()
            elif name == value_of:
                value = words[0] if len(words) == 1 else "".join(words)
            elif name == formula_of:
                formula = words[0] if len(words) == 1 else "".join(words)
            elif name in of_cells:
                if of_cells[name] == "t" and not self.phonetic:
                    value = (value or "") + "".join(words)
                self._end(of_cells[name])
            elif name.rpartition(" ")[2] in wanted:
                told(name.rpartition(" ")[2], "".join(words))

        def close_cell() -> None:
            if formula is not None:
                here.formulas[row] = self._formula(formula_kind, formula, row, at) if formula_kind else formula
            if value is None:
                return
            if value and kind is None:
                here.values[row] = as_number(value)
            elif value or kind in ("str", "inlineStr"):
                self._keep_value(here, kind or "n", value, row)

        return start, end, words.append

    def finish(self) -> None:
        """Write out formulas that were stored once for many cells."""
        content = self.content
        content.ends = self.extent[2] + 1, self.extent[3] + 1
        content.formulas |= {column.at: column.formulas for column in self.columns.values() if column.formulas}
        content.values |= {column.at: column.values for column in self.columns.values() if column.values}
        if sum(map(len, content.formulas.values())) > self.limits.formulas:
            raise too_large(f"more in {self.part}", f"at most {self.limits.formulas:,} formulas on a sheet")
        for number, row, at in self.children:
            if number not in self.masters:
                raise damaged(f"{self.part} with a shared formula {number} that stands nowhere")
            first_row, first_column, text = self.masters[number]
            content.formulas[at][row] = moved(text, row - first_row, at - first_column)

    def _start(self, element: str | None, local: str, attributes: Mapping[str, str]) -> None:
        """An element begins that is no row, cell, formula or value. `element` is None where it is of another kind."""
        if element == "sheetData":
            self.within = True
        elif element == "rPh":
            self.phonetic = True
        elif element is None:
            if self.within and local in _OF_CELLS:
                raise damaged(f"{self.part} with a foreign {local!r} among its cells")
            self._beside(local, attributes)

    def _end(self, element: str) -> None:
        if element == "sheetData":
            self.within = False
        elif element == "rPh":
            self.phonetic = False

    def _beside(self, element: str, attributes: Mapping[str, str]) -> None:
        """An element that holds no cells."""
        if element == "sheetProtection":
            self.content.protected = attributes.get("sheet") in ("1", "true")
        elif element == "dataValidation":
            self.content.validations += attributes.get("type", "none") != "none"
        elif element == "hyperlink":
            outside = any(key.rpartition(" ")[2] == "id" for key in attributes)
            self.content.links.append((attributes.get("ref", ""), "" if outside else attributes.get("location", "")))
        elif element == "autoFilter":
            self.content.filtered = True
        elif element == "sheetView" and attributes.get("showZeros") in ("0", "false"):
            self.content.hides_zeros = True
        elif element == "sheetFormatPr":
            self.low = _less(attributes.get("defaultRowHeight"), LOWEST)
        elif element == "col" and (
            attributes.get("hidden") in ("1", "true") or _less(attributes.get("width"), NARROWEST)
        ):
            first, last = (whole(attributes.get(end), self.part, "a column", 1, COLUMNS) - 1 for end in ("min", "max"))
            self.content.hidden_columns.append((first, last))
        else:
            self.other(element, attributes)

    def _row(self, before: int, attributes: Mapping[str, str]) -> int:
        number = attributes.get("r")
        row = before + 1 if number is None else whole(number, self.part, "a row", 1) - 1
        if row <= before:
            raise damaged(f"{self.part} with row {row + 1} after row {before + 1}")
        low = _less(attributes["ht"], LOWEST) if "ht" in attributes else self.low
        if low or attributes.get("hidden") in ("1", "true"):
            self.content.hidden_rows.append(row)
        return row

    def _new_column(self, name: str, reference: str) -> _Column:
        """The column of this name, which may be written in small letters too."""
        if not _COLUMN.fullmatch(name):
            raise damaged(f"{self.part} with a cell {reference[:20]!r}")
        self.columns[name] = self.columns.setdefault(name.upper(), _Column(column_of(name.upper())))
        return self.columns[name]

    def _extend(self, row: int, at: int) -> None:
        top, left, bottom, right = self.extent
        self.extent = min(top, row), min(left, at), max(bottom, row), max(right, at)
        top, left, bottom, right = self.extent
        if (bottom - top + 1) * (right - left + 1) > self.limits.extent:
            raise too_wide(
                f"cells within {self.limits.extent:,} of each other",
                f"{self.part}, with a cell in row {bottom + 1}, column {right + 1}",
            )

    def _formula(self, attributes: Mapping[str, str], text: str, row: int, at: int) -> str:
        """The text of a formula that is stored in another way than plainly; "" for one that `finish` writes out."""
        kind = attributes.get("t")
        if kind == "shared":
            number = whole(attributes.get("si"), self.part, "a shared formula")
            if text:
                self.masters[number] = (row, at, text)
            else:
                self.children.append((number, row, at))
        elif kind == "array":
            return "{" + text + "}"
        elif kind == "dataTable":
            return "{TABLE}"
        return text

    def _keep_value(self, column: _Column, kind: str, text: str, row: int) -> None:
        if kind == "s":
            self.content.texts.append((row, column.at, whole(text, self.part, "a shared text")))
        else:
            column.values[row] = as_scalar(kind, text)


def _less(text: str | None, bound: float) -> bool:
    """Whether a height or a width is written, and less than `bound`."""
    number = as_number(text or "")
    return isinstance(number, float) and number < bound
