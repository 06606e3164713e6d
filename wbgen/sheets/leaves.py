"""What one value of a template takes: a key, a name, a unit, a place, a default.

The records that these stand in are in `wbgen.sheets.records`.
"""

from __future__ import annotations

import re
from typing import Any, Final

from pydantic_core import PydanticCustomError

from wbgen.files.diagnostics import shown
from wbgen.files.xlsx.addresses import address, position_of
from wbgen.files.yaml.fields import Leaf, NumberLeaf, TextLeaf
from wbgen.files.yaml.nodes import Scalar
from wbgen.files.yaml.records import found_text, wrong
from wbgen.sheets.template import FIRST_ROW, GUTTER, SCOPES, STANDING
from wbgen.units.quantity import UnitError, parse_unit

LONGEST_FORMULA: Final = 8_000
"""Longest formula as it is written, in characters: a cell takes 8 192 of it as it is compiled."""
LONGEST_LIST: Final = 255
"""Longest list of choices that a file takes, joined by commas, in characters."""
KEY: Final = re.compile(r"[a-z][a-z_]*[a-z]")
_TAKEN: Final = (*SCOPES, "true", "false")
"""Words that mean something else in a formula."""
_NOT_IN_A_SHEET: Final = re.compile(r"[\[\]:*?/\\]|^'|'$")


class KeyLeaf(Leaf):
    """The key of a table or a column; digits would make some of them cell addresses."""

    expected = "lower-case letters, words joined by _"

    def read(self, scalar: Scalar) -> str:
        text = scalar.text
        if not KEY.fullmatch(text):
            raise self.refusal(scalar, "this cannot be a key", "write two letters or more, from a to z")
        if text in _TAKEN or text.startswith(STANDING):
            raise self.refusal(scalar, f"this cannot be a key: {text} means something else", "choose another key")
        return text


class SheetNameLeaf(TextLeaf):
    """The name of a sheet, as every spreadsheet program takes it."""

    expected = "a name of at most 31 characters without [ ] : * ? / \\"

    def read(self, scalar: Scalar) -> str:
        text = super().read(scalar)
        if len(text) > 31 or _NOT_IN_A_SHEET.search(text) or text.casefold() == "history":
            raise self.refusal(scalar, "this cannot be the name of a sheet", "choose another name")
        return text


class UnitLeaf(TextLeaf):
    """A unit; words in braces are those of a family's member, and are read when these are known."""

    expected = "a unit such as g/m²"

    def read(self, scalar: Scalar) -> str:
        text = super().read(scalar)
        if "{" not in text:
            check_unit(text)
        return text


def check_unit(text: str) -> None:
    """Refuse, with the nearest one, what is no unit."""
    try:
        parse_unit(text)
    except UnitError as error:
        remedy = f"did you mean {error.nearest}?" if error.nearest else error.advice
        raise wrong("wrong-unit", f"{shown(text)} is not a unit", expected=error.expected, found=shown(text),
                    remedy=remedy) from None  # fmt: skip


class DefaultLeaf(Leaf):
    """What a new planner has in an input: a number, or a text (a quantity with its unit)."""

    expected = "a number or a text"

    def read(self, scalar: Scalar) -> str | float | int:
        value = scalar.value
        if not isinstance(value, str | int | float) or isinstance(value, bool):
            raise self.refusal(scalar, remedy="put it in quotes if it is a text")
        return value.strip() if isinstance(value, str) else value


class CellLeaf(DefaultLeaf):
    """A constant that is written in a template."""

    def read(self, scalar: Scalar) -> str | float:
        value = super().read(scalar)
        return value if isinstance(value, str) else float(value)


class ChoicesLeaf(Leaf):
    """The words to choose from, or the column that has them."""

    expected = "a list of words, or a column such as lawns.name"

    def read(self, scalar: Scalar) -> str:
        if not re.fullmatch(r"\w+\.\w+", scalar.text):
            raise self.refusal(scalar)
        return scalar.text

    def _read(self, data: Any) -> object:
        if not isinstance(data, tuple):
            return super()._read(data)
        words = tuple(Word.read(item) for item in data if isinstance(item, Scalar))
        if len(words) < len(data):
            raise self._not_this(next(item for item in data if not isinstance(item, Scalar)))
        if (length := len(",".join(words))) > LONGEST_LIST or any("," in word for word in words):
            raise wrong("wrong-value", "these words cannot be a list in a cell",
                        expected=f"words without a comma, at most {LONGEST_LIST} characters together",
                        found=f"{length} characters", remedy="write them in a table, and name its column")  # fmt: skip
        return words

    def _not_this(self, item: object) -> PydanticCustomError:
        return wrong("wrong-shape", f"this must be {self.expected}", expected=self.expected, found=found_text(item))


class FigureLeaf(NumberLeaf):
    """A number that is written into the workbook as a decimal, whole or not."""

    def read(self, scalar: Scalar) -> float:
        return float(super().read(scalar))


class RecordsLeaf(Leaf):
    """How many records a table has: a number, or the name of a capacity that the build sets."""

    expected = "a whole number, 1 or more, or the name of a capacity such as lawns"

    def read(self, scalar: Scalar) -> int | str:
        value = scalar.value
        if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 100_000:
            return value
        if isinstance(value, str) and KEY.fullmatch(value):
            return value
        raise self.refusal(scalar)


class PositionLeaf(Leaf):
    """The cell in which the title of a table stands."""

    expected = "a cell below the head of the sheet and right of its margin, such as B12"

    def read(self, scalar: Scalar) -> tuple[int, int]:
        position = position_of(scalar.text)
        if position is None or position[0] < FIRST_ROW or position[1] < GUTTER:
            raise self.refusal(scalar, remedy=f"write {address(FIRST_ROW, GUTTER)}, or a cell below or right of it")
        return position


Word: Final = TextLeaf()
