"""The keys of the files of templates: which there are, and what each takes.

What they are for stands with the fields of the same names in `wbgen.sheets.template` and `wbgen.sheets.column`. Tables
and columns are read one by one (`wbgen.sheets.read`), so that a mistake in one of them hides none in another.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, ConfigDict, Field, SkipValidation

from wbgen.files.yaml.fields import Flag, NumberLeaf, OneOf, Text, TextLeaf
from wbgen.files.yaml.nodes import Entry, Mapping, Scalar
from wbgen.files.yaml.records import PlacedMapping, Record
from wbgen.sheets.column import STYLES, Kind
from wbgen.sheets.leaves import (
    LONGEST_FORMULA,
    CellLeaf,
    ChoicesLeaf,
    DefaultLeaf,
    FigureLeaf,
    KeyLeaf,
    PositionLeaf,
    RecordsLeaf,
    SheetNameLeaf,
    UnitLeaf,
)
from wbgen.sheets.template import PARTS, Direction, Orientation, Part
from wbgen.trade.families import family_names


def _both(data: object) -> object:
    """One value for both systems is written once."""
    if not isinstance(data, Scalar):
        return data
    return PlacedMapping(Mapping(data.place, tuple(Entry(system, data.place, data) for system in ("metric", "us"))))


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
    example: Annotated[WordsKeys, BeforeValidator(_both)] | None = None
    choices: Annotated[tuple[str, ...] | str, ChoicesLeaf()] = ()
    minimum: Annotated[float | None, FigureLeaf(-1e9)] = None
    maximum: Annotated[float | None, FigureLeaf(-1e9)] = None
    digits: Annotated[DigitsKeys, BeforeValidator(_both)] | None = None
    show: Annotated[
        Literal["plain", "share", "date", "weekday", "in_week", "day", "moment", "each"],
        OneOf("plain", "share", "date", "weekday", "in_week", "day", "moment", "each"),
    ] = "plain"
    """`each`: as the family's member says, and with its digits."""
    style: Annotated[str | None, OneOf(*STYLES)] = None
    wrap: Flag = False
    note: Words = ""
    group: Annotated[str | None, TextLeaf()] = None
    outline: Annotated[str | None, TextLeaf()] = None
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
    joined: Flag = False
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
    along: tuple[Text, ...] = ()
    bars: tuple[Text, ...] = ()
    at: Annotated[tuple[int, int] | None, PositionLeaf()] = None
    size: tuple[Some, ...] = (520, 330)
    of: Words = ""
    right: tuple[Text, ...] = ()
    scale: tuple[Number, ...] | None = None


class SheetKeys(_Keys):
    """A sheet; in a folder, `tables` are the names of the files beside it."""

    name: Annotated[str, SheetNameLeaf()]
    purpose: Text
    tables: Raw = None
    part: Annotated[Part, OneOf(*PARTS)] = "behind"
    links: tuple[Text, ...] = ()
    orientation: Annotated[Orientation, OneOf("portrait", "landscape")] = "landscape"
    freeze: Flag = True
    widths: tuple[Width, ...] = ()
    printed: Annotated[int | None, NumberLeaf(1, 10_000, whole=True)] = None
    last_printed: Words = ""
    repeat: Some = 1
    charts: Raw = None
    bare: Flag = False
    paper: Flag = False
    headless: Flag = False
    gap: Whole = 2
    notes_column: Annotated[int | None, NumberLeaf(0, 10_000, whole=True)] = None
    size: Annotated[int, NumberLeaf(1, 400, whole=True)] = 10
