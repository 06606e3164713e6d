"""The keys of the files of templates: which there are, and what each takes.

What they are for stands with the fields of the same names in `wbgen.sheets.template`. Tables and columns are read one
by one (`wbgen.sheets.read`), so that a mistake in one of them hides none in another.
"""

from __future__ import annotations

import re
from typing import Annotated, Any, Final, Literal

from pydantic import BeforeValidator, ConfigDict, Field, SkipValidation
from pydantic_core import PydanticCustomError

from wbgen.files.diagnostics import shown
from wbgen.files.xlsx.addresses import address, position_of
from wbgen.files.yaml.fields import Flag, Leaf, NumberLeaf, OneOf, Text, TextLeaf
from wbgen.files.yaml.nodes import Entry, Mapping, Scalar
from wbgen.files.yaml.records import PlacedMapping, Record, found_text, wrong
from wbgen.sheets.template import FIRST_ROW, GUTTER, SCOPES, STANDING, STYLES, Direction, Kind, Orientation
from wbgen.trade.families import family_names
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


def _both(data: object) -> object:
    """One value for both systems is written once."""
    if not isinstance(data, Scalar):
        return data
    return PlacedMapping(Mapping(data.place, tuple(Entry(system, data.place, data) for system in ("metric", "us"))))


Word: Final = TextLeaf()
Words = Annotated[str, TextLeaf(empty=True)]
Key = Annotated[str, KeyLeaf()]
Whole = Annotated[int, NumberLeaf(0, 10_000, whole=True)]
Some = Annotated[int, NumberLeaf(1, 10_000, whole=True)]
Number = Annotated[float, FigureLeaf(-1e9)]
Width = Annotated[float, FigureLeaf(0.1, 255)]
Raw = Annotated[Any, SkipValidation]
"""Read item by item, apart from the record that it stands in."""


class _Keys(Record):
    """Keys with _ between their words, as in a formula."""

    model_config = ConfigDict(alias_generator=None)


class UnitKeys(_Keys):
    """A unit in each system."""

    metric: Annotated[str, UnitLeaf()]
    us: Annotated[str, UnitLeaf()]


class WordsKeys(_Keys):
    """A text in each system."""

    metric: Words
    us: Words


class DigitsKeys(_Keys):
    """Decimals in each system."""

    metric: Annotated[int, NumberLeaf(0, 15, whole=True)]
    us: Annotated[int, NumberLeaf(0, 15, whole=True)]


class DefaultKeys(_Keys):
    """A default in each system."""

    metric: Annotated[str | float | int, DefaultLeaf()]
    us: Annotated[str | float | int, DefaultLeaf()]


class ColumnKeys(_Keys):
    """A column, or with `each` one column for every member of a family."""

    key: Annotated[str, KeyLeaf()]
    heading: Text
    type: Annotated[Kind, OneOf("number", "text", "date")] = "number"
    unit: Annotated[UnitKeys, BeforeValidator(_both)] | None = None
    formula: Annotated[str | None, TextLeaf(LONGEST_FORMULA)] = None
    literals: tuple[Number, ...] = ()
    blank_unless: tuple[Text, ...] | None = None
    constant: Flag = False
    running: Flag = False
    default: Annotated[DefaultKeys, BeforeValidator(_both)] | None = None
    choices: Annotated[tuple[str, ...] | str, ChoicesLeaf()] = ()
    minimum: Annotated[float | None, FigureLeaf(-1e9)] = None
    maximum: Annotated[float | None, FigureLeaf(-1e9)] = None
    digits: Annotated[DigitsKeys, BeforeValidator(_both)] | None = None
    show: Annotated[
        Literal["plain", "share", "date", "day", "moment", "each"],
        OneOf("plain", "share", "date", "day", "moment", "each"),
    ] = "plain"
    """`each`: as the family's member says, and with its digits."""
    style: Annotated[str | None, OneOf(*STYLES)] = None
    wrap: Flag = False
    note: Words = ""
    group: Annotated[str | None, TextLeaf()] = None
    slot: Annotated[str | None, TextLeaf()] = None
    width: Annotated[float | None, FigureLeaf(0.1, 255)] = None
    wide: Some = 1
    skip: Annotated[int, NumberLeaf(-1, 10_000, whole=True)] = 0
    lines: Some = 1
    begins: Flag = Field(default=False, alias="page")
    each: Annotated[str | None, OneOf(*family_names())] = None
    """The family of which every member has such a column."""
    beside: Flag = False
    """True for a column of a family whose members stand with those of the column before: A one, A two, B one, B two."""


class TableFileKeys(_Keys):
    """A table in a file of its own, whose name is the table's key."""

    title: Words
    columns: Raw = None
    direction: Annotated[Direction, OneOf("down", "across")] = "down"
    records: Annotated[int | str, RecordsLeaf()] = 1
    blank_unless: tuple[Text, ...] = ()
    slots: dict[str, Annotated[WordsKeys, BeforeValidator(_both)]] = Field(default_factory=dict)
    rows: tuple[dict[str, Annotated[str | float, CellLeaf()]], ...] = ()
    note: Words = ""
    filter: Flag = False
    plain: Flag = False
    vanish: Annotated[str | None, TextLeaf()] = None
    span: Some = 1
    page: Flag = False
    at: Annotated[tuple[int, int] | None, PositionLeaf()] = None


class TableKeys(TableFileKeys):
    """A table in the file of its sheet."""

    key: Key


class ChartKeys(_Keys):
    """A chart of a sheet."""

    table: Text
    over: Text
    lines: tuple[Text, ...]
    title: Text
    of: Words = ""
    right: tuple[Text, ...] = ()
    scale: tuple[Number, ...] | None = None


class SheetKeys(_Keys):
    """A sheet; in a folder, `tables` are the names of the files beside it."""

    name: Annotated[str, SheetNameLeaf()]
    purpose: Text
    tables: Raw = None
    orientation: Annotated[Orientation, OneOf("portrait", "landscape")] = "landscape"
    freeze: Flag = True
    widths: tuple[Width, ...] = ()
    printed: Annotated[int | None, NumberLeaf(1, 10_000, whole=True)] = None
    last_printed: Words = ""
    repeat: Some = 1
    charts: Raw = None
    bare: Flag = False
    gap: Whole = 2
    notes_column: Annotated[int | None, NumberLeaf(0, 10_000, whole=True)] = None
    size: Annotated[int, NumberLeaf(1, 400, whole=True)] = 10
