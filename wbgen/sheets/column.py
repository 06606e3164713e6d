"""A column of a table: what its figures are, what an input takes, how a figure looks, and where it stands.

The files have the same words as flat keys: see `wbgen.sheets.records`. Everything knows where it is written.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from wbgen.files.diagnostics import Place

Role = Literal["input", "formula", "constant"]
Kind = Literal["number", "text", "date"]
System = Literal["metric", "us"]
Show = Literal["plain", "share", "date", "weekday", "in_week", "day", "moment"]

STYLES: Final = ("strong", "key", "fading", "verdict", "link", "sample", "shrink", "top", "upright", "bar", "beyond")
"""The looks that a column may have besides that of its role."""
BARS: Final = ("bar", "beyond")
"""Those that draw a share from 0 to 1 as a bar instead of its number: up to a caution, and beyond it."""


@dataclass(frozen=True)
class Written:
    """Where something is written in a template: its own place, and that of each of its values by key."""

    place: Place = field(default_factory=lambda: Place(""))
    values: Mapping[str, Place] = field(default_factory=dict)

    def of(self, key: str) -> Place:
        """Where the value of a key stands; where the whole begins if the key is not given."""
        return self.values.get(key, self.place)


@dataclass(frozen=True)
class Unit:
    """A text in each system, most often a unit. A table of both keeps a template in one piece."""

    metric: str
    us: str


@dataclass(frozen=True)
class Digits:
    """Decimals shown in each system."""

    metric: int
    us: int


Default = str | float | int | None


@dataclass(frozen=True)
class Defaults:
    """What a new planner has in an input, in each system: a number, or a text (a quantity with its unit)."""

    metric: Default = None
    us: Default = None


@dataclass(frozen=True)
class Meaning:
    """What the figures of a column are, and where they come from."""

    type: Kind = "number"
    """Whether they are numbers, texts or dates."""
    unit: Unit | None = None
    """The unit of every quantity; a number without one is a count or an index."""
    formula: str | None = None
    """How each is worked out, as it is written; None for an input or a constant."""
    literals: tuple[float, ...] = ()
    """Numbers that the trade's own equation has, such as the 3 of Simpson's rule."""
    blank_unless: tuple[str, ...] | None = None
    """The columns without which this one stays empty, besides those of its table; an empty list lifts these too."""
    constant: bool = False
    """True where a build fills it in and nobody types."""
    running: bool = False
    """True for a constant that counts the records: 1, 2, 3."""


@dataclass(frozen=True)
class Accepts:
    """What an input takes."""

    default: Defaults = Defaults()
    """What a new planner has here."""
    example: Unit | None = None
    """What may be typed here, as a person would, in each system."""
    choices: tuple[str, ...] | str = ()
    """The words to choose from, or the column (`table.key`) that has them."""
    minimum: float | None = None
    """The least that may be typed."""
    maximum: float | None = None
    """The most that may be typed."""

    def default_in(self, system: System) -> Default:
        """What a new planner has here in one system of units; None for nothing."""
        return self.default.metric if system == "metric" else self.default.us


@dataclass(frozen=True)
class Look:
    """How a figure looks in its cell."""

    digits: Digits | int | None = None
    """The decimals shown."""
    show: Show = "plain"
    """As a number, a share in per cent, a date, one with its weekday, a day of the year, or a moment: a day and its
    hour."""
    style: str | None = None
    """One of `STYLES`; None for that of the column's role alone."""
    wrap: bool = False
    """True where a long text takes several lines."""

    def digits_in(self, system: System) -> int | None:
        """The decimals shown in one system; None where there is no saying."""
        if isinstance(self.digits, Digits):
            return self.digits.metric if system == "metric" else self.digits.us
        return self.digits


@dataclass(frozen=True)
class Page:
    """Where a column stands on its sheet, and the words round it."""

    note: str = ""
    """What a person should know of the column."""
    group: str | None = None
    """The heading of a group that begins with this column."""
    outline: str | None = None
    """The name of a group of columns that begins with this one and is folded away, right of what is read each day. It
    goes on to the next one's beginning or to the table's end, and a stub beside it says its name."""
    slot: str | None = None
    """The slot of a form with several cells a line."""
    width: float | None = None
    """Of the sheet's column, in characters."""
    wide: int = 1
    """Cells that a form's figure takes, or one of a column with several lines; more than one for a sentence."""
    skip: int = 0
    """Sheet columns left empty before this one."""
    lines: int = 1
    """Lines of text that a record must have room for."""
    begins: bool = False
    """True where a printed page of a wide table begins (the key `page`)."""


@dataclass(frozen=True)
class Column:
    """One column of a table (one line, where the table lies on its side)."""

    key: str
    heading: str
    meaning: Meaning = Meaning()
    accepts: Accepts = Accepts()
    look: Look = Look()
    page: Page = Page()
    written: Written = field(default_factory=Written, compare=False, repr=False)

    @property
    def role(self) -> Role:
        return "formula" if self.meaning.formula is not None else "constant" if self.meaning.constant else "input"


def is_bar(column: Column) -> bool:
    """Whether a column's shares are drawn as bars."""
    return column.look.style in BARS
